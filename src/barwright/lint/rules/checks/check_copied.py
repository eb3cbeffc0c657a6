"""A check is not barwright's own answer, written down."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from barwright.errors import BarwrightError
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule, said_where_known
from barwright.lint.subject.stated import StatedCheck
from barwright.lint.subject.subject import Subject

__all__ = ["RULE"]

# With so many digits a figure that others measured or computed hardly ever agrees in all.
_DIGITS = 4

# What follows from tooth counts alone, or was worked by the same formula, agrees in as many digits
# as anyone writes.
_EXACT = "clocking_step"
_WORKED = re.compile(r"by hand|formula|calculated", re.IGNORECASE)
_DIGITS_IF_EXACT = 7

# Beyond six digits answers differ by rounding, and by versions.
_CLOSE = 1e-6


def _remarks(subject: Subject) -> Iterator[Remark]:
    notes = {source.id: source.note for _, source in subject.sources}
    looked_at = ((stated, notes[stated.check.source]) for stated in subject.checks)
    return said_where_known(looked_at, _reported)


def _reported(looked_at: tuple[StatedCheck, str]) -> Iterator[Remark]:
    stated, note = looked_at
    is_exact = stated.check.computes == _EXACT or _WORKED.search(note) is not None
    number = _number(stated.check.is_)
    digits = _count(number)
    least = _DIGITS_IF_EXACT if is_exact else _DIGITS
    if digits >= least and _is_our_answer(stated, number):
        yield Remark(stated.place, f"agrees with barwright in all of its {digits} digits")


def _number(figure: str) -> str:
    """Return a figure's number as it is written."""
    return re.split(r"[^\d.+-]", figure.strip(), maxsplit=1)[0]


def _count(number: str) -> int:
    """Count the significant digits."""
    return len(re.sub(r"\D", "", number).lstrip("0"))


def _is_our_answer(stated: StatedCheck, number: str) -> bool:
    """Tell whether our answer, rounded to the digits that are given, is the figure."""
    try:
        computed = stated.computed()
    except BarwrightError:
        return False
    if computed is None:
        return False
    value = stated.stated.value
    given, ours = (float(quantity.m_as(value.units)) for quantity in (value, computed))
    digits = number.partition(".")[2]
    half_of_last = 0.5 * 10.0 ** -len(digits)
    return math.isclose(given, ours, rel_tol=0.0, abs_tol=half_of_last * (1.0 + _CLOSE)) or (
        _count(number) >= _DIGITS_IF_EXACT and math.isclose(given, ours, rel_tol=_CLOSE)
    )


RULE = Rule(
    name="check-copied",
    code="R403",
    severity=Severity.WARNING,
    wants="a check's figure was not computed by barwright",
    tip="write the figure as its source has it; if it was worked by hand, say so in the note of "
    "the source; if it has so many digits, waive this and say why",
    remarks=_remarks,
)
