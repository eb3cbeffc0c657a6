"""To which standard a spline may be made, for a person at a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.identification.identification import percent
from barwright.analysis.identification.spline_identification import (
    SplineForm,
    SplineIdentification,
)
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Block, Note, or_none, table
from barwright.units import Quantity, shown

__all__ = ["spline_identification_text"]

_MOST_FORMS = 6


def spline_identification_text(answer: SplineIdentification) -> Page:
    """Show which forms a spline may have, with their sizes, and what to measure next.

    Parameters
    ----------
    answer : SplineIdentification
        The answer.

    Returns
    -------
    Page
    """
    return page_of(answer, *_forms(answer), *_sizes(answer), *_next(answer), *_assumed(answer))


def _forms(answer: SplineIdentification) -> Iterator[Block]:
    over = f"over pins of {shown(answer.pin_diameter, 2)}"
    found = table("form", "likely", "over teeth", "roots", over, title="What it may be")
    for form in answer.possible_forms[:_MOST_FORMS]:
        found.add_row(
            form.named,
            percent(form.probability),
            or_none(form.major_diameter, 2),
            or_none(form.root_diameter, 2),
            or_none(form.over_pins, 2),
        )
    found.add_row("another form", percent(answer.unlisted))
    yield found
    yield Note("Sizes are the greatest that the standard allows: a bar measures a little less.")


def _sizes(answer: SplineIdentification) -> Iterator[Block]:
    """Show what goes with the likeliest form."""
    first = answer.possible_forms[0]
    rows = tuple((name, value) for name, value in _named_sizes(first) if value is not None)
    if not rows:
        return
    found = table("size", "of the first", title="What goes with it")
    for name, value in rows:
        found.add_row(name, shown(value, 2))
    yield found


def _named_sizes(form: SplineForm) -> Iterator[tuple[str, Quantity | None]]:
    yield "module", form.module
    yield "pitch diameter", form.pitch_diameter
    yield "thickness of a tooth at the pitch circle", form.tooth_thickness
    yield "thickness of a tooth at its tip", form.tip_thickness
    yield "socket, at the roots of its teeth", form.socket_major_diameter
    yield "socket, inside its teeth", form.socket_minor_diameter
    yield "gap over the bar's tips", form.tip_clearance
    yield "depth over which the teeth meet", form.contact_depth


def _next(answer: SplineIdentification) -> Iterator[Block]:
    if not answer.next_readings:
        return
    found = table("next", "with", "then sure", "how", title="What would decide")
    for one in answer.next_readings:
        found.add_row(one.asked, one.tool, percent(one.certainty), one.where)
    yield found


def _assumed(answer: SplineIdentification) -> Iterator[Block]:
    for one in answer.assumed:
        figures = ", ".join(one.named_figures)
        usual = f"± {shown(one.within, 2)}, usual for a {one.tool}"
        yield Note(f"No ± stated for the {figures}: taken as {usual}.")
