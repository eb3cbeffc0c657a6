"""A part made for one side has its counterpart for the other."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.lint.content import OTHER_SIDE, content, made_for, mirrored
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.place import PackPlace, short
from barwright.lint.subject.subject import Subject
from barwright.parts.bar import Side
from barwright.parts.common.record import Part, Record

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
            candidates = [one for _, one, of in known if of is other and type(one) is type(part)]
            yield _lone(place, part, other, candidates)


def _lone(place: PackPlace, part: Part, side: Side, candidates: list[Part]) -> Remark:
    """Say that a part has no counterpart, and how the nearest differs from one."""
    message = f"it has no counterpart for the {side.value} side"
    wanted = mirrored(part, side)
    differing = [(tuple(_differences(wanted, other)), other) for other in candidates]
    if not differing:
        return Remark(place, message)
    fields, nearest = min(differing, key=lambda one: len(one[0]))
    of, figures = short(nearest.id), ", ".join(fields)
    if len(fields) > _MOST_DIFFERING:
        return Remark(place, message)
    return Remark(
        place,
        f"{message}: {of} differs from one in {figures}",
        f"compare {figures} of both; counterparts have the same figures, but blank_angle and "
        "blanks with the other sign",
    )


def _differences(one: Record, other: Record, within: str = "") -> Iterator[str]:
    """List the fields in which two records of a kind differ, by their paths."""
    for field in attrs.fields(type(one)):
        here, there = getattr(one, field.name), getattr(other, field.name)
        is_inside = isinstance(here, Record) and not isinstance(here, Part)
        if is_inside and isinstance(there, type(here)):
            yield from _differences(here, there, f"{within}{field.name}.")
        elif field.name not in _NAMES and here != there:
            yield f"{within}{field.name}"


_NAMES = ("id", "title", "about")

# Parts that differ in more are not a pair with a slip in it.
_MOST_DIFFERING = 3


RULE = Rule(
    name="lone-side",
    code="R207",
    severity=Severity.WARNING,
    wants="a part for one side has a mirrored counterpart for the other side",
    tip="add it with the same figures and made_for the other side; a bar's blank_angle and blanks "
    "then have the other sign",
    remarks=_remarks,
    needs_whole=True,
)
