"""A check is not barwright's own answer, written down."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from barwright.errors import BarwrightError
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule, as_far_as_known
from barwright.lint.stated import StatedCheck
from barwright.lint.subject import Subject
from barwright.units import si

__all__ = ["RULE"]

# Nothing that is measured has so many digits, and hardly anything that is printed.
_MOST_DIGITS = 6
_CLOSE = 1e-6


def _remarks(subject: Subject) -> Iterator[Remark]:
    return as_far_as_known(subject.checks, _reported)


def _reported(stated: StatedCheck) -> Iterator[Remark]:
    if _digits(stated.check.is_) > _MOST_DIGITS and _is_our_answer(stated):
        yield Remark(stated.place, "agrees with barwright in more digits than are known")


def _digits(figure: str) -> int:
    """Count the significant digits of a figure's number."""
    number = re.split(r"[^\d.+-]", figure.strip(), maxsplit=1)[0]
    return len(re.sub(r"\D", "", number).lstrip("0"))


def _is_our_answer(stated: StatedCheck) -> bool:
    try:
        computed = stated.computed()
    except BarwrightError:
        return False
    if computed is None:
        return False
    kind = stated.quantity.kind
    return math.isclose(si(computed, kind), si(stated.stated.value, kind), rel_tol=_CLOSE)


RULE = Rule(
    name="check-copied",
    code="R403",
    severity=Severity.WARNING,
    wants="a check's figure was not computed by barwright",
    tip="write the figure as its source has it; if it has so many digits, waive this and say why",
    remarks=_remarks,
)
