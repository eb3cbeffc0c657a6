"""The standard height leaves the nut near the middle of its thread."""

from __future__ import annotations

import math
from collections.abc import Iterator

from barwright.analysis.corner.corner import Corner
from barwright.errors import BarwrightError
from barwright.lint.corners.corners import Said, StandardCorner, reported_where_it_fits
from barwright.lint.corners.suspects import MOST_EXPLAINED, off_middle, off_tolerance, suspects
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.units import ANGLE, quantity, shown

__all__ = ["RULE"]

# Where hardly a figure has a tolerance, the works' own adjustment is still not exact.
_LEAST_TURNS = 0.75

# Tolerances are given in round figures.
_COVERAGE = 1.05

# What explains a nut off its middle must not bring it only to the edge of what is explained.
_NEAR = 0.5


def _remarks(subject: Subject) -> Iterator[Remark]:
    left = iter(range(MOST_EXPLAINED))
    return reported_where_it_fits(subject, lambda corner: _reported(corner, left))


def _reported(standard: StandardCorner, left: Iterator[int]) -> Iterator[Said]:
    corner = Corner(standard.setup)
    if corner.setup.adjuster is None:
        # Told by the rule that asks whether the corner stands.
        return
    try:
        off = off_middle(corner)
        turns = 0.0 if off is None else corner.turns_at_lever(corner.lever_middle + off)
        if off is None or abs(turns) <= _LEAST_TURNS or not corner.holds_turns(turns):
            return
        explained = off_tolerance(corner)
        if abs(off) > explained * _COVERAGE:
            yield _said(corner, off, turns, explained, explain=next(left, None) is not None)
    except BarwrightError:
        # Told by the same rule.
        return


def _said(corner: Corner, off: float, turns: float, explained: float, *, explain: bool) -> Said:
    sense = "clockwise" if turns > 0.0 else "counter-clockwise"
    rate = abs(turns / off)
    height = shown(corner.setup.axle.standard_height)
    message = (
        f"for the standard_height of {height}, with its blanks on the keys, the adjuster must be "
        f"turned by {abs(turns):.1f} turns {sense} from its middle "
        f"({shown(quantity(off, ANGLE), 1)} of the lever); tolerances explain "
        f"{explained * rate:.1f} turns"
    )
    near = max(explained * _NEAR, math.radians(0.5))
    return Said(message, suspects(corner, within=near) if explain else "")


RULE = Rule(
    name="standard-middle",
    code="R305",
    severity=Severity.WARNING,
    wants="at standard height the adjuster is as near its middle as tolerances explain",
    tip="measure height, mass, key angles, diameter and adjuster again",
    remarks=_remarks,
)
