"""Swing arm and strut, against a multibody engine and constraints solved in 40 digits.

Places and slopes are MuJoCo's: hinges, slides and sites, its closed chains solved on its
own Jacobians.  Second derivatives are mpmath's, of the constraints of the links; see
``linkages``.
"""

from __future__ import annotations

import functools

from barwright.mechanics.linkage.arm_and_strut import Motion
from linkages import ARM, STRUT, Engine, exactly
from validation import Kind, Row

_computed = functools.partial(Row, within=1e-9, kind=Kind.ENGINE)
_digits = functools.partial(
    _computed,
    source="mpmath: constraints of the links solved and differentiated in 40 digits",
    kind=Kind.FORMULATED,
)

ANGLE = 0.21
_ENGINES = {
    "SwingArm": (ARM, "MuJoCo: hinge, sites and tendon"),
    "Strut": (STRUT, "MuJoCo: two hinges and a slide, closed at the ball joint"),
}
_GIVEN = {
    "SwingArm": (
        "load point (420, −280) mm on the arm, damper from (310, −30) mm on it to "
        "(240, 520) mm, 0.21 rad"
    ),
    "Strut": (
        "arm 360 mm, top mount (280, 620) mm, offset −30 mm, 40 mm below, load point "
        "(120, −270) mm from the ball joint at −0.05 rad; 0.21 rad"
    ),
}


@functools.cache
def _engine(name: str) -> Engine:
    return Engine(_ENGINES[name][0], ANGLE)


def _motion(name: str) -> Motion:
    return _ENGINES[name][0].motion(ANGLE)


def _rows(name: str) -> list[Row]:
    """Rows that both linkages have."""
    linkage, source = _ENGINES[name]
    engine = functools.partial(_computed, source=source, given=_GIVEN[name])
    digits = functools.partial(_digits, given=_GIVEN[name])
    motion, damper = f"arm_and_strut.{name}.motion", f"arm_and_strut.{name}.angle_at_damper_length"
    return [
        engine(
            of=motion,
            unit="m (load's height)",
            expected=lambda: _engine(name).place("load")[1],
            got=lambda: float(_motion(name).load.height),
        ),
        engine(
            of=motion,
            unit="m (load's outboard coordinate)",
            expected=lambda: _engine(name).place("load")[0],
            got=lambda: float(_motion(name).load.outboard),
        ),
        engine(
            of=motion,
            unit="m/rad (load's slope)",
            expected=lambda: _engine(name).velocity("load")[1],
            got=lambda: float(_motion(name).load.slope),
        ),
        digits(
            of=motion,
            unit="m/rad² (load's curvature)",
            expected=lambda: exactly(linkage, ANGLE, "load.height", 2),
            got=lambda: float(_motion(name).load.curvature),
        ),
        engine(
            of=motion,
            unit="m (hub's height)",
            expected=lambda: _engine(name).place("hub")[1],
            got=lambda: float(_motion(name).hub.height),
        ),
        engine(
            of=motion,
            unit="m (damper's length)",
            expected=lambda: _engine(name).damper_length,
            got=lambda: float(_motion(name).damper_length),
        ),
        engine(
            of=motion,
            unit="m/rad (damper's slope)",
            expected=lambda: _engine(name).damper_slope,
            got=lambda: float(_motion(name).damper_slope),
        ),
        digits(
            of=motion,
            unit="m/rad² (damper's curvature)",
            expected=lambda: exactly(linkage, ANGLE, "damper", 2),
            got=lambda: float(_motion(name).damper_curvature),
        ),
        engine(
            of=motion,
            unit="rad (tilt)",
            expected=lambda: _engine(name).tilt,
            got=lambda: float(_motion(name).tilt),
        ),
        engine(
            of=damper,
            unit="rad",
            expected=lambda: ANGLE,
            got=lambda: float(linkage.angle_at_damper_length(_engine(name).damper_length)),
        ),
        engine(
            of="arm_and_strut.Motion.motion_ratio",
            unit="",
            expected=lambda: -_engine(name).damper_slope / _engine(name).velocity("load")[1],
            got=lambda: float(_motion(name).motion_ratio),
        ),
    ]


ROWS = [
    *_rows("SwingArm"),
    *_rows("Strut"),
    _computed(
        of="arm_and_strut.SwingArm.carrier",
        source=_ENGINES["SwingArm"][1],
        given=_GIVEN["SwingArm"],
        unit="(tilt's slope)",
        expected=lambda: _engine("SwingArm").tilt_slope,
        got=lambda: float(ARM.carrier(ANGLE).tilt_slope),
    ),
    _computed(
        of="arm_and_strut.Strut.carrier",
        source=_ENGINES["Strut"][1],
        given=_GIVEN["Strut"],
        unit="(tilt's slope)",
        expected=lambda: _engine("Strut").tilt_slope,
        got=lambda: float(STRUT.carrier(ANGLE).tilt_slope),
    ),
    _digits(
        of="arm_and_strut.Strut.carrier",
        given=_GIVEN["Strut"],
        unit="1/rad (tilt's curvature)",
        expected=lambda: exactly(STRUT, ANGLE, "tilt", 2),
        got=lambda: float(STRUT.carrier(ANGLE).tilt_curvature),
    ),
]
