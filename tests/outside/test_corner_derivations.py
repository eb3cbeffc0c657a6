"""Corner statics against virtual work in sympy, energy and quadrature."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import scipy.integrate
import scipy.optimize
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from barwright.mechanics.bar.torsion import strain_energy
from barwright.mechanics.corner.springs import GasForce, Spring
from barwright.mechanics.corner.statics import (
    arm_per_free_angle,
    bar_torque,
    settle,
    wheel_load,
    wheel_rate,
)
from barwright.mechanics.linkage.arm_and_strut import Linkage, Motion, Strut, SwingArm
from barwright.mechanics.linkage.wheel_carrier import Path
from draws import draws

ARM = SwingArm(
    load_point=(0.42, -0.28),
    hub_point=(0.42, 0.01),
    damper_foot=(0.31, -0.03),
    damper_mount=(0.24, 0.52),
)
STRUT = Strut(
    arm_radius=0.36,
    top_mount=(0.28, 0.62),
    offset=-0.03,
    length_below=0.04,
    reference_angle=-0.05,
    load_point=(0.12, -0.27),
    hub_point=(0.12, 0.03),
)
GAS = GasForce(force=260.0, at_length=0.50, slope=-700.0)
LINKAGES = st.sampled_from([ARM, STRUT])
GASES = st.builds(
    GasForce, force=st.floats(0.0, 400.0), at_length=st.just(0.5), slope=st.floats(-1500.0, 0.0)
)
RATES = st.floats(2500.0, 6000.0)
LOADS = st.floats(1200.0, 3800.0)
ANGLES = st.floats(-0.35, 0.35)

PHI, RATE, FREE = sympy.symbols("phi k phi_free", real=True)
HEIGHT, STORED = sympy.Function("z")(PHI), sympy.Function("U")(PHI)


class _AnySpring(Spring):
    """A spring of which nothing is known but that it stores energy."""

    def hold(self, motion: Motion) -> tuple[Any, Any]:
        """Slope of the energy, and the slope's own."""
        return STORED.diff(motion.angle), STORED.diff(motion.angle, 2)


def _of_energy() -> tuple[sympy.Expr, sympy.Expr, sympy.Expr]:
    """Load, wheel rate and arm per free angle from the energy of any corner."""
    load = sympy.diff(RATE * (PHI - FREE) ** 2 / 2 + STORED, PHI) / sympy.diff(HEIGHT, PHI)
    rate = sympy.diff(load, PHI) / sympy.diff(HEIGHT, PHI)
    # Rest under a constant load, implicitly: d(load) = 0 in both angles.
    per_free = -sympy.diff(load, FREE) / sympy.diff(load, PHI)
    return load, rate, per_free


def _any_motion() -> Motion:
    """State of any linkage, in derivatives of its unknown functions."""
    path = Path(sympy.Symbol("y"), HEIGHT, slope=HEIGHT.diff(PHI), curvature=HEIGHT.diff(PHI, 2))
    length = sympy.Function("s")(PHI)
    return Motion(PHI, path, path, length, length.diff(PHI), length.diff(PHI, 2), PHI)


def test_wheel_load_is_that_of_virtual_work_for_any_linkage() -> None:
    load, _, _ = _of_energy()
    found = wheel_load(_any_motion(), torque=RATE * (PHI - FREE), springs=[_AnySpring()])

    assert sympy.simplify(found - load) == 0


def test_bar_torque_is_that_of_virtual_work_for_any_linkage() -> None:
    load, _, _ = _of_energy()
    found = bar_torque(_any_motion(), load=load, springs=[_AnySpring()])

    assert sympy.simplify(found - RATE * (PHI - FREE)) == 0


def test_wheel_rate_is_that_of_virtual_work_for_any_linkage() -> None:
    load, rate, _ = _of_energy()
    found = wheel_rate(_any_motion(), rate=RATE, load=load, springs=[_AnySpring()])

    assert sympy.simplify(found - rate) == 0


def test_arm_per_free_angle_is_that_of_virtual_work_for_any_linkage() -> None:
    load, _, per_free = _of_energy()
    found = arm_per_free_angle(_any_motion(), rate=RATE, load=load, springs=[_AnySpring()])

    assert sympy.simplify(found - per_free) == 0


def _rest(linkage: Linkage, **figures: Any) -> Any:
    """Angle of rest."""
    return settle(linkage, **figures).angle


@given(radius=st.floats(0.2, 0.6), angle=st.floats(-0.6, 0.6), rate=RATES, torque=LOADS)
def test_wheel_rate_of_a_plain_arm_has_its_closed_form(
    radius: float, angle: float, rate: float, torque: float
) -> None:
    arm = SwingArm((radius, 0.0), (radius, 0.0), (0.3, 0.0), (0.3, 0.5))
    motion = arm.motion(angle)
    found = wheel_rate(motion, rate=rate, load=wheel_load(motion, torque=torque))
    expected = (rate + torque * math.tan(angle)) / (radius * math.cos(angle)) ** 2

    assert found == pytest.approx(expected, rel=1e-13)


@settings(max_examples=draws(50))
@given(linkage=LINKAGES, angle=ANGLES, rate=RATES, twist=st.floats(0.1, 0.6), gas=GASES)
def test_wheel_rate_is_the_slope_of_the_load_curve(
    linkage: Linkage, angle: float, rate: float, twist: float, gas: GasForce
) -> None:
    step = 1e-4
    before, here, after = (linkage.motion(angle + n * step) for n in (-1, 0, 1))
    low, load, high = (
        wheel_load(motion, torque=rate * (twist + n * step), springs=[gas])
        for n, motion in ((-1, before), (0, here), (1, after))
    )
    slope = (high - low) / (after.load.height - before.load.height)

    assert wheel_rate(here, rate=rate, load=load, springs=[gas]) == pytest.approx(slope, rel=1e-5)


@settings(max_examples=draws(30))
@given(linkage=LINKAGES, rate=RATES, free=st.floats(-0.9, -0.4), gas=GASES)
def test_work_of_the_load_is_stored_in_bar_and_gas(
    linkage: Linkage, rate: float, free: float, gas: GasForce
) -> None:
    def load_times_slope(angle: float) -> float:
        motion = linkage.motion(angle)
        load = wheel_load(motion, torque=rate * (angle - free), springs=[gas])
        return float(load * motion.load.slope)

    work, _ = scipy.integrate.quad(load_times_slope, -0.3, 0.4, epsrel=1e-12)
    droop, bump = linkage.motion(-0.3).damper_length, linkage.motion(0.4).damper_length
    gas_work, _ = scipy.integrate.quad(gas.at, bump, droop)
    stored = strain_energy(rate=rate, twist=0.4 - free) - strain_energy(
        rate=rate, twist=-0.3 - free
    )

    assert work == pytest.approx(stored + gas_work, rel=1e-10)


def _least_energy(
    linkage: Linkage, *, free: float, rate: float, load: float, gas: GasForce
) -> float:
    """Arm angle between -0.5 and 0.5 where bar, gas and load hold the least energy."""

    def energy(angle: float) -> float:
        motion = linkage.motion(angle)
        length = float(motion.damper_length)
        pressed = float(gas.force * length + gas.slope * (length - gas.at_length) ** 2 / 2.0)
        wound = max(angle - free, 0.0)
        return 0.5 * rate * wound**2 - load * float(motion.load.height) - pressed

    result = scipy.optimize.minimize_scalar(
        energy, bounds=(-0.5, 0.5), method="bounded", options={"xatol": 1e-9}
    )
    return float(result.x)


@settings(max_examples=draws(60))
@given(linkage=LINKAGES, free=st.floats(-1.2, 0.4), rate=RATES, load=LOADS, gas=GASES)
def test_corner_settles_where_energy_is_least(
    linkage: Linkage, free: float, rate: float, load: float, gas: GasForce
) -> None:
    angle = _rest(
        linkage, free_angle=free, rate=rate, load=load, droop=-0.5, bump=0.5, springs=[gas]
    )
    expected = _least_energy(linkage, free=free, rate=rate, load=load, gas=gas)

    # A minimum is only found to the root of the rounding of its energy.
    assert angle == pytest.approx(expected, abs=2e-6)


@pytest.mark.parametrize("load", [20.0, 150.0, 400.0])
@pytest.mark.parametrize("linkage", [ARM, STRUT], ids=["swing arm", "strut"])
def test_gas_and_load_decide_alone_where_the_bar_is_slack(linkage: Linkage, load: float) -> None:
    spring = GasForce(force=180.0, slope=-1500.0, at_length=0.5)
    angle = _rest(
        linkage, free_angle=0.45, rate=3000.0, load=load, droop=-0.5, bump=0.5, springs=[spring]
    )
    expected = _least_energy(linkage, free=0.45, rate=3000.0, load=load, gas=spring)

    assert angle == pytest.approx(expected, abs=2e-6)


@settings(max_examples=draws(60))
@given(linkage=LINKAGES, free=st.floats(-0.6, -0.2), rate=RATES, load=LOADS, gas=GASES)
def test_corner_between_its_limits_is_in_balance(
    linkage: Linkage, free: float, rate: float, load: float, gas: GasForce
) -> None:
    angle = float(
        _rest(linkage, free_angle=free, rate=rate, load=load, droop=-0.7, bump=1.2, springs=[gas])
    )
    carried = wheel_load(linkage.motion(angle), torque=rate * (angle - free), springs=[gas])

    assert carried == pytest.approx(load, rel=1e-10)


@pytest.mark.parametrize("linkage", [ARM, STRUT], ids=["swing arm", "strut"])
def test_corner_that_cannot_carry_its_load_rests_on_bump(linkage: Linkage) -> None:
    angle = _rest(
        linkage, free_angle=0.1, rate=3000.0, load=2500.0, droop=-0.2, bump=0.3, springs=[GAS]
    )
    carried = wheel_load(linkage.motion(0.3), torque=3000.0 * (0.3 - 0.1), springs=[GAS])

    assert carried < 2500.0
    assert angle == 0.3


@pytest.mark.parametrize("linkage", [ARM, STRUT], ids=["swing arm", "strut"])
def test_corner_that_carries_more_than_its_load_hangs_at_droop(linkage: Linkage) -> None:
    angle = _rest(
        linkage, free_angle=-0.9, rate=3000.0, load=2500.0, droop=-0.2, bump=0.3, springs=[GAS]
    )
    carried = wheel_load(linkage.motion(-0.2), torque=3000.0 * (0.9 - 0.2), springs=[GAS])

    assert carried > 2500.0
    assert angle == -0.2


@settings(max_examples=draws(40))
@given(
    linkage=LINKAGES,
    frees=st.lists(st.floats(-1.2, 0.4), min_size=2, max_size=5),
    rate=RATES,
    gas=GASES,
)
def test_column_of_corners_settles_as_each_alone(
    linkage: Linkage, frees: list[float], rate: float, gas: GasForce
) -> None:
    loads = np.array([[1500.0], [3000.0]])

    def rest(free: float | NDArray[np.float64], load: float | NDArray[np.float64]) -> object:
        return _rest(
            linkage, free_angle=free, rate=rate, load=load, droop=-0.3, bump=0.35, springs=[gas]
        )

    column = np.asarray(rest(np.array(frees), loads))

    assert column.shape == (2, len(frees))
    for index, angle in np.ndenumerate(column):
        alone = rest(frees[index[1]], float(loads[index[0], 0]))
        assert isinstance(alone, float)
        assert angle == pytest.approx(alone, abs=1e-14)


@settings(max_examples=draws(40))
@given(linkage=LINKAGES, free=st.floats(-0.6, -0.45), rate=RATES, gas=GASES)
def test_arm_per_free_angle_is_the_slope_of_settling(
    linkage: Linkage, free: float, rate: float, gas: GasForce
) -> None:
    def rest(free_angle: float) -> float:
        return float(
            _rest(
                linkage,
                free_angle=free_angle,
                rate=rate,
                load=2000.0,
                droop=-0.7,
                bump=1.2,
                springs=[gas],
            )
        )

    step = 1e-4
    slope = (rest(free + step) - rest(free - step)) / (2.0 * step)
    found = arm_per_free_angle(linkage.motion(rest(free)), rate=rate, load=2000.0, springs=[gas])

    assert found == pytest.approx(slope, rel=1e-6)


@settings(max_examples=draws(40))
@given(linkage=LINKAGES, angle=ANGLES, rate=RATES, load=LOADS, gas=GASES)
def test_free_angle_for_a_height_leads_back_to_it(
    linkage: Linkage, angle: float, rate: float, load: float, gas: GasForce
) -> None:
    torque = bar_torque(linkage.motion(angle), load=load, springs=[gas])
    rest = _rest(
        linkage,
        free_angle=angle - torque / rate,
        rate=rate,
        load=load,
        droop=-0.5,
        bump=0.5,
        springs=[gas],
    )
    assert rest == pytest.approx(angle, abs=1e-12)


def test_no_springs_are_the_default() -> None:
    motion = STRUT.motion(0.1)

    assert wheel_load(motion, torque=900.0) == wheel_load(motion, torque=900.0, springs=())
    assert wheel_load(motion, torque=900.0) < wheel_load(motion, torque=900.0, springs=[GAS])
