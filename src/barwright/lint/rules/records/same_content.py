"""Two parts must not be the same; vehicles refer to a shared part."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.content import content
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.material import Material

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    first: dict[tuple[object, ...], str] = {}
    for place, part in subject.records:
        # Two steels may well have the same moduli, and two parts may differ in what is unknown.
        # A superseded part may differ from its successor in nothing but its number.
        if isinstance(part, Material) or part.id in subject.gaps or part.replaced_by:
            continue
        known = first.setdefault(content(part), place.of)
        if known != place.of:
            yield Remark(place, f"says the same as {known}")


RULE = Rule(
    name="same-content",
    code="R203",
    wants="no two parts are the same: vehicles share a part instead of copying it",
    tip="delete one and refer to the other",
    remarks=_remarks,
)
