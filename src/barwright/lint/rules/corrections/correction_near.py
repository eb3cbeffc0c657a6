"""A correction stays near what it corrects."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

from barwright.analysis.trail_facts import value_in_words
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.stated import StatedCorrection
from barwright.lint.subject.subject import Subject
from barwright.units import ANGLE, si

__all__ = ["FARTHEST_TURN", "LARGEST_RATIO", "RULE"]

LARGEST_RATIO = 1.5
"""Of a figure to the one that it corrects, or the other way round: common practice, no source."""

FARTHEST_TURN = math.radians(15.0)
"""From an angle or a direction to the one that corrects it: common practice, no source."""


def _remarks(subject: Subject) -> Iterator[Remark]:
    for stated in subject.corrections:
        before, now = stated.before, stated.about.value
        if before is not None and _is_far(stated, before, now):
            message = f"{value_in_words(now)} is far from {value_in_words(before)} in the pack"
            yield Remark(stated.place, message)


def _is_far(stated: StatedCorrection, before: Any, now: Any) -> bool:  # noqa: ANN401 - figures or facts
    if not stated.is_fact:
        old, new = si(before, stated.kind), si(now, stated.kind)
        return _is_far_turned(new - old) if stated.kind is ANGLE else _is_far_off(old, new)
    if isinstance(now, tuple) and {*map(type, now)} == {float}:
        return _is_far_turned(math.acos(_cosine(before, now)))
    # Words are neither near nor far, and neither is yes or no.
    return type(now) is int and _is_far_off(before, now)


def _is_far_turned(by: float) -> bool:
    return abs(math.remainder(by, math.tau)) > FARTHEST_TURN


def _is_far_off(old: float, new: float) -> bool:
    # Nothing is near or far from a figure that is 0.
    return old != 0.0 and not 1.0 / LARGEST_RATIO <= new / old <= LARGEST_RATIO


def _cosine(one: Sequence[float], other: Sequence[float]) -> float:
    """Cosine of the angle between two directions."""
    product = sum(a * b for a, b in zip(one, other, strict=True))
    lengths = math.hypot(*one) * math.hypot(*other)
    # A direction without a length has no angle to any other.
    return max(-1.0, min(1.0, product / lengths)) if lengths else 0.0


RULE = Rule(
    name="correction-near",
    code="R602",
    severity=Severity.WARNING,
    wants="a correction is within a factor of 1.5 or 15 degrees of the old figure, with its sign",
    tip="look for a wrong record, unit or digit; if it is right, waive this and give the reason",
    remarks=_remarks,
)
