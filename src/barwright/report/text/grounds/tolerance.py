"""How sure an answer is, for a person at a terminal."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from barwright.analysis.tolerance.shifted_answers import (
    COVERAGE_FACTOR,
    COVERAGE_TEXT,
    ToleranceGap,
)
from barwright.analysis.tolerance.tolerance import COVERAGE, Tolerance, ToleranceRow, ToleranceShare
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Block, Note, finding_lines, marked, table
from barwright.units import Quantity, in_system, shown

__all__ = ["tolerances_row", "tolerances_text"]

_SHARES = 3
_LEAST_PERCENT = 0.5
_MOST_DIGITS = 4
_NAMES = 4


def tolerances_text(answer: Tolerance, *, whole: bool = False) -> Page:
    """Show which tolerances make the figure of the headline unsure; or every figure that is.

    Parameters
    ----------
    answer : Tolerance
        The answer.
    whole : bool
        Whether every figure that is unsure is shown, with what makes it so; with draws it
        always is.

    Returns
    -------
    Page
    """
    findings = (
        *finding_lines(_said_of(answer), answer.further_findings),
        *(marked("*", line) for line in map(_gap_line, answer.gaps)),
        Note(_what_it_is(answer)),
    )
    reported = answer.reported
    if whole or answer.draws or reported is None:
        blocks = _every_figure(answer)
    else:
        blocks = _largest_shares(answer, reported)
    return page_of(answer, *blocks, findings=findings)


def _largest_shares(answer: Tolerance, reported: ToleranceRow) -> Iterator[Block]:
    """List the shares that matter, and the main figures with their ±."""
    large = _that_matter(reported.shares)
    shares = table("tolerance of", "share", title=f"What makes {_name(reported.figure)} unsure")
    for share in large:
        shares.add_row(_name(share.figure), f"{share.percent:.0f} %")
    smaller = reported.shares[len(large) :]
    if smaller:
        rest = sum(share.percent for share in smaller)
        ones = "1 smaller one" if len(smaller) == 1 else f"{len(smaller)} smaller ones together"
        shares.add_row(ones, f"{rest:.0f} %")
    yield shares
    main = table("figure", "nominal", "±", title="The main figures")
    for row in answer.rows:
        if row.figure in _MAIN and row.uncertainty is not None and row.uncertainty.magnitude:
            digits = _digits(row.uncertainty)
            main.add_row(
                _name(row.figure), shown(row.nominal, digits), shown(row.uncertainty, digits)
            )
    yield main
    yield Note("All figures, each with its causes: --all.")


def _that_matter(shares: Sequence[ToleranceShare]) -> Sequence[ToleranceShare]:
    """Take the largest until they make nearly all, a dozen at most."""
    total = 0.0
    for count, share in enumerate(shares[:_DOZEN], start=1):
        total += share.percent
        if total >= _NEARLY_ALL:
            return shares[:count]
    return shares[:_DOZEN]


_DOZEN, _NEARLY_ALL = 12, 95.0
# What is asked for most often.
_MAIN = (
    *("system_rate", "ride.wheel_rate", "ride_frequency", "ride.torque"),
    *("ride.shear_stress", "bump.shear_stress", "state.height"),
)


def _every_figure(answer: Tolerance) -> Iterator[Block]:
    """List all figures that are unsure."""
    unsure = [row for row in answer.rows if row.uncertainty is None or row.uncertainty.magnitude]
    sure = len(answer.rows) - len(unsure)
    columns = (f"{100.0 * COVERAGE:.0f} % of the draws",) if answer.draws else ()
    rows = table("figure", "nominal", "±", *columns, "mostly by")
    for row in unsure:
        rows.add_row(*_cells(row, drawn=bool(answer.draws)))
    yield rows
    yield Note(f"Not affected by any of them: {_counted(sure)} more.")


def tolerances_row(answer: Tolerance) -> dict[str, str]:
    """Sum the figures of a corner's rates up in a row, with what is behind each ±."""
    rows = {row.figure: row for row in answer.rows}
    return {
        "answer": answer.verdict.value,
        "bar and tube": _with_uncertainty(rows.get("system_rate")),
        "at the wheel": _with_uncertainty(rows.get("ride.wheel_rate")),
        "ride": _with_uncertainty(rows.get("ride_frequency")),
        "stress at bump": _with_uncertainty(rows.get("bump.shear_stress")),
    }


def _said_of(answer: Tolerance) -> str:
    """Word before what a reader must know: a reason, where the answer is no."""
    return "note" if answer.is_answered else "because"


def _what_it_is(answer: Tolerance) -> str:
    by = f"of {answer.draws} draws" if answer.draws else "to first order"
    covers = f" ({COVERAGE_TEXT})" if answer.coverage_factor == COVERAGE_FACTOR else ""
    have = "has" if len(answer.inputs) == 1 else "have"
    return (
        f"{_counted(len(answer.inputs))} {have} a tolerance: a half width within which every value "
        f"is equally likely. ± is {answer.coverage_factor:g} standard uncertainties{covers}, {by}."
    )


def _counted(count: int) -> str:
    return "1 figure" if count == 1 else f"{count} figures"


def _cells(row: ToleranceRow, *, drawn: bool) -> Iterator[str]:
    digits = _digits(row.uncertainty)
    yield _name(row.figure)
    yield shown(row.nominal, digits)
    yield "not known" if row.uncertainty is None else shown(row.uncertainty, digits)
    if drawn:
        ends = [end for end in (row.low, row.high) if end is not None]
        yield " to ".join(shown(end, digits) for end in ends)
    yield _mostly_by(row)


def _mostly_by(row: ToleranceRow) -> str:
    """Name the figures with the largest shares, and what is left."""
    large = [share for share in row.shares[:_SHARES] if share.percent >= _LEAST_PERCENT]
    return ", ".join(f"{_name(share.figure)} {share.percent:.0f} %" for share in large)


def _gap_line(gap: ToleranceGap) -> str:
    """Say in a line where within the tolerances there is less of an answer, and why."""
    at = f"at {gap.draws} of the draws"
    if gap.value is not None:
        at = f"with {_name(gap.figure)} at {shown(gap.value)}"
    if gap.text:
        return f"{at} there is no answer: {gap.text}"
    names = ", ".join(map(_name, gap.missing[:_NAMES]))
    more = len(gap.missing) - _NAMES
    return f"{at} these are missing: {names}" + (f" and {more} more" if more > 0 else "")


def _with_uncertainty(row: ToleranceRow | None) -> str:
    if row is None:
        return ""
    digits = _digits(row.uncertainty)
    if row.uncertainty is None:
        return shown(row.nominal, digits)
    number, _, _ = shown(row.nominal, digits).partition(" ")
    return f"{number} ± {shown(row.uncertainty, digits)}"


def _digits(uncertainty: Quantity | None) -> int:
    """Digits behind the point that leave two of an uncertainty in metric units."""
    size = float(in_system(uncertainty, "metric").magnitude) if uncertainty is not None else 0.0
    return min(_MOST_DIGITS, max(0, 1 - math.floor(math.log10(size)))) if size > 0.0 else 2


def _name(figure: str) -> str:
    """Name of a figure for a reader."""
    return figure.replace("_", " ").replace(".", ": ")
