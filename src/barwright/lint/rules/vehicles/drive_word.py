"""A drive is one of the known words."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.chassis import Chassis
from barwright.registry.nearest_name import nearest

__all__ = ["DRIVES", "RULE"]

DRIVES = ("front", "rear", "all", "none")
"""Wheels that are driven."""


def _remarks(subject: Subject) -> Iterator[Remark]:
    for place, chassis in subject.records_of(Chassis):
        if chassis.drive and chassis.drive not in DRIVES:
            message = f"{chassis.drive!r} is not one of {', '.join(DRIVES)}"
            yield Remark(place.within("drive"), message, nearest(chassis.drive, DRIVES))


RULE = Rule(
    name="drive-word",
    code="R208",
    severity=Severity.WARNING,
    wants="the drive is one of the words front, rear, all and none",
    tip="use one of them; if none is true, waive this and say why",
    remarks=_remarks,
)
