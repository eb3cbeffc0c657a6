"""A source can be found again."""

from __future__ import annotations

import re
from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject

__all__ = ["RULE"]

_FEWEST_WORDS = 3


def _remarks(subject: Subject) -> Iterator[Remark]:
    for place, source in subject.sources:
        if len(re.findall(r"\w{2,}", source.note)) < _FEWEST_WORDS:
            yield Remark(
                place.within("note"), f"{source.note!r} is not enough to find the source again"
            )


RULE = Rule(
    name="thin-source",
    code="R112",
    wants="the note of a source is enough to find the source again",
    tip="give title, edition and table; for a measurement, the instrument, the part and the day",
    remarks=_remarks,
)
