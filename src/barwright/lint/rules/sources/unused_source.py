"""A source is listed for a figure or a check."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject import Subject

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    used = {figure.source for figure in subject.figures}
    used |= {stated.check.source for stated in subject.checks}
    for place, source in subject.sources:
        if source.id not in used:
            yield Remark(place, "no figure or check uses this source")


RULE = Rule(
    name="unused-source",
    code="R111",
    wants="every source in the list is used by a figure or a check",
    tip="name the source at its figures, or remove it from the list",
    remarks=_remarks,
    needs_whole=True,
)
