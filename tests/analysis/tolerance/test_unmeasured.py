"""Tests of `unmeasured`: a source is named if its figures move the answer."""

from __future__ import annotations

import math
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.analysis.tolerance.figures import held_figures
from barwright.analysis.tolerance.unmeasured import UNSOURCED
from each_case import each_case
from measured_setups import INVENTION, estimates_of, with_estimated, with_invented
from sample_packs import discovered_once
from sample_records import make_bar, make_setup

REGISTRY = discovered_once()
SETUP = REGISTRY.setup("fells:chassis/short", corner="front left")


def test_an_invented_corner_says_so() -> None:
    assert bw.rests_on(SETUP) == (
        bw.answers.UnmeasuredSource(kind="invented", source="fells:drawing-board"),
    )


def with_source(setup: bw.Setup, kind: bw.parts.SourceKind, source: str) -> bw.Setup:
    """The corner with a source for every figure of its bar."""
    known = {
        name: bw.parts.Figure(
            value=figure.value,
            tolerance=figure.value * 0.01,
            source=source,
            source_kind=kind,
            key=name,
        )
        for name, figure in setup.bar.about.items()
    }
    return setup.with_parts(bar=setup.bar.described(known))


@pytest.mark.parametrize(
    ("kind", "is_said"),
    [
        (bw.parts.SourceKind.RECALLED, True),
        (bw.parts.SourceKind.ESTIMATED, True),
        (bw.parts.SourceKind.INVENTED, True),
        (bw.parts.SourceKind.PUBLISHED, False),
        (bw.parts.SourceKind.MEASURED, False),
        (bw.parts.SourceKind.MAKER, False),
    ],
)
def test_what_is_measured_or_published_is_not_said(
    kind: bw.parts.SourceKind, *, is_said: bool
) -> None:
    found = bw.rests_on(with_source(SETUP, kind, "a:b"))

    assert ((kind.value, "a:b") in {(one.kind, one.source) for one in found}) is is_said


def test_a_figure_of_a_part_without_a_source_is_named() -> None:
    setup = make_setup()

    found = bw.rests_on(setup)

    assert {one.kind for one in found} == {UNSOURCED}
    names = [one.source for one in found]
    assert {"bar.diameter", "axle.droop_stop"} <= set(names)
    # What counts if it is left out, and what a job says, is nobody's claim.
    assert not {"bar.blank_angle", "nut_turns", "load.mass"} & set(names)


def test_kinds_stand_in_their_order() -> None:
    recalled = with_source(SETUP, bw.parts.SourceKind.RECALLED, "a:b")
    setup = recalled.with_parts(damper=attrs.evolve(SETUP.damper, open_length="675 mm"))

    assert bw.rests_on(setup) == (
        bw.answers.UnmeasuredSource(kind="invented", source="fells:drawing-board"),
        bw.answers.UnmeasuredSource(kind="recalled", source="a:b"),
        bw.answers.UnmeasuredSource(kind="unsourced", source="damper.open_length"),
    )


def test_what_other_corners_have_does_not_count() -> None:
    """A bar that is not on this corner says nothing of its answer."""
    bar = with_source(SETUP, bw.parts.SourceKind.RECALLED, "a:b").bar
    parts = attrs.evolve(SETUP.axle.left, bar=bar)
    axle = attrs.evolve(SETUP.axle, left=parts, right=parts)
    chassis = attrs.evolve(SETUP.chassis, axles=(axle,))
    other = make_bar(id="t:bar/other", diameter="24 mm")
    setup = attrs.evolve(SETUP, chassis=chassis, axle=axle, bar=other)

    assert "recalled" not in {one.kind for one in bw.rests_on(setup)}


# -- Which of them move the answer ---------------------------------------------------

INVENTED = (bw.answers.UnmeasuredSource(kind="invented", source=INVENTION),)
OWN = [one.path for one in held_figures(SETUP) if one.known and not one.path.startswith("chassis")]


def value_at(setup: bw.Setup, path: str) -> Any:
    """What stands at a place in a setup."""
    found: Any = setup
    for name in path.split("."):
        found = getattr(found, name)
    return found


@each_case("path", [path for path in OWN if not path.startswith("axle.left")])
def test_a_figure_that_is_the_answer_moves_it_and_no_other_does(path: str) -> None:
    setup = with_invented(SETUP, path)
    others = [one for one in OWN if value_at(SETUP, one) is not value_at(SETUP, path)]

    assert bw.rests_on(setup) == INVENTED
    assert bw.rests_on(setup, questions=[lambda corner: value_at(corner, path)]) == INVENTED
    answers = [lambda corner, one=one: value_at(corner, one) for one in (others[0], others[-1])]
    assert bw.rests_on(setup, questions=answers) == ()


def test_the_answer_for_the_setups_as_they_are_is_asked_for_once() -> None:
    asked: list[bw.Setup] = []

    def question(corner: bw.Setup) -> int:
        asked.append(corner)
        return 1

    assert bw.rests_on(with_invented(SETUP, "bar.length"), questions=[question]) == ()
    assert sum(corner.bar.length == SETUP.bar.length for corner in asked) == 1
    assert len(asked) > 2


def test_what_decides_far_away_only_is_found() -> None:
    """A stop that another one hides: a small step of it moves nothing."""

    def held_at(corner: bw.Setup) -> float:
        return max(float(corner.axle.droop_stop.m_as("deg")), -10.0)

    setup = with_invented(SETUP, "axle.droop_stop", "axle.bump_stop")
    assert held_at(setup) == -10.0
    assert bw.rests_on(setup, questions=[held_at]) == INVENTED


def test_figures_that_cannot_be_moved_together_are_moved_alone() -> None:
    """A bar of other lengths, where its ends no longer fit into it, cannot be asked."""
    paths = ("bar.arm_end.length", "bar.anchor_end.length", "bar.length", "axle.tyre_rate")
    setup = with_invented(SETUP, *paths)

    assert bw.rests_on(setup, questions=[lambda corner: corner.axle.tyre_rate]) == INVENTED
    assert bw.rests_on(setup, questions=[lambda corner: corner.axle.tyre_radius]) == ()


def test_a_figure_that_cannot_be_moved_at_all_counts() -> None:
    """Nobody can tell what it does."""

    def question(corner: bw.Setup) -> int:
        if corner.bar.length != SETUP.bar.length:
            raise bw.GeometryError("G103", value="x", expected="y", remedy="z")
        return 1

    assert bw.rests_on(with_invented(SETUP, "bar.length"), questions=[question]) == INVENTED


@pytest.mark.parametrize(
    "answer",
    [
        lambda length: length,
        lambda length: float(length.m_as("mm")),
        lambda length: (length, "and more"),
        lambda length: {"length": length},
        lambda length: "long" if length.m_as("mm") > 900.0 else "short",
        lambda length: (1,) * (2 if length.m_as("mm") > 900.0 else 1),
        lambda length: bw.Wanted(height=length),
        lambda length: [length.m_as("mm")],
        lambda length: float(length.m_as("mm")) if length.m_as("mm") < 905.0 else None,
    ],
)
def test_whatever_an_answer_is_made_of_is_looked_at(answer: Any) -> None:
    setup = with_invented(SETUP, "bar.length", "axle.tyre_rate")

    assert bw.rests_on(setup, questions=[lambda corner: answer(corner.bar.length)]) == INVENTED
    assert bw.rests_on(setup, questions=[lambda corner: answer(corner.bar.diameter)]) == ()


def test_figures_of_a_second_setup_count_and_one_of_both_is_moved_in_both() -> None:
    stiff = with_invented(SETUP, "bar.diameter")
    plain = with_invented(SETUP)

    def difference(one: bw.Setup, two: bw.Setup) -> bw.Quantity:
        found: bw.Quantity = one.bar.diameter - two.bar.diameter
        return found

    def second(_: bw.Setup, two: bw.Setup) -> bw.Quantity:
        return two.bar.diameter

    assert bw.rests_on(plain, plain, questions=[second]) == ()
    assert bw.rests_on(stiff, stiff, questions=[second]) == INVENTED
    assert bw.rests_on(stiff, stiff, questions=[difference]) == ()


def test_what_is_recalled_or_has_no_source_counts_whatever_it_moves() -> None:
    setup = with_source(SETUP, bw.parts.SourceKind.RECALLED, "a:b")
    setup = setup.with_parts(damper=attrs.evolve(SETUP.damper, open_length="675 mm"))

    assert [one.kind for one in bw.rests_on(setup, questions=[lambda _: 1])] == [
        "recalled",
        UNSOURCED,
    ]


def test_a_change_that_is_rounding_is_none() -> None:
    """A root that is squared again has other last digits at other lengths."""

    def as_good_as_none(corner: bw.Setup) -> float:
        length = float(corner.bar.length.m_as("mm"))
        return math.sqrt(length) ** 2 / length

    setup = with_invented(SETUP, "bar.length")
    lengths = [f"{904.0 + place} mm" for place in range(9)]
    others = [SETUP.with_parts(bar=attrs.evolve(SETUP.bar, length=one)) for one in lengths]
    assert len(set(map(as_good_as_none, others))) > 1
    assert bw.rests_on(setup, questions=[as_good_as_none]) == ()


# -- Estimates -----------------------------------------------------------------------

TYRE = "axle.tyre_rate"


def test_estimates_stand_behind_inventions_and_before_what_is_recalled() -> None:
    setup = with_source(SETUP, bw.parts.SourceKind.RECALLED, "a:b")
    tyre = bw.parts.Figure(
        value=SETUP.axle.tyre_rate,
        tolerance=SETUP.axle.tyre_rate * 0.1,
        source="a:a",
        source_kind=bw.parts.SourceKind.ESTIMATED,
    )
    axle = setup.axle.described({"tyre_rate": tyre})

    found = bw.rests_on(attrs.evolve(setup, axle=axle))
    assert [one.kind for one in found] == ["invented", "estimated", "recalled"]


def test_an_estimate_counts_if_it_moves_the_answer() -> None:
    setup = with_estimated(SETUP, {TYRE: "40 N/mm", "axle.droop_stop": "1 deg"})

    assert estimates_of(bw.rests_on(setup)) == [TYRE, "axle.droop_stop"]
    assert estimates_of(bw.rests_on(setup, questions=[lambda c: c.axle.tyre_rate])) == [TYRE]
    assert bw.rests_on(setup, questions=[lambda corner: corner.bar.length]) == ()


def test_an_estimate_is_told_with_its_range() -> None:
    (source,) = bw.rests_on(with_estimated(SETUP, {TYRE: "40 N/mm"}))
    (figure,) = source.figures

    assert figure.value == SETUP.axle.tyre_rate
    assert figure.tolerance.m_as("N/mm") == 40.0


def test_no_other_source_tells_its_figures() -> None:
    setup = with_source(with_invented(SETUP, TYRE), bw.parts.SourceKind.RECALLED, "a:b")

    assert [one.figures for one in bw.rests_on(setup)] == [(), ()]


@pytest.mark.parametrize(("range_of", "is_said"), [("3 deg", True), ("1 deg", False)])
def test_an_estimate_is_moved_within_its_range_only(range_of: str, *, is_said: bool) -> None:
    """A stop that another one hides: it counts only if its range reaches that one."""

    def held_at(corner: bw.Setup) -> float:
        return max(float(corner.axle.droop_stop.m_as("deg")), hidden_by)

    hidden_by = float(SETUP.axle.droop_stop.m_as("deg")) + 2.0
    setup = with_estimated(SETUP, {"axle.droop_stop": range_of})

    assert estimates_of(bw.rests_on(setup, questions=[held_at])) == ["axle.droop_stop"] * is_said
