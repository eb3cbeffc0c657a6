"""Bolts with a lever's pin on them, against a multibody engine and a frame.

The swivelling bolt is a tendon between two sites, the fixed line a slide joint; see
``outside.anchorages``.
"""

from __future__ import annotations

import functools
import math

from scipy.optimize import brentq, minimize_scalar

from barwright.mechanics.anchorage.bolts_with_pin import FixedLineBolt, SwivellingBolt
from outside.anchorages import key_lever_frame, resting, tied
from validation import Kind, Row

_engine = functools.partial(Row, within=1e-9, kind=Kind.ENGINE)

# -- A bolt that swivels ------------------------------------------------------------------

SWIVELLING = SwivellingBolt(pivot_distance=0.15, pivot_angle=-0.4, lever_radius=0.10, lever_side=1)
LEVER = 0.9
TENSION = 9000.0
TIED = tied(SWIVELLING, tension=TENSION, lever=LEVER)

_tendon = functools.partial(_engine, source="MuJoCo: a hinged body tied to a site by a tendon")
_GIVEN = "pivot 150 mm from the bar axis at −0.4 rad, lever 100 mm, on its bump side"


def _extreme(sign: float) -> float:
    """Least or greatest length of the tendon as the lever goes round."""
    found = minimize_scalar(
        lambda lever: sign * TIED.length(lever), bounds=(-1.0, 3.2), method="bounded"
    )
    return sign * float(found.fun)


SWIVELLING_ROWS = [
    _tendon(
        of="bolts_with_pin.SwivellingBolt.reach",
        given=f"{_GIVEN}; least distance",
        unit="m",
        expected=lambda: _extreme(1.0),
        got=lambda: SWIVELLING.reach[0],
    ),
    _tendon(
        of="bolts_with_pin.SwivellingBolt.reach",
        given=f"{_GIVEN}; greatest distance",
        unit="m",
        expected=lambda: _extreme(-1.0),
        got=lambda: SWIVELLING.reach[1],
    ),
    _tendon(
        of="bolts_with_pin.SwivellingBolt.lever_angle",
        given=f"{_GIVEN}; 160 mm of bolt",
        unit="rad",
        expected=lambda: TIED.lever(0.160, -0.4, 2.7),
        got=lambda: float(SWIVELLING.lever_angle(0.160)),
    ),
    _tendon(
        of="bolts_with_pin.SwivellingBolt.pin_distance",
        given=f"{_GIVEN}; lever at 0.9 rad",
        unit="m",
        expected=lambda: TIED.length(LEVER),
        got=lambda: float(SWIVELLING.pin_distance(LEVER)),
    ),
    _tendon(
        of="bolts_with_pin.SwivellingBolt.setting",
        given=f"{_GIVEN}; lever at 0.2 rad",
        unit="m",
        expected=lambda: TIED.length(0.2),
        got=lambda: float(SWIVELLING.setting(0.2)),
    ),
    _tendon(
        of="bolts_with_pin.SwivellingBolt.slope",
        given=f"{_GIVEN}; lever at 0.9 rad",
        unit="m/rad",
        expected=lambda: TIED.slope(LEVER),
        got=lambda: float(SWIVELLING.slope(LEVER)),
    ),
    _tendon(
        of="bolts_with_pin.SwivellingBolt.effort",
        given=f"{_GIVEN}; lever at 0.9 rad, torque that 9 kN in the tendon balances",
        unit="N",
        expected=TENSION,
        got=lambda: float(SWIVELLING.effort(TIED.held(LEVER), lever_angle=LEVER)),
    ),
    _tendon(
        of="bolts_with_pin.SwivellingBolt.effort",
        given=f"{_GIVEN}; lever at 0.9 rad, torque that 9 kN in the tendon balances",
        unit="N",
        expected=TENSION,
        got=lambda: float(SWIVELLING.effort(TIED.held(LEVER), lever_angle=LEVER)),
    ),
]

# -- A bolt on a fixed line ---------------------------------------------------------------

ON_A_LINE = FixedLineBolt(
    line_distance=0.1, foot_angle=-0.3, foot_position=0.2, lever_radius=0.15, lever_side=1
)
SLIDING = resting(ON_A_LINE)
PIN = 0.26
TORQUE = 800.0

_slide = functools.partial(
    _engine, source="MuJoCo: a hinged body, and a slide joint with a point on the centreline"
)
_frame = functools.partial(
    _engine, source="PyNiteFEA: lever, strut and built-in bolt as a frame in equilibrium"
)
_LINE = "line 100 mm from the bar axis, its foot at −0.3 rad and 200 mm; lever 150 mm"


def _farthest(low: float, high: float) -> float:
    """Place on the line, between two limits, that the lever's end just comes to."""

    def short(pin: float) -> float:
        return math.hypot(*SLIDING.centre(pin)) - ON_A_LINE.lever_radius

    return float(brentq(short, low, high, xtol=1e-15))


def _at(pin: float) -> float:
    return float(ON_A_LINE.lever_angle(pin))


def _tension() -> float:
    """Tension of the bolt in the frame."""
    lever, centre = SLIDING.lever(PIN), SLIDING.centre(PIN)
    return key_lever_frame(ON_A_LINE, torque=TORQUE, lever=lever, centre=centre).tension


FIXED_LINE_ROWS = [
    _slide(
        of="bolts_with_pin.FixedLineBolt.reach",
        given=f"{_LINE}; least distance",
        unit="m",
        expected=lambda: _farthest(0.0, 0.2),
        got=lambda: ON_A_LINE.reach[0],
    ),
    _slide(
        of="bolts_with_pin.FixedLineBolt.reach",
        given=f"{_LINE}; greatest distance",
        unit="m",
        expected=lambda: _farthest(0.2, 0.4),
        got=lambda: ON_A_LINE.reach[1],
    ),
    _slide(
        of="bolts_with_pin.FixedLineBolt.lever_angle",
        given=f"{_LINE}; pin at 260 mm",
        unit="rad",
        expected=lambda: SLIDING.lever(PIN),
        got=lambda: _at(PIN),
    ),
    _slide(
        of="bolts_with_pin.FixedLineBolt.pin_distance",
        given=f"{_LINE}; lever at 0.1 rad",
        unit="m",
        expected=lambda: SLIDING.setting(0.1, 0.1, 0.3),
        got=lambda: float(ON_A_LINE.pin_distance(0.1)),
    ),
    _slide(
        of="bolts_with_pin.FixedLineBolt.setting",
        given=f"{_LINE}; lever at −0.5 rad",
        unit="m",
        expected=lambda: SLIDING.setting(-0.5, 0.1, 0.3),
        got=lambda: float(ON_A_LINE.setting(-0.5)),
    ),
    _slide(
        of="bolts_with_pin.FixedLineBolt.slope",
        given=f"{_LINE}; pin at 260 mm",
        unit="m/rad",
        expected=lambda: SLIDING.slope(SLIDING.lever(PIN), PIN),
        got=lambda: float(ON_A_LINE.slope(_at(PIN))),
    ),
    _slide(
        of="bolts_with_pin.FixedLineBolt.effort",
        given=f"{_LINE}; pin at 260 mm, 800 N·m",
        unit="N",
        expected=lambda: SLIDING.effort(TORQUE, SLIDING.lever(PIN), PIN),
        got=lambda: float(ON_A_LINE.effort(TORQUE, lever_angle=_at(PIN))),
    ),
    _frame(
        of="bolts_with_pin.FixedLineBolt.effort",
        given=f"{_LINE}; pin at 260 mm, 800 N·m",
        unit="N",
        expected=_tension,
        got=lambda: float(ON_A_LINE.effort(TORQUE, lever_angle=_at(PIN))),
    ),
]

ROWS: list[Row] = [*SWIVELLING_ROWS, *FIXED_LINE_ROWS]
