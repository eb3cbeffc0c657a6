"""Lines through measured points against scipy, GTC and a certified dataset."""

from __future__ import annotations

import math
from typing import Any

import GTC
import numpy as np
import pytest
import scipy.optimize
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.bar.torsion import series_rate, torsional_rate
from barwright.mechanics.uncertainty.calibration import (
    calibrate,
    clocked_angle,
    remaining_rate,
    shear_modulus_from_rate,
)
from barwright.mechanics.uncertainty.coverage import coverage_factor
from draws import draws
from outside.rows.calibration import NORRIS, PREDICTOR, RESPONSE, drawn, norris

SEEDS = st.integers(0, 10_000)


def test_the_certified_line_comes_out_to_every_digit() -> None:
    # The data are recalled; that residuals and line agree to 13 digits shows them right.
    found = norris()

    assert len(PREDICTOR) == len(RESPONSE) == 36
    assert 1.0 / found.rate == pytest.approx(1.00211681802045, rel=1e-13)
    assert found.clocked_angle == pytest.approx(-0.262323073774029, rel=1e-12)
    assert found.scatter == pytest.approx(0.884796396144373, rel=1e-12)
    assert NORRIS.startswith("NIST")


@settings(max_examples=draws(15))
@given(seed=SEEDS)
def test_errors_in_both_coordinates_are_those_of_a_full_least_squares(seed: int) -> None:
    points = drawn(seed)
    own = points.calibrated()

    for name, outside in points.carry_out().items():
        tolerance = 1e-5 * float(own.clocked_angle_uncertainty) if "angle" in name else 0.0
        assert getattr(own, name) == pytest.approx(outside, rel=1e-5, abs=tolerance), name


@settings(max_examples=draws(15))
@given(seed=SEEDS)
def test_they_are_those_of_gtc_too(seed: int) -> None:
    points = drawn(seed)
    own = points.calibrated()
    intercept, slope = points.line_by_gtc()

    assert 1.0 / own.rate == pytest.approx(GTC.value(slope), rel=1e-5)
    assert own.clocked_angle == pytest.approx(
        GTC.value(intercept), abs=1e-3 * float(own.clocked_angle_uncertainty)
    )


@settings(max_examples=draws(15))
@given(seed=SEEDS, known=st.booleans())
def test_with_exact_torques_it_is_the_line_of_scipy(*, seed: int, known: bool) -> None:
    points = drawn(seed)
    errors = points.angle_error if known else np.ones_like(points.torque)
    own = calibrate(
        arm_angle=points.arm,
        lever_angle=points.lever,
        torque=points.torque,
        angle_uncertainty=errors if known else 0.0,
    )
    # Counted from the mean torque in kN·m, which a solver of numbers of one size wants.
    middle = points.torque.mean()
    (level, slope), covariance = scipy.optimize.curve_fit(
        lambda t, level, slope: level + slope * t,
        (points.torque - middle) / 1e3,
        points.arm - points.lever,
        sigma=errors,
        absolute_sigma=known,
        p0=[0.0, 0.3],
    )
    shift = np.array([1.0, -middle / 1e3])

    assert own.rate == pytest.approx(1e3 / slope, rel=1e-6)
    assert own.clocked_angle == pytest.approx(shift @ [level, slope], rel=1e-6, abs=1e-8)
    assert own.rate_uncertainty == pytest.approx(
        1e3 * np.sqrt(covariance[1, 1]) / slope**2, rel=1e-5
    )
    assert own.clocked_angle_uncertainty == pytest.approx(
        np.sqrt(shift @ covariance @ shift), rel=1e-5
    )


def test_standard_errors_are_how_far_estimates_scatter() -> None:
    generator = np.random.default_rng(3)
    torque, lever = np.linspace(600.0, 1400.0, 7), -0.4
    sets = (4000, 7)
    found = calibrate(
        arm_angle=lever + 0.1 + torque / 2500.0 + 3e-3 * generator.normal(size=sets),
        lever_angle=lever,
        torque=torque + 5.0 * generator.normal(size=sets),
        angle_uncertainty=3e-3,
        torque_uncertainty=5.0,
    )

    rate, clocked = np.asarray(found.rate), np.asarray(found.clocked_angle)
    assert rate.mean() == pytest.approx(2500.0, rel=2e-3)
    assert np.std(rate) == pytest.approx(np.mean(found.rate_uncertainty), rel=0.04)
    assert np.std(clocked) == pytest.approx(np.mean(found.clocked_angle_uncertainty), rel=0.04)
    assert np.corrcoef(rate, clocked)[0, 1] == pytest.approx(np.mean(found.correlation), abs=0.02)
    # Five degrees of freedom are left to the residuals.
    assert np.mean(np.asarray(found.scatter) ** 2) == pytest.approx(1.0, rel=0.04)


def test_a_modulus_is_found_again_from_loads_and_angles() -> None:
    bar = {"diameter": 0.0233, "active_length": 0.813}
    tube = 24_200.0
    system = series_rate(torsional_rate(shear_modulus=76.1e9, **bar), tube)
    torque = np.array([650.0, 900.0, 1200.0])
    found = calibrate(arm_angle=-0.4 + torque / system, lever_angle=-0.5, torque=torque)

    modulus = shear_modulus_from_rate(remaining_rate(found.rate, other_rate=tube), **bar)
    assert modulus == pytest.approx(76.1e9, rel=1e-11)


CARS = 10_000
TORQUE = np.array([840.0, 930.0, 1030.0, 1120.0, 1200.0])
"""Of a corner that is weighed five times, with ballast [N·m]."""


def normal(generator: np.random.Generator, spread: float, count: int) -> Any:
    return generator.normal(scale=spread, size=(CARS, count))


def rectangular(generator: np.random.Generator, spread: float, count: int) -> Any:
    return generator.uniform(-1.0, 1.0, size=(CARS, count)) * spread * np.sqrt(3.0)


# Student's t with one or two degrees of freedom asks for normal errors.
@pytest.mark.parametrize(
    ("errors", "count", "stated"),
    [
        (normal, 3, True),
        (normal, 5, True),
        (normal, 3, False),
        (normal, 4, False),
        (normal, 5, False),
        (rectangular, 3, True),
        (rectangular, 5, True),
        (rectangular, 5, False),
    ],
)
def test_the_95_percent_interval_covers_the_truth_in_10000_simulated_cars(
    errors: Any, *, count: int, stated: bool
) -> None:
    """A height ± 2 mm is 0.2 deg of arm angle, and a load ± 1 kg is 2 N·m, standard."""
    generator = np.random.default_rng(11)
    rates = generator.uniform(2200.0, 2800.0, (CARS, 1))
    clocked = generator.uniform(-0.2, 0.2, (CARS, 1))
    true = TORQUE[np.linspace(0, 4, count).astype(int)]
    angle_error, torque_error = np.radians(0.2), 2.0 if stated else 0.0
    found = calibrate(
        arm_angle=clocked + true / rates + errors(generator, angle_error, count),
        lever_angle=0.0,
        torque=true + errors(generator, torque_error, count),
        angle_uncertainty=angle_error if stated else 0.0,
        torque_uncertainty=torque_error,
    )
    freedom = math.inf if stated else count - 2.0
    factor = float(coverage_factor(0.95, degrees_of_freedom=freedom))
    for value, truth, error in (
        # The rate is one over what the line tells, which is what is spread evenly.
        (1.0 / found.rate, 1.0 / rates[:, 0], found.rate_uncertainty / found.rate**2),
        (found.clocked_angle, clocked[:, 0], found.clocked_angle_uncertainty),
    ):
        covered = np.mean(np.abs(value - truth) <= factor * error)
        assert 0.93 <= covered <= 0.97, covered
    if stated:
        near = np.abs(found.rate - rates[:, 0]) <= factor * found.rate_uncertainty
        assert 0.93 <= np.mean(near) <= 0.97


@settings(max_examples=draws(15))
@given(seed=SEEDS)
def test_a_free_angle_at_a_known_rate_is_numpys_weighted_mean(seed: int) -> None:
    points = drawn(seed)
    errors = np.hypot(points.angle_error, points.torque_error / 2500.0)
    twist = points.arm - points.lever
    found, error = clocked_angle(twist, torque=points.torque, rate=2500.0, uncertainty=errors)
    design = np.ones((len(twist), 1)) / errors[:, None]
    (expected,), *_ = np.linalg.lstsq(design, (twist - points.torque / 2500.0) / errors, rcond=None)
    assert found == pytest.approx(expected, rel=1e-12)
    assert error == pytest.approx(np.linalg.inv(design.T @ design)[0, 0] ** 0.5, rel=1e-12)
