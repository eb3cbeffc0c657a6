"""A check rests on someone else."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.common.source import SourceKind

__all__ = ["RULE"]

_OURSELVES = "barwright"
_GUESSED = (SourceKind.INVENTED, SourceKind.ESTIMATED)


def _remarks(subject: Subject) -> Iterator[Remark]:
    sources = {source.id: source for _, source in subject.sources}
    for stated in subject.checks:
        source = sources[stated.check.source]
        place = stated.place
        if source.kind in _GUESSED:
            yield Remark(place, f"source {source.id!r} is {source.kind.value} and proves nothing")
        elif _OURSELVES in f"{source.note} {stated.check.at}".casefold():
            yield Remark(place, f"source {source.id!r} is barwright itself and proves nothing")


RULE = Rule(
    name="check-source",
    code="R402",
    wants="a check's source is neither barwright nor invented nor estimated",
    tip="measure the figure or find it published; if you can do neither, remove the check",
    remarks=_remarks,
)
