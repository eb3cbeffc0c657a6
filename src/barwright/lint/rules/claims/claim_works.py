"""Parts that fit also carry the vehicle at its standard height."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.answer import Verdict
from barwright.analysis.reindex.plan.plan import work_in_short
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.errors import BarwrightError
from barwright.lint.corners.claimed import ClaimedCorner, claimed_corners, told_once
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.claim import Claimed
from barwright.parts.setup import Setup

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    yield from told_once(
        told
        for corner in claimed_corners(subject)
        if corner.can_be_judged
        for told in _reported(corner)
    )


def _reported(corner: ClaimedCorner) -> Iterator[tuple[ClaimedCorner, str, str]]:
    answer = _planned(corner.setup, present=corner.standard)
    if answer is None or answer.verdict is Verdict.NEEDS_FIGURES:
        return
    if answer.verdict.is_refusal:
        # What keeps the standard parts from it too is no fault of these.
        own = _planned(corner.standard, present=corner.standard)
        if own is not None and not own.verdict.is_refusal:
            yield corner, f"at the standard height: {answer.headline.removesuffix('.')}", ""
        return
    plan = answer.preferred
    is_plain = not (plan.cuts or corner.changes)
    if plan.cuts and corner.claim.claimed is Claimed.FITS:
        work = work_in_short(plan.ends, plan.disturbed)
        yield corner, f"to stand at the standard height: {work}", _WITH_CHANGES
    if is_plain and corner.claim.claimed is Claimed.FITS_WITH_CHANGES:
        yield corner, "fits without any change", "write as = 'fits'"


_WITH_CHANGES = "write as = 'fits with changes', or set the bar's blanks for that height"


def _planned(setup: Setup, *, present: Setup) -> Reindex | None:
    try:
        return reindex(setup, present=present)
    except BarwrightError:
        return None


RULE = Rule(
    name="claim-works",
    code="R704",
    severity=Severity.WARNING,
    wants="parts that fit carry the vehicle at its standard height, as it is said",
    tip="check the part's figures; if they are right, leave that vehicle out of on",
    remarks=_remarks,
)
