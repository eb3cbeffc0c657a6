"""The rate of a bar by itself at a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.bar_rate import BarRate
from barwright.analysis.tolerance.shifted_answers import COVERAGE_TEXT
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Note, finding_lines, pairs
from barwright.report.text.rates import modulus_text
from barwright.units import Quantity, shown

__all__ = ["bar_rate_text"]


def bar_rate_text(answer: BarRate) -> Page:
    """Show the rate of a bar, alone and with its tube, and what follows from its figures."""
    label = "note" if answer.is_answered else "because"
    return page_of(
        answer,
        pairs(*_rates(answer), title="Rates"),
        pairs(*_under_torque(answer), title=f"Under {shown(answer.torque, 0)}"),
        *_notes(answer),
        findings=finding_lines(label, answer.further_findings),
    ).of(", ".join(filter(None, (answer.bar_id, answer.tube_id))))


def _rates(answer: BarRate) -> Iterator[tuple[str, str]]:
    yield "bar alone", _uncertain(answer.bar_rate, answer.bar_rate_uncertainty, 2)
    if answer.tube_rate is not None:
        both = _uncertain(answer.system_rate, answer.system_rate_uncertainty, 2)
        yield "torque tube", shown(answer.tube_rate, 2)
        yield "bar and tube in series", both
    yield "shear modulus of the bar", modulus_text(answer)
    yield "active length", shown(answer.active_length, 1)
    if answer.mass is not None:
        yield "mass", shown(answer.mass, 2)
    yield "smallest clocking step", shown(answer.clocking_step, 3)


def _under_torque(answer: BarRate) -> Iterator[tuple[str, str]]:
    what = "twist" if answer.tube_id is None else "twist of bar and tube"
    yield what, _uncertain(answer.twist, answer.twist_uncertainty, 1)
    yield "shear stress of the body", shown(answer.shear_stress, 0)
    limit, torque = answer.permissible_shear, answer.permissible_torque
    if limit is not None and torque is not None:
        yield "permissible shear stress", f"{shown(limit.stress, 0)} by {limit.source}"
        yield "torque at that stress", shown(torque, 0)


def _notes(answer: BarRate) -> Iterator[Note]:
    if answer.bar_rate_uncertainty is not None:
        yield Note(f"Each ± is {COVERAGE_TEXT}, from the tolerances of the figures.")
    yield Note(
        "The bar is assumed to be held over the whole length of its splines. On a vehicle its "
        "sockets decide."
    )


def _uncertain(value: Quantity, known: Quantity | None, digits: int) -> str:
    return shown(value, digits) + ("" if known is None else f" ± {shown(known, digits)}")
