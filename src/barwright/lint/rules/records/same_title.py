"""Two records of a kind can be told apart in a list."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    first: dict[tuple[type, str], str] = {}
    for place, part in subject.records:
        known = first.setdefault((type(part), part.title.casefold()), place.of)
        if known != place.of:
            yield Remark(place.within("title"), f"{part.title!r} is the title of {known} too")


RULE = Rule(
    name="same-title",
    code="R202",
    severity=Severity.WARNING,
    wants="no two records of a kind have the same title",
    tip="make the titles differ",
    remarks=_remarks,
)
