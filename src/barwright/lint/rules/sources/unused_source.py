"""A source is listed for a figure or a check."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    used = {stated.source for stated in (*subject.figures, *subject.facts)}
    used |= {stated.check.source for stated in subject.checks}
    used |= {claim.source.partition(":")[2] for claim in subject.pack.claims}
    # Of a record with gaps all figures that it has from a source may be unknown.
    used |= {source for gap in subject.gaps for source in _named(subject.pack.entries[gap].table)}
    for place, source in subject.sources:
        if source.id not in used:
            yield Remark(place, "no figure or check uses this source")


def _named(value: Any) -> Iterator[Any]:  # noqa: ANN401 - whatever a table holds
    """List the sources that a table and those within it name."""
    if isinstance(value, dict):
        yield value.get("source")
        yield from (named for inner in value.values() for named in _named(inner))
    elif isinstance(value, list):
        yield from (named for inner in value for named in _named(inner))


RULE = Rule(
    name="unused-source",
    code="R111",
    wants="every source in the list is used by a figure or a check",
    tip="name the source at its figures, or remove it from the list",
    remarks=_remarks,
    needs_whole=True,
)
