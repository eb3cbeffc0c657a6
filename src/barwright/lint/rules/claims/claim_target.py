"""The vehicles that parts are said to fit exist."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.corners.claimed import missing_targets
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    for missing in missing_targets(subject):
        if not missing.may_exist:
            yield missing.remark


RULE = Rule(
    name="claim-target",
    code="R701",
    wants="every vehicle and axle that parts are said to fit is in its pack",
    tip="correct the id or the axle; barwright vehicles lists both",
    remarks=_remarks,
)
