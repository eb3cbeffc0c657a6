"""An answer as text, HTML or Markdown, for programs and notebooks."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator
from typing import Any, TypeAlias

import attrs

from barwright.analysis.across.compare import Comparison
from barwright.analysis.across.donors import Donors
from barwright.analysis.across.needs import Needs
from barwright.analysis.adjusting.nut_table import NutTable
from barwright.analysis.answer import Answer
from barwright.analysis.balancing.balance_answer import Balance
from barwright.analysis.bar_rate import BarRate
from barwright.analysis.calibration.calibrated_corner import CalibratedCorner
from barwright.analysis.diagnosis.diagnosis import Diagnosis
from barwright.analysis.fit.length_fit import LengthFit
from barwright.analysis.identification.identification import Identification
from barwright.analysis.identification.spline_identification import SplineIdentification
from barwright.analysis.rates.rates import Rates
from barwright.analysis.reindex.reindex import Reindex
from barwright.analysis.selection.selection import Selection
from barwright.analysis.strength.strength import Strength
from barwright.analysis.tolerance.tolerance import Tolerance
from barwright.analysis.trail import Trail
from barwright.analysis.working.working import Working
from barwright.errors import SchemaError
from barwright.family.chart import FamilyChart
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.in_short import Summarised, said_in_short
from barwright.report.sheet.sheet import BenchSheet
from barwright.report.text.across.compare import comparison_text
from barwright.report.text.across.family_chart import chart_text
from barwright.report.text.bar_rate import bar_rate_text
from barwright.report.text.fit import donors_text, fit_text
from barwright.report.text.grounds.tolerance import tolerances_text
from barwright.report.text.grounds.trail import trail_text
from barwright.report.text.grounds.working import working_text
from barwright.report.text.layout.html import html_of
from barwright.report.text.layout.markdown import markdown_of
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Block, Note, finding_lines, pairs, plain_lines
from barwright.report.text.measurements.balance import balance_text
from barwright.report.text.measurements.calibration import calibration_text
from barwright.report.text.measurements.diagnosis import diagnosis_text
from barwright.report.text.measurements.identification import identification_text
from barwright.report.text.measurements.needs import needs_text
from barwright.report.text.measurements.spline_identification import spline_identification_text
from barwright.report.text.nut import nut_text
from barwright.report.text.rates import rates_text
from barwright.report.text.reindex import reindex_text
from barwright.report.text.selection import selection_text
from barwright.report.text.sheet import sheet_text
from barwright.report.text.strength import strength_text

__all__ = ["Printable", "html", "markdown", "text"]

Printable: TypeAlias = Summarised
"""What can be printed: an answer, a bench sheet, a record, or a part of one."""

_LEAST_WIDTH = 40

_TEXTS: dict[type[Answer], Callable[[Any], Page]] = {
    Balance: balance_text,
    BarRate: bar_rate_text,
    CalibratedCorner: calibration_text,
    Comparison: comparison_text,
    Diagnosis: diagnosis_text,
    Donors: donors_text,
    FamilyChart: chart_text,
    Identification: identification_text,
    LengthFit: fit_text,
    NutTable: functools.partial(nut_text, whole_thread=False, set_here="set"),
    Rates: rates_text,
    Reindex: reindex_text,
    Selection: selection_text,
    SplineIdentification: spline_identification_text,
    Strength: strength_text,
    Tolerance: tolerances_text,
    Needs: needs_text,
    Trail: trail_text,
    Working: working_text,
}


@checks_arguments
def text(answer: Printable, *, width: int = 80) -> str:
    """Write an answer as plain text, as the command line prints it.

    Parameters
    ----------
    answer : answer, BenchSheet or record
        What a question answers, a bench sheet, or a record of a part.
    width : int
        Of the lines, 40 or more.  No word is broken, and no number parted from its unit.

    Returns
    -------
    str

    Raises
    ------
    SchemaError
        S203 for anything else, or for a width that is less.

    Examples
    --------
    >>> import barwright as bw
    >>> setup = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> print(text(bw.length_fit(setup)).splitlines()[0])
    The bar fits: 37.0 mm engaged at the arm end, 36.0 mm at the anchor end.
    """
    if width < _LEAST_WIDTH:
        raise SchemaError(
            "S203",
            value=width,
            expected=f"a width of {_LEAST_WIDTH} characters or more",
            remedy="pass a greater one",
            key="width",
        )
    return "".join(f"{line}\n" for line in plain_lines(_block(answer), width))


@checks_arguments
def html(answer: Printable) -> str:
    r"""Write an answer as a fragment of HTML that needs nothing from elsewhere.

    Parameters
    ----------
    answer : answer, BenchSheet or record
        As for :func:`text`.

    Returns
    -------
    str
        One ``div``, in which all text is escaped.

    Raises
    ------
    SchemaError
        S203 for anything else.

    Examples
    --------
    >>> import barwright as bw
    >>> setup = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> html(bw.length_fit(setup)).splitlines()[1][:43]
    '<p><strong>The bar fits: 37.0\xa0mm engaged at'
    """
    return html_of(_block(answer))


@checks_arguments
def markdown(answer: Printable) -> str:
    """Write an answer as Markdown, with tables.

    Parameters
    ----------
    answer : answer, BenchSheet or record
        As for :func:`text`.

    Returns
    -------
    str

    Raises
    ------
    SchemaError
        S203 for anything else.

    Examples
    --------
    >>> import barwright as bw
    >>> setup = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> print(markdown(bw.length_fit(setup)).splitlines()[4])
    |  | arm end | anchor end |
    """
    return markdown_of(_block(answer))


def _block(answer: Printable) -> Block:
    """Lay out what is to be printed, as pieces of text."""
    if isinstance(answer, BenchSheet):
        return sheet_text(answer)
    write = _TEXTS.get(type(answer)) if isinstance(answer, Answer) else None
    if write:
        return write(answer)
    return _as_fields(answer)


def _as_fields(value: Summarised) -> Page:
    """Show what has no page of its own by its fields."""
    told = pairs(*_fields(value))
    if isinstance(value, Answer):
        return page_of(value, told, findings=finding_lines("note", value.further_findings))
    return Page(headlines=(Note(repr(value).strip("<>"), style="bold"),), parts=(told,))


def _fields(value: Any) -> Iterator[tuple[str, str]]:  # noqa: ANN401 - any attrs class
    for field in attrs.fields(type(value)):
        found = getattr(value, field.name)
        inside = repr(found).strip("<>") if isinstance(found, Summarised) else ""
        told = inside or said_in_short(found)
        if told and field.repr:
            yield field.name.replace("_", " "), told
