"""What a splined head carries: balance of moments, springs, and finite elements of its section.

No worked example of the handbook was to hand.  The stresses are held against what balances
the torque; the load beside missing teeth against tooth forces of least energy, and what the
module says of stiffness against fields.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import scipy.linalg
import scipy.optimize
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.bar.torsion import polar_second_moment, shear_stress
from barwright.mechanics.spline.capacity import (
    head_shear_stress,
    tooth_bearing_stress,
    tooth_shear_stress,
)
from barwright.mechanics.spline.factors import missing_tooth_factor
from draws import draws
from outside.sections import torsion_constant
from spline_outlines import Rack, cut_spline, disc, least_radius

# -- Balance of moments ----------------------------------------------------------------


@given(torque=st.floats(1.0, 1e4), root=st.floats(0.015, 0.060), bore=st.floats(0.0, 0.8))
def test_head_shear_is_torsion_of_the_root_circle(torque: float, root: float, bore: float) -> None:
    handbook = head_shear_stress(torque, root_diameter=root, bore=bore * root)

    assert handbook == pytest.approx(shear_stress(torque, diameter=root, bore=bore * root))


def _moment_of_teeth(carrying: int, *, force: float, pitch_diameter: float) -> float:
    """Sum moments of equal tangential forces on teeth around a circle."""
    angle = np.linspace(0.0, math.tau, carrying, endpoint=False)
    place = pitch_diameter / 2.0 * np.array([np.cos(angle), np.sin(angle)])
    push = force * np.array([-np.sin(angle), np.cos(angle)])
    return float(np.sum(place[0] * push[1] - place[1] * push[0]))


def test_tooth_shear_on_every_second_tooth_balances_the_torque() -> None:
    stress = tooth_shear_stress(
        1300.0, pitch_diameter=0.031, teeth=40, engagement=0.028, tooth_thickness=0.0012
    )
    moment = _moment_of_teeth(20, force=float(stress) * 0.028 * 0.0012, pitch_diameter=0.031)

    assert moment == pytest.approx(1300.0, rel=1e-12)


def test_bearing_pressure_on_all_teeth_balances_the_torque() -> None:
    stress = tooth_bearing_stress(
        1300.0, pitch_diameter=0.031, teeth=39, engagement=0.028, tooth_depth=0.0009
    )
    moment = _moment_of_teeth(39, force=float(stress) * 0.028 * 0.0009, pitch_diameter=0.031)

    assert moment == pytest.approx(1300.0, rel=1e-12)


# -- A rigid head on springs -----------------------------------------------------------


def _shares(teeth: int, missing: tuple[int, ...], *, lean: float) -> Any:
    """Moments of equal springs at the teeth, one along each flank's normal, under unit torque.

    The head is rigid; it turns and moves sideways until forces and moment balance.  The
    normals lean from the tangent by the pressure angle.
    """
    angles = np.array([math.tau * n / teeth for n in range(teeth) if n not in missing])
    across = angles + math.pi / 2.0 + lean
    turning = np.full(angles.size, math.cos(lean))
    stretch = np.column_stack([np.cos(across), np.sin(across), turning])
    torque = np.array([0.0, 0.0, 1.0])
    return stretch @ scipy.linalg.solve(stretch.T @ stretch, torque) * math.cos(lean)


@pytest.mark.parametrize("lean", [0.0, math.radians(30.0), math.radians(45.0)])
@pytest.mark.parametrize(
    ("teeth", "missing", "factor"),
    [
        (40, (0,), 1.080),
        (40, (0, 1), 1.173),
        (40, (0, 20), 1.053),
        (22, (0,), 1.154),
        (22, (0, 1), 1.348),
        (22, (0, 11), 1.100),
        (41, (0, 3, 10), 1.230),
    ],
)
def test_teeth_beside_gaps_are_loaded_most_whatever_the_pressure_angle(
    teeth: int, missing: tuple[int, ...], factor: float, lean: float
) -> None:
    greatest = float(np.max(_shares(teeth, missing, lean=lean))) * teeth
    assert greatest == pytest.approx(factor, abs=5e-4)
    assert missing_tooth_factor(teeth=teeth, missing=missing) == pytest.approx(greatest, rel=1e-9)


def _pressed(teeth: int, missing: set[int]) -> float | None:
    """Greatest of the tooth forces of least energy that only press; none if none balance."""
    left = np.array([n for n in range(teeth) if n not in missing])
    angles = math.tau * left / teeth
    balance = np.array([np.ones(left.size), np.sin(angles), np.cos(angles)])
    rows = {"A_eq": balance, "b_eq": [1.0, 0.0, 0.0], "bounds": (0.0, None)}
    possible = scipy.optimize.linprog(np.zeros(left.size), **rows)
    if not possible.success:
        return None
    least = scipy.optimize.minimize(
        lambda force: float(force @ force) / 2.0,
        possible.x,
        jac=lambda force: force,
        bounds=[(0.0, None)] * left.size,
        constraints={
            "type": "eq",
            "fun": lambda f: balance @ f - rows["b_eq"],
            "jac": lambda _: balance,
        },
        method="SLSQP",
        options={"ftol": 1e-14, "maxiter": 500},
    )
    return float(np.max(least.x)) * teeth


@settings(max_examples=draws(60))
@given(st.data())
def test_no_tooth_pulls_wherever_the_gaps_are(data: st.DataObject) -> None:
    teeth = data.draw(st.integers(3, 30))
    missing = data.draw(st.sets(st.integers(0, teeth - 1), max_size=teeth - 1))
    factor, pressed = missing_tooth_factor(teeth=teeth, missing=missing), _pressed(teeth, missing)
    if pressed is None:
        assert factor == math.inf
    else:
        assert factor == pytest.approx(pressed, rel=1e-4)


# -- Finite elements of the section ----------------------------------------------------


FLAT = Rack(pressure_angle=30.0, reach=0.75, addendum=0.5)
FILLET = Rack(pressure_angle=30.0, reach=0.9, addendum=0.5)


@pytest.mark.rare
def test_bounds_close_on_a_round_section() -> None:
    found = torsion_constant(disc(30.0))
    exact = float(polar_second_moment(diameter=30.0))

    # A polygon of 2048 sides has 3e-6 less.
    assert found.low == pytest.approx(exact, rel=1e-5)
    assert found.high == pytest.approx(exact, rel=1e-5)
    assert found.low < exact


@pytest.mark.rare
@pytest.mark.parametrize(
    ("teeth", "module", "rack", "stiffer", "loses"),
    [
        pytest.param(40, 0.75, FLAT, 5.9, 0.15, id="40 flat", marks=pytest.mark.slow),
        pytest.param(40, 0.75, FILLET, 6.95, 0.18, id="40 fillet", marks=pytest.mark.slow),
        pytest.param(22, 1.25, FLAT, 11.4, 0.51, id="22 flat"),
    ],
)
def test_splined_head_is_stiffer_than_its_root_circle_and_hardly_less_without_a_tooth(
    teeth: int, module: float, rack: Rack, stiffer: float, loses: float
) -> None:
    whole = cut_spline(teeth, module, rack, smooth=0.002)
    cut = cut_spline(teeth, module, rack, blanks=(0,), smooth=0.002)
    of_whole, of_cut = torsion_constant(whole), torsion_constant(cut)
    root = float(polar_second_moment(diameter=2.0 * least_radius(whole)))

    assert of_whole.low <= of_whole.high
    assert 100.0 * (of_whole.low / root - 1.0) == pytest.approx(stiffer, abs=0.06)
    assert 100.0 * (of_whole.high / root - 1.0) == pytest.approx(stiffer, abs=0.06)
    assert 100.0 * (1.0 - of_cut.low / of_whole.low) == pytest.approx(loses, abs=0.006)
    assert 100.0 * (1.0 - of_cut.high / of_whole.high) == pytest.approx(loses, abs=0.006)
