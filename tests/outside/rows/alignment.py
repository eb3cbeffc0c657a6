"""Camber, toe and castor, against a library of rotations and a multibody engine.

Camber and toe are read from the Euler angles of a wheel that scipy's rotations turn;
castor from two points of the steering axis that MuJoCo carries round.
"""

from __future__ import annotations

import functools
import math
from typing import Any

import numpy as np
from scipy.spatial.transform import Rotation

from barwright.mechanics.common.bar_axes import bar_plane
from barwright.mechanics.linkage.alignment import Alignment
from inclined_arm import HingedArm, camber_and_toe, steering_axis, wheel_frame
from validation import Kind, Row

# A trailing arm on the right, swept by 20° and its axis inclined by 5°.
_SWEEP, _CLIMB = math.radians(20.0), math.radians(5.0)
BAR = (
    -math.cos(_CLIMB) * math.sin(_SWEEP),
    math.cos(_CLIMB) * math.cos(_SWEEP),
    math.sin(_CLIMB),
)
ARM = (-math.cos(_SWEEP), -math.sin(_SWEEP), 0.0)
SIDE = -1
BEFORE = {
    "camber": math.radians(-1.0),
    "toe": math.radians(0.3),
    "castor": math.radians(4.0),
    "steering_inclination": math.radians(11.0),
}
TILT = math.radians(9.0)

_row = functools.partial(
    Row,
    of="alignment.Alignment.tilted",
    given=(
        "trailing arm on the right, swept by 20°, its axis inclined by 5°; camber −1°, toe 0.3°, "
        "castor 4°, steering axis 11° inward; 9° in bump"
    ),
    within=1e-9,
    kind=Kind.ENGINE,
)
_rotations = functools.partial(
    _row, source="scipy: Euler angles of a rotated wheel", kind=Kind.FORMULATED
)
_engine = functools.partial(_row, source="MuJoCo: two points of the steering axis on a hinge")


def _ours() -> Alignment:
    plane = bar_plane(bar_axis=BAR, arm_direction=ARM)
    return Alignment(**BEFORE).tilted(TILT, plane=plane, wheel_side=SIDE)


def _rotated() -> tuple[float, float]:
    # Up and rearward: the hinge turns so that the wheel rises.
    bump = HingedArm(BAR, ARM).bump_axis
    wheel = wheel_frame(camber=BEFORE["camber"], toe=BEFORE["toe"], side=SIDE)
    return camber_and_toe(Rotation.from_rotvec(TILT * bump) * wheel, side=SIDE)


def _carried() -> Any:
    """Way from the lower to the upper point of the steering axis, after the turn."""
    low = 0.4 * np.array(ARM)
    inclination = BEFORE["steering_inclination"]
    high = low + steering_axis(castor=BEFORE["castor"], inclination=inclination, side=SIDE)
    below, above = HingedArm(BAR, low), HingedArm(BAR, high)
    same_way = below.sense * above.sense
    return above.at(same_way * TILT).wheel - below.at(TILT).wheel


ROWS = [
    _rotations(
        unit="deg (camber)",
        expected=lambda: math.degrees(_rotated()[0]),
        got=lambda: math.degrees(float(_ours().camber)),
    ),
    _rotations(
        unit="deg (toe)",
        expected=lambda: math.degrees(_rotated()[1]),
        got=lambda: math.degrees(float(_ours().toe)),
    ),
    _engine(
        unit="deg (castor)",
        expected=lambda: math.degrees(math.atan2(-_carried()[0], _carried()[2])),
        got=lambda: math.degrees(float(_ours().castor)),
    ),
    _engine(
        unit="deg (steering axis' inclination)",
        expected=lambda: math.degrees(math.atan2(-SIDE * _carried()[1], _carried()[2])),
        got=lambda: math.degrees(float(_ours().steering_inclination)),
    ),
]
