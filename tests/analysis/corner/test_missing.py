"""Tests of `barwright.analysis.corner.missing`: answers without all figures say what they need."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.analysis.answer import Outcome, Verdict
from barwright.analysis.corner.missing import (
    figure_in_words,
    missing_findings,
    path_of,
    unknown_paths,
)
from barwright.analysis.finding import Topic
from barwright.parts.common.record import Record
from barwright.registry.measuring.catalogue import AskedFor, needed_paths
from barwright.units import is_quantity, is_unknown, unknown, unknown_count

QUESTIONS: dict[AskedFor, Callable[..., Any]] = {
    AskedFor.FIT: bw.length_fit,
    AskedFor.RATES: bw.rates,
    AskedFor.HEIGHT: bw.ride,
    AskedFor.STRENGTH: bw.strength,
    AskedFor.PLAN: bw.reindex,
    AskedFor.NUT: bw.nut_table,
}
CORNERS = {
    "van": ("fells:chassis/short", "front left"),
    "truck": ("hodmule:chassis/short", "front right"),
    "trailer": ("trundlet:chassis/open", "rear left"),
}
# Each figure of a corner in turn: the van's in every run, the others' where there is time.
EACH_CORNER = pytest.mark.parametrize(
    "corner",
    [
        pytest.param(corner, id=name, marks=[] if name == "van" else [pytest.mark.slow])
        for name, corner in CORNERS.items()
    ],
)


@pytest.fixture(scope="module")
def registry() -> bw.Registry:
    return bw.Registry.demo()


def figures(record: Any, path: str = "") -> Iterator[str]:
    """Paths of the figures and tooth counts of a setup, by a walk of its own."""
    for field in attrs.fields(type(record)):
        value = getattr(record, field.name)
        if field.name in ("about", "chassis", "left", "right", "reading"):
            continue
        if is_quantity(value) or field.name == "teeth":
            yield f"{path}{field.name}"
        elif isinstance(value, Record):
            yield from figures(value, f"{path}{field.name}.")


def without(record: Any, path: str) -> Any:
    """Make one figure of a record unknown."""
    step, _, rest = path.partition(".")
    gap = unknown_count() if step == "teeth" else unknown()
    return attrs.evolve(record, **{step: without(getattr(record, step), rest) if rest else gap})


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: str(question.value))
@EACH_CORNER
def test_each_question_answers_without_any_one_figure(
    registry: bw.Registry, corner: tuple[str, str], question: AskedFor
) -> None:
    setup, ask = registry.setup(corner[0], corner=corner[1]), QUESTIONS[question]
    if corner == CORNERS["truck"]:
        weighed = setup.load.mass + setup.axle.unsprung_mass
        setup = setup.with_load(kind=bw.parts.LoadKind.SCALE_READING, mass=weighed)
    whole, listed = ask(setup), needed_paths(setup, question)
    for path in figures(setup):
        answer = ask(without(setup, path))
        assert (answer.verdict is Verdict.NEEDS_FIGURES) == (path in listed), path
        needed = [one for one in answer.findings if one.topic is Topic.NEEDED]
        if answer.verdict is Verdict.NEEDS_FIGURES:
            assert answer.outcome is Outcome.NEEDS_FIGURES, path
            assert answer.headline == f"{needed[0].line[0].upper()}{needed[0].line[1:]}.", path
        else:
            assert answer.verdict is whole.verdict or needed or path in _LIMITS, path
        assert all(figure_in_words(setup, path) in one.line for one in needed), path


# A steel whose strength is not known is another answer, as ever.
_LIMITS = ("bar.material.proof_strength",)


def clocked(setup: bw.Setup) -> bw.answers.Reindex:
    """An answer with clockings, whatever else is known: there is no plan without the droop stop."""
    stay = bw.Wanted(same_height=True)
    return bw.reindex(without(setup, "axle.droop_stop"), wanted=stay)


@pytest.mark.rare
@EACH_CORNER
def test_a_clocking_at_the_same_height_is_given_without_any_figure_that_it_does_not_need(
    registry: bw.Registry, corner: tuple[str, str]
) -> None:
    setup = registry.setup(corner[0], corner=corner[1])
    listed = needed_paths(setup, AskedFor.CLOCKING)
    assert (setup.adjuster is None) == (listed == ())
    for path in figures(setup):
        answer = clocked(without(setup, path))
        assert answer.verdict is Verdict.NEEDS_FIGURES, path
        assert bool(answer.clockings) == (setup.adjuster is not None and path not in listed), path
        alone = [one.line for one in answer.findings if "of the nut alone" in one.line]
        assert [f": {figure_in_words(setup, path)}" in one for one in alone] == (
            [True] if path in listed else []
        ), path


def test_what_is_known_is_answered_part_by_part(registry: bw.Registry) -> None:
    setup = registry.setup("fells:chassis/short", corner="front left")
    whole = bw.rates(setup)
    found = bw.rates(without(setup, "axle.hub_up"))
    assert found.verdict is Verdict.NEEDS_FIGURES
    assert (found.bar_rate, found.system_rate) == (whole.bar_rate, whole.system_rate)
    with pytest.raises(bw.NoFigureError, match="needed for the rate at the wheel: hub up"):
        found.wheel_rate  # noqa: B018 - its absence is what is looked at
    fit = bw.length_fit(without(setup, "axle.space_behind"))
    assert (fit.verdict, fit.active_length) == (Verdict.NEEDS_FIGURES, whole.fit.active_length)
    assert is_unknown(bw.length_fit(without(setup, "bar.length")).position)


def test_a_rate_without_the_tyre_has_no_frequency_and_says_so(registry: bw.Registry) -> None:
    setup = registry.setup("hodmule:chassis/short", corner="front left")
    found = bw.rates(without(setup, "axle.tyre_rate"))
    assert found.verdict is Verdict.RATED
    assert found.figures is not None
    assert found.figures.ride_frequency is None
    assert [one.line for one in found.findings] == [
        (
            "left out because figures are missing: tyre rate; its usual range may be enough: "
            'assume = "usual"'
        )
    ]


def test_a_new_bar_is_not_planned_before_its_fit_is_known(registry: bw.Registry) -> None:
    setup = registry.setup("fells:chassis/short", corner="front left")
    gap = without(setup, "axle.space_behind")
    same = bw.reindex(gap)
    assert same.verdict is Verdict.REACHED
    assert "needed to say whether the bar fits: space behind" in [f.line for f in same.findings]
    other = gap.with_parts(bar=registry.bar("fells:bar/short-firm"))
    assert bw.reindex(other, present=gap).verdict is Verdict.NEEDS_FIGURES


def test_an_unknown_figure_is_found_where_it_stands(registry: bw.Registry) -> None:
    setup = without(
        registry.setup("hodmule:chassis/short", corner="front left"), "anchor.socket.key_angle"
    )
    assert unknown_paths(setup) == ("anchor.socket.key_angle",)
    assert path_of(setup, setup.anchor.socket.key_angle) == "anchor.socket.key_angle"
    assert path_of(setup, unknown()) == ""
    assert figure_in_words(setup, "anchor.socket.key_angle") == "key lever socket key angle"
    assert figure_in_words(setup, "axle.suspension.upright") == "suspension upright"
    assert figure_in_words(setup, "adjuster.mounting.end_radius") == "adjuster end radius"


@pytest.mark.parametrize(
    ("paths", "hint"),
    [
        (["bar.length"], ""),
        (["damper.closed_length"], "; its usual range may be enough: "),
        (
            ["arm.socket.required_engagement", "anchor.socket.required_engagement"],
            "; a usual range of each may be enough: ",
        ),
        (
            ["bar.length", "arm.socket.required_engagement", "damper.closed_length"],
            (
                "; for arm socket required engagement, damper closed length a usual range may be "
                "enough: "
            ),
        ),
        # It grows with the open length, which is not known either.
        (["damper.closed_length", "damper.open_length"], ""),
    ],
)
def test_a_need_says_where_a_usual_range_may_do(
    registry: bw.Registry, paths: list[str], hint: str
) -> None:
    setup: Any = registry.setup("fells:chassis/short", corner="front left")
    for path in paths:
        setup = without(setup, path)

    (found,) = missing_findings(setup, paths, "needed")
    names = ", ".join(figure_in_words(setup, path) for path in paths)
    assert found.text == f"needed: {names}{hint}" + ('assume = "usual"' if hint else "")


def _work(plan: bw.answers.Plan) -> list[tuple[object, ...]]:
    """What a plan does at each end."""
    return [(end.action, end.tooth, end.direction, end.on_key) for end in plan.ends]


def test_a_reading_stands_for_keys_and_blanks_that_nobody_can_measure(
    registry: bw.Registry,
) -> None:
    setup = registry.setup("hodmule:chassis/short", corner="front left")
    whole = bw.reindex(setup.with_reading(height="480 mm", tolerance="2 mm"))
    for path in ("arm.socket.key_angle", "anchor.socket.key_angle", "bar.blank_angle"):
        setup = without(setup, path)
    assert bw.reindex(setup).verdict is Verdict.NEEDS_FIGURES
    read = setup.with_reading(height="480 mm", tolerance="2 mm")
    assert not set(needed_paths(read, AskedFor.PLAN)) & set(unknown_paths(read))
    found = bw.reindex(read)
    assert found.verdict is Verdict.REACHED
    assert list(map(_work, found.plans)) == list(map(_work, whole.plans))
    for one, other in zip(found.plans, whole.plans, strict=True):
        assert one.pin_distance is not None
        assert other.pin_distance is not None
        assert one.pin_distance.m_as("mm") == pytest.approx(other.pin_distance.m_as("mm"))


def test_a_figure_of_the_parts_fitted_now_is_named_as_theirs(registry: bw.Registry) -> None:
    setup = registry.setup("fells:chassis/short", corner="front left")
    now = without(setup, "bar.material.shear_modulus")
    other = now.with_parts(bar=registry.bar("fells:bar/short-firm"))
    found = bw.reindex(other, present=now, wanted=bw.Wanted(same_height=True))
    assert found.verdict is Verdict.NEEDS_FIGURES
    said = "Needed for a plan, of the parts fitted now: bar material shear modulus"
    assert found.headline.startswith(said)


def test_a_bar_fits_its_sockets_without_a_word_of_the_suspension(registry: bw.Registry) -> None:
    setup = registry.setup("fells:chassis/short", corner="front left")
    found = bw.length_fit(without(without(setup, "arm.radius"), "damper.open_length"))
    assert found.verdict is Verdict.FITS
    (left_out,) = found.findings
    assert left_out.line == "left out of the fit for want of figures: arm radius"


def test_a_gas_force_that_does_not_change_may_have_been_read_at_any_length(
    registry: bw.Registry,
) -> None:
    setup = registry.setup("fells:chassis/short", corner="front left")
    assert setup.damper.gas is not None
    level = attrs.evolve(setup.damper.gas, slope="0 N/mm")
    even = setup.with_parts(damper=attrs.evolve(setup.damper, gas=level))
    gap = without(even, "damper.gas.at_length")
    assert bw.ride(gap).height == bw.ride(even).height
    assert "damper.gas.at_length" not in needed_paths(gap, AskedFor.HEIGHT)
    assert "damper.gas.at_length" in needed_paths(setup, AskedFor.HEIGHT)


def test_what_is_known_of_the_rates_is_printed(registry: bw.Registry) -> None:
    setup = registry.setup("fells:chassis/short", corner="front left")
    printed = bw.text(bw.rates(without(setup, "axle.hub_up")))
    assert "Rates without the vehicle" in printed
    assert "bar and tube in series" in printed
    nothing = bw.text(bw.rates(without(setup, "bar.diameter")))
    assert "Rates without the vehicle" not in nothing


def test_a_bar_set_by_an_unknown_twist_is_not_judged(registry: bw.Registry) -> None:
    setup = registry.setup("hodmule:chassis/short", corner="front left")
    twisted: Any = {"preset": True, "made_for": bw.parts.Side.LEFT, "preset_twist": unknown()}
    found = bw.strength(setup.with_parts(bar=attrs.evolve(setup.bar, **twisted)))
    assert found.verdict is Verdict.NEEDS_FIGURES
    assert found.headline == "Needed to judge the stresses: bar preset twist."
