"""Laws and refusals of `barwright.mechanics.uncertainty.calibration`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.bar.torsion import series_rate, torsional_rate
from barwright.mechanics.uncertainty import calibration
from barwright.mechanics.uncertainty.calibration import (
    Calibration,
    calibrate,
    remaining_rate,
    shear_modulus_from_rate,
)
from each_case import each_case

NAN = math.nan
RATE, CLOCKED = 2466.0, 0.05
TORQUE = np.array([700.0, 820.0, 900.0, 1050.0, 1180.0])
LEVER = np.array([-0.50, -0.48, -0.45, -0.44, -0.40])
TOO_ALIKE = (
    "expected torques that differ, in N·m between the least and the greatest; "
    "measure under different loads: the nut alone hardly changes the torque"
)
OFF = np.array([2.0, -3.0, 1.0, 2.0, -1.5]) * 1e-3
EXACT = LEVER + CLOCKED + TORQUE / RATE
RATES = st.floats(500.0, 9000.0)


def points(**change: Any) -> Calibration:
    usual: dict[str, Any] = {
        "arm_angle": EXACT + OFF,
        "lever_angle": LEVER,
        "torque": TORQUE,
        "angle_uncertainty": 2e-3,
        "torque_uncertainty": 4.0,
    }
    return calibrate(**(usual | change))


@given(rate=RATES, clocked=st.floats(-2.0, 2.0))
@pytest.mark.parametrize("uncertain", [(0.0, 0.0), (1e-3, 0.0), (0.0, 5.0), (1e-3, 5.0)])
def test_points_on_a_line_give_its_rate_and_clocking(
    uncertain: tuple[float, float], rate: float, clocked: float
) -> None:
    found = points(
        arm_angle=LEVER + clocked + TORQUE / rate,
        angle_uncertainty=uncertain[0],
        torque_uncertainty=uncertain[1],
    )

    assert found.rate == pytest.approx(rate, rel=1e-11)
    assert found.clocked_angle == pytest.approx(clocked, abs=1e-12)
    assert np.abs(found.residuals).max() < 1e-13


def test_residuals_are_what_the_arm_angle_has_beyond_the_line() -> None:
    found = points()
    line = LEVER + found.clocked_angle + TORQUE / found.rate

    assert found.residuals == pytest.approx(EXACT + OFF - line, abs=1e-15)


def test_one_lever_angle_serves_all_points() -> None:
    one = points(arm_angle=-0.3 + TORQUE / RATE, lever_angle=-0.5)
    each = points(arm_angle=-0.3 + TORQUE / RATE, lever_angle=np.full(5, -0.5))

    assert (one.rate, one.clocked_angle) == (each.rate, each.clocked_angle)
    assert one.clocked_angle == pytest.approx(0.2)


def test_without_uncertainties_the_scatter_gives_the_errors() -> None:
    found = points(angle_uncertainty=0.0, torque_uncertainty=0.0)
    left = found.residuals
    stated = points(angle_uncertainty=float(found.scatter), torque_uncertainty=0.0)

    assert found.scatter == pytest.approx(math.sqrt(sum(left**2) / 3.0), rel=1e-12)
    assert stated.scatter == pytest.approx(1.0, rel=1e-12)
    for name in ("rate", "rate_uncertainty", "clocked_angle", "clocked_angle_uncertainty"):
        assert getattr(found, name) == pytest.approx(getattr(stated, name), rel=1e-12)
    assert found.correlation == pytest.approx(stated.correlation, rel=1e-12)


@pytest.mark.parametrize("factor", [0.1, 3.0])
def test_errors_scale_with_the_stated_uncertainties_and_the_estimate_does_not(
    factor: float,
) -> None:
    one = points()
    other = points(angle_uncertainty=factor * 2e-3, torque_uncertainty=factor * 4.0)

    assert other.rate == pytest.approx(one.rate, rel=1e-12)
    assert other.rate_uncertainty == pytest.approx(factor * one.rate_uncertainty, rel=1e-9)
    assert other.clocked_angle_uncertainty == pytest.approx(
        factor * one.clocked_angle_uncertainty, rel=1e-9
    )
    assert other.scatter == pytest.approx(one.scatter / factor, rel=1e-9)


@pytest.mark.parametrize("factor", [1e-6, 1e6])
def test_torques_in_another_unit_give_the_same_line(factor: float) -> None:
    one = points()
    other = points(torque=factor * TORQUE, torque_uncertainty=factor * 4.0)

    assert other.rate == pytest.approx(factor * one.rate, rel=1e-12)
    assert other.clocked_angle == pytest.approx(one.clocked_angle, rel=1e-12)
    assert other.correlation == pytest.approx(one.correlation, rel=1e-10)


def test_uncertainties_of_one_number_are_two_uncertainties() -> None:
    torques = np.array([2e-3, 1e-3, 1e-3, 1e-3, 1e-3])

    assert points(angle_uncertainty=2e-3, torque_uncertainty=torques).scatter > 0.5


def test_left_out_uncertainties_are_unknown() -> None:
    found = calibrate(arm_angle=EXACT + OFF, lever_angle=LEVER, torque=TORQUE)
    said = points(angle_uncertainty=0.0, torque_uncertainty=0.0)

    assert (found.rate, found.rate_uncertainty) == (said.rate, said.rate_uncertainty)


def test_a_sure_point_weighs_more() -> None:
    angle = np.full(5, 2e-3)
    angle[1] = 1e-6
    found = points(angle_uncertainty=angle, torque_uncertainty=0.0)

    assert abs(found.residuals[1]) < 1e-8


def test_both_errors_are_those_of_one_line() -> None:
    # The line is surest in the middle of its points: what remains sure there is the sum.
    found = points()
    q = 1.0 / float(found.rate)
    q_error = float(found.rate_uncertainty) * q**2
    c_error, r = float(found.clocked_angle_uncertainty), float(found.correlation)
    torques = np.linspace(500.0, 1400.0, 1801)
    # Less rate means more twist, so that errors of rate and of twist have opposite signs.
    variances = c_error**2 + (torques * q_error) ** 2 - 2.0 * r * torques * q_error * c_error

    assert torques[np.argmin(variances)] == pytest.approx(TORQUE.mean(), rel=0.01)
    sum_of_weights = 5.0 / (2e-3**2 + (4.0 * q) ** 2)
    assert variances.min() == pytest.approx(1.0 / sum_of_weights, rel=0.01)


def test_sets_of_points_are_fitted_together() -> None:
    arm = np.stack([EXACT + OFF, EXACT - OFF, EXACT + 2.0 * OFF])
    found = points(arm_angle=arm)
    alone = points(arm_angle=arm[2])

    assert np.shape(found.rate) == np.shape(found.correlation) == (3,)
    assert found.residuals.shape == (3, 5)
    for name in ("rate", "rate_uncertainty", "clocked_angle", "clocked_angle_uncertainty"):
        assert np.asarray(getattr(found, name))[2] == pytest.approx(getattr(alone, name), rel=1e-12)
    assert np.asarray(found.scatter)[2] == pytest.approx(alone.scatter, rel=1e-9)


def test_one_set_of_loads_that_do_not_differ_is_enough_to_refuse_all() -> None:
    torque = np.stack([TORQUE, np.full(5, 900.0), TORQUE])
    with pytest.raises(QuantityError, match="Q302: torque: got '0', expected torques that differ"):
        points(torque=torque)


def test_small_loads_beside_large_ones_differ_enough() -> None:
    torque = np.stack([TORQUE, 1e-9 * TORQUE])
    found = points(torque=torque, torque_uncertainty=0.0)

    assert np.asarray(found.rate)[1] == pytest.approx(1e-9 * np.asarray(found.rate)[0], rel=1e-9)


@each_case(
    "change, message",
    [
        (
            {"arm_angle": EXACT[:2], "lever_angle": 0.0, "torque": TORQUE[:2]},
            (
                "Q302: torque: got '2', expected at least 3 points; "
                "measure at more loads or nut positions"
            ),
        ),
        (
            {"arm_angle": np.array(0.1), "lever_angle": 0.0, "torque": np.array(900.0)},
            (
                "Q302: torque: got '1', expected at least 3 points; "
                "measure at more loads or nut positions"
            ),
        ),
        (
            {"torque": np.array([900.0, 900.0, 900.0 + 5e-7, 900.0, 900.0])},
            f"Q302: torque: got '5e-07', {TOO_ALIKE}",
        ),
        (
            {"torque": np.zeros(5)},
            f"Q302: torque: got '0', {TOO_ALIKE}",
        ),
        (
            {"arm_angle": LEVER - TORQUE / RATE},
            (
                "Q302: arm_angle: got '-0.000405515', expected points at which the arm turns "
                "further with more torque; check the signs and the points far from the others"
            ),
        ),
        (
            {"arm_angle": LEVER},
            (
                "Q302: arm_angle: got '0', expected points at which the arm "
                "turns further with more torque; check the signs and the points far from the others"
            ),
        ),
        (
            {
                "angle_uncertainty": np.array([1e-3, 0.0, 1e-3, 1e-3, 1e-3]),
                "torque_uncertainty": 0.0,
            },
            (
                "Q302: angle_uncertainty: got '0', expected an uncertainty for every point, or for "
                "none of them; estimate the one that is missing"
            ),
        ),
        ({"angle_uncertainty": -1e-3}, "Q302: angle_uncertainty: got '-0.001', expected 0 or more"),
        ({"torque_uncertainty": -4.0}, "Q302: torque_uncertainty: got '-4', expected 0 or more"),
        ({"torque_uncertainty": NAN}, "Q301: torque_uncertainty: got 'nan', expected a finite"),
        ({"angle_uncertainty": NAN}, "Q301: angle_uncertainty: got 'nan', expected a finite"),
        ({"arm_angle": EXACT * NAN}, "Q301: arm_angle: got 'nan', expected a finite number"),
        ({"torque": TORQUE * NAN}, "Q301: torque: got 'nan', expected a finite number"),
        ({"lever_angle": NAN}, "Q301: arm_angle: got 'nan', expected a finite number"),
    ],
)
def test_points_that_tell_no_rate_are_refused(change: dict[str, Any], message: str) -> None:
    with pytest.raises(QuantityError) as caught:
        points(**change)

    assert str(caught.value).startswith(message)


def test_torques_that_hardly_differ_are_enough() -> None:
    torque = 900.0 + 2e-6 * np.arange(5.0)

    assert points(torque=torque, arm_angle=LEVER + torque / RATE).rate == pytest.approx(
        RATE, rel=1e-3
    )


def test_three_points_are_enough() -> None:
    found = points(arm_angle=EXACT[:3], lever_angle=LEVER[:3], torque=TORQUE[:3])

    assert found.rate == pytest.approx(RATE, rel=1e-12)


# -- From the system's rate to the steel ---------------------------------------


@given(bar=RATES, tube=st.floats(1e3, 1e6))
def test_what_is_put_in_series_is_taken_out_again(bar: float, tube: float) -> None:
    system = series_rate(bar, tube)

    assert remaining_rate(system, other_rate=tube) == pytest.approx(bar, rel=1e-9)


@pytest.mark.parametrize(
    ("system", "other", "message"),
    [
        (
            3000.0,
            3000.0,
            (
                "Q302: other_rate: got '3000', expected a spring stiffer than the whole "
                "series; check which of the two rates is the system's"
            ),
        ),
        (3000.0, 2000.0, "Q302: other_rate: got '2000', expected a spring stiffer"),
        (0.0, 2000.0, "Q302: system_rate: got '0', expected more than 0"),
        (-1.0, -2.0, "Q302: system_rate: got '-1', expected more than 0"),
        (3000.0, NAN, "Q301: other_rate: got 'nan', expected a finite number"),
    ],
)
def test_a_part_softer_than_the_whole_is_refused(system: float, other: float, message: str) -> None:
    with pytest.raises(QuantityError) as caught:
        remaining_rate(system, other_rate=other)

    assert str(caught.value).startswith(message)


@given(modulus=st.floats(7e10, 9e10), diameter=st.floats(0.015, 0.06), share=st.floats(0.0, 0.9))
def test_a_rate_gives_the_modulus_that_it_came_from(
    modulus: float, diameter: float, share: float
) -> None:
    bar = {"diameter": diameter, "active_length": 0.9, "bore": share * diameter}
    rate = torsional_rate(shear_modulus=modulus, **bar)

    assert shear_modulus_from_rate(rate, **bar) == pytest.approx(modulus, rel=1e-12)


def test_a_bar_is_solid_if_nothing_is_said() -> None:
    solid = shear_modulus_from_rate(1000.0, diameter=0.02, active_length=1.0)

    assert solid == shear_modulus_from_rate(1000.0, diameter=0.02, active_length=1.0, bore=0.0)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"rate": 0.0}, "Q302: rate: got '0', expected more than 0"),
        ({"diameter": -0.02}, "Q302: diameter: got '-0.02', expected more than 0"),
        ({"active_length": NAN}, "Q301: active_length: got 'nan', expected a finite"),
        ({"bore": -0.01}, "Q302: bore: got '-0.01', expected 0 or more"),
        (
            {"bore": 0.02},
            (
                "Q302: bore: got '0.02', expected a bore smaller than the diameter; "
                "check which of the two was measured"
            ),
        ),
        ({"bore": 0.03}, "Q302: bore: got '0.03', expected a bore smaller"),
    ],
)
def test_a_bar_that_cannot_be_is_refused(change: dict[str, float], message: str) -> None:
    usual = {"rate": 1e3, "diameter": 0.02, "active_length": 1.0, "bore": 0.0}
    with pytest.raises(QuantityError) as caught:
        shear_modulus_from_rate(**(usual | change))

    assert str(caught.value).startswith(message)


def test_kernels_broadcast_over_arrays() -> None:
    rates = np.array([[2000.0], [2500.0]])

    assert np.shape(remaining_rate(rates, other_rate=np.array([3e3, 4e3, 5e3]))) == (2, 3)
    moduli = shear_modulus_from_rate(rates, diameter=np.array([0.02, 0.03]), active_length=1.0)
    assert np.shape(moduli) == (2, 2)


@pytest.mark.parametrize("kernel", [calibrate, remaining_rate, shear_modulus_from_rate])
def test_at_most_one_argument_goes_without_its_name(kernel: Callable[..., object]) -> None:
    kinds = [parameter.kind for parameter in inspect.signature(kernel).parameters.values()]

    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) <= 1
    assert kernel.__name__ in calibration.__all__


def test_points_that_lie_about_anything_but_a_line_are_refused() -> None:
    # Loads that differ by little more than what they are known to: no line settles.
    arm = np.array([0.3243, 0.3383, 0.3312, 0.3236, 0.3428, 0.3217, 0.3272])
    torque = np.array([991.29, 997.91, 988.0, 1006.76, 1014.62, 1015.73, 1011.36])
    with pytest.raises(QuantityError) as caught:
        calibrate(
            arm_angle=arm,
            lever_angle=0.0,
            torque=torque,
            angle_uncertainty=0.0075,
            torque_uncertainty=11.0,
        )
    assert str(caught.value).startswith(
        "Q302: arm_angle: got 'nan', expected points at which the arm turns further"
    )
