"""Rows of `barwright.mechanics.uncertainty.calibration`.

Norris' data of the statistical reference datasets, recalled, with its certified line; lines
with errors in both coordinates by scipy and by GTC; springs in series by their equilibrium;
a printed problem in torsion.
"""

from __future__ import annotations

import functools
import math
from typing import Any, TypeAlias

import attrs
import GTC
import numpy as np
import scipy.optimize
from numpy.typing import NDArray

from barwright.mechanics.uncertainty.calibration import (
    Calibration,
    calibrate,
    clocked_angle,
    remaining_rate,
    shear_modulus_from_rate,
)
from validation import Kind, Row

Array: TypeAlias = NDArray[np.float64]

NORRIS = "NIST, Statistical Reference Datasets, linear regression, Norris"

# Predictor and response of Norris' 36 observations.  That they give every certified digit
# shows that they are recalled right.
PREDICTOR = np.array(
    [
        *(0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4),
        *(0.6, 775.5, 666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3),
        *(0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5),
    ]
)
RESPONSE = np.array(
    [
        *(0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3),
        *(0.1, 778.1, 668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3),
        *(0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2),
    ]
)


def norris() -> Calibration:
    """Norris' line: the response as an angle over the predictor as a torque."""
    return calibrate(arm_angle=RESPONSE, lever_angle=0.0, torque=PREDICTOR)


@attrs.frozen(eq=False)
class Points:
    """Measured points, with the standard uncertainties of angle less lever and of torque."""

    arm: Array
    lever: Array
    torque: Array
    angle_error: Array
    torque_error: Array

    def calibrated(self) -> Calibration:
        """What the kernel says of them."""
        return calibrate(
            arm_angle=self.arm,
            lever_angle=self.lever,
            torque=self.torque,
            angle_uncertainty=self.angle_error,
            torque_uncertainty=self.torque_error,
        )

    def carry_out(self) -> dict[str, float]:
        """The same by scipy: every true torque is unknown, and so are rate and clocking."""
        scale = 1e-4
        found = scipy.optimize.least_squares(
            self._missed,
            [4.0, 0.0, *self.torque],
            args=(scale,),
            method="lm",
            x_scale=[1.0, 0.1, *self.torque],
            **dict.fromkeys(("xtol", "ftol", "gtol"), 1e-15),
        )
        covariance = np.linalg.inv(found.jac.T @ found.jac)
        compliance, clocked = found.x[0] * scale, found.x[1]
        errors = np.sqrt(np.diag(covariance))
        return {
            "rate": 1.0 / compliance,
            "rate_uncertainty": errors[0] * scale / compliance**2,
            "clocked_angle": clocked,
            "clocked_angle_uncertainty": errors[1],
            # A rate falls as the compliance rises.
            "correlation": -covariance[0, 1] / (errors[0] * errors[1]),
            "scatter": math.sqrt(2.0 * found.cost / (len(self.torque) - 2)),
        }

    def _missed(self, unknown: Array, scale: float) -> Array:
        true = unknown[2:]
        arm = self.lever + unknown[1] + unknown[0] * scale * true
        return np.concatenate(
            [(self.arm - arm) / self.angle_error, (self.torque - true) / self.torque_error]
        )

    def line_by_gtc(self) -> Any:
        """Intercept and slope as uncertain numbers, by weighted total least squares."""
        return GTC.ta.line_fit_wtls(
            self.torque, self.arm - self.lever, self.torque_error, self.angle_error
        ).a_b


def drawn(seed: int) -> Points:
    """Points of a corner as a shop measures them, each with errors of its own."""
    generator = np.random.default_rng(seed)
    count = int(generator.integers(4, 13))
    true = generator.uniform(400.0, 1500.0, count)
    lever = generator.uniform(-0.5, -0.3, count)
    angle_error = generator.uniform(1e-3, 5e-3, count)
    torque_error = generator.uniform(1.0, 12.0, count)
    arm = lever + 0.05 + true / 2500.0
    return Points(
        arm=arm + angle_error * generator.normal(size=count),
        lever=lever,
        torque=true + torque_error * generator.normal(size=count),
        angle_error=angle_error,
        torque_error=torque_error,
    )


ONE = drawn(1)


def series_by_equilibrium(bar: float, tube: float) -> float:
    """Torque over twist of two springs in a row, from the balance of both of their ends."""
    stiffness = np.array([[tube + bar, -bar], [-bar, bar]])
    return float(1.0 / np.linalg.solve(stiffness, [0.0, 1.0])[1])


BOTH = f"{len(ONE.torque)} points of angle and torque, each with its own error"


def _weighted_mean(at: int) -> float:
    """Clocked angle at a known rate, or its error, by numpy's least squares of a constant."""
    twist, error = ONE.arm - ONE.lever, np.linspace(0.001, 0.004, len(ONE.torque))
    residue = twist - ONE.torque / 2500.0
    design = (1.0 / error)[:, None]
    found, _, _, _ = np.linalg.lstsq(design, residue / error, rcond=None)
    return float((found[0], float(np.linalg.inv(design.T @ design)[0, 0]) ** 0.5)[at])


def _clocked(at: int) -> float:
    error = np.linspace(0.001, 0.004, len(ONE.torque))
    found = clocked_angle(ONE.arm - ONE.lever, torque=ONE.torque, rate=2500.0, uncertainty=error)
    return float(found[at])


ROWS = [
    *(
        Row(
            of="calibration.clocked_angle",
            source="numpy: least squares of a constant, each equation divided by its error",
            given=f"{len(ONE.torque)} points at a known rate: {what}",
            unit="rad",
            expected=functools.partial(_weighted_mean, at),
            got=functools.partial(_clocked, at),
            within=1e-10,
            kind=Kind.FORMULATED,
        )
        for at, what in enumerate(("free angle less lever", "its standard error"))
    ),
    Row(
        of="calibration.calibrate",
        source=NORRIS,
        given="36 observations: slope, the reciprocal of a rate",
        unit="",
        expected=1.00211681802045,
        got=lambda: 1.0 / float(norris().rate),
        within=1e-12,
        kind=Kind.RECALLED,
    ),
    Row(
        of="calibration.calibrate",
        source=NORRIS,
        given="intercept, as a clocked angle",
        unit="",
        expected=-0.262323073774029,
        got=lambda: float(norris().clocked_angle),
        within=1e-11,
        kind=Kind.RECALLED,
    ),
    Row(
        of="calibration.calibrate",
        source=NORRIS,
        given="standard deviation of the slope",
        unit="",
        expected=0.429796848199937e-3,
        got=lambda: float(norris().rate_uncertainty) / float(norris().rate) ** 2,
        within=1e-11,
        kind=Kind.RECALLED,
    ),
    Row(
        of="calibration.calibrate",
        source=NORRIS,
        given="standard deviation of the intercept",
        unit="",
        expected=0.232818234301152,
        got=lambda: float(norris().clocked_angle_uncertainty),
        within=1e-11,
        kind=Kind.RECALLED,
    ),
    Row(
        of="calibration.calibrate",
        source=NORRIS,
        given="residual standard deviation",
        unit="",
        expected=0.884796396144373,
        got=lambda: float(norris().scatter),
        within=1e-11,
        kind=Kind.RECALLED,
    ),
    *(
        Row(
            of="calibration.calibrate",
            source="scipy, least squares with every true torque unknown",
            given=f"{BOTH}: {name.replace('_', ' ')}",
            unit=unit,
            expected=lambda name=name: ONE.carry_out()[name],  # type: ignore[misc]
            got=lambda name=name: float(getattr(ONE.calibrated(), name)),  # type: ignore[misc]
            within=1e-6,
            kind=Kind.FORMULATED,
        )
        for name, unit in (
            ("rate", "N·m/rad"),
            ("rate_uncertainty", "N·m/rad"),
            ("clocked_angle", "rad"),
            ("clocked_angle_uncertainty", "rad"),
            ("correlation", ""),
            ("scatter", ""),
        )
    ),
    Row(
        of="calibration.calibrate",
        source="GTC, weighted total least squares",
        given=f"{BOTH}: rate",
        unit="N·m/rad",
        expected=lambda: 1.0 / GTC.value(ONE.line_by_gtc()[1]),
        got=lambda: float(ONE.calibrated().rate),
        within=1e-6,
        kind=Kind.ENGINE,
    ),
    Row(
        of="calibration.remaining_rate",
        source="numpy, balance of the torques at both ends of two springs",
        given="tube 24 200 N·m/rad subtracted",
        unit="N·m/rad",
        expected=2746.0,
        got=lambda: float(
            remaining_rate(series_by_equilibrium(2746.0, 24_200.0), other_rate=24_200.0)
        ),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="calibration.shear_modulus_from_rate",
        source="Singer and Pytel, *Strength of Materials*, 4th ed., torsion problem 305",
        kind=Kind.REPRODUCED,
        given="12 kN·m, 6 m, 3°, 113.98 mm",
        unit="GPa",
        expected=83.0,
        got=lambda: float(
            shear_modulus_from_rate(12e3 / math.radians(3.0), diameter=0.11398, active_length=6.0)
            / 1e9
        ),
        within=4 * 0.005 / 113.98,
        why="diameter printed to 0.01 mm, to the fourth power",
    ),
]
