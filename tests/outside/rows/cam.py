"""Eccentric cams under a key lever, against engines that only know geometry and forces.

The cam is a hinged body with a round on it that stays tangent to the lever; see
``outside.anchorages``.  Friction is a linear program over the contact's force.
"""

from __future__ import annotations

import functools

import numpy as np
from scipy.optimize import brentq, linprog

from barwright.mechanics.anchorage.cam import EccentricCam
from outside.anchorages import along_the_face, face, resting, toward
from validation import Kind, Row

_engine = functools.partial(Row, within=1e-9, kind=Kind.ENGINE)

CAM = EccentricCam(
    pivot_distance=0.06,
    pivot_angle=-0.2,
    eccentricity=0.008,
    cam_radius=0.014,
    face_offset=0.006,
    lever_side=-1,
    follows=1,
)
RESTING = resting(CAM)
TURN = 0.5
LEVER = RESTING.lever(TURN)
TORQUE = 900.0

_tangent = functools.partial(
    _engine, source="MuJoCo and scipy: a hinged body tangent to a round on another hinge"
)
_GIVEN = (
    "pivot 60 mm from the bar axis at −0.2 rad, eccentricity 8 mm, circle of 14 mm radius, "
    "face 6 mm off the centreline"
)


def dead_centre(low: float, high: float) -> float:
    """Cam angle, between two limits, at which the circle moves along the face."""
    return float(
        brentq(lambda turn: RESTING.advance(RESTING.lever(turn), turn), low, high, xtol=1e-14)
    )


def least_friction(cam: EccentricCam, *, lever: float, turn: float) -> float:
    """Least tangential force, for a unit of pressure, without a moment about the pivot."""
    centre = resting(cam).centre(turn)
    line = face(lever, side=cam.lever_side, offset=cam.face_offset)
    distance = along_the_face(lever, centre, side=cam.lever_side, offset=cam.face_offset)
    touch = line.interpolate(distance)
    arm = np.array([touch.x, touch.y]) - toward(cam.pivot_angle, cam.pivot_distance)
    square = -cam.lever_side * toward(lever + np.pi / 2.0)
    moments = [float(arm[0] * f[1] - arm[1] * f[0]) for f in (square, toward(lever))]
    # Unknown: pressure, tangential force, and the least that this is of the pressure.
    found = linprog(
        [0.0, 0.0, 1.0],
        A_ub=[[0.0, 1.0, -1.0], [0.0, -1.0, -1.0]],
        b_ub=[0.0, 0.0],
        A_eq=[[1.0, 0.0, 0.0], [*moments, 0.0]],
        b_eq=[1.0, 0.0],
        bounds=[(None, None)] * 3,
    )
    return float(found.fun)


FRICTIONS = np.linspace(0.05, 1.5, 30)


def _held(friction: float) -> bool:
    """What the kernel says of a coefficient of friction."""
    return bool(CAM.holds_itself(LEVER, friction=friction))


ROWS: list[Row] = [
    _tangent(
        of="cam.EccentricCam.reach",
        given=f"{_GIVEN}; least cam angle",
        unit="rad",
        expected=lambda: dead_centre(-3.0, -1.0),
        got=lambda: CAM.reach[0],
    ),
    _tangent(
        of="cam.EccentricCam.reach",
        given=f"{_GIVEN}; greatest cam angle",
        unit="rad",
        expected=lambda: dead_centre(0.5, 2.5),
        got=lambda: CAM.reach[1],
    ),
    _tangent(
        of="cam.EccentricCam.lever_angle",
        given=f"{_GIVEN}; cam at 0.5 rad",
        unit="rad",
        expected=lambda: RESTING.lever(TURN),
        got=lambda: float(CAM.lever_angle(TURN)),
    ),
    _tangent(
        of="cam.EccentricCam.setting",
        given=f"{_GIVEN}; lever at −0.55 rad",
        unit="rad",
        expected=lambda: RESTING.setting(-0.55, -1.5, 1.2),
        got=lambda: float(CAM.setting(-0.55)),
    ),
    _tangent(
        of="cam.EccentricCam.slope",
        given=f"{_GIVEN}; cam at 0.5 rad",
        unit="",
        expected=lambda: RESTING.slope(LEVER, TURN),
        got=lambda: float(CAM.slope(LEVER)),
    ),
    _tangent(
        of="cam.EccentricCam.effort",
        given=f"{_GIVEN}; cam at 0.5 rad, 900 N·m",
        unit="N·m",
        expected=lambda: RESTING.effort(TORQUE, LEVER, TURN),
        got=lambda: float(CAM.effort(TORQUE, lever_angle=LEVER)),
    ),
    _engine(
        of="cam.EccentricCam.contact_distance",
        source="Shapely: foot of the circle's centre on the face",
        kind=Kind.FORMULATED,
        given=f"{_GIVEN}; cam at 0.5 rad",
        unit="m",
        expected=lambda: along_the_face(LEVER, RESTING.centre(TURN), side=-1, offset=0.006),
        got=lambda: float(CAM.contact_distance(LEVER)),
    ),
    _tangent(
        of="cam.EccentricCam.contact_force",
        given=f"{_GIVEN}; cam at 0.5 rad, 900 N·m",
        unit="N",
        expected=lambda: TORQUE / RESTING.arm(LEVER, TURN),
        got=lambda: float(CAM.contact_force(TORQUE, lever_angle=LEVER)),
    ),
    _engine(
        of="cam.EccentricCam.least_friction",
        source="scipy: least tangential force at the contact without a moment about the pivot",
        kind=Kind.FORMULATED,
        given=f"{_GIVEN}; cam at 0.5 rad",
        unit="",
        expected=lambda: least_friction(CAM, lever=LEVER, turn=TURN),
        got=lambda: float(CAM.least_friction(LEVER)),
    ),
    _engine(
        of="cam.EccentricCam.holds_itself",
        source="scipy: least tangential force at the contact without a moment about the pivot",
        kind=Kind.FORMULATED,
        given=f"{_GIVEN}; cam at 0.5 rad; how many of 30 friction coefficients from 0.05 to 1.5 "
        "hold it",
        unit="",
        expected=lambda: float(np.sum(least_friction(CAM, lever=LEVER, turn=TURN) <= FRICTIONS)),
        got=lambda: float(sum(_held(float(friction)) for friction in FRICTIONS)),
    ),
]
