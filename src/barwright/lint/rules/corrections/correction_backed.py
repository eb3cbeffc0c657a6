"""A correction is known at least as well as what it corrects."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.common.source import SourceKind

__all__ = ["RULE"]

_GUESSED = (SourceKind.INVENTED, SourceKind.ESTIMATED, SourceKind.RECALLED)


def _remarks(subject: Subject) -> Iterator[Remark]:
    for stated in subject.corrections:
        now = stated.about.source_kind
        before = stated.replaces.source_kind if stated.replaces else None
        if now in _GUESSED and before is not None and before not in _GUESSED:
            yield Remark(stated.place, f"the new figure is {now.value}, the old one {before.value}")


RULE = Rule(
    name="correction-backed",
    code="R603",
    wants="no invented, estimated or recalled figure replaces a measured or published one",
    tip="measure the figure or find it published, and name that source",
    remarks=_remarks,
)
