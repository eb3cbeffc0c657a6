"""Why a car sits wrong, for a person at a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.diagnosis.diagnosis import CornerDeviation, Diagnosis
from barwright.analysis.identification.identification import percent
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Block, Note, table
from barwright.units import Quantity, shown

__all__ = ["diagnosis_text"]

_MOST_CAUSES = 6


def diagnosis_text(answer: Diagnosis) -> Page:
    """Show how corners stand, what may be wrong, and how each cause is confirmed and mended.

    Parameters
    ----------
    answer : Diagnosis
        The answer.

    Returns
    -------
    Page
    """
    return page_of(answer, *_corners(answer), *_causes(answer), *_plans(answer), *_cautions(answer))


def _corners(answer: Diagnosis) -> Iterator[Block]:
    if not answer.corners:
        return
    columns = ("corner", "stands at", "expected", "off by", "± own", "± both sides alike")
    found = table(*columns, title="How it stands")
    for one in answer.corners:
        found.add_row(
            one.corner,
            shown(one.height, 0),
            shown(one.expected_height, 0),
            _signed(one.deviation),
            shown(2.0 * one.own_uncertainty, 0),
            shown(2.0 * one.common_uncertainty, 0),
        )
    yield found


def _signed(value: Quantity) -> str:
    text = shown(value, 0)
    return text if text.startswith(("-", "0 ")) else f"+{text}"


def _causes(answer: Diagnosis) -> Iterator[Block]:
    if not answer.causes:
        return
    found = table("cause", "likely", "moves it by", "check", title="What may be wrong")
    for one in answer.causes[:_MOST_CAUSES]:
        found.add_row(
            one.in_words, percent(one.probability), _signed(one.height_change), one.kind.check
        )
    yield found


def _plans(answer: Diagnosis) -> Iterator[Block]:
    aims = {one.corner: _aim(one) for one in answer.corners}
    for one in answer.causes:
        told = one.refusal if one.plan is None else one.plan.summary
        if told:
            yield Note(f"If it is {one.in_words}, for the {aims[one.corner]}: {told}")


def _aim(one: CornerDeviation) -> str:
    word = "expected" if one.wanted_height is None else "wanted"
    return f"{word} {shown(one.planned_height, 0)}"


def _cautions(answer: Diagnosis) -> Iterator[Block]:
    yield from (Note(f"Caution: {caution.text}") for caution in answer.cautions)
