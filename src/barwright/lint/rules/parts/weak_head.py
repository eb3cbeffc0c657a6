"""A bar is thinner than the roots of its teeth."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule, said_where_known
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.bar import Bar
from barwright.parts.spline import BarEnd
from barwright.units import LENGTH, shown, si

__all__ = ["RULE"]

_Head: TypeAlias = tuple[PackPlace, Bar, BarEnd]


def _remarks(subject: Subject) -> Iterator[Remark]:
    return said_where_known(_heads(subject), _reported)


def _heads(subject: Subject) -> Iterator[_Head]:
    for place, bar in subject.records_of(Bar):
        yield place.within("arm_end"), bar, bar.arm_end
        yield place.within("anchor_end"), bar, bar.anchor_end


def _reported(head: _Head) -> Iterator[Remark]:
    place, bar, end = head
    if si(end.root_diameter, LENGTH) <= si(bar.diameter, LENGTH):
        message = (
            f"roots of {shown(end.root_diameter)} are no larger than the body of "
            f"{shown(bar.diameter)}: the head would break first"
        )
        yield Remark(place.within("root_diameter"), message)


RULE = Rule(
    name="weak-head",
    code="R206",
    severity=Severity.WARNING,
    wants="the roots of a bar's teeth are larger than its body",
    tip="measure both again; they may have been exchanged",
    remarks=_remarks,
)
