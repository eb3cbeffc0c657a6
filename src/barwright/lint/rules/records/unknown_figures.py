"""Not every figure of a record is known."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.lint.told_once import TellsOnce

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    told = TellsOnce(subject)
    for place, part in subject.records:
        if gaps := told.gaps(part.id):
            yield Remark(place, f"unknown: {', '.join(gaps)}")


RULE = Rule(
    name="unknown-figures",
    code="R104",
    severity=Severity.NOTE,
    wants="every figure of a record is known",
    tip="measure it or look it up; until then, an answer that needs it says so",
    remarks=_remarks,
)
