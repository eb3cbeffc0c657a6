"""A preference is needed."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    for stated in subject.preferences:
        if not stated.is_needed:
            yield Remark(stated.place, "no two packs with different content claim this id")


RULE = Rule(
    name="preference-needed",
    code="R611",
    wants="a preference chooses between packs that claim one id",
    tip="delete it; if the other pack is only on another machine, waive this and say so",
    remarks=_remarks,
    needs_whole=True,
)
