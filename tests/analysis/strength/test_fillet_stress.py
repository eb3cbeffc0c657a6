"""Fillets between body and heads: the stress in them, and the length that they count as."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.analysis.fit.active_length import active_length
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


def test_a_fillet_that_no_model_covers_says_whose_it_is() -> None:
    with pytest.raises(bw.QuantityError) as caught:
        bw.rates(setup_of(filleted("0.2 mm")))

    assert (caught.value.code, caught.value.key) == ("Q302", "t:bar/one.arm_end.fillet_radius")


@pytest.mark.parametrize(
    ("share", "preset", "reported"),
    [(0.99, False, True), (1.01, False, False), (0.99, True, False)],
)
def test_a_fillet_in_which_the_steel_yields_is_told_and_decides_nothing(
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
    assert answer.verdict is bw.Verdict.HOLDS
