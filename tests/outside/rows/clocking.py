"""Clocking, against teeth built in space, number theory, and what the trade says.

Directions of teeth are turned by scipy's rotations and searched one and all; congruences
are sympy's.
"""

from __future__ import annotations

import functools
import math
from typing import Any

import sympy
from sympy.ntheory.modular import symmetric_residue
from sympy.solvers.diophantine import diophantine

from barwright.mechanics.spline.clocking import (
    TurningSense,
    bump_sense,
    centred,
    free_angle,
    rotation_steps,
    smallest_step,
    tooth_pairs,
    turning_sense,
)
from inclined_arm import HingedArm
from teeth import all_turns, built_free_angle, seen_turning, turn_of
from validation import Kind, Row

Vector = tuple[float, float, float]

_computed = functools.partial(Row, within=1e-9, kind=Kind.ENGINE)
_in_space = functools.partial(
    _computed, source="scipy: directions of teeth turned in space", kind=Kind.FORMULATED
)


def _degrees(arm_tooth: int, anchor_tooth: int, *, arm_teeth: int, anchor_teeth: int) -> float:
    counts = {"arm_teeth": arm_teeth, "anchor_teeth": anchor_teeth}
    steps = rotation_steps(arm_tooth=arm_tooth, anchor_tooth=anchor_tooth, **counts)
    return math.degrees(steps * float(smallest_step(**counts)))


@functools.cache
def _least_turn(arm_teeth: int, anchor_teeth: int) -> float:
    """Least turn above none of all pairs, in degrees."""
    return math.degrees(min(t for t in all_turns(arm_teeth, anchor_teeth).values() if t > 1e-6))


def _smallest(arm_teeth: int, anchor_teeth: int) -> float:
    return math.degrees(float(smallest_step(arm_teeth=arm_teeth, anchor_teeth=anchor_teeth)))


def _turn(arm_tooth: int, anchor_tooth: int, *, arm_teeth: int, anchor_teeth: int) -> float:
    turn = turn_of(arm_tooth, anchor_tooth, arm_teeth, anchor_teeth)
    return math.degrees(turn)


def _pair(arm_teeth: int, anchor_teeth: int, steps: int) -> tuple[int, int]:
    """Teeth that give a rotation, counts without a common factor, from a Diophantine equation."""
    x, y = sympy.symbols("x y", integer=True)
    ((arm, anchor),) = diophantine(anchor_teeth * x - arm_teeth * y - steps)
    free = dict.fromkeys(arm.free_symbols | anchor.free_symbols, 0)
    return (
        int(symmetric_residue(int(arm.subs(free)), arm_teeth)),
        int(symmetric_residue(int(anchor.subs(free)), anchor_teeth)),
    )


def _solved(end: int) -> int:
    return _pair(36, 41, 1)[end]


def _found(end: int) -> int:
    return tooth_pairs(1, arm_teeth=36, anchor_teeth=41)[0][end]


_BUILT: dict[str, Any] = {
    "heading": 2.1,
    "handed": -1,
    "lever": 0.35,
    "arm_key": 0.62,
    "anchor_key": -0.21,
    "blank": 0.17,
}
_GIVEN = "lever 0.35 rad, keys at 0.62 and −0.21 rad, blank angle 0.17 rad, bump left-handed"


def _free(arm_tooth: int, anchor_tooth: int) -> float:
    steps = rotation_steps(
        arm_tooth=arm_tooth, anchor_tooth=anchor_tooth, arm_teeth=36, anchor_teeth=40
    )
    turn = steps * float(smallest_step(arm_teeth=36, anchor_teeth=40))
    return float(
        free_angle(0.35, arm_key=0.62, anchor_key=-0.21, blank_angle=0.17, sense=-1, rotation=turn)
    )


def _counter_clockwise(sense: TurningSense) -> float:
    return 1.0 if sense is TurningSense.COUNTER_CLOCKWISE else -1.0


def _reported(*, from_arm_end: bool) -> float:
    return _counter_clockwise(turning_sense(1, from_arm_end=from_arm_end))


def _lifting(bar: Vector, arm: Vector) -> float:
    return HingedArm(bar, arm).sense


def _sense(bar: Vector, arm: Vector) -> float:
    return bump_sense(bar_axis=bar, arm_direction=arm)


def _seen(*, from_arm_end: bool) -> float:
    area = seen_turning(heading=0.4, handed=1, from_arm_end=from_arm_end)
    return math.copysign(1.0, area)


_CCW = "1 counter-clockwise, −1 clockwise"
_BARS: dict[str, tuple[Vector, Vector]] = {
    "along the vehicle, left wheel": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
    "along the vehicle, right wheel": ((1.0, 0.0, 0.0), (0.0, -1.0, 0.0)),
    "(1, 0.3, 0.4), arm (0.3, −1, 0)": ((1.0, 0.3, 0.4), (0.3, -1.0, 0.0)),
}

ROWS = [
    *(
        _in_space(
            of="clocking.smallest_step",
            given=f"{arm} and {anchor} teeth: the least turn of all {arm * anchor} pairs",
            unit="deg",
            expected=functools.partial(_least_turn, arm, anchor),
            got=functools.partial(_smallest, arm, anchor),
        )
        for arm, anchor in ((39, 42), (36, 41))
    ),
    *(
        _in_space(
            of="clocking.rotation_steps",
            given=f"39 and 42 teeth, {words}",
            unit="deg",
            expected=functools.partial(_turn, *pair, arm_teeth=39, anchor_teeth=42),
            got=functools.partial(_degrees, *pair, arm_teeth=39, anchor_teeth=42),
        )
        for words, pair in (
            ("one tooth at the end of 39", (1, 0)),
            ("one tooth at the end of 42", (0, -1)),
            ("one tooth at both ends, in opposite directions", (1, 1)),
        )
    ),
    _in_space(
        of="clocking.rotation_steps",
        given="36 and 41 teeth, one tooth at both ends: 5 steps, not the smallest",
        unit="deg",
        expected=lambda: _turn(1, 1, arm_teeth=36, anchor_teeth=41),
        got=lambda: _degrees(1, 1, arm_teeth=36, anchor_teeth=41),
    ),
    *(
        _computed(
            of="clocking.tooth_pairs",
            source="sympy: Diophantine equation 41 a − 36 c = 1",
            kind=Kind.FORMULATED,
            given=f"36 and 41 teeth, one step: tooth at the {end} end",
            unit="",
            expected=functools.partial(_solved, at),
            got=functools.partial(_found, at),
        )
        for at, end in enumerate(("arm", "anchor"))
    ),
    _in_space(
        of="clocking.tooth_pairs",
        given="39 and 42 teeth, 7 steps: how many pairs of all 1638 make that turn",
        unit="",
        expected=lambda: sum(
            abs(turn - 7.0 * math.tau / 546.0) < 1e-9 for turn in all_turns(39, 42).values()
        ),
        got=lambda: len(tooth_pairs(7, arm_teeth=39, anchor_teeth=42)),
    ),
    _computed(
        of="clocking.centred",
        source="sympy: symmetric residue",
        kind=Kind.FORMULATED,
        given="tooth 39 of 40",
        unit="",
        expected=lambda: int(symmetric_residue(39, 40)),
        got=lambda: centred(39, teeth=40),
    ),
    _computed(
        of="clocking.centred",
        source="sympy: symmetric residue",
        kind=Kind.FORMULATED,
        given="tooth 20 of 40, just opposite",
        unit="",
        expected=lambda: int(symmetric_residue(20, 40)),
        got=lambda: centred(20, teeth=40),
    ),
    _in_space(
        of="clocking.free_angle",
        given=f"{_GIVEN}, blanks on both keys",
        unit="rad",
        expected=lambda: built_free_angle(**_BUILT),
        got=lambda: _free(0, 0),
    ),
    _in_space(
        of="clocking.free_angle",
        given=f"{_GIVEN}, tooth 5 of 36 on the arm's key and tooth 3 of 40 on the anchor's",
        unit="rad",
        expected=lambda: built_free_angle(
            **_BUILT, arm_turn=math.tau * 5 / 36, anchor_turn=math.tau * 3 / 40
        ),
        got=lambda: _free(5, 3),
    ),
    *(
        _computed(
            of="clocking.bump_sense",
            source="MuJoCo: direction in which a hinge turns to lift the wheel",
            given=f"bar {name}",
            unit="",
            expected=functools.partial(_lifting, bar, arm),
            got=functools.partial(_sense, bar, arm),
        )
        for name, (bar, arm) in _BARS.items()
    ),
    *(
        _in_space(
            of="clocking.turning_sense",
            given=f"right-handed bump, seen from the {end} end ({_CCW})",
            unit="",
            expected=functools.partial(_seen, from_arm_end=at),
            got=functools.partial(_reported, from_arm_end=at),
        )
        for end, at in (("arm", True), ("anchor", False))
    ),
    _in_space(
        of="clocking.TurningSense.reversed",
        given=f"clockwise seen from the anchor end, as seen from the arm end ({_CCW})",
        unit="",
        expected=lambda: _seen(from_arm_end=True),
        got=lambda: _counter_clockwise(turning_sense(1, from_arm_end=False).reversed),
    ),
]
