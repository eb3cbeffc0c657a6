"""Fillets between body and heads: the stress in them, and the length that they count as."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.analysis.corner.bar.active_length import active_length
from outside.rows.fillets import concentration_by_pilkey
from sample_records import make_bar, make_end, make_setup

SIZES: dict[str, Any] = {"diameter": "25 mm", "length": "904 mm"}
# Of a fillet of 2.5 mm between 25 and 34 mm, by scikit-fem; see docs/validation.md.
FINITE_ELEMENTS = 3.363


def filleted(radius: str, **change: Any) -> bw.parts.Bar:
    """A bar of 25 mm with heads of 34 mm, a fillet at its arm end and a step at the other."""
    ends = {"root_diameter": "34 mm", "major_diameter": "36 mm", "taper": "0 mm"}
    arm = make_end(39, **ends, fillet_radius=radius)
    return make_bar(**(SIZES | {"arm_end": arm, "anchor_end": make_end(42, **ends)} | change))


def setup_of(bar: bw.parts.Bar) -> bw.Setup:
    """A corner with a bar between sockets that take it."""
    return make_setup(bar=bar)


def figures_of(bar: bw.parts.Bar, **asked: Any) -> bw.answers.StrengthFigures:
    figures = bw.strength(setup_of(bar), **asked).figures
    assert figures is not None
    return figures


def test_the_stress_in_a_fillet_is_that_of_the_published_chart() -> None:
    (fillet,) = figures_of(filleted("2.5 mm")).fillets
    published = concentration_by_pilkey(step=4.5, radius=2.5, head_diameter=34.0)

    assert fillet.end is bw.parts.BarEndName.ARM
    assert fillet.concentration == pytest.approx(published, rel=0.05)
    assert fillet.amplitude is None


def test_the_greatest_stress_of_the_travel_and_of_the_swing_are_raised_alike() -> None:
    figures = figures_of(filleted("2.5 mm"), travel="30 mm")
    assert figures.swing is not None
    (fillet,) = figures.fillets

    assert fillet.greatest / figures.bump.stress == pytest.approx(fillet.concentration)
    assert fillet.amplitude is not None
    assert fillet.amplitude / figures.swing.amplitude == pytest.approx(fillet.concentration)


def test_a_sharper_fillet_is_stressed_more_and_each_end_is_told() -> None:
    bar = filleted("2.5 mm")
    both = attrs.evolve(bar, anchor_end=attrs.evolve(bar.anchor_end, fillet_radius="1.0 mm"))
    arm, anchor = figures_of(both).fillets

    assert (arm.end, anchor.end) == (bw.parts.BarEndName.ARM, bw.parts.BarEndName.ANCHOR)
    assert 1.0 < arm.concentration < anchor.concentration


def test_a_bar_with_cones_has_no_fillets() -> None:
    assert figures_of(make_bar()).fillets == ()


def test_a_fillet_twists_as_finite_elements_say() -> None:
    """One of 2.5 mm between 25 and 34 mm: as 3.363 mm of the body, with its step."""
    filleted_, stepped = filleted("2.5 mm"), make_bar(**SIZES, arm_end=step(), anchor_end=step())

    gained = active_length(filleted_) - active_length(stepped)
    assert gained == pytest.approx((FINITE_ELEMENTS - 2.5) / 1e3, abs=0.01e-3)


def step() -> bw.parts.BarEnd:
    """A head without cone or fillet."""
    return make_end(39, root_diameter="34 mm", major_diameter="36 mm", taper="0 mm")


# What is changed of a bar of 23.3 mm with a fillet of 2.5 mm to its head of 28.125 mm, which of
# its sizes no model covers, and that size over the body's diameter.
UNCOVERED: dict[str, tuple[dict[str, str], str, float]] = {
    "too sharp": ({"radius": "0.2 mm"}, "radius", 0.2 / 23.3),
    "too gentle": ({"radius": "60 mm"}, "radius", 60.0 / 23.3),
    "hardly a step": ({"diameter": "27.9 mm"}, "root diameter", 28.125 / 27.9),
    "a head thinner than the body": ({"diameter": "28.5 mm"}, "root diameter", 28.125 / 28.5),
    "a wide bore": ({"bore": "14 mm"}, "bore", 14.0 / 23.3),
}


def rounded(radius: str = "2.5 mm", **change: Any) -> bw.parts.Bar:
    """A bar that fits, with a fillet at its arm end."""
    return make_bar(arm_end=make_end(39, taper="0 mm", fillet_radius=radius), **change)


@pytest.mark.parametrize("name", UNCOVERED)
def test_a_fillet_that_no_model_covers_is_told_with_the_rates_and_their_strength(
    name: str,
) -> None:
    change, size, share = UNCOVERED[name]
    setup = setup_of(rounded(**change))
    wanted = bw.Wanted()
    rated, held = bw.rates(setup), bw.strength(setup, limits=bw.StrengthLimits(shear_yield="2 GPa"))
    twist = f"no model covers a fillet of this {size}: the rates leave out its extra twist"
    stress = f"this fillet is not known: no model covers this {size}"

    for answer in (rated, bw.ride(setup), bw.reindex(setup, wanted=wanted), held):
        (found,) = [f for f in answer.findings if f.text.startswith(twist)]
        assert found.figure == f"{share:.6g} of the body's diameter"
        assert found.end is bw.parts.BarEndName.ARM
    (found,) = [f for f in held.findings if f.text.endswith(stress)]
    assert found in bw.reindex(setup, wanted=wanted).findings
    assert held.verdict is bw.Verdict.STRENGTH_NOT_KNOWN
    assert held.figures is not None
    assert held.figures.fillets == ()


@pytest.mark.parametrize("name", ["too sharp", "a head thinner than the body"])
def test_a_fillet_without_length_or_model_twists_as_a_step(name: str) -> None:
    change, _, _ = UNCOVERED[name]
    bar = rounded(**change)
    stepped = attrs.evolve(bar, arm_end=attrs.evolve(bar.arm_end, fillet_radius=None))

    assert active_length(bar) == pytest.approx(active_length(stepped), abs=0.1e-3)


def test_a_gentle_fillet_goes_on_twisting_as_one_that_a_model_covers() -> None:
    below, above = (active_length(rounded(radius)) for radius in ("46.59 mm", "46.61 mm"))

    assert abs(below - above) < 0.02 * 23.3e-3


def test_a_pre_set_bar_holds_without_a_model_of_its_fillets() -> None:
    bar = rounded("0.2 mm", preset=True, made_for=bw.parts.Side.LEFT)
    limits = bw.StrengthLimits(permissible_shear="2 GPa")

    assert bw.strength(setup_of(bar), limits=limits).verdict is bw.Verdict.HOLDS


@pytest.mark.parametrize(
    ("share", "preset", "reported"),
    [(0.99, False, True), (1.01, False, False), (0.99, True, False)],
)
def test_a_fillet_in_which_the_steel_yields_is_overstressed_unless_pre_set(
    share: float,
    preset: bool,  # noqa: FBT001 - a parameter of the test
    reported: bool,  # noqa: FBT001 - a parameter of the test
) -> None:
    end = make_end(39, taper="0 mm", fillet_radius="2.5 mm")
    bar = make_bar(arm_end=end, preset=preset, made_for=bw.parts.Side.LEFT)
    (fillet,) = figures_of(bar).fillets
    limits = bw.StrengthLimits(shear_yield=share * fillet.greatest)
    answer = bw.strength(setup_of(bar), limits=limits)
    found = [finding for finding in answer.findings if "fillet" in finding.text]

    assert [finding.end for finding in found] == [bw.parts.BarEndName.ARM] * reported
    assert (answer.verdict is bw.Verdict.OVERSTRESSED) is reported
    assert (answer.outcome is bw.Outcome.NO) is reported


def test_the_headline_of_an_overstressed_bar_is_no_note_of_its_rates() -> None:
    limits = bw.StrengthLimits(permissible_shear="100 MPa")
    answer = bw.strength(setup_of(rounded("0.2 mm")), limits=limits)

    assert answer.headline.startswith("Overstressed: the shear stress at ")
    assert any(f.text.startswith("no model covers a fillet") for f in answer.further_findings)
