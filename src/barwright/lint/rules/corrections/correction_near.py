"""A correction stays near what it corrects."""

from __future__ import annotations

import math
from collections.abc import Iterator

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.stated import StatedCorrection
from barwright.lint.subject import Subject
from barwright.units import ANGLE, Quantity, shown, si

__all__ = ["FARTHEST_TURN", "LARGEST_RATIO", "RULE"]

LARGEST_RATIO = 1.5
"""Of a figure to the one that it corrects, or the other way round: common practice, no source."""

FARTHEST_TURN = math.radians(15.0)
"""From an angle to the one that corrects it: common practice, no source."""


def _remarks(subject: Subject) -> Iterator[Remark]:
    for stated in subject.corrections:
        before = stated.before
        if before is not None and _is_far(stated, before):
            message = f"{shown(stated.about.value)} is far from {shown(before)} in the pack"
            yield Remark(stated.place, message)


def _is_far(stated: StatedCorrection, before: Quantity) -> bool:
    old, new = si(before, stated.kind), si(stated.about.value, stated.kind)
    if stated.kind is ANGLE:
        return abs(math.remainder(new - old, math.tau)) > FARTHEST_TURN
    # Nothing is near or far from a figure that is 0.
    return old != 0.0 and not 1.0 / LARGEST_RATIO <= new / old <= LARGEST_RATIO


RULE = Rule(
    name="correction-near",
    code="R602",
    severity=Severity.WARNING,
    wants="a correction is within a factor of 1.5 or 15 degrees of the old figure, with its sign",
    tip="look for a wrong record, unit or digit; if it is right, waive this and give the reason",
    remarks=_remarks,
)
