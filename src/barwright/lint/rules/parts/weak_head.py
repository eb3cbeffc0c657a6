"""A bar is thinner than the roots of its teeth."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject import Subject
from barwright.parts.bar import Bar
from barwright.units import LENGTH, shown, si

__all__ = ["RULE"]


def _remarks(subject: Subject) -> Iterator[Remark]:
    for place, bar in subject.records_of(Bar):
        for name, end in (("arm_end", bar.arm_end), ("anchor_end", bar.anchor_end)):
            if si(end.root_diameter, LENGTH) <= si(bar.diameter, LENGTH):
                message = (
                    f"roots of {shown(end.root_diameter)} are no larger than the body of "
                    f"{shown(bar.diameter)}: the head would break first"
                )
                yield Remark(place.within(f"{name}.root_diameter"), message)


RULE = Rule(
    name="weak-head",
    code="R206",
    severity=Severity.WARNING,
    wants="the roots of a bar's teeth are larger than its body",
    tip="measure both again; they may have been exchanged",
    remarks=_remarks,
)
