"""The double wishbone, against a multibody engine and constraints solved in 40 digits.

As for swing arm and strut: places and slopes are MuJoCo's, of a chain of three hinges
that is closed at the upper ball joint; second derivatives are mpmath's.
"""

from __future__ import annotations

import functools
import math

from linkages import CROSSED, WISHBONE, Engine, exactly
from validation import Kind, Row

ANGLE = 0.21
_GIVEN = (
    "arms 340 and 230 mm, upright 280 mm, upper pivot (130, 270) mm, damper from (240, −20) mm "
    "on the lower arm to (190, 460) mm, load point (100, −240) mm from the lower ball joint at "
    "0.04 rad; 0.21 rad"
)
_engine_row = functools.partial(
    Row,
    source="MuJoCo: three hinges, closed at the upper ball joint",
    given=_GIVEN,
    within=1e-9,
    kind=Kind.ENGINE,
)
_digits = functools.partial(
    _engine_row,
    source="mpmath: constraints of the links solved and differentiated in 40 digits",
    kind=Kind.FORMULATED,
)
_motion = functools.partial(_engine_row, of="double_wishbone.DoubleWishbone.motion")


@functools.cache
def _engine() -> Engine:
    return Engine(WISHBONE, ANGLE)


def _upright() -> float:
    """Angle from the engine's lower ball joint to the upper one."""
    outboard, _, up = _engine().data.site("here").xpos - _engine().data.body("carrier").xpos
    return math.atan2(float(up), float(outboard))


ROWS = [
    _motion(
        unit="m (load's height)",
        expected=lambda: _engine().place("load")[1],
        got=lambda: float(WISHBONE.motion(ANGLE).load.height),
    ),
    _motion(
        unit="m (load's outboard coordinate)",
        expected=lambda: _engine().place("load")[0],
        got=lambda: float(WISHBONE.motion(ANGLE).load.outboard),
    ),
    _motion(
        unit="m (hub's height)",
        expected=lambda: _engine().place("hub")[1],
        got=lambda: float(WISHBONE.motion(ANGLE).hub.height),
    ),
    _motion(
        unit="m/rad (load's slope)",
        expected=lambda: _engine().velocity("load")[1],
        got=lambda: float(WISHBONE.motion(ANGLE).load.slope),
    ),
    _digits(
        of="double_wishbone.DoubleWishbone.motion",
        unit="m/rad² (load's curvature)",
        expected=lambda: exactly(WISHBONE, ANGLE, "load.height", 2),
        got=lambda: float(WISHBONE.motion(ANGLE).load.curvature),
    ),
    _motion(
        unit="m (damper's length)",
        expected=lambda: _engine().damper_length,
        got=lambda: float(WISHBONE.motion(ANGLE).damper_length),
    ),
    _motion(
        unit="m/rad (damper's slope)",
        expected=lambda: _engine().damper_slope,
        got=lambda: float(WISHBONE.motion(ANGLE).damper_slope),
    ),
    _digits(
        of="double_wishbone.DoubleWishbone.motion",
        unit="m/rad² (damper's curvature)",
        expected=lambda: exactly(WISHBONE, ANGLE, "damper", 2),
        got=lambda: float(WISHBONE.motion(ANGLE).damper_curvature),
    ),
    _motion(
        unit="rad (tilt)",
        expected=lambda: _engine().tilt,
        got=lambda: float(WISHBONE.motion(ANGLE).tilt),
    ),
    _motion(
        given=(
            "upper pivot outboard at (450, 300) mm, upper arm 260 mm, upper ball joint inboard; "
            "otherwise the same"
        ),
        unit="rad (tilt)",
        expected=lambda: Engine(CROSSED, ANGLE).tilt,
        got=lambda: float(CROSSED.motion(ANGLE).tilt),
    ),
    _engine_row(
        of="double_wishbone.DoubleWishbone.carrier",
        unit="(tilt's slope)",
        expected=lambda: _engine().tilt_slope,
        got=lambda: float(WISHBONE.carrier(ANGLE).tilt_slope),
    ),
    _digits(
        of="double_wishbone.DoubleWishbone.carrier",
        unit="1/rad (tilt's curvature)",
        expected=lambda: exactly(WISHBONE, ANGLE, "tilt", 2),
        got=lambda: float(WISHBONE.carrier(ANGLE).tilt_curvature),
    ),
    _engine_row(
        of="double_wishbone.DoubleWishbone.upright_angle",
        unit="rad",
        expected=_upright,
        got=lambda: float(WISHBONE.upright_angle(ANGLE)),
    ),
    _engine_row(
        of="double_wishbone.DoubleWishbone.angle_at_damper_length",
        unit="rad",
        expected=lambda: ANGLE,
        got=lambda: float(WISHBONE.angle_at_damper_length(_engine().damper_length)),
    ),
]
