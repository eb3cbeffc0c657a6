"""Rows of the answers: one corner, asked about by its records and built again from its sizes.

See ``outside.whole_corner``.  What a plan sets is found by trying all pairs of teeth and all
places of the nut; uncertainty is that of uncertain numbers.
"""

from __future__ import annotations

import functools
import math
from typing import Any

import GTC
import scipy.constants
import scipy.integrate
import scipy.optimize
import shapely

import barwright as bw
from outside.sections import ring
from outside.shafts import Piece, chain_rate
from outside.whole_corner import (
    BAR,
    SETUP,
    SETUP_BOUND,
    TUBE,
    WORDS,
    Corner,
    bar_rate,
    height,
    lever_of,
    lift,
    nut_turns_for,
    system_rate,
)
from sample_records import make_bar, tube_of
from teeth import all_turns
from validation import Kind, Row

_CHAIN = "opentorsion: bar and tube as a chain of shafts"
_CORNER = (
    "MuJoCo: an arm on a sprung hinge and a lever on a tendon; opentorsion: its rate; scipy: teeth "
    "turned in space"
)
_engine = functools.partial(Row, within=1e-8, kind=Kind.ENGINE)
_corner = functools.partial(_engine, source=_CORNER)
_bar_rate = functools.partial(_engine, of="barwright.bar_rate", source=_CHAIN)

_PARTS, _, _ = WORDS.partition("; swing arm")

# Without the millimetre of the anchor's head that its socket leaves bare.
HELD_BAR = BAR[:-1]

HANG = math.radians(-24.0)
BUMP = math.radians(17.0)
NUT = 1.0 / 6.0
MIDDLE = Corner()
PLANNED = Corner(turns=14.0 * NUT)
# The nut at the end of its thread, 15.5 mm from the middle.
SLACKEST = Corner(anchor_key=-192.0, turns=-15.5 / 1.75)

_WISH = bw.Wanted(height="380 mm")


# -- The records, asked ------------------------------------------------------------------


def _fit() -> bw.answers.LengthFit:
    return bw.length_fit(SETUP)


def _rates() -> bw.answers.RateFigures:
    figures = bw.rates(SETUP).figures
    assert figures is not None
    return figures


def _bar_alone() -> bw.answers.BarRate:
    return bw.bar_rate(SETUP.bar, tube=tube_of(SETUP))


def _ride() -> bw.answers.Ride:
    return bw.ride(SETUP)


def _state() -> bw.answers.CornerState:
    state = _ride().state
    assert state is not None
    return state


def _strength() -> bw.answers.StrengthFigures:
    figures = bw.strength(SETUP, travel="40 mm").figures
    assert figures is not None
    return figures


def _swing() -> bw.answers.StressSwing:
    swing = _strength().swing
    assert swing is not None
    return swing


def _plan(place: int) -> bw.answers.Plan:
    return bw.reindex(SETUP, wanted=_WISH).plans[place]


def _nut_table() -> bw.answers.NutTable:
    """Of the corner as it is measured to stand, where the engine has it; wanted 12 mm higher."""
    stands = height(MIDDLE.rest)
    wanted = bw.Wanted(height=f"{stands + 12.0:.12g} mm")
    return bw.nut_table(SETUP, measured=f"{stands:.12g} mm", wanted=wanted)


def _nut_row(turns: int) -> bw.answers.NutRow:
    """Of the table, so many turns clockwise of the middle."""
    (row,) = (row for row in _nut_table().table_rows if row.raising_turns == turns)
    return row


def _correction() -> bw.answers.NutCorrection:
    found = _nut_table().correction
    assert found is not None
    return found


def _removal() -> bw.answers.Assembly:
    """With the damper off, of the corner whose bar never comes loose."""
    _, off = bw.reindex(SETUP_BOUND, wanted=_WISH).removal
    return off


def _system_rate(setup: bw.Setup) -> bw.Quantity:
    figures = bw.rates(setup).figures
    assert figures is not None
    return figures.system_rate


def _tolerance() -> bw.answers.ToleranceRow:
    (row,) = bw.tolerance(_system_rate, SETUP, half_widths=HALF_WIDTHS).rows
    return row


def _tooth_planned(end: int) -> int:
    plan = _plan(1)
    return (plan.arm_tooth, plan.anchor_tooth)[end]


def _permissible(*, preset: bool) -> float:
    bar = make_bar(preset=True, made_for=bw.parts.Side.LEFT) if preset else make_bar()
    return number(bw.din_2091(bar).stress, "MPa")


def number(value: bw.Quantity | None, unit: str) -> float:
    """Figure of an answer in a unit."""
    assert value is not None
    return float(value.m_as(unit))


# -- The corner, built again -------------------------------------------------------------


def _body_length() -> float:
    """Length of body as stiff as the bar between its sockets [mm]."""
    body = chain_rate([Piece(1.0, 0.0233, 0.0233, 0.006)], shear_modulus=77e9)
    return 1e3 * body / bar_rate()


def _overlap() -> float:
    """Of the anchor's spline with its socket, the arm's head flush with its own [mm]."""
    spline, socket = shapely.box(867.0, 0.0, 904.0, 1.0), shapely.box(868.0, 0.0, 906.0, 1.0)
    return float(spline.intersection(socket).area)


def _stress(torque: float) -> float:
    """Greatest stress of the bar's body [MPa]."""
    return torque * ring(diameter=0.0233, bore=0.006).stress / 1e6


def _amplitude() -> float:
    """Half of the stress between the hub 40 mm up and down [MPa]."""
    rest = height(MIDDLE.rest)

    def torque(travel: float) -> float:
        return MIDDLE.torque(
            scipy.optimize.brentq(lambda a: rest - travel - height(a), -0.6, 0.6, xtol=1e-14)
        )

    return _stress(torque(40.0) - torque(-40.0)) / 2.0


def _nearest_nut() -> float:
    """Of the sixths of a turn on either side of 380 mm, the one whose height is nearer."""

    def missing(turns: float) -> float:
        return float(height(Corner(turns=turns).rest) - 380.0)

    exact = float(scipy.optimize.brentq(missing, -8.0, 8.0, xtol=1e-6))
    around = (math.floor(exact / NUT) * NUT, math.ceil(exact / NUT) * NUT)
    return min(around, key=lambda turns: abs(missing(turns)))


def _nearest_turn() -> float:
    """Turns that raise the engine's arm by 12 mm, to the nearer sixth."""

    def missing(turns: float) -> float:
        return float(height(Corner(turns=turns).rest) - height(MIDDLE.rest) - 12.0)

    exact = float(scipy.optimize.brentq(missing, -8.0, 8.0, xtol=1e-6))
    around = (math.floor(exact / NUT) * NUT, math.ceil(exact / NUT) * NUT)
    return min(around, key=lambda turns: abs(missing(turns)))


def _bolt_pull(corner: Corner) -> float:
    """Tension of the bolt that holds the hinge's torque [N], by the work of a small turn."""
    step = 1e-4
    per_turn = (lever_of(corner.turns + step) - lever_of(corner.turns - step)) / (2.0 * step)
    return corner.torque(corner.rest) * abs(per_turn) / 0.00175


@functools.cache
def _nearest_teeth() -> tuple[int, int]:
    """Teeth, both turned, that need the nut nearest to its middle for a height of 380 mm."""
    angle = scipy.optimize.brentq(lambda a: height(a) - 380.0, -0.6, 0.6, xtol=1e-14)
    weight = 291.0 * scipy.constants.g
    free = angle - weight * lift(angle) / system_rate()
    clocked = MIDDLE.free - MIDDLE.lever
    slackest, tightest = lever_of(-8.8), lever_of(8.8)
    levers = {
        pair: (free - clocked - turn) % math.tau
        for pair, turn in all_turns(39, 42).items()
        if 0 not in pair
    }
    needed = {
        pair: abs(nut_turns_for(lever))
        for pair, lever in levers.items()
        if tightest < lever < slackest
    }
    return min(needed, key=lambda pair: needed[pair])


def _tooth_searched(end: int) -> int:
    return _nearest_teeth()[end]


def _left() -> float:
    """Twist that the hanging arm leaves in the bar with the nut at its slackest [rad]."""
    return HANG - SLACKEST.free


# Of the shear modulus of the steel, and of the tube's outside.
HALF_WIDTHS = {"bar.material.shear_modulus": "0.1 GPa", "anchor.outside_diameter": "0.05 mm"}


@functools.cache
def _uncertain() -> tuple[Any, Any]:
    """Rate of bar and tube in series, their sizes rectangles, and the steel's modulus."""
    modulus = GTC.ureal(77e9, 0.1e9 / math.sqrt(3.0))
    outside = GTC.ureal(0.090, 0.05e-3 / math.sqrt(3.0))
    per_modulus = 77e9 / chain_rate(BAR, shear_modulus=77e9)
    section = (outside**4 - 0.080**4) / (0.090**4 - 0.080**4)
    # Bar and tube are of one steel.
    tube = section * modulus / 77e9 * chain_rate(TUBE, shear_modulus=77e9)
    return 1.0 / (per_modulus / modulus + 1.0 / tube), modulus


def _expanded() -> float:
    rate, _ = _uncertain()
    return 2.0 * math.radians(GTC.uncertainty(rate))


def _share() -> float:
    """Of the shear modulus in the variance [%]."""
    rate, modulus = _uncertain()
    return float(100.0 * GTC.component(rate, modulus) ** 2 / GTC.variance(rate))


_uncertainty = functools.partial(
    _engine,
    of="barwright.tolerance",
    source="GTC: uncertain numbers; opentorsion: rates of bar and tube",
    within=1e-5,
    why="differences over the whole half width",
)
_WAYS = "system rate, shear modulus of the steel ± 0.1 GPa and tube ± 0.05 mm"

ROWS = [
    _engine(
        of="barwright.length_fit",
        source="opentorsion: heads, cones and body as a chain of shafts, compared with a metre "
        "of body",
        given=f"{WORDS}: active length",
        unit="mm",
        expected=_body_length,
        got=lambda: number(_fit().active_length, "mm"),
    ),
    Row(
        of="barwright.length_fit",
        source="shapely: overlap of spline and socket",
        given="the same: engagement at the anchor end",
        unit="mm",
        expected=_overlap,
        got=lambda: number(_fit().ends[1].engagement, "mm"),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    _engine(
        of="barwright.rates",
        source=_CHAIN,
        given="the same: rate of bar and tube",
        unit="N·m/rad",
        expected=system_rate,
        got=lambda: number(_rates().system_rate, "N*m/rad"),
    ),
    _bar_rate(
        given=f"{_PARTS}, held over the whole of its splines: rate of the bar",
        unit="N·m/rad",
        expected=lambda: chain_rate(HELD_BAR, shear_modulus=77e9),
        got=lambda: number(_bar_alone().bar_rate, "N*m/rad"),
    ),
    _bar_rate(
        given="the same: twist of bar and tube under 1000 N·m",
        unit="rad",
        expected=lambda: 1000.0 / chain_rate([*HELD_BAR, *TUBE], shear_modulus=77e9),
        got=lambda: number(_bar_alone().twist, "rad"),
    ),
    _bar_rate(
        source="scikit-fem: stress function of the body's section",
        given="the same: shear stress under 1000 N·m",
        unit="MPa",
        expected=lambda: _stress(1000.0),
        got=lambda: number(_bar_alone().shear_stress, "MPa"),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    _corner(
        of="barwright.rates",
        given="the same, nut at mid-thread: rate at the wheel at rest",
        unit="N/m",
        expected=lambda: MIDDLE.wheel_rate,
        got=lambda: number(_rates().ride.wheel_rate, "N/m"),
        within=1e-7,
    ),
    _corner(
        of="barwright.rates",
        given="the same: torque at full bump, 17°",
        unit="N·m",
        expected=lambda: MIDDLE.torque(BUMP),
        got=lambda: number(_rates().bump.torque, "N*m"),
    ),
    _corner(
        of="barwright.ride",
        given="the same: hub to arch at rest",
        unit="mm",
        expected=lambda: height(MIDDLE.rest),
        got=lambda: number(_state().height, "mm"),
    ),
    _corner(
        of="barwright.ride",
        given="the same: arm angle without torque",
        unit="rad",
        expected=lambda: MIDDLE.free,
        got=lambda: number(_ride().free_angle, "rad"),
    ),
    Row(
        of="barwright.strength",
        source=f"{_CORNER}; scikit-fem: stress function of the body's section",
        given="the same: stress at full bump",
        unit="MPa",
        expected=lambda: _stress(MIDDLE.torque(BUMP)),
        got=lambda: number(_strength().bump.stress, "MPa"),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="barwright.strength",
        source=f"{_CORNER}; scikit-fem: stress function of the body's section",
        given="the same: amplitude over 40 mm up and down",
        unit="MPa",
        expected=_amplitude,
        got=lambda: number(_swing().amplitude, "MPa"),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    *(
        _corner(
            of="barwright.nut_table",
            given=f"the same, nut {abs(turns)} turns {sense} of mid-thread: hub to arch at rest",
            unit="mm",
            expected=functools.partial(lambda n: height(Corner(turns=n).rest), float(turns)),
            got=functools.partial(lambda n: number(_nut_row(n).height, "mm"), turns),
        )
        for turns, sense in ((-4, "counter-clockwise"), (3, "clockwise"))
    ),
    _corner(
        of="barwright.nut_table",
        given="the same, nut 3 turns clockwise: bolt load at rest, by the work of a small turn",
        unit="N",
        expected=lambda: _bolt_pull(Corner(turns=3.0)),
        got=lambda: number(_nut_row(3).bolt_at_ride, "N"),
        within=1e-6,
    ),
    _corner(
        of="barwright.nut_table",
        given="the same, measured there, wanted 12 mm higher: turn, in sixths, whose rise is "
        "nearest to 12 mm",
        unit="turns",
        expected=_nearest_turn,
        got=lambda: number(_correction().correcting_turns, "turn"),
        within=1e-6,
    ),
    _corner(
        of="barwright.reindex",
        given="the same, 380 mm wanted: nut of the plan that turns neither end, in sixths of a "
        "turn",
        unit="turns",
        expected=_nearest_nut,
        got=lambda: number(_plan(0).nut_turns, "turn"),
    ),
    _corner(
        of="barwright.reindex",
        given="the same: height that this plan gives, the nut 14 sixths clockwise",
        unit="mm",
        expected=lambda: height(PLANNED.rest),
        got=lambda: number(_plan(0).height, "mm"),
    ),
    *(
        _corner(
            of="barwright.reindex",
            given=f"the same: tooth at the {end} end, if both are turned, of 1558 pairs",
            unit="",
            expected=functools.partial(_tooth_searched, at),
            got=functools.partial(_tooth_planned, at),
        )
        for at, end in enumerate(("arm", "anchor"))
    ),
    _corner(
        of="barwright.reindex",
        given="the same with the anchor's key at −192°: torque left in the bar with the damper off",
        unit="N·m",
        expected=lambda: system_rate() * _left(),
        got=lambda: number(_removal().residual_torque, "N*m"),
        within=1e-7,
    ),
    _corner(
        of="barwright.reindex",
        given="the same: energy left in it",
        unit="J",
        expected=lambda: scipy.integrate.quad(lambda x: system_rate() * x, 0.0, _left())[0],
        got=lambda: number(_removal().residual_energy, "J"),
        within=1e-7,
    ),
    _uncertainty(
        given=f"the same, {_WAYS}: expanded, with factor 2",
        unit="N·m/deg",
        expected=_expanded,
        got=lambda: number(_tolerance().uncertainty, "N*m/deg"),
    ),
    _uncertainty(
        given=f"the same, {_WAYS}: the modulus' share of the variance",
        unit="%",
        expected=_share,
        got=lambda: _tolerance().shares[0].percent,
    ),
    *(
        Row(
            of="barwright.din_2091",
            source="DIN 2091 (1981-06), round figures",
            given=f"static shear of a bar that is {words}",
            unit="MPa",
            expected=stress,
            got=functools.partial(_permissible, preset=preset),
            within=1e-9,
            kind=Kind.RECALLED,
        )
        for words, preset, stress in (("not pre-set", False, 700.0), ("pre-set", True, 1020.0))
    ),
]
