"""A standard damper and the arm's stops suit each other."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.finding import Topic
from barwright.errors import BarwrightError
from barwright.lint.corners.compared import compared
from barwright.lint.corners.corners import Said, StandardCorner, reported_where_it_fits
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.damper import Damper
from barwright.units import LENGTH, Quantity, quantity, shown, si

__all__ = ["RULE"]

# All in strokes of the damper: common practice, no source.
_TOPS_OUT = 0.08
_MOST_BEYOND_OPEN = 0.4
_STOPS_SHORT = 0.22
_MOST_BEYOND_CLOSED = 0.42
_LEFT_AT_REST = 0.1


def _remarks(subject: Subject) -> Iterator[Remark]:
    return reported_where_it_fits(subject, _reported)


def _reported(standard: StandardCorner) -> Iterator[Said]:
    corner = Corner(standard.setup)
    damper = standard.setup.damper
    try:
        shortest, longest = corner.damper_span
        rest = corner.angle_at_height(metres(standard.setup.axle.standard_height))
        at_rest = None if rest is None else float(corner.linkage.motion(rest).damper_length)
    except BarwrightError:
        # Told by the rule that asks whether the corner stands.
        return
    remedy = compared(standard.setup, Topic.TRAVEL)
    for message in _odd(damper, shortest=shortest, longest=longest, at_rest=at_rest):
        yield Said(message, remedy)


def _odd(
    damper: Damper, *, shortest: float, longest: float, at_rest: float | None
) -> Iterator[str]:
    opened, closed = metres(damper.open_length), metres(damper.closed_length)
    stroke = opened - closed
    if opened - longest > _TOPS_OUT * stroke + _tolerance(damper, "open_length"):
        yield (
            f"the damper never opens to its open_length of {shown(damper.open_length)}: at the "
            f"arm's droop_stop it is {_mm(longest)} long, so that the stop holds the arm, not the "
            "damper"
        )
    if longest - opened > _MOST_BEYOND_OPEN * stroke:
        yield (
            f"the droop_stop never acts: there the damper would be {_mm(longest)} long, far "
            f"beyond its open_length of {shown(damper.open_length)}"
        )
    if closed - shortest > _STOPS_SHORT * stroke + _tolerance(damper, "closed_length"):
        yield (
            f"the bump_stop never acts: there the damper would be {_mm(shortest)} long, far "
            f"below its closed_length of {shown(damper.closed_length)}"
        )
    if shortest - closed > _MOST_BEYOND_CLOSED * stroke:
        yield (
            f"much of the damper's stroke is never used: at the bump_stop it is still "
            f"{_mm(shortest)} long, and closed_length is {shown(damper.closed_length)}"
        )
    if at_rest is not None:
        yield from _at_rest(damper, at_rest, stroke)


def _at_rest(damper: Damper, length: float, stroke: float) -> Iterator[str]:
    for name, end in (("open_length", damper.open_length), ("closed_length", damper.closed_length)):
        if abs(length - metres(end)) < _LEFT_AT_REST * stroke:
            yield (
                f"at standard_height the damper is {_mm(length)} long, hardly off its {name} of "
                f"{shown(end)}"
            )


def _tolerance(damper: Damper, name: str) -> float:
    about = damper.about.get(name)
    tolerance: Quantity | None = None if about is None else about.tolerance
    return 0.0 if tolerance is None else si(tolerance, LENGTH)


def _mm(length: float) -> str:
    return shown(quantity(length, LENGTH), 1)


RULE = Rule(
    name="damper-stops",
    code="R307",
    severity=Severity.WARNING,
    wants="a standard damper limits the droop, and its stroke suits the arm's stops",
    tip="measure the damper, its mounts and the stops again",
    remarks=_remarks,
)
