"""A waiver names a rule."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.registry.nearest_name import nearest

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    for stated in subject.waivers:
        name = stated.waiver.rule
        if name not in subject.waivable:
            message = f"there is no rule {name!r} that can be waived"
            yield Remark(stated.place, message, nearest(name, subject.waivable))


RULE = Rule(
    name="waiver-rule",
    code="R501",
    wants="a waiver names a rule that can be waived",
    tip="write the name of the rule as the finding shows it",
    remarks=_remarks,
)
