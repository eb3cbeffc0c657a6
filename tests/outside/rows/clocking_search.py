"""Choices of clocking, against a search over every pair of teeth as they stand in space."""

from __future__ import annotations

import functools
import math

from barwright.mechanics.spline.clocking_search import ClockedEnd, Counts, choices
from teeth import all_turns, teeth_of, teeth_under_key
from validation import Kind, Row

# An arm end of 36 teeth, cut once before on tooth 5, and a new anchor end of 40; a step is 1°.
ARM = ClockedEnd(36, current=5, blanks=frozenset({0, 5}))
ANCHOR = ClockedEnd(40)
WANTED, LOW, HIGH = 24.4, 5.0, 60.0

_searched = functools.partial(
    Row,
    source="scipy and shapely: all 1440 pairs turned in space, teeth under the keys counted",
    unit="deg",
    within=1e-9,
    kind=Kind.FORMULATED,
)
_outlines = functools.partial(
    Row,
    source="shapely: teeth whose outline meets the key's",
    unit="",
    within=1e-9,
    kind=Kind.FORMULATED,
)


@functools.cache
def _cuts(which: str, tooth: int) -> int:
    """Teeth to take off so that an end goes on a key."""
    end = ARM if which == "arm" else ANCHOR
    return teeth_under_key(end.teeth, set(end.blanks), tooth)


@functools.cache
def _nearest(cuts: int) -> float:
    """Turn next to the wanted one at a number of cuts, of the pairs within the limits."""
    found = [
        math.degrees(turn)
        for (arm, anchor), turn in all_turns(36, 40).items()
        if LOW <= math.degrees(turn) <= HIGH and _cuts("arm", arm) + _cuts("anchor", anchor) == cuts
    ]
    return min(found, key=lambda turn: abs(turn - WANTED))


def _chosen(cuts: int) -> float:
    found = choices(ARM, ANCHOR, wanted_steps=WANTED, low=LOW, high=HIGH)
    return min(
        (c.clocking_steps for c in found if c.cuts == cuts), key=lambda steps: abs(steps - WANTED)
    )


def _whole_turns(arm_tooth: int) -> list[int]:
    """Turns with a tooth of the arm end on its key [°], each from 0 up to a whole turn."""
    turns = (turn for (arm, _), turn in all_turns(36, 40).items() if arm == arm_tooth)
    return sorted({round(math.degrees(turn)) % 360 for turn in turns})


def _first_and_spacing() -> float:
    first, second, *_ = _whole_turns(5)
    return 1000.0 * first + (second - first)


def _teeth_of_turn(turn: float) -> float:
    """Teeth at both ends, however counted, of all pairs that give a turn [°]."""
    pairs = (pair for pair, one in all_turns(36, 40).items() if _is_same(math.degrees(one), turn))
    return sum(abs(arm) + abs(anchor) for arm, anchor in pairs)


def _is_same(one: float, other: float) -> bool:
    return abs(math.remainder(one - other, 360.0)) < 1e-6


def _progression_of_arm_tooth() -> float:
    first, spacing = COUNTS.progression(5, None)
    return 1000.0 * (first % spacing) + spacing


COUNTS = Counts.of(arm_teeth=36, anchor_teeth=40)

_GIVEN = (
    "36 teeth at the arm end, of which 0 and 5 are missing, and 40 at the anchor end, of "
    "which 0 is; 24.4° wanted, 5° to 60° in reach"
)

ROWS = [
    *(
        _searched(
            of="clocking_search.choices",
            given=f"{_GIVEN}; {count} to cut",
            expected=functools.partial(_nearest, cuts),
            got=functools.partial(_chosen, cuts),
        )
        for cuts, count in enumerate(("none", "one tooth", "two teeth"))
    ),
    _searched(
        of="clocking_search.Counts.of",
        given="36 and 40 teeth: what one tooth at the arm end turns",
        expected=lambda: round(math.degrees(all_turns(36, 40)[1, 0])),
        got=lambda: float(Counts.of(arm_teeth=36, anchor_teeth=40).arm_unit),
    ),
    _searched(
        of="clocking_search.Counts.progression",
        given="the same, tooth 5 of the arm end on its key: 1000 times the least turn, and the "
        "distance to the next one",
        expected=_first_and_spacing,
        got=_progression_of_arm_tooth,
    ),
    _searched(
        of="clocking_search.Counts.pairs",
        given="the same: teeth of all pairs that turn it by 24°, at both ends together",
        unit="",
        expected=lambda: _teeth_of_turn(24.0),
        got=lambda: float(sum(abs(a) + abs(c) for a, c in COUNTS.pairs(24, None, None))),
    ),
    _outlines(
        of="clocking_search.ClockedEnd.cuts",
        given="36 teeth, of which 0 and 5 are missing: tooth 6 on the key",
        expected=lambda: teeth_under_key(36, {0, 5}, 6),
        got=lambda: ARM.cuts(6),
    ),
    _outlines(
        of="clocking_search.ClockedEnd.cuts",
        given="the same: how many of its 36 places need a cut",
        expected=lambda: sum(teeth_under_key(36, {0, 5}, tooth) for tooth in teeth_of(36)),
        got=lambda: sum(ARM.cuts(tooth) for tooth in teeth_of(36)),
    ),
    _outlines(
        of="clocking_search.ClockedEnd.ways",
        given="the same: sum of the numbers of the places that need none",
        expected=lambda: sum(t for t in teeth_of(36) if teeth_under_key(36, {0, 5}, t) == 0),
        got=lambda: sum(tooth for tooth in ARM.ways() if tooth is not None),
    ),
]
