"""Inclined bars, against a multibody engine whose hinge is the bar axis itself.

The engine knows neither the plane nor its directions: it turns a wheel about a vector and
tells where it goes and what a vertical load does to the hinge.  The plane's directions are
null spaces, by scipy.
"""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Any

import numpy as np
from scipy.linalg import null_space

from barwright.mechanics.common.bar_axes import BarPlane, bar_plane
from barwright.mechanics.corner.statics import wheel_load, wheel_rate
from barwright.mechanics.linkage.arm_and_strut import SwingArm
from inclined_arm import HingedArm
from validation import Kind, Row

# Along the vehicle, running inward and climbing forward; the arm points out on the left.
BAR = (0.9, -0.3, 0.4)
ARM = (0.3, 0.9, 0.0)
RADIUS, ANGLE, LOAD = 0.4, 0.21, 3000.0
WHEEL = tuple(RADIUS * float(x) for x in np.array(ARM) / np.hypot(*ARM[:2]))
LINKAGE = SwingArm((RADIUS, 0.0), (RADIUS, 0.0), (0.1, 0.0), (0.1, 0.4))
_BAR = "bar along (0.9, −0.3, 0.4), arm along (0.3, 0.9, 0)"
_GIVEN = f"{_BAR}; wheel 400 mm from it, from level to 0.21 rad"

_engine_row = functools.partial(
    Row,
    source="MuJoCo: a wheel on a hinge along the bar",
    given=_GIVEN,
    within=1e-9,
    kind=Kind.ENGINE,
)
_plane_row = functools.partial(
    _engine_row,
    of="bar_axes.bar_plane",
    source="scipy: null spaces of bar axis and vertical",
    kind=Kind.FORMULATED,
    given=_BAR,
)


def _plane() -> BarPlane:
    return bar_plane(bar_axis=BAR, arm_direction=ARM)


def _level() -> Any:
    level = null_space(np.array([BAR, (0.0, 0.0, 1.0)]))[:, 0]
    return level * np.sign(level @ ARM)


def _rising() -> Any:
    rising = null_space(np.array([BAR, _level()]))[:, 0]
    return rising * np.sign(rising[2])


def _part(vector: Callable[[], Any], part: int) -> float:
    return float(vector()[part])


def _engine() -> HingedArm:
    return HingedArm(BAR, WHEEL)


def _moved() -> Any:
    return _engine().at(ANGLE).wheel - np.array(WHEEL)


def _shift() -> dict[str, float]:
    there, here = LINKAGE.motion(ANGLE).load, LINKAGE.motion(0.0).load
    return {
        "outboard": float(there.outboard - here.outboard),
        "height": float(there.height - here.height),
    }


RATE, FREE = 3600.0, -0.5


def _engine_load(angle: float) -> float:
    """Vertical load that the bar carries at an arm angle."""
    return RATE * (angle - FREE) / _engine().at(angle).torque((0.0, 0.0, 1.0))


def _engine_rate() -> float:
    """Change of that load with the wheel's height, extrapolated from differences."""

    def ratio(step: float) -> float:
        heights = [_engine().at(ANGLE + x).wheel[2] for x in (-step, step)]
        loads = [_engine_load(ANGLE + x) for x in (-step, step)]
        return float((loads[1] - loads[0]) / (heights[1] - heights[0]))

    # Richardson: errors go with the even powers of the step.
    one, two, four = (ratio(step) for step in (0.005, 0.01, 0.02))
    better = [one + (one - two) / 3.0, two + (two - four) / 3.0]
    return float(better[0] + (better[0] - better[1]) / 15.0)


def _rate() -> float:
    motion = LINKAGE.motion(ANGLE)
    load = wheel_load(motion, torque=RATE * (ANGLE - FREE))
    return float(wheel_rate(motion, rate=RATE, load=load) / _plane().vertical_share ** 2)


ROWS = [
    *(
        _plane_row(
            unit=f"({name} part of outboard)",
            expected=functools.partial(_part, _level, part),
            got=functools.partial(_part, lambda: _plane().outboard, part),
        )
        for part, name in ((0, "forward"), (1, "left"))
    ),
    *(
        _plane_row(
            unit=f"({name} part of up)",
            expected=functools.partial(_part, _rising, part),
            got=functools.partial(_part, lambda: _plane().up, part),
        )
        for part, name in enumerate(("forward", "left", "upward"))
    ),
    _engine_row(
        of="bar_axes.BarPlane.bump_axis",
        given=_BAR,
        unit="(upward part)",
        expected=lambda: _engine().bump_axis[2],
        got=lambda: float(_plane().bump_axis[2]),
    ),
    _engine_row(
        of="bar_axes.BarPlane.sense",
        given=_BAR,
        unit="",
        expected=lambda: _engine().sense,
        got=lambda: float(np.asarray(_plane().sense)),
    ),
    _engine_row(
        of="bar_axes.BarPlane.sense",
        given="the same bar, arm to the other side",
        unit="",
        expected=lambda: HingedArm(BAR, [-x for x in WHEEL]).sense,
        got=lambda: float(
            np.asarray(bar_plane(bar_axis=BAR, arm_direction=[-x for x in ARM]).sense)
        ),
    ),
    _engine_row(
        of="bar_axes.BarPlane.vertical_share",
        given=f"{_BAR}; wheel 400 mm from it, level: rise per arc",
        unit="",
        expected=lambda: _engine().velocity[2] / np.linalg.norm(_engine().velocity),
        got=lambda: float(_plane().vertical_share),
    ),
    _engine_row(
        of="bar_axes.BarPlane.vertical_share",
        given=f"{_GIVEN}; 3000 N upward, by its torque about the bar",
        unit="N·m",
        expected=lambda: _engine().at(ANGLE).torque((0.0, 0.0, LOAD)),
        got=lambda: float(LOAD * _plane().vertical_share * LINKAGE.motion(ANGLE).load.slope),
    ),
    _engine_row(
        of="bar_axes.BarPlane.vertical_share",
        unit="m",
        expected=lambda: _moved()[2],
        got=lambda: float(_plane().vertical_share * _shift()["height"]),
    ),
    _engine_row(
        of="bar_axes.BarPlane.vertical_share",
        source="MuJoCo: load on a hinge along the bar, by differences",
        given=f"{_GIVEN}; 3600 N·m/rad, free at −0.5 rad",
        unit="N/m",
        expected=_engine_rate,
        got=_rate,
    ),
    *(
        _engine_row(
            of="bar_axes.BarPlane.in_vehicle",
            unit=f"m ({name})",
            expected=functools.partial(_part, _moved, part),
            got=functools.partial(_part, lambda: _plane().in_vehicle(**_shift()), part),
        )
        for part, name in enumerate(("forward", "left", "up"))
    ),
    _engine_row(
        of="bar_axes.BarPlane.track_change",
        unit="m",
        expected=lambda: _moved()[1],
        got=lambda: float(_plane().track_change(**_shift(), wheel_side=1)),
    ),
    _engine_row(
        of="bar_axes.BarPlane.wheelbase_change",
        unit="m",
        expected=lambda: _moved()[0],
        got=lambda: float(_plane().wheelbase_change(**_shift())),
    ),
]
