"""An invented vehicle says so in a title."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.chassis import Chassis
from barwright.parts.common.source import SourceKind

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    invented = {
        _record(figure.place)
        for figure in subject.figures
        if figure.about.source_kind is SourceKind.INVENTED
    }
    for place, chassis in subject.records_of(Chassis):
        titles = f"{subject.pack.header.title} {chassis.title}".casefold()
        if _record(place) in invented and "invented" not in titles:
            yield Remark(
                place.within("title"),
                "its figures are invented, but neither its title nor the pack's says so",
            )


def _record(place: PackPlace) -> tuple[str, str]:
    """Tell in which record a place lies, by file and key: an id may hold points."""
    return place.file, place.key.partition(".")[0]


RULE = Rule(
    name="invented-unsaid",
    code="R114",
    wants="a vehicle with invented figures says so in its own title or the pack's",
    tip="write 'invented' in one of the two titles, or give the figures another source",
    remarks=_remarks,
)
