"""Parts fit what they are said to fit."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.errors import BarwrightError
from barwright.lint.corners.claimed import ClaimedCorner, claimed_corners, told_once
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.claim import Claimed

__all__ = ["RULE"]

_WITH_CHANGES = "write as = 'fits with changes', or correct the part"


def _remarks(subject: Subject) -> Iterator[Remark]:
    yield from told_once(told for corner in claimed_corners(subject) for told in _reported(corner))


def _reported(corner: ClaimedCorner) -> Iterator[tuple[ClaimedCorner, str, str]]:
    fit = corner.fit
    if isinstance(fit, BarwrightError):
        yield corner, f"cannot be put on: got {fit.value!r}, expected {fit.expected}", fit.remedy
        return
    for reason in fit.reasons:
        yield corner, f"does not fit: {reason.line}", ""
    if corner.claim.claimed is Claimed.FITS and not fit.reasons:
        for change in corner.changes:
            yield corner, f"fits only with changes: {change.line}", _WITH_CHANGES


RULE = Rule(
    name="claim-fits",
    code="R703",
    wants="parts fit the vehicles that they are said to fit, as it is said",
    tip="leave that vehicle out of on, or correct the figure that is wrong",
    remarks=_remarks,
)
