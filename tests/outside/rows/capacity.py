"""Rows of `barwright.mechanics.spline.capacity`: balance of moments, and fields over a section.

No example of the handbook was to hand.  What its formulas say of a stress is held
against the stress that really balances the torque: over the section of a round head,
and over the teeth that are said to carry, each at its place.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np
import scipy.integrate
import scipy.optimize

from barwright.mechanics.spline.capacity import (
    head_shear_stress,
    tooth_bearing_stress,
    tooth_shear_stress,
)
from barwright.mechanics.spline.factors import missing_tooth_factor
from outside.sections import ring
from validation import Kind, Row

# Two gaps that load all teeth alike.
OPPOSITE = (0, 20)
TEETH = "pitch circle 31.5 mm, two opposite teeth of 40 missing, engaged 28 mm"


def balancing_stress(torque: float, diameter: float, bore: float) -> float:
    """Stress [Pa] at the surface whose field, in proportion to the radius, makes a torque."""

    def moment(radius: float) -> float:
        return radius / (diameter / 2.0) * radius * math.tau * radius

    of_one_pascal, _ = scipy.integrate.quad(moment, bore / 2.0, diameter / 2.0)
    return torque / float(of_one_pascal)


def moment_of(places: Iterable[float], force: float, pitch_diameter: float) -> float:
    """Moment about the axis of equal tangential forces at some angles of the pitch circle."""
    angles = np.array(list(places))
    arms = pitch_diameter / 2.0 * np.column_stack([np.cos(angles), np.sin(angles)])
    forces = force * np.column_stack([-np.sin(angles), np.cos(angles)])
    return float(np.sum(arms[:, 0] * forces[:, 1] - arms[:, 1] * forces[:, 0]))


def angles_left(teeth: int, missing: Iterable[int]) -> list[float]:
    """Angles of the teeth that are not missing."""
    return [math.tau * n / teeth for n in range(teeth) if n not in set(missing)]


def balancing_pressure(torque: float, places: list[float], area: float) -> float:
    """Stress [Pa] on an area of each tooth at which the moments add up to a torque."""
    one = moment_of(places, area, 0.0315)
    return float(scipy.optimize.brentq(lambda stress: stress * one - torque, 0.0, 1e12, rtol=1e-15))


ROWS = [
    Row(
        of="capacity.head_shear_stress",
        source="scikit-fem: greatest stress of Prandtl's stress function of a ring",
        given="1000 N·m, root circle 30 mm, bore 10 mm",
        unit="MPa",
        expected=lambda: 1000.0 * ring(diameter=0.030, bore=0.010).stress / 1e6,
        got=lambda: float(head_shear_stress(1000.0, root_diameter=0.030, bore=0.010)) / 1e6,
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="capacity.head_shear_stress",
        source="scipy, quadrature of the moment of a stress in proportion to the radius",
        given="1000 N·m, root circle 30 mm, bore 10 mm, K_a 1.2, L_f 0.5: 2400 N·m",
        unit="MPa",
        expected=lambda: balancing_stress(2400.0, 0.030, 0.010) / 1e6,
        got=lambda: (
            float(
                head_shear_stress(
                    1000.0,
                    root_diameter=0.030,
                    bore=0.010,
                    application_factor=1.2,
                    life_factor=0.5,
                )
            )
            / 1e6
        ),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="capacity.tooth_shear_stress",
        source="numpy, moments of the shear forces of every second tooth",
        given="1300 N·m, pitch circle 31.5 mm, 40 teeth of 1.2 mm, engaged 28 mm",
        unit="MPa",
        expected=lambda: balancing_pressure(1300.0, angles_left(20, ()), area=0.028 * 0.0012) / 1e6,
        got=lambda: (
            float(
                tooth_shear_stress(
                    1300.0,
                    pitch_diameter=0.0315,
                    teeth=40,
                    engagement=0.028,
                    tooth_thickness=0.0012,
                )
            )
            / 1e6
        ),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="capacity.tooth_bearing_stress",
        source="numpy, moments of the pressures on the flanks of the remaining teeth",
        given=f"1300 N·m, {TEETH}, 0.9 mm deep",
        unit="MPa",
        expected=lambda: (
            balancing_pressure(1300.0, angles_left(40, OPPOSITE), area=0.028 * 0.0009) / 1e6
        ),
        got=lambda: (
            float(
                tooth_bearing_stress(
                    1300.0,
                    pitch_diameter=0.0315,
                    teeth=40,
                    missing_tooth_factor=missing_tooth_factor(teeth=40, missing=OPPOSITE),
                    engagement=0.028,
                    tooth_depth=0.0009,
                )
            )
            / 1e6
        ),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
]
