"""A vehicle was built before its source could tell of it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.chassis import Chassis
from barwright.parts.common.identity import Month
from barwright.parts.common.source import SourceKind

__all__ = ["RULE"]

_YEAR = re.compile(r"(?<!\d)(?:1[89]|2[01])\d\d(?!\d)")
_HAVE_DATES = (SourceKind.MEASURED, SourceKind.PUBLISHED, SourceKind.MAKER)


def _remarks(subject: Subject) -> Iterator[Remark]:
    years = dict(_years(subject))
    for place, chassis in subject.records_of(Chassis):
        for field in ("first_built", "last_built"):
            built: Month | None = getattr(chassis, field)
            if built is not None:
                source = chassis.about[field].source
                for message in _later(field, built, source, years):
                    yield Remark(place.within(field), message)


def _years(subject: Subject) -> Iterator[tuple[str, int]]:
    """Year of each source that has one, the latest that its note names."""
    for _, source in subject.sources:
        found = _YEAR.findall(source.note)
        if source.kind in _HAVE_DATES and found:
            yield f"{subject.pack.id}:{source.id}", max(map(int, found))


def _later(field: str, built: Month, source: str, years: Mapping[str, int]) -> Iterator[str]:
    if source in years and built.year > years[source]:
        yield f"{field} {built} is later than {years[source]}, the year of its source {source}"


RULE = Rule(
    name="built-later",
    code="R310",
    severity=Severity.WARNING,
    wants="a vehicle was not built later than the year of its source",
    tip="look for a wrong digit in the month, or name the source that it comes from",
    remarks=_remarks,
)
