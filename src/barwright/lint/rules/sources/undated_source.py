"""A source says when."""

from __future__ import annotations

import re
from collections.abc import Iterator

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.common.source import SourceKind

__all__ = ["RULE"]

_YEAR = re.compile(r"(?<!\d)(?:1[89]|2[01])\d\d(?!\d)")
_HAVE_DATES = (SourceKind.MEASURED, SourceKind.PUBLISHED, SourceKind.MAKER)


def _remarks(subject: Subject) -> Iterator[Remark]:
    for place, source in subject.sources:
        if source.kind in _HAVE_DATES and not _YEAR.search(source.note):
            yield Remark(
                place.within("note"),
                f"the source is {source.kind.value}, but its note gives no year",
            )


RULE = Rule(
    name="undated-source",
    code="R113",
    severity=Severity.WARNING,
    wants="the note of a measured, published or maker's source gives its year",
    tip="add the year of the edition or of the measurement",
    remarks=_remarks,
)
