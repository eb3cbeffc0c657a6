"""Whole corners of records, double wishbones on bars that lie anyhow, in a multibody engine.

The engine's axes are those of the vehicle.  It has two arms on hinges and an upright on
the lower one, and says where their points are in space; the upright is turned until its
upper end meets the upper arm's.  What bar, rubber, coil and gas hold as energy is summed
from their own lengths and angles, and the corner rests where the sum, less the work of
the vertical load, is least.  The tyre contact is a point straight under the hub, which on
an inclined bar lies out of the plane.
"""

from __future__ import annotations

from typing import Any

import mujoco
import numpy as np
import pytest
from scipy.integrate import quad
from scipy.interpolate import make_interp_spline
from scipy.optimize import brentq, root

import barwright as bw
from barwright.analysis.corner.corner import Corner
from barwright.units import ANGLE, FORCE, GAS_SLOPE, LENGTH, TORSIONAL_RATE, WHEEL_RATE, si
from sample_records import double_wishbone_mounting, make_setup

GRAVITY = 9.80665

BESIDE = {
    "bump_rubber": bw.parts.BumpRubber(
        curve=(
            bw.parts.BumpRubberForce(compression="12 mm", force="350 N"),
            bw.parts.BumpRubberForce(compression="30 mm", force="1900 N"),
        ),
        contact_length="449 mm",
    ),
    "bushing": bw.parts.ArmBushing(rate="2.5 N*m/deg", set_angle="3 deg"),
    "helper_coil": bw.parts.HelperCoil(rate="9 N/mm", free_length="290 mm", seat_offset="170 mm"),
}
DAMPER = {
    "open_length": "500 mm",
    "closed_length": "340 mm",
    "gas": bw.parts.GasCharge(force="190 N", at_length="430 mm", slope="-0.4 N/mm"),
}
AXES = {
    "level": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
    "rising to the arm": ((1.0, 0.0, 0.5), (0.0, 1.0, 0.0)),
    "oblique and falling": ((0.8, 0.6, -0.7), (-0.6, 0.8, 0.0)),
}


def corner(axes: str, *, beside: bool, side: bw.parts.Side = bw.parts.Side.LEFT) -> bw.Setup:
    bar_axis, arm_direction = AXES[axes]
    axle: dict[str, Any] = {
        "bar_axis": bar_axis,
        "arm_direction": arm_direction,
        "suspension": double_wishbone_mounting(),
        "hub_up": "105 mm",
    }
    return make_setup(
        axle=axle | (BESIDE if beside else {}), damper=DAMPER, side=side, anchor_key="-171 deg"
    )


def metre(value: bw.Quantity) -> float:
    return si(value, LENGTH)


def at(*place: float) -> str:
    return f'pos="{" ".join(repr(float(x)) for x in place)}"'


class Engine:
    """Both arms and the upright of a corner."""

    def __init__(self, setup: bw.Setup) -> None:
        self.setup, self.axle = setup, setup.axle
        own: Any = self.axle.suspension
        bar, out = (np.array(v) for v in (self.axle.bar_axis, self.axle.arm_direction))
        if setup.side is bw.parts.Side.RIGHT:
            bar, out = bar * (1.0, -1.0, 1.0), out * (1.0, -1.0, 1.0)
        out = out / np.linalg.norm(out)
        up = np.cross(out, bar) / np.linalg.norm(bar)
        up = up if up[2] > 0.0 else -up
        frame = " ".join(repr(float(x)) for x in (*out, *up))
        light = '<inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>'
        hinge = '<joint type="hinge" axis="0 0 1"/>'
        self.model = mujoco.MjModel.from_xml_string(f"""
        <mujoco><compiler angle="radian"/><worldbody><body xyaxes="{frame}">
          <site name="mount" {at(metre(own.mount_outboard), metre(own.mount_up), 0)}/>
          <body name="lower">{hinge}{light}
            <site name="foot" {at(metre(own.foot_along), metre(own.foot_above), 0)}/>
            <body name="upright" {at(metre(setup.arm.radius), 0, 0)}>{hinge}{light}
              <site name="top" {at(0, metre(own.upright), 0)}/>
            </body>
          </body>
          <body name="upper" {at(metre(own.upper_outboard), metre(own.upper_up), 0)}>
            {hinge}{light}<site name="end" {at(metre(own.upper_radius), 0, 0)}/>
          </body>
        </body></worldbody></mujoco>""")
        self.data = mujoco.MjData(self.model)
        self.stand(si(self.axle.reference_angle, ANGLE))
        upright = self.data.body("upright")
        hub = metre(self.axle.hub_outboard) * out + metre(self.axle.hub_up) * up
        contact = hub - np.array([0.0, 0.0, metre(self.axle.tyre_radius)])
        # The ball joint is the upright's origin, so that these are ways from there.
        self.points = [upright.xmat.reshape(3, 3).T @ way for way in (hub, contact)]

    def stand(self, angle: float) -> None:
        """Turn the lower arm, and the others until the links meet."""

        def apart(others: Any) -> Any:
            self.data.qpos[:] = angle, others[0], others[1]
            mujoco.mj_kinematics(self.model, self.data)
            gap = self.data.site("top").xpos - self.data.site("end").xpos
            frame = self.data.body("lower").xmat.reshape(3, 3)
            return (frame.T @ gap)[:2]

        found = root(apart, [-angle, 0.0], tol=1e-13).x
        assert np.linalg.norm(apart(found)) < 1e-12

    def heights(self, angle: float) -> tuple[float, float]:
        """Heights of hub and contact over the bar axis."""
        self.stand(angle)
        upright = self.data.body("upright")
        frame = upright.xmat.reshape(3, 3)
        hub, contact = (float((upright.xpos + frame @ point)[2]) for point in self.points)
        return hub, contact

    def damper(self, angle: float) -> float:
        self.stand(angle)
        return float(np.linalg.norm(self.data.site("mount").xpos - self.data.site("foot").xpos))

    def energy(self, angle: float, *, rate: float, free: float, load: float) -> float:
        """Energy of all springs, less the work of the load."""
        total: float = rate * max(angle - free, 0.0) ** 2 / 2.0 - load * self.heights(angle)[1]
        length = self.damper(angle)
        gas: Any = self.setup.damper.gas
        start, slope = metre(gas.at_length), si(gas.slope, GAS_SLOPE)
        total += quad(lambda s: si(gas.force, FORCE) + slope * (s - start), length, start)[0]
        axle = self.axle
        if axle.bushing and axle.bushing.set_angle and axle.helper_coil and axle.bump_rubber:
            wound = angle - si(axle.bushing.set_angle, ANGLE)
            total += si(axle.bushing.rate, TORSIONAL_RATE) * wound**2 / 2.0
            coil = axle.helper_coil
            pressed = metre(coil.free_length) + metre(coil.seat_offset) - length
            total += si(coil.rate, WHEEL_RATE) * max(pressed, 0.0) ** 2 / 2.0
            total += self._rubber(axle.bump_rubber, length)
        return total

    @staticmethod
    def _rubber(rubber: Any, length: float) -> float:
        compressions = [0.0, *(metre(point.compression) for point in rubber.curve)]
        forces = [0.0, *(si(point.force, FORCE) for point in rubber.curve)]
        line = make_interp_spline(compressions, forces, k=1)
        pressed = metre(rubber.contact_length) - length
        return float(line.integrate(0.0, pressed)) if pressed > 0.0 else 0.0


@pytest.mark.parametrize("side", list(bw.parts.Side), ids=lambda side: side.value)
@pytest.mark.parametrize("beside", [False, True], ids=["bar and gas", "rubber and coil too"])
@pytest.mark.parametrize("axes", AXES)
def test_a_wishbone_corner_comes_to_rest_where_its_energy_is_least(
    axes: str, *, beside: bool, side: bw.parts.Side
) -> None:
    setup = corner(axes, beside=beside, side=side)
    there = bw.ride(setup)
    spring = Corner(setup).torsional_rates
    assert there.state is not None
    assert there.free_angle is not None
    assert spring is not None
    assert there.within_travel
    engine, angle = Engine(setup), si(there.state.arm_angle, ANGLE)
    load = si(setup.load.mass, bw.units.MASS) * GRAVITY
    known = {"rate": spring.system, "free": si(there.free_angle, ANGLE), "load": load}

    def slope(x: float) -> float:
        near, far = (
            engine.energy(x + n * 1e-3, **known) - engine.energy(x - n * 1e-3, **known)
            for n in (1, 2)
        )
        return (8.0 * near - far) / 12e-3

    assert brentq(slope, angle - 0.03, angle + 0.03, xtol=1e-12) == pytest.approx(angle, abs=1e-7)
    axle = setup.axle
    risen = engine.heights(angle)[0] - engine.heights(si(axle.measured_angle, ANGLE))[0]
    assert metre(there.state.height) == pytest.approx(metre(axle.measured_height) - risen, abs=1e-9)
    assert metre(there.state.damper_length) == pytest.approx(engine.damper(angle), abs=1e-9)


@pytest.mark.parametrize("axes", AXES)
def test_the_rate_is_the_engines_change_of_load_with_travel(axes: str) -> None:
    setup = corner(axes, beside=True)
    there = bw.ride(setup)
    spring = Corner(setup).torsional_rates
    assert there.state is not None
    assert there.free_angle is not None
    assert spring is not None
    engine, angle = Engine(setup), si(there.state.arm_angle, ANGLE)
    known = {"rate": spring.system, "free": si(there.free_angle, ANGLE), "load": 0.0}

    def carried(x: float) -> tuple[float, float]:
        step = 1e-4
        high, low = engine.energy(x + step, **known), engine.energy(x - step, **known)
        top, bottom = engine.heights(x + step)[1], engine.heights(x - step)[1]
        return (high - low) / (top - bottom), engine.heights(x)[1]

    high, low = carried(angle + 1e-3), carried(angle - 1e-3)
    rate = (high[0] - low[0]) / (high[1] - low[1])
    assert si(there.state.wheel_rate, WHEEL_RATE) == pytest.approx(rate, rel=1e-5)
