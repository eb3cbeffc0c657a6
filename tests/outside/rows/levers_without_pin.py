"""Key levers on a bolt's end, against engines that only know geometry.

Angles, slopes and efforts come from a multibody engine with a tangency for its only
constraint, places on the face from a geometry library, forces from a frame in
equilibrium; see ``outside.anchorages``.
"""

from __future__ import annotations

import functools

from scipy.optimize import brentq

from barwright.mechanics.anchorage.levers_without_pin import KeyLeverBolt
from outside.anchorages import Forces, along_the_face, key_lever_frame, resting
from validation import Kind, Row

_engine = functools.partial(Row, within=1e-9, kind=Kind.ENGINE)

BOLT = KeyLeverBolt(
    line_distance=0.052,
    foot_angle=-0.3,
    foot_position=0.04,
    end_radius=0.006,
    face_offset=0.009,
    face_start=0.035,
    face_end=0.062,
    lever_side=-1,
)
RESTING = resting(BOLT)
END = 0.055
LEVER = RESTING.lever(END)
TORQUE = 900.0

_tangent = functools.partial(
    _engine, source="MuJoCo and scipy: a hinged body tangent to a round on a slide joint"
)
_frame = functools.partial(
    _engine, source="PyNiteFEA: lever, strut and built-in bolt as a frame in equilibrium"
)
_GIVEN = (
    "bolt 52 mm from the bar axis, its foot at −0.3 rad and 40 mm, end of 6 mm radius, "
    "face 9 mm off the centreline"
)
_HELD = f"{_GIVEN}; end at 55 mm, 900 N·m"


def _edge(low: float, high: float) -> float:
    """Setting, between two limits, at which the contact comes to the end of the face."""

    def beyond(end: float) -> float:
        lever, centre = RESTING.lever(end), RESTING.centre(end)
        return along_the_face(lever, centre, side=-1, offset=0.009) - BOLT.face_end

    return float(brentq(beyond, low, high, xtol=1e-15))


def _forces() -> Forces:
    return key_lever_frame(BOLT, torque=TORQUE, lever=LEVER, centre=RESTING.centre(END))


ROWS = [
    _engine(
        of="levers_without_pin.KeyLeverBolt.reach",
        source="MuJoCo, scipy and Shapely: foot of the round's centre on the face",
        kind=Kind.FORMULATED,
        given=f"{_GIVEN}, ending at 62 mm; least distance",
        unit="m",
        expected=lambda: _edge(-0.03, 0.04),
        got=lambda: BOLT.reach[0],
    ),
    _engine(
        of="levers_without_pin.KeyLeverBolt.reach",
        source="MuJoCo, scipy and Shapely: foot of the round's centre on the face",
        kind=Kind.FORMULATED,
        given=f"{_GIVEN}, ending at 62 mm; greatest distance",
        unit="m",
        expected=lambda: _edge(0.05, 0.12),
        got=lambda: BOLT.reach[1],
    ),
    _tangent(
        of="levers_without_pin.KeyLeverBolt.lever_angle",
        given=f"{_GIVEN}; end at 55 mm",
        unit="rad",
        expected=lambda: RESTING.lever(END),
        got=lambda: float(BOLT.lever_angle(END)),
    ),
    _tangent(
        of="levers_without_pin.KeyLeverBolt.setting",
        given=f"{_GIVEN}; lever at −0.5 rad",
        unit="m",
        expected=lambda: RESTING.setting(-0.5, 0.0, 0.1),
        got=lambda: float(BOLT.setting(-0.5)),
    ),
    _tangent(
        of="levers_without_pin.KeyLeverBolt.slope",
        given=f"{_GIVEN}; end at 55 mm",
        unit="m/rad",
        expected=lambda: RESTING.slope(LEVER, END),
        got=lambda: float(BOLT.slope(LEVER)),
    ),
    _tangent(
        of="levers_without_pin.KeyLeverBolt.effort",
        given=_HELD,
        unit="N",
        expected=lambda: RESTING.effort(TORQUE, LEVER, END),
        got=lambda: float(BOLT.effort(TORQUE, lever_angle=LEVER)),
    ),
    _engine(
        of="levers_without_pin.KeyLeverBolt.contact_distance",
        source="Shapely: foot of the round's centre on the face",
        kind=Kind.FORMULATED,
        given=f"{_GIVEN}; end at 55 mm",
        unit="m",
        expected=lambda: along_the_face(LEVER, RESTING.centre(END), side=-1, offset=0.009),
        got=lambda: float(BOLT.contact_distance(LEVER)),
    ),
    _frame(
        of="levers_without_pin.KeyLeverBolt.effort",
        given=_HELD,
        unit="N",
        expected=lambda: _forces().tension,
        got=lambda: float(BOLT.effort(TORQUE, lever_angle=LEVER)),
    ),
    _frame(
        of="levers_without_pin.KeyLeverBolt.side_thrust",
        given=_HELD,
        unit="N",
        expected=lambda: _forces().thrust,
        got=lambda: float(BOLT.side_thrust(TORQUE, lever_angle=LEVER)),
    ),
]
