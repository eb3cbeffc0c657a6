"""What a splined head carries: balance of moments, springs, and finite elements of its section.

No worked example of the handbook was to hand.  The stresses are held against what balances
the torque; what the module says of stiffness and of missing teeth against fields and springs.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import scipy.linalg
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.spline_factors import (
    FIXED_SPLINE_WEAR,
    PowerSource,
    ServiceLoad,
    application_factor,
    distribution_factor,
    life_factor,
)
from barwright.mechanics.splines import (
    head_shear_stress,
    missing_tooth_factor,
    tooth_bearing_stress,
    tooth_shear_stress,
)
from barwright.mechanics.torsion import polar_second_moment, shear_stress
from outside.sections import torsion_constant
from spline_outlines import Rack, cut_spline, disc, least_radius

# -- The printed tables ----------------------------------------------------------------

# Dudley (1957), as carried by Machinery's Handbook, 27th ed., p. 2171 to 2175 (read).
K_A = {
    "turbine or electric motor": (1.0, 1.2, 1.5, 1.8),
    "hydraulic motor": (1.2, 1.3, 1.8, 2.1),
    "combustion engine": (2.0, 2.2, 2.4, 2.8),
}
L_F = {1e3: (1.8, 1.8), 1e4: (1.0, 1.0), 1e5: (0.5, 0.4), 1e6: (0.4, 0.3), 1e7: (0.3, 0.2)}
FACES = (0.012, 0.025, 0.050, 0.100)
K_M = {
    0.001: (1.0, 1.0, 1.0, 1.5),
    0.002: (1.0, 1.0, 1.5, 2.0),
    0.004: (1.0, 1.5, 2.0, 2.5),
    0.008: (1.5, 2.0, 2.5, 3.0),
}


@pytest.mark.parametrize("power_source", PowerSource)
def test_application_factors_are_the_printed_ones(power_source: PowerSource) -> None:
    factors = [application_factor(power_source=power_source, service_load=s) for s in ServiceLoad]

    assert factors == list(K_A[power_source.value])


@pytest.mark.parametrize("cycles", L_F)
def test_life_factors_are_the_printed_ones(cycles: float) -> None:
    one_way, reverses = L_F[cycles]

    assert life_factor(cycles) == pytest.approx(one_way, rel=1e-14)
    assert life_factor(cycles, reverses=True) == pytest.approx(reverses, rel=1e-14)


@pytest.mark.parametrize("misalignment", K_M)
def test_distribution_factors_are_the_printed_ones(misalignment: float) -> None:
    factors = distribution_factor(misalignment=misalignment, face_width=np.array(FACES))

    assert np.asarray(factors).tolist() == list(K_M[misalignment])


def test_a_fixed_spline_wears_nine_times_as_slowly_as_it_tires() -> None:
    # Printed: S_c = 2 T K_m K_a / (D N L_e h · 9 L_f) where the spline does not slide.
    assert FIXED_SPLINE_WEAR == 9.0


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


def _shares(teeth: int, missing: tuple[int, ...], *, lean: float, central: bool) -> Any:
    """Moments of equal springs at the teeth, one along each flank's normal, under unit torque.

    The head is rigid; it turns, and unless it is held central it moves sideways too, until
    forces and moment balance.  The normals lean from the tangent by the pressure angle.
    """
    angles = np.array([math.tau * n / teeth for n in range(teeth) if n not in missing])
    across = angles + math.pi / 2.0 + lean
    turning = np.full(angles.size, math.cos(lean))
    stretch = np.column_stack([np.cos(across), np.sin(across), turning])
    if central:
        stretch = stretch[:, 2:]
    load = np.zeros(stretch.shape[1])
    load[-1] = 1.0
    return stretch @ scipy.linalg.solve(stretch.T @ stretch, load) * math.cos(lean)


@pytest.mark.parametrize("missing", [(0,), (0, 1), (0, 3, 10)])
def test_teeth_of_a_central_head_share_what_the_missing_ones_leave(
    missing: tuple[int, ...],
) -> None:
    whole = _shares(40, (), lean=math.radians(30.0), central=True)
    left = _shares(40, missing, lean=math.radians(30.0), central=True)
    factor = missing_tooth_factor(teeth=40, missing=len(missing))

    np.testing.assert_allclose(left / whole[0], float(factor), rtol=1e-12)


@pytest.mark.parametrize("lean", [0.0, math.radians(30.0), math.radians(45.0)])
def test_head_that_moves_sideways_loads_the_teeth_beside_a_gap_more(lean: float) -> None:
    # As the module says: about 8 % with one missing of 40, where the mean rises by 2.6 %.
    share = _shares(40, (0,), lean=lean, central=False) * 40.0

    assert float(np.mean(share)) == pytest.approx(1.026, abs=5e-4)
    assert float(np.max(share)) == pytest.approx(1.08, abs=5e-3)
    assert int(np.argmax(share)) in (0, 38)


# -- Finite elements of the section ----------------------------------------------------


FLAT = Rack(pressure_angle=30.0, reach=0.75, addendum=0.5)
FILLET = Rack(pressure_angle=30.0, reach=0.9, addendum=0.5)


def test_bounds_close_on_a_round_section() -> None:
    found = torsion_constant(disc(30.0))
    exact = float(polar_second_moment(diameter=30.0))

    # A polygon of 2048 sides has 3e-6 less.
    assert found.low == pytest.approx(exact, rel=1e-5)
    assert found.high == pytest.approx(exact, rel=1e-5)
    assert found.low < exact


@pytest.mark.parametrize(
    ("teeth", "module", "rack", "stiffer", "loses"),
    [
        (40, 0.75, FLAT, 5.9, 0.15),
        (40, 0.75, FILLET, 6.95, 0.18),
        (22, 1.25, FLAT, 11.4, 0.51),
    ],
    ids=["40 flat", "40 fillet", "22 flat"],
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
