"""Tests of `calibrate`: what readings tell, and what keeps them from telling more."""

from __future__ import annotations

from typing import Any

import attrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.corner.corner import Corner
from draws import draws
from gaps import without
from read_corners import LOADS, read, stands, true_corner
from sample_records import known, make_bar, make_setup, tube_of

FIGURES = make_setup()
TRUE = true_corner()
VERDICT = bw.Verdict


def degrees(value: Any) -> float:
    return float(known(value).m_as("deg"))


def rate_of(value: Any) -> float:
    return float(known(value).m_as("N*m/deg"))


def texts(answer: bw.answers.CalibratedCorner) -> str:
    return " / ".join(finding.line for finding in answer.findings)


# -- What is found -----------------------------------------------------------------------


@settings(max_examples=draws(12))
@given(rate=st.floats(42.0, 54.0), blank=st.floats(-1.5, 1.5))
def test_exact_readings_give_the_spring_that_was_there(rate: float, blank: float) -> None:
    true = true_corner(rate=f"{rate!r} N*m/deg", blank=f"{blank!r} deg")
    answer = bw.calibrate(FIGURES, read(FIGURES, true))
    there = Corner(true)

    assert answer.verdict is VERDICT.CALIBRATED
    assert f"is {rate_of(answer.system_rate):.2f} N·m/deg ± " in answer.headline
    assert rate_of(answer.bar_rate) == pytest.approx(rate, rel=1e-6)
    assert rate_of(answer.system_rate) == pytest.approx(
        known(there.torsional_rates).system * 3.141592653589793 / 180.0, rel=1e-6
    )
    assert known(answer.free_angle).m_as("rad") == pytest.approx(there.free_angle, abs=1e-6)
    assert all(abs(known(one.residual_height).m_as("mm")) < 1e-3 for one in answer.readings)


def test_it_is_found_by_arm_angles_and_by_scale_readings_too() -> None:
    unsprung = FIGURES.axle.unsprung_mass.m_as("kg")
    by_height = bw.calibrate(FIGURES, read(FIGURES, TRUE))
    readings = [
        bw.parts.measured(
            FIGURES,
            arm_angle=f"{one.arm_angle.m_as('deg')!r} deg ± 0.3 deg",
            scale_reading=f"{one.sprung_mass.m_as('kg') + unsprung!r} kg ± 1 kg",
        )
        for one in by_height.readings
    ]
    by_angle = bw.calibrate(FIGURES, readings)
    assert rate_of(by_angle.system_rate) == pytest.approx(rate_of(by_height.system_rate), rel=1e-6)
    assert known(by_angle.system_rate_uncertainty) != by_height.system_rate_uncertainty


def test_the_readings_of_the_setup_are_taken_and_the_nut_is_the_setups() -> None:
    readings = read(FIGURES, TRUE, pins=("160 mm", "158 mm", "162 mm", "160 mm"))
    now = attrs.evolve(FIGURES, pin_distance="158 mm")
    given_apart = bw.calibrate(now, readings)
    assert bw.calibrate(now.with_readings(readings)) == given_apart
    there = Corner(attrs.evolve(TRUE, pin_distance="158 mm"))
    assert known(given_apart.free_angle).m_as("rad") == pytest.approx(there.free_angle, abs=1e-6)
    turns = [one.nut_turns.m_as("turn") for one in given_apart.readings]
    assert turns[0] == turns[3] != turns[1]


def test_a_nut_is_read_by_its_turns_too() -> None:
    by_turns = [
        bw.parts.measured(
            FIGURES,
            height=f"{stands(TRUE, load)!r} mm ± 2 mm",
            sprung_mass=f"{load!r} kg ± 1 kg",
            nut_turns=f"0 turn{known_to}",
        )
        for load, known_to in zip(LOADS, (" ± 0.1 turn",) * 3 + ("",), strict=True)
    ]
    plain, turned = (bw.calibrate(FIGURES, one) for one in (read(FIGURES, TRUE), by_turns))
    assert rate_of(turned.system_rate) == pytest.approx(rate_of(plain.system_rate), rel=1e-6)
    assert "usually: nut_turns ± 0.1 turn (common" in texts(turned)
    assert turned.degrees_of_freedom == 2


@pytest.mark.parametrize("maker", [on_key_lever, on_fixed])
def test_other_anchors_have_a_spring_too(maker: Any) -> None:
    figures = maker()
    true = figures.with_parts(bar=attrs.evolve(figures.bar, measured_rate="47 N*m/deg"))
    answer = bw.calibrate(figures, read(figures, true))
    assert rate_of(answer.bar_rate) == pytest.approx(47.0, rel=1e-6)
    assert answer.bar_rate == answer.system_rate


# -- How sure it is ----------------------------------------------------------------------


def test_with_every_uncertainty_stated_the_interval_comes_from_these() -> None:
    answer = bw.calibrate(FIGURES, read(FIGURES, TRUE, off=(1.0, -1.0, 1.0, -1.0)))
    assert answer.degrees_of_freedom is None
    assert answer.coverage_factor == pytest.approx(1.959964, abs=1e-6)
    error, half = known(answer.system_rate_standard_error), known(answer.system_rate_uncertainty)
    assert half.m_as("N*m/deg") == pytest.approx(1.96 * error.m_as("N*m/deg"), rel=0.03)
    assert answer.findings == ()
    assert answer.outcome is bw.Outcome.FINE


def test_with_one_missing_it_comes_from_the_scatter_by_students_t() -> None:
    readings = read(FIGURES, TRUE, off=(1.0, -1.0, 1.0, -1.0), mass="")
    answer = bw.calibrate(FIGURES, readings)
    assert answer.degrees_of_freedom == 2
    assert answer.coverage_factor == pytest.approx(4.302653, abs=1e-6)
    assert "usually: load ± 3 kg (common practice, no source)" in texts(answer)
    assert answer.outcome is bw.Outcome.FINE_WITH_CHANGES
    three = bw.calibrate(FIGURES, readings[:2] + readings[3:])
    assert three.coverage_factor == pytest.approx(12.7062, abs=1e-4)
    assert three.degrees_of_freedom == 1


def test_the_figures_of_the_suspension_widen_it() -> None:
    arm = FIGURES.arm
    radius = bw.parts.Figure(value=arm.radius, tolerance=bw.Quantity("20 mm"))
    unsure = FIGURES.with_parts(arm=arm.described({"radius": radius}))
    sure, wide = (bw.calibrate(one, read(one, true_corner())) for one in (FIGURES, unsure))
    assert rate_of(wide.system_rate_uncertainty) > 1.1 * rate_of(sure.system_rate_uncertainty)
    assert rate_of(wide.system_rate) == pytest.approx(rate_of(sure.system_rate), rel=1e-9)


# -- What keeps readings from telling more ------------------------------------------------


def test_turns_of_the_nut_at_one_load_give_the_free_angle_alone() -> None:
    pins = ("156 mm", "160 mm", "164 mm", "161 mm")
    readings = read(FIGURES, FIGURES, loads=[300.0] * 4, pins=pins)
    answer = bw.calibrate(attrs.evolve(FIGURES, pin_distance="160 mm"), readings)
    assert answer.verdict is VERDICT.FREE_ANGLE_ALONE
    assert answer.system_rate is None
    there = Corner(attrs.evolve(FIGURES, pin_distance="160 mm"))
    assert known(answer.free_angle).m_as("rad") == pytest.approx(there.free_angle, abs=1e-6)
    assert "Measure again with known ballast" in texts(answer)
    assert "Weigh the corner again after each turn" in texts(answer)
    assert "the rate is not told" in answer.headline


def test_a_corner_that_was_weighed_after_each_turn_is_not_asked_to_be() -> None:
    readings = read(FIGURES, TRUE, pins=("156 mm", "160 mm", "164 mm", "161 mm"))
    assert bw.calibrate(FIGURES, readings).findings == ()


def test_one_or_two_readings_give_the_free_angle_alone() -> None:
    readings = read(FIGURES, FIGURES)
    for count in (1, 2):
        answer = bw.calibrate(FIGURES, readings[:count])
        assert answer.verdict is VERDICT.FREE_ANGLE_ALONE
        assert known(answer.free_angle).m_as("rad") == pytest.approx(
            Corner(FIGURES).free_angle, abs=1e-6
        )
        assert f"found {count}, limit 3" in texts(answer)
        # Half of what was asked is no full answer.
        assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    one = FIGURES.with_reading(height=f"{stands(FIGURES, 291.5)!r} mm")
    alone = bw.calibrate(one)
    assert (alone.free_angle_uncertainty, alone.coverage_factor) == (None, None)
    pair = bw.calibrate(FIGURES, read(FIGURES, FIGURES, height="", mass="")[:2])
    assert pair.degrees_of_freedom == 1


def test_no_reading_asks_for_some() -> None:
    answer = bw.calibrate(FIGURES)
    assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    assert "othing was measured" in answer.headline
    assert answer.readings == ()


def test_pounds_for_kilograms_are_suggested() -> None:
    pounds = [f"{load * 2.2046:.0f} kg ± 1 kg" for load in LOADS]
    readings = [
        bw.parts.measured(FIGURES, height=f"{stands(TRUE, load)!r} mm ± 2 mm", sprung_mass=pound)
        for load, pound in zip(LOADS, pounds, strict=True)
    ]
    answer = bw.calibrate(FIGURES, readings)
    assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    assert "eading 1: the sprung mass" in answer.headline
    assert "pounds written as kilograms (573 lb)" in answer.headline
    assert "times that of the figures" in texts(answer)
    assert answer.system_rate is None


def test_one_load_in_pounds_comes_before_what_follows_from_it() -> None:
    readings = read(FIGURES, TRUE)
    stood = f"{stands(TRUE, LOADS[1])!r} mm ± 2 mm"
    slip = bw.parts.measured(FIGURES, height=stood, sprung_mass="639 kg ± 1 kg")
    answer = bw.calibrate(FIGURES, [readings[0], slip, *readings[2:]])
    assert answer.verdict in (VERDICT.CONTRADICTORY, VERDICT.NEEDS_FIGURES)
    assert "reading 2: the sprung mass is far from that" in answer.findings[0].text


def test_a_rate_far_from_its_figures_doubts_the_bar() -> None:
    true = true_corner(rate="75 N*m/deg")
    answer = bw.calibrate(FIGURES, read(FIGURES, true))
    assert answer.verdict is VERDICT.CALIBRATED
    assert "Check the bar that is on the vehicle" in texts(answer)


def test_a_whole_as_stiff_as_its_tube_leaves_no_bar() -> None:
    true = true_corner(rate="60 N*m/deg")
    anchor = attrs.evolve(tube_of(FIGURES), outside_diameter="80.05 mm", bore="79.97 mm")
    soft = FIGURES.with_parts(anchor=anchor)
    answer = bw.calibrate(soft, read(soft, true))
    assert answer.bar_rate is answer.bar_rate_uncertainty is None
    assert answer.system_rate is not None
    assert "times that of the figures" in texts(answer)


@pytest.mark.parametrize(
    ("reading", "words"),
    [
        ({"height": "900 mm"}, "got 900 mm, expected a height within the travel"),
        ({"arm_angle": "40 deg"}, "got 40°, expected an arm angle within the travel"),
        ({"arm_angle": "-40 deg"}, "got -40°, expected an arm angle within the travel"),
    ],
)
def test_a_reading_at_which_no_corner_stands_is_named(reading: Any, words: str) -> None:
    wrong = bw.parts.measured(FIGURES, **reading)
    answer = bw.calibrate(FIGURES, [*read(FIGURES, TRUE), wrong])
    assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    assert f"reading 5: {words}" in texts(answer)


def test_a_reading_at_which_the_gas_carries_all_is_named() -> None:
    gas = bw.parts.GasCharge(force="2000 N", at_length="590 mm", slope="0 N/mm")
    figures = make_setup(damper={"gas": gas})
    light = bw.parts.measured(figures, height="400 mm", sprung_mass="150 kg")
    answer = bw.calibrate(figures, [light])
    assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    assert "reading 1: the bar carries nothing there" in texts(answer)


def test_readings_that_contradict_each_other_are_refused() -> None:
    answer = bw.calibrate(FIGURES, read(FIGURES, TRUE, off=(0.0, 0.0, 14.0, 0.0)))
    assert answer.verdict is VERDICT.CONTRADICTORY
    assert answer.outcome is bw.Outcome.NO
    assert "reading 3 most of all" in answer.headline
    assert answer.further_findings == ()
    three = read(FIGURES, TRUE, loads=(260.0, 300.0, 340.0), off=(0.0, 12.0, 0.0))
    assert "most of all" not in bw.calibrate(FIGURES, three).headline
    at_one_load = read(
        FIGURES, FIGURES, loads=[300.0] * 3, off=(0.0, 12.0, 0.0), pins=["160 mm"] * 3
    )
    assert bw.calibrate(FIGURES, at_one_load).verdict is VERDICT.CONTRADICTORY


def test_an_arm_that_turns_less_under_more_load_is_refused() -> None:
    readings = read(FIGURES, TRUE, off=(-90.0, -20.0, 20.0, 90.0))
    answer = bw.calibrate(FIGURES, readings)
    assert answer.verdict is VERDICT.CONTRADICTORY
    assert "turns less where the load is greater" in answer.headline
    assert answer.readings[0].residual_height is None


def test_what_is_no_reading_of_this_spring_is_refused() -> None:
    other = make_setup(bar=make_bar(diameter="25 mm"))
    with pytest.raises(bw.SchemaError, match="with other parts or teeth") as caught:
        bw.calibrate(FIGURES, [bw.parts.measured(other, height="391 mm")])
    assert (caught.value.code, caught.value.key) == ("S207", "readings")
    turned = attrs.evolve(FIGURES, arm_tooth=1)
    with pytest.raises(bw.SchemaError, match="with other parts or teeth"):
        bw.calibrate(turned, read(FIGURES, TRUE))


def test_a_bar_that_does_not_fit_has_no_spring() -> None:
    long = make_setup(bar=make_bar(length="1200 mm"))
    answer = bw.calibrate(long, [bw.parts.measured(long, height="391 mm")])
    assert answer.verdict is VERDICT.DOES_NOT_FIT
    assert answer.expected_system_rate is None


# -- Figures that nobody knows -----------------------------------------------------------


@pytest.mark.parametrize(
    "path", ["arm.socket.key_angle", "anchor.socket.key_angle", "bar.blank_angle"]
)
def test_where_the_keys_are_need_not_be_known(path: str) -> None:
    figures = make_setup()
    unsure = without(figures, path)
    found, without_it = (bw.calibrate(one, read(one, TRUE)) for one in (figures, unsure))
    assert without_it.system_rate == found.system_rate
    assert known(without_it.free_angle).m_as("deg") == pytest.approx(degrees(found.free_angle))


@pytest.mark.parametrize("path", ["arm.radius", "bar.material.shear_modulus"])
def test_what_is_needed_is_named(path: str) -> None:
    unsure = without(make_setup(), path)
    answer = bw.calibrate(unsure, read(unsure, TRUE))
    assert answer.outcome is bw.Outcome.NEEDS_FIGURES
    assert path.rpartition(".")[2].replace("_", " ") in answer.headline
