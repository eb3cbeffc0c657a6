"""A figure says where in its source it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.stated import StatedFigure
from barwright.lint.subject.subject import Subject
from barwright.parts.common.source import Fact, SourceKind

__all__ = ["RULE"]

# What is invented, estimated or recalled stands nowhere else.
_HAVE_PLACES = (SourceKind.MEASURED, SourceKind.PUBLISHED, SourceKind.MAKER)


def _remarks(subject: Subject) -> Iterator[Remark]:
    for stated in (*subject.figures, *filter(_is_alone, subject.facts)):
        if stated.about.source_kind in _HAVE_PLACES and not re.search(r"\w", stated.about.at):
            what = "fact" if stated.is_fact else "figure"
            where = f"it does not say where in source {stated.source!r} the {what} stands"
            yield Remark(stated.place, where)


def _is_alone(fact: StatedFigure) -> bool:
    """Tell whether no figure of its table lacks the same place, and is told for it."""
    beside = (known for known in fact.record.about.values() if not isinstance(known, Fact))
    origin = fact.about.source, fact.about.at
    return origin not in {(known.source, known.at) for known in beside}


RULE = Rule(
    name="placed",
    code="R101",
    wants="a measured, published or maker's figure gives its place in the source",
    tip="add at = 'page …' to the figure or to its table",
    remarks=_remarks,
)
