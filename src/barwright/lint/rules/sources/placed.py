"""A figure says where in its source it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject import Subject
from barwright.parts.source import SourceKind

__all__ = ["RULE"]

# What is invented, estimated or recalled stands nowhere else.
_HAVE_PLACES = (SourceKind.MEASURED, SourceKind.PUBLISHED, SourceKind.MAKER)


def _remarks(subject: Subject) -> Iterator[Remark]:
    for figure in subject.figures:
        if figure.about.source_kind in _HAVE_PLACES and not re.search(r"\w", figure.about.at):
            where = f"it does not say where in source {figure.source!r} the figure stands"
            yield Remark(figure.place, where)


RULE = Rule(
    name="placed",
    code="R101",
    wants="a measured, published or maker's figure gives its place in the source",
    tip="add at = 'page …' to the figure or to its table",
    remarks=_remarks,
)
