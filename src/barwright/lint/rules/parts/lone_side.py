"""A part made for one side has its counterpart for the other."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.content import OTHER_SIDE, content, made_for, mirrored
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject import Subject

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    handed = [(place, part, side) for place, part in subject.records if (side := made_for(part))]
    known = [(place, part, side) for place, part, side in handed if part.id not in subject.gaps]
    contents = {content(part) for _, part, _ in known}
    # A part of which not all is known may be the counterpart of any.
    open_sides = {(type(part), side) for _, part, side in handed if part.id in subject.gaps}
    for place, part, side in known:
        other = OTHER_SIDE[side]
        if (type(part), other) in open_sides:
            continue
        if content(mirrored(part, other)) not in contents:
            yield Remark(place, f"it has no counterpart for the {other.value} side")


RULE = Rule(
    name="lone-side",
    code="R207",
    severity=Severity.WARNING,
    wants="a part for one side has a mirrored counterpart for the other side",
    tip="add it with the same figures and made_for the other side; a bar also changes the sign of "
    "sign",
    remarks=_remarks,
    needs_whole=True,
)
