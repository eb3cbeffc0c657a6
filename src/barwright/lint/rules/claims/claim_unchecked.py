"""What rests on another pack can be checked."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.answer import Verdict
from barwright.analysis.finding import Topic
from barwright.errors import BarwrightError
from barwright.lint.corners.claimed import (
    INSTALL,
    ClaimedCorner,
    claimed_corners,
    missing_targets,
    told_once,
)
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    for missing in missing_targets(subject):
        if missing.may_exist:
            yield missing.remark
    for place, why in subject.unchecked:
        yield Remark(place, why, INSTALL)
    yield from told_once(_without_figures(subject))


def _without_figures(subject: Subject) -> Iterator[tuple[ClaimedCorner, str, str]]:
    for corner in claimed_corners(subject):
        fit = corner.fit
        if not isinstance(fit, BarwrightError) and fit.verdict is Verdict.NEEDS_FIGURES:
            needed = next(one.line for one in fit.findings if one.topic is Topic.NEEDED)
            yield corner, needed, ""


RULE = Rule(
    name="claim-unchecked",
    code="R702",
    severity=Severity.NOTE,
    wants="what is said of another pack's vehicle can be checked",
    tip="add the figures to the pack that lacks them",
    remarks=_remarks,
)
