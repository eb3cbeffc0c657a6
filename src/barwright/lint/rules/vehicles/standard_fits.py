"""What left the works fits."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.errors import BarwrightError
from barwright.lint.corners import StandardCorner, each_axle, reported_once
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject import Subject

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    for axle in each_axle(subject):
        yield from reported_once(axle.place, _reported(axle.corners))


def _reported(corners: tuple[StandardCorner, ...]) -> Iterator[tuple[StandardCorner, str]]:
    for corner in corners:
        if isinstance(corner.fit, BarwrightError):
            yield corner, f"got {corner.fit.value!r}, expected {corner.fit.expected}"
            continue
        for finding in (*corner.fit.reasons, *corner.fit.changes):
            yield corner, finding.line


RULE = Rule(
    name="standard-fits",
    code="R301",
    wants="the standard parts of every corner fit without any change",
    tip="a figure is wrong or measured from another datum: barwright explain conventions",
    remarks=_remarks,
)
