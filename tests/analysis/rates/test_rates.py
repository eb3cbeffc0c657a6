"""Rates over the travel: figures that follow from others, and what the answer says."""

from __future__ import annotations

import math
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.analysis.corner.corner import Corner
from sample_records import known, make_bar, make_end, make_setup


def figures_of(setup: bw.Setup, **wanted: Any) -> bw.answers.RateFigures:
    answer = bw.rates(setup, wanted=bw.Wanted(**wanted) if wanted else None)
    assert answer.figures is not None
    return answer.figures


def test_bar_and_tube_are_springs_in_series() -> None:
    figures = figures_of(make_setup())
    bar, tube, system = (
        float(rate.m_as("newton * meter / radian"))
        for rate in (figures.bar_rate, known(figures.tube_rate), figures.system_rate)
    )
    assert 1 / system == pytest.approx(1 / bar + 1 / tube, rel=1e-12)


def test_the_shear_modulus_is_named_with_its_tolerance() -> None:
    registry = bw.Registry.discover()
    figures = figures_of(registry.setup("fells:chassis/middle", corner="front right"))
    assert str(figures.shear_modulus) == "80.0 gigapascal"
    assert str(figures.shear_modulus_tolerance) == "3.9 gigapascal"


def test_at_the_wanted_height_the_corner_carries_its_load() -> None:
    figures = figures_of(make_setup(mass="300 kg"), height="377 mm")
    assert figures.ride.height.m_as("mm") == pytest.approx(377.0, abs=1e-6)
    assert figures.ride.wheel_load.m_as("N") == pytest.approx(300 * 9.80665, rel=1e-12)


def test_an_arm_angle_can_be_wanted_instead_of_a_height() -> None:
    figures = figures_of(make_setup(), arm_angle="-3.5 deg")
    assert figures.ride.arm_angle.m_as("degree") == pytest.approx(-3.5)


def test_a_scale_reading_holds_the_unsprung_mass_too() -> None:
    sprung = make_setup(mass="291 kg")
    read = sprung.with_load(kind=bw.parts.LoadKind.SCALE_READING, mass="325.5 kg")
    assert figures_of(read).ride.wheel_load == figures_of(sprung).ride.wheel_load


def test_the_curve_runs_from_droop_to_bump_and_meets_the_states() -> None:
    figures = figures_of(make_setup(damper={"gas": GAS}))
    curve = figures.curve
    for index, state in ((0, figures.droop), (-1, figures.bump)):
        for name in ("arm_angle", "height", "torque", "wheel_load", "wheel_rate"):
            on_curve = float(getattr(curve, name).magnitude[index])
            assert on_curve == pytest.approx(float(getattr(state, name).magnitude), rel=1e-9)
    assert np.all(np.diff(curve.height.magnitude) < 0.0)
    assert not curve.height.magnitude.flags.writeable


def test_the_rate_is_the_slope_of_the_load_over_the_travel() -> None:
    curve = figures_of(make_setup(damper={"gas": GAS})).curve
    slope = np.gradient(curve.wheel_load.magnitude, -curve.height.magnitude)
    # Hub and load point move almost alike; the ends of a gradient are one-sided.
    assert np.allclose(slope[2:-2], curve.wheel_rate.magnitude[2:-2], rtol=0.08)


def test_gas_force_changes_rate_and_load() -> None:
    with_gas = figures_of(make_setup(damper={"gas": GAS}), height="404 mm")
    without = figures_of(make_setup(), height="404 mm")
    assert with_gas.ride.torque < without.ride.torque
    assert with_gas.ride.wheel_load.m_as("N") == pytest.approx(without.ride.wheel_load.m_as("N"))


def test_what_is_left_of_the_stroke_adds_up_to_the_damper() -> None:
    figures = figures_of(make_setup())
    for state in (figures.droop, figures.ride, figures.bump):
        left = state.stroke_to_closed + state.stroke_to_open
        assert left.m_as("mm") == pytest.approx(674 - 486)
    assert figures.droop.stroke_to_open.m_as("mm") == pytest.approx(0.0, abs=1e-9)
    assert figures.bump.stroke_to_closed.m_as("mm") == pytest.approx(0.0, abs=1e-9)


def test_a_bar_that_goes_slack_is_a_finding_and_carries_nothing() -> None:
    stiff = make_setup(bar=make_bar(diameter="28.2 mm"))
    answer = bw.rates(stiff, wanted=bw.Wanted(height="404 mm"))
    assert answer.figures is not None
    assert answer.figures.droop.twist.magnitude < 0.0
    assert answer.figures.droop.torque.magnitude == 0.0
    assert [f.topic for f in answer.findings] == [bw.answers.Topic.SLACK]


def test_a_height_out_of_the_travel_is_an_answer_with_the_range() -> None:
    answer = bw.rates(make_setup(), wanted=bw.Wanted(height="600 mm"))
    assert answer.verdict is bw.Verdict.OUT_OF_REACH
    assert answer.figures is None
    (finding,) = answer.findings
    assert finding.topic is bw.answers.Topic.TRAVEL
    ends = figures_of(make_setup())
    assert (finding.limit, finding.upper) == (ends.bump.height, ends.droop.height)


def test_a_bar_that_does_not_fit_has_rates_as_long_as_it_overlaps() -> None:
    short = bw.rates(make_setup(bar=make_bar(length="946 mm")))
    assert short.verdict is bw.Verdict.DOES_NOT_FIT
    assert short.figures is not None
    none = bw.rates(make_setup(bar=make_bar(length="1200 mm")))
    assert none.verdict is bw.Verdict.DOES_NOT_FIT
    assert none.figures is None


def test_a_corner_on_its_stop_says_so_and_has_no_frequency_when_slack() -> None:
    light = make_setup(anchor_key="-130 deg", mass="1 kg")
    answer = bw.rates(light)
    assert answer.figures is not None
    assert bw.answers.Topic.TRAVEL in {f.topic for f in answer.findings}
    assert answer.figures.ride.twist.magnitude < 0.0
    assert answer.figures.ride_frequency is None


def test_head_stresses_fall_with_teeth_that_are_left() -> None:
    whole, cut = (
        figures_of(make_setup(bar=make_bar(arm_end=make_end(39, blanks=blanks)))).heads[0]
        for blanks in ((0,), (0, 3))
    )
    assert (whole.teeth_left, cut.teeth_left) == (38, 37)
    rise = cut.missing_tooth_factor / whole.missing_tooth_factor
    assert rise > 38 / 37
    assert cut.tooth_shear / whole.tooth_shear == pytest.approx(rise)
    assert cut.tooth_bearing / whole.tooth_bearing == pytest.approx(rise)
    assert cut.root_shear == whole.root_shear


def test_the_bolt_carries_the_torque_over_its_lever() -> None:
    figures = figures_of(make_setup())
    # Lever of 118 mm and pivot at 142 mm, 75 degrees apart in the middle of the thread.
    beta = math.radians(172.0456507786237 - 97.0)
    pin = math.sqrt(142**2 + 118**2 - 2 * 142 * 118 * math.cos(beta))
    arm = 142 * 118 * math.sin(beta) / pin / 1000
    assert known(figures.bolt).at_ride.m_as("N") == pytest.approx(
        figures.ride.torque.m_as("N*m") / arm, rel=1e-6
    )


@given(turns=st.floats(-8.0, 8.0))
def test_a_measured_place_of_the_nut_is_as_good_as_its_turns(turns: float) -> None:
    turned = make_setup(nut_turns=f"{turns!r} turn")
    pin = known(bw.reindex(turned).pin_now)
    measured = attrs.evolve(make_setup(), pin_distance=pin)
    assert bw.ride(measured).height.m_as("mm") == pytest.approx(bw.ride(turned).height.m_as("mm"))
    # A plan that is carried out sets the nut anew.
    plan = bw.reindex(measured).plans[0]
    assert bw.ride(bw.carry_out(measured, plan)).height.m_as("mm") == pytest.approx(
        plan.height.m_as("mm")
    )


def test_a_place_of_the_nut_beyond_the_thread_is_refused() -> None:
    with pytest.raises(bw.QuantityError, match=r"144\.0 mm to 175\.0 mm, the range") as caught:
        bw.rates(attrs.evolve(make_setup(), pin_distance="190 mm"))
    assert (caught.value.code, caught.value.key) == ("Q302", "pin_distance")


def test_nut_turns_beyond_the_thread_are_refused() -> None:
    with pytest.raises(bw.QuantityError) as caught:
        bw.rates(make_setup(nut_turns="12 turn"))
    assert (caught.value.code, caught.value.key) == ("Q302", "nut_turns")
    assert "-8.857 to 8.857 turns" in caught.value.expected


GAS = bw.parts.GasCharge(force="190 N", at_length="590 mm", slope="-0.42 N/mm")


def test_a_wish_that_asks_the_bar_to_push_is_out_of_reach() -> None:
    # Gas that carries more than the corner weighs.
    gas = bw.parts.GasCharge(force="6000 N", at_length="590 mm", slope="0 N/mm")
    answer = bw.rates(make_setup(damper={"gas": gas}), wanted=bw.Wanted(height="404 mm"))
    assert answer.verdict is bw.Verdict.OUT_OF_REACH
    (finding,) = answer.findings
    assert finding.topic is bw.answers.Topic.LOAD
    plan = bw.reindex(make_setup(damper={"gas": gas}), wanted=bw.Wanted(height="404 mm"))
    assert plan.verdict is bw.Verdict.OUT_OF_REACH
    assert plan.findings == answer.findings


def test_teeth_that_do_not_meet_are_a_reason_and_carry_nothing() -> None:
    bar = make_bar(arm_end=make_end(39, major_diameter="28.5 mm"))
    setup = make_setup(bar=bar)
    answer = bw.rates(setup)
    assert bw.answers.Topic.TOOTH_DEPTH in {reason.topic for reason in answer.fit.reasons}
    assert answer.figures is not None
    assert [head.end for head in answer.figures.heads] == [bw.parts.BarEndName.ANCHOR]


def test_a_donor_arm_leaves_the_wheel_carrier_what_it_is() -> None:
    setup = make_setup()
    longer = attrs.evolve(setup.arm, id="t:arm/long", radius="358 mm")
    tilt = Corner(setup.with_parts(arm=longer)).linkage.motion(math.radians(-5.0)).tilt
    # The strut leans more over a longer arm: by the angle between the two ball joints.
    joints = [
        (r * math.cos(math.radians(-5.0)), r * math.sin(math.radians(-5.0))) for r in (0.338, 0.358)
    ]
    leans = [math.atan2(0.611 - z, 0.268 - y) for y, z in joints]
    assert float(tilt) == pytest.approx(leans[1] - leans[0], rel=1e-9)


def test_a_damper_that_does_not_shorten_over_the_travel_is_refused() -> None:
    mounting = bw.parts.SwingArmMounting(
        mount_outboard="700 mm", mount_up="100 mm", foot_along="290 mm"
    )
    with pytest.raises(bw.GeometryError) as caught:
        bw.rates(make_setup(axle={"suspension": mounting}))
    assert caught.value.code == "G108"
