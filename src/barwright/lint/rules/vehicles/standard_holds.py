"""Standard bars hold over their travel."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.answer import Verdict
from barwright.analysis.finding import Topic
from barwright.analysis.strength.strength import strength
from barwright.errors import BarwrightError
from barwright.lint.corners.corners import Said, StandardCorner, reported_where_it_fits
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.place import short
from barwright.lint.subject.subject import Subject
from barwright.parts.setup import Setup
from barwright.units import shown

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    return reported_where_it_fits(subject, _reported)


def _reported(corner: StandardCorner) -> Iterator[Said]:
    try:
        answer = strength(corner.setup)
    except BarwrightError:
        # Told by the rule that asks whether the corners stand.
        return
    if answer.verdict is Verdict.OVERSTRESSED:
        remedy = _remedy(corner.setup)
        yield from (
            Said(finding.line, remedy)
            for finding in answer.findings
            if finding.topic is Topic.STRESS
        )


def _remedy(setup: Setup) -> str:
    bar, steel = short(setup.bar.id), setup.bar.material
    return (
        f"check {bar}.diameter ({shown(setup.bar.diameter)}), {bar}.length, bump_stop, and the "
        f"strengths of {short(steel.id)}; if they are right, waive this and name the source"
    )


RULE = Rule(
    name="standard-holds",
    code="R304",
    severity=Severity.WARNING,
    wants="no standard bar passes a known limit of its steel within its travel",
    tip="check diameter, bump stop and steel; if they are right, waive this and name the source",
    remarks=_remarks,
)
