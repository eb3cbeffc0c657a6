"""A waiver is needed."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.lint.waiving import covered

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    needed = {id(waiver) for waiver, _ in covered(subject.waivers, subject.findings)}
    for stated in subject.waivers:
        rule, of = stated.waiver.rule, stated.waiver.of
        if rule in subject.waivable and id(stated) not in needed:
            yield Remark(stated.place, f"{rule!r} finds nothing in {of!r} in this file")


RULE = Rule(
    name="waiver-needed",
    code="R502",
    wants="a waiver matches a finding of its rule in the same file",
    tip="delete it, or move it to the file that holds the record",
    remarks=_remarks,
    needs_whole=True,
)
