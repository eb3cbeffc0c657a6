"""What a check says is what barwright computes."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.errors import BarwrightError
from barwright.lint.rule import Remark, Rule, said_where_known
from barwright.lint.subject.stated import StatedCheck
from barwright.lint.subject.subject import Subject
from barwright.units import (
    FREQUENCY,
    TORSIONAL_RATE,
    WHEEL_RATE,
    quantity,
    shown,
    si,
    unit_spelling,
)

__all__ = ["BAND", "RULE"]

BAND = 0.01
"""Share of its figure by which a check without a tolerance may be off."""

_NEVER_ZERO = (TORSIONAL_RATE, WHEEL_RATE, FREQUENCY)


def _remarks(subject: Subject) -> Iterator[Remark]:
    return said_where_known(subject.checks, _reported)


def _reported(stated: StatedCheck) -> Iterator[Remark]:
    if wrong := _wrong(stated):
        yield Remark(stated.place, wrong)


def _wrong(stated: StatedCheck) -> str:
    """Say what is wrong with a check; empty if it holds."""
    kind, value = stated.quantity.kind, stated.stated.value
    try:
        computed = stated.computed()
    except BarwrightError as error:
        return f"cannot be computed: got {error.value!r}, expected {error.expected}"
    if computed is None:
        return "cannot be computed: the corner has no such figure"
    spread = stated.stated.tolerance
    allowed = abs(si(value, kind)) * BAND if spread is None else si(spread, kind)
    if kind in _NEVER_ZERO and allowed >= si(value, kind):
        return "proves nothing: its tolerance includes 0, so almost any figure would pass"
    if abs(si(computed, kind) - si(value, kind)) <= allowed:
        return ""
    unit = unit_spelling(value)
    found = shown(quantity(si(computed, kind), kind, unit))
    return (
        f"barwright computes {found}, not {shown(value)} ± {shown(quantity(allowed, kind, unit))}"
    )


RULE = Rule(
    name="check-holds",
    code="R401",
    wants="barwright computes a check's figure within its tolerance or 1 %",
    tip="correct the figures behind it; if they are right, find out why the source differs",
    remarks=_remarks,
)
