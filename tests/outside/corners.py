"""Corners with springs beside the bar, seen by others than our own formulas.

:class:`Engine` builds a swing arm from a hinge, tendons and a mass in a general multibody
engine, whose x is outboard and z up; hinges turn about -y, so that a positive angle
lifts the arm.  The load is a point mass in a field that pulls it upward.  A table of a
bump stop is a row of tendons, each of which begins to press where the one before
turns steeper; the bar is one that holds above its free angle only.  :class:`Energy` sums
what bar, springs and load hold, from complex numbers for points and splines of first
degree for tables.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import attrs
import mujoco
import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import make_interp_spline
from scipy.optimize import brentq

from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring, Spring
from barwright.mechanics.linkage.arm_and_strut import SwingArm

Floats = NDArray[np.float64]

# Longer than any tendon, so that it only pushes.
_FAR = 99.0


def _line(stiffness: float, slack: str, foot: int) -> str:
    return (
        f'<spatial stiffness="{stiffness!r}" springlength="{slack}">'
        f'<site site="top{foot}"/><site site="foot{foot}"/></spatial>'
    )


def _turn(stiffness: float, slack: str, radius: float) -> str:
    return (
        f'<fixed stiffness="{stiffness!r}" springlength="{slack}">'
        f'<joint joint="bar" coef="{radius!r}"/></fixed>'
    )


def _steeper(stop: BumpStop) -> list[tuple[float, float]]:
    """Compressions at which a stop's table turns steeper, and by how much."""
    rates = np.diff(stop.forces) / np.diff(stop.compressions)
    return [
        (float(start), float(more))
        for start, more in zip(stop.compressions, np.diff(rates, prepend=0.0), strict=False)
    ]


def _tendons(spring: Spring, foot: int) -> Iterator[str]:
    """One spring as the engine's own; a stop at the hub has none."""
    if isinstance(spring, GasForce):
        free = float(spring.at_length - spring.force / spring.slope)
        yield _line(-float(spring.slope), f"{free!r}", 0)
    elif isinstance(spring, HelperSpring):
        free = float(spring.free_length + spring.seat_offset)
        yield _line(float(spring.rate), f"{free!r} {_FAR}", foot)
    elif isinstance(spring, Bushing):
        yield _turn(float(spring.rate), f"{float(spring.tightened_at)!r}", 1.0)
    elif isinstance(spring, BumpStop) and spring.at_length is not None:
        for start, more in _steeper(spring):
            yield _line(more, f"{float(spring.at_length) - start!r} {_FAR}", 0)
    elif isinstance(spring, BumpStop) and spring.at_angle is not None and spring.radius is not None:
        for start, more in _steeper(spring):
            begins = float(spring.radius * spring.at_angle) + start
            yield _turn(more, f"-{_FAR} {begins!r}", float(spring.radius))


def _feet(arm: SwingArm, springs: Sequence[Spring]) -> Iterator[tuple[Floats, Floats]]:
    """Points on arm and chassis between which springs act, the damper's first."""
    damper = np.array(arm.damper_foot), np.array(arm.damper_mount)
    yield damper
    for spring in springs:
        if isinstance(spring, HelperSpring) and spring.arm_point is not None:
            yield np.array(spring.arm_point), np.array(spring.chassis_point)
        else:
            yield damper


def _site(name: str, at: Floats) -> str:
    return f'<site name="{name}" pos="{float(at[0])!r} 0 {float(at[1])!r}"/>'


class Engine:
    """A swing arm with its bar and springs in the multibody engine.

    The bar is a tendon, slack below its free angle, or a stiffness of the hinge itself,
    which is clamped: its rate and its free angle.
    """

    def __init__(
        self,
        arm: SwingArm,
        springs: Sequence[Spring] = (),
        *,
        rate: float = 0.0,
        free: float = 0.0,
        clamped: tuple[float, float] = (0.0, 0.0),
        mass: float = 1e-9,
        damping: float = 0.0,
        damper: float = 0.0,
        timestep: float = 0.001,
        gravity: float = 9.80665,
    ) -> None:
        feet = list(_feet(arm, springs))
        tendons = [one for i, spring in enumerate(springs, 1) for one in _tendons(spring, i)]
        (x, z), hub = arm.load_point, np.array(arm.hub_point)
        self.model = mujoco.MjModel.from_xml_string(f"""
        <mujoco>
          <compiler angle="radian"/>
          <option gravity="0 0 {gravity!r}" timestep="{timestep!r}" integrator="RK4">
            <flag contact="disable"/>
          </option>
          <worldbody>
            {"".join(_site(f"top{i}", top) for i, (_, top) in enumerate(feet))}
            <body>
              <joint name="bar" type="hinge" axis="0 -1 0" damping="{damping!r}"
                     stiffness="{clamped[0]!r}" springref="{clamped[1]!r}"/>
              <inertial pos="{float(x)!r} 0 {float(z)!r}" mass="{mass!r}"
                        diaginertia="1e-9 1e-9 1e-9"/>
              {"".join(_site(f"foot{i}", foot) for i, (foot, _) in enumerate(feet))}
              {_site("hub", hub)}
            </body>
          </worldbody>
          <tendon>
            <spatial damping="{damper!r}"><site site="top0"/><site site="foot0"/></spatial>
            {_turn(rate, f"-{_FAR} {free!r}", 1.0)}
            {"".join(tendons)}
          </tendon>
        </mujoco>
        """)
        self.data = mujoco.MjData(self.model)

    def holds(self, angle: float) -> float:
        """Torque of bar and springs on the arm, in the sense that carries the car."""
        self._stand(angle)
        return -float(self.data.qfrc_passive[0])

    def stiffness(self, angle: float, *, step: float = 1e-4) -> float:
        """Change of that torque with arm angle, from four torques around it."""
        near, far = (self.holds(angle + n * step) - self.holds(angle - n * step) for n in (1, 2))
        return (8.0 * near - far) / (12.0 * step)

    def shortens(self, angle: float, *, tendon: int = 0, step: float = 1e-4) -> float:
        """How much a tendon shortens for a unit of arm angle, the damper the first of them."""
        near, far = (
            self.length(angle - n * step, tendon) - self.length(angle + n * step, tendon)
            for n in (1, 2)
        )
        return (8.0 * near - far) / (12.0 * step)

    def length(self, angle: float, tendon: int = 0) -> float:
        """Length of a tendon."""
        self._stand(angle)
        return float(self.data.ten_length[tendon])

    def carries(self, angle: float) -> float:
        """Load at the wheel that balances bar and springs."""
        return self.holds(angle) / self.lever(angle)

    def wheel_rate(self, angle: float, *, step: float = 1e-4) -> float:
        """Change of that load with the height of where it acts, from four loads around it."""
        near, far = (
            self.carries(angle + n * step) - self.carries(angle - n * step) for n in (1, 2)
        )
        return (8.0 * near - far) / (12.0 * step * self.lever(angle))

    def balances(self, load: float, low: float, high: float) -> float:
        """Angle between two others at which bar and springs balance a load."""

        def missing(angle: float) -> float:
            return self.holds(angle) - load * self.lever(angle)

        return float(brentq(missing, low, high, xtol=1e-15, rtol=1e-14))

    def damping(self, angle: float) -> float:
        """Torque of the damper for a unit of the arm's speed."""
        self._stand(angle, speed=1.0)
        moving = float(self.data.qfrc_passive[0])
        self._stand(angle)
        return float(self.data.qfrc_passive[0]) - moving

    def lever(self, angle: float, *, hub: bool = False) -> float:
        """Rise of load point or hub for a unit of arm angle."""
        self._stand(angle)
        point = self.data.site("hub").xpos if hub else self.data.xipos[1]
        moves = np.zeros((3, 1))
        mujoco.mj_jac(self.model, self.data, moves, None, np.array(point), 1)
        return float(moves[2, 0])

    def hub_height(self, angle: float) -> float:
        """Height of the hub above the bar axis."""
        self._stand(angle)
        return float(self.data.site("hub").xpos[2])

    def lowered_on(self, start: float, *, seconds: float) -> float:
        """Angle of rest after the load was lowered on from an angle, slowly."""
        self.data.qpos[0] = start
        full = float(self.model.opt.gravity[2])
        for share in np.linspace(0.0, 1.0, 51):
            self.model.opt.gravity[2] = share * full
            self.run(seconds / 100.0)
        self.run(seconds / 2.0)
        assert abs(self.data.qvel[0]) < 1e-7
        return float(self.data.qpos[0])

    def run(self, seconds: float) -> None:
        """Let time go by."""
        mujoco.mj_step(self.model, self.data, round(seconds / self.model.opt.timestep))

    def _stand(self, angle: float, *, speed: float = 0.0) -> None:
        self.data.qpos[0] = angle
        self.data.qvel[0] = speed
        mujoco.mj_forward(self.model, self.data)


@attrs.frozen(kw_only=True)
class Energy:
    """Energy of a swing arm with bar, springs and load at an arm angle."""

    arm: SwingArm
    rate: float
    free: float
    load: float
    springs: Sequence[Spring] = ()

    def __call__(self, angle: float | Floats) -> Floats:
        """Energy at one or several arm angles [J], up to a constant."""
        turn = np.exp(1j * np.asarray(angle))
        wound = np.maximum(np.asarray(angle) - self.free, 0.0)
        bar = 0.5 * self.rate * wound**2
        weight = self.load * (complex(*self.arm.load_point) * turn).imag
        beside = sum(self._beside(spring, np.asarray(angle), turn) for spring in self.springs)
        return np.asarray(bar + beside - weight)

    def _beside(self, spring: Spring, angle: Floats, turn: NDArray[np.complex128]) -> Floats:
        reach = complex(*self.arm.damper_mount) - complex(*self.arm.damper_foot) * turn
        damper = np.asarray(np.abs(reach), dtype=np.float64)
        if isinstance(spring, GasForce):
            beyond = damper - spring.at_length
            return np.asarray(-(spring.force * beyond + spring.slope * beyond**2 / 2.0))
        if isinstance(spring, Bushing):
            return np.asarray(spring.rate * (angle - spring.tightened_at) ** 2 / 2.0)
        if isinstance(spring, HelperSpring):
            length = damper
            if spring.arm_point is not None and spring.chassis_point is not None:
                reach = complex(*spring.chassis_point) - complex(*spring.arm_point) * turn
                length = np.asarray(np.abs(reach), dtype=np.float64)
            pressed = np.maximum(spring.free_length + spring.seat_offset - length, 0.0)
            return np.asarray(spring.rate * pressed**2 / 2.0)
        assert isinstance(spring, BumpStop)
        hub = (complex(*self.arm.hub_point) * turn).imag
        return _pressing(spring, angle=angle, damper=damper, hub=hub)


def _pressing(stop: BumpStop, *, angle: Floats, damper: Floats, hub: Floats) -> Floats:
    """Energy in a stop: the integral of its table."""
    if stop.at_length is not None:
        pressed = stop.at_length - damper
    elif stop.at_height is not None:
        pressed = hub - stop.at_height
    else:
        assert stop.at_angle is not None
        assert stop.radius is not None
        pressed = stop.radius * (angle - stop.at_angle)
    table = make_interp_spline(stop.compressions, stop.forces, k=1)
    return np.asarray(table.antiderivative()(np.maximum(pressed, 0.0)))


def table_force(stop: BumpStop, compression: float) -> float:
    """Force of a stop by a spline of first degree through its table."""
    return float(make_interp_spline(stop.compressions, stop.forces, k=1)(compression))


def damping_for(mass: float, arm: SwingArm, rate: float) -> float:
    """Near critical damping of an arm about the bar axis."""
    return 1.6 * math.sqrt(rate * mass * (arm.load_point[0] ** 2 + arm.load_point[1] ** 2))
