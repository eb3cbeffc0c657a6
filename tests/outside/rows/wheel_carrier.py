"""Points of a wheel carrier and the roll centre, against engines that know rigid bodies.

Places and velocities are MuJoCo's.  Roll centres are sympy's, exact: the lines through
the links are intersected, and the line from there to the contact with the middle plane.
"""

from __future__ import annotations

import functools
from typing import Any

from scipy.spatial.transform import Rotation

from barwright.mechanics.linkage.wheel_carrier import on_arm, turned
from linkages import ARM, EACH, STRUT, WISHBONE, Engine, exactly, roll_centre_by_lines
from validation import Kind, Row

ANGLE = 0.21
HALF_TRACK = 0.72
_computed = functools.partial(Row, within=1e-9, kind=Kind.ENGINE)
_engine_row = functools.partial(
    _computed,
    source="MuJoCo: two hinges and a slide, closed at the ball joint",
    given="the strut of `arm_and_strut`, hub point (120, 30) mm, 0.21 rad",
)
_turn = functools.partial(
    _computed,
    of="wheel_carrier.turned",
    source="scipy: rotation in space",
    kind=Kind.FORMULATED,
    given="point (300, −120) mm, turned by 0.35 rad",
    unit="m",
)


@functools.cache
def _engine() -> Engine:
    return Engine(STRUT, ANGLE)


@functools.cache
def _arm() -> Engine:
    return Engine(ARM, ANGLE)


def _spun() -> Any:
    # Up is out of the page's y: a turn in bump is left-handed about it.
    return Rotation.from_rotvec([0.0, -0.35, 0.0]).apply([0.3, 0.0, -0.12])


def _roll_centre(name: str) -> Row:
    linkage: Any = EACH[name]
    return _computed(
        of="wheel_carrier.Carrier.roll_centre_height",
        source="sympy: lines through the links and the contact, intersected",
        kind=Kind.FORMULATED,
        given=f"the {name} of `arm_and_strut` and `double_wishbone`, half track 720 mm, 0.21 rad",
        unit="m",
        expected=lambda: roll_centre_by_lines(linkage, ANGLE, half_track=HALF_TRACK),
        got=lambda: float(
            linkage.carrier(ANGLE).roll_centre_height(linkage.load_point, half_track=HALF_TRACK)
        ),
    )


ROWS = [
    _turn(
        expected=lambda: _spun()[0],
        got=lambda: float(turned((0.3, -0.12), 0.35)[0]),
    ),
    _turn(
        expected=lambda: _spun()[2],
        got=lambda: float(turned((0.3, -0.12), 0.35)[1]),
    ),
    *(
        _computed(
            of="wheel_carrier.on_arm",
            source="MuJoCo: hinge and site",
            given="point (420, −280) mm on an arm at 0.21 rad",
            unit=unit,
            expected=expected,
            got=got,
        )
        for unit, expected, got in (
            (
                "m (height)",
                lambda: _arm().place("load")[1],
                lambda: float(on_arm((0.42, -0.28), ANGLE).height),
            ),
            (
                "m/rad (slope)",
                lambda: _arm().velocity("load")[1],
                lambda: float(on_arm((0.42, -0.28), ANGLE).slope),
            ),
        )
    ),
    _computed(
        of="wheel_carrier.on_arm",
        source="mpmath: a turning point differentiated in 40 digits",
        kind=Kind.FORMULATED,
        given="point (420, −280) mm on an arm at 0.21 rad",
        unit="m/rad² (curvature)",
        expected=lambda: exactly(ARM, ANGLE, "load.height", 2),
        got=lambda: float(on_arm((0.42, -0.28), ANGLE).curvature),
    ),
    _engine_row(
        of="wheel_carrier.Carrier.path",
        unit="m (height)",
        expected=lambda: _engine().place("hub")[1],
        got=lambda: float(STRUT.carrier(ANGLE).path((0.12, 0.03)).height),
    ),
    _engine_row(
        of="wheel_carrier.Carrier.path",
        unit="m/rad (slope)",
        expected=lambda: _engine().velocity("hub")[1],
        got=lambda: float(STRUT.carrier(ANGLE).path((0.12, 0.03)).slope),
    ),
    _engine_row(
        of="wheel_carrier.Carrier.outboard_slope",
        unit="m/rad",
        expected=lambda: _engine().velocity("hub")[0],
        got=lambda: float(STRUT.carrier(ANGLE).outboard_slope((0.12, 0.03))),
    ),
    _computed(
        of="wheel_carrier.Carrier.outboard_slope",
        source="MuJoCo: three hinges, closed at the upper ball joint",
        given="the double wishbone of `double_wishbone`, load point, 0.21 rad",
        unit="m/rad",
        expected=lambda: Engine(WISHBONE, ANGLE).velocity("load")[0],
        got=lambda: float(WISHBONE.carrier(ANGLE).outboard_slope((0.10, -0.24))),
    ),
    *(_roll_centre(name) for name in ("swing arm", "strut", "wishbone")),
]
