"""What left the works fits."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.finding import Topic
from barwright.errors import BarwrightError
from barwright.lint.corners.compared import compared
from barwright.lint.corners.corners import Said, StandardCorner, each_axle, reported_once
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    for axle in each_axle(subject):
        yield from reported_once(axle.place, _reported(axle.corners))


def _reported(corners: tuple[StandardCorner, ...]) -> Iterator[tuple[StandardCorner, Said]]:
    for corner in corners:
        fit = corner.fit
        if isinstance(fit, BarwrightError):
            where = f" ({fit.key.rpartition('.')[2]})" if fit.key else ""
            text = f"got {fit.value!r}{where}, expected {fit.expected}"
            yield corner, Said(text, compared(corner.setup, _topic(fit)))
            continue
        for finding in (*fit.reasons, *fit.changes):
            yield corner, Said(finding.line, compared(corner.setup, finding.topic, finding.end))


def _topic(error: BarwrightError) -> Topic:
    """Whether it is the linkage or the adjuster that cannot work."""
    return Topic.THREAD if error.key.rpartition(".")[2] in _OF_THE_BOLT else Topic.TRAVEL


_OF_THE_BOLT = ("line_distance", "pivot_distance", "lever_radius", "face_offset", "end_radius")


RULE = Rule(
    name="standard-fits",
    code="R301",
    wants="the standard parts of every corner fit without any change",
    tip="a figure is wrong or measured from another datum: barwright explain conventions",
    remarks=_remarks,
)
