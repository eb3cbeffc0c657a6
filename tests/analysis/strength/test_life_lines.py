"""Lines of lives as a caller gives them, and those that are estimated from a steel."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.analysis.strength.estimated_band import applied_band, is_estimated
from barwright.mechanics.strength import estimated_lives as kernels
from sample_records import make_bar, make_setup

LINE = bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=5, source="tests")
STEEL = bw.parts.Material(
    id="t:material/known",
    title="Steel whose tensile strength is known",
    shear_modulus="77 GPa",
    tensile_strength="1500 MPa",
)
BAR = make_bar(material=STEEL)


def estimated(bar: bw.parts.Bar, surface: bw.BarSurface, **known: Any) -> bw.WoehlerBand:
    band = applied_band(bar, bw.StrengthLimits(surface=surface, **known))
    assert band is not None
    return band


def megapascals(line: bw.WoehlerLine) -> float:
    return float(line.at_stress.m_as("MPa"))


def test_a_line_passes_through_its_point_and_falls_by_its_slope() -> None:
    assert LINE.life_at(400e6) == pytest.approx(1e6)
    assert LINE.life_at(200e6) == pytest.approx(32e6)


def test_an_endurance_limit_above_the_point_is_refused() -> None:
    with pytest.raises(bw.errors.SchemaError) as caught:
        attrs.evolve(LINE, endurance="500 MPa")
    assert (caught.value.code, caught.value.key) == ("S207", "endurance")


@pytest.mark.parametrize(
    "lowest",
    [{"at_stress": "401 MPa"}, {"at_life": 2e6}],
)
def test_lines_that_were_exchanged_are_refused(lowest: dict[str, Any]) -> None:
    with pytest.raises(bw.errors.SchemaError) as caught:
        bw.WoehlerBand(lowest=attrs.evolve(LINE, **lowest), highest=LINE)
    assert (caught.value.code, caught.value.key) == ("S207", "lowest")
    assert "exchanged" in str(caught.value)


def test_equal_lines_are_a_band() -> None:
    assert bw.WoehlerBand(lowest=LINE, highest=LINE).lowest == LINE


def test_a_line_and_a_band_are_not_given_together() -> None:
    band = bw.WoehlerBand(lowest=LINE, highest=LINE)
    with pytest.raises(bw.errors.SchemaError) as caught:
        bw.StrengthLimits(woehler_line=LINE, woehler_band=band)
    assert (caught.value.code, caught.value.key) == ("S207", "woehler_band")


def test_what_is_given_comes_before_an_estimate() -> None:
    ground, band = bw.BarSurface.GROUND, bw.WoehlerBand(lowest=LINE, highest=LINE)
    for known in ({"woehler_line": LINE}, {"woehler_band": band}):
        limits = bw.StrengthLimits(surface=ground, **known)
        assert applied_band(BAR, limits) == band
        assert not is_estimated(limits)
    assert is_estimated(bw.StrengthLimits(surface=ground))
    assert not is_estimated(bw.StrengthLimits())
    assert applied_band(BAR, bw.StrengthLimits()) is None


def test_without_a_tensile_strength_nothing_is_estimated_and_it_says_so() -> None:
    bar = make_bar(material=attrs.evolve(STEEL, tensile_strength=None))
    limits = bw.StrengthLimits(surface=bw.BarSurface.GROUND, ultimate_shear="900 MPa")
    assert applied_band(bar, limits) is None


def test_an_estimate_by_hand() -> None:
    # 1500 MPa: a specimen bears 700 MPa; ground, 1.58 · 1500^-0.085; size, (d/7.62)^-0.107.
    band = estimated(BAR, bw.BarSurface.GROUND)
    surface = 1.58 * 1500.0**-0.085
    size = (BAR.diameter.m_as("mm") / 7.62) ** -0.107
    middle = 700.0 * surface * size * 0.59
    assert megapascals(band.lowest) == pytest.approx(middle * (1.0 - 0.08 * 1.645), rel=1e-12)
    assert megapascals(band.highest) == pytest.approx(middle * (1.0 + 0.08 * 1.645), rel=1e-12)
    assert band.lowest.life_at(0.77 * 0.67 * 1500e6) == pytest.approx(1e3, rel=1e-9)
    assert band.highest.life_at(0.90 * 0.67 * 1500e6) == pytest.approx(1e3, rel=1e-9)
    assert (band.lowest.at_life, band.highest.at_life) == (1e6, 1e6)
    assert band.lowest.endurance is None
    assert band.highest.endurance == band.highest.at_stress
    assert band.lowest.source == (
        "estimated after Shigley, 8th ed., ch. 6 (from memory), ground, 95 % of bars outlive it"
    )
    assert band.highest.source.endswith("ground, 5 % of bars outlive it")


def test_an_ultimate_stress_that_is_known_is_taken_for_short_lives() -> None:
    band = estimated(BAR, bw.BarSurface.GROUND, ultimate_shear="1100 MPa")
    assert band.lowest.life_at(0.77 * 1100e6) == pytest.approx(1e3, rel=1e-9)


def test_every_stated_surface_is_one_of_the_estimate() -> None:
    stated = {surface.value for surface in bw.BarSurface} - {"any"}
    assert stated == {finish.value for finish in kernels.SurfaceFinish}
    lowest = [
        megapascals(estimated(BAR, bw.BarSurface(finish.value)).lowest)
        for finish in kernels.SurfaceFinish
    ]
    assert lowest == sorted(lowest, reverse=True)
    both = estimated(BAR, bw.BarSurface.ANY)
    assert megapascals(both.lowest) == lowest[-1]
    assert both.highest == estimated(BAR, bw.BarSurface.GROUND).highest


def test_a_bar_beyond_the_sizes_of_the_estimate_is_refused() -> None:
    with pytest.raises(bw.errors.QuantityError):
        estimated(attrs.evolve(BAR, diameter="255 mm"), bw.BarSurface.GROUND)


@pytest.mark.parametrize(
    ("known", "words"),
    [
        ({}, "give a history to find a life under"),
        ({"woehler_line": LINE}, "a line of lives is given"),
    ],
)
def test_a_surface_that_is_not_used_is_said_not_to_be(known: dict[str, Any], words: str) -> None:
    limits = bw.StrengthLimits(surface=bw.BarSurface.GROUND, **known)
    answer = bw.strength(make_setup(bar=BAR), limits=limits)
    assert any(f.text == f"the surface is not used: {words}" for f in answer.findings)


def test_a_surface_without_a_tensile_strength_is_said_not_to_be_used() -> None:
    bar = make_bar(material=attrs.evolve(STEEL, tensile_strength=None))
    limits = bw.StrengthLimits(surface=bw.BarSurface.GROUND)
    answer = bw.strength(make_setup(bar=bar), limits=limits, history=["0 mm", "40 mm"])
    words = "the surface is not used: the tensile strength of the steel is not known"
    assert words in {finding.text for finding in answer.findings}
    assert answer.life.band is None
