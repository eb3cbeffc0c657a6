"""A part number is that of one part only."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.registry.packs.search_terms import compact

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    first: dict[tuple[str, str], str] = {}
    for place, part in subject.records:
        for one in part.numbers:
            known = first.setdefault((one.number_system, compact(one.number)), place.of)
            if known != place.of:
                where = place.within(f"numbers.{one.number_system}")
                yield Remark(where, f"the number {one} is that of {known} too")


RULE = Rule(
    name="same-number",
    code="R221",
    severity=Severity.WARNING,
    wants="no two records have the same part number of one system",
    tip="look both up again; if one number is sold for both, waive the finding with that reason",
    remarks=_remarks,
)
