"""The family matrix at a terminal."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence

import attrs

from barwright.family.count import FamilyCount
from barwright.family.family_file import FamilyFile
from barwright.family.matrix import FamilyMatrix
from barwright.family.row import FamilyRow
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Grid, Note, pairs, table
from barwright.units import Quantity, shown

__all__ = ["file_text", "matrix_text"]


def matrix_text(answer: FamilyMatrix, *, most: int) -> Page:
    """Show what became of the pairs, then a table for each corner.

    Parameters
    ----------
    answer : FamilyMatrix
        The answer.
    most : int
        Rows beyond which only their number is shown.

    Returns
    -------
    Page
    """
    number = len(answer.rows)
    if number > most:
        note = Note(
            f"{number:,} rows are too many to show: choose by words, or write them to a file."
        )
        return page_of(answer, _count_grid(answer.count), note)
    counts = [_count_grid(answer.count)] if answer.count.pairs else []
    return page_of(answer, *counts, *_corners(answer.rows))


def file_text(answer: FamilyFile) -> Page:
    """Show what became of the pairs whose rows are in a file.

    Parameters
    ----------
    answer : FamilyFile
        The answer.

    Returns
    -------
    Page
    """
    where = f"The rows are in {answer.file}."
    if answer.earlier:
        where += f" {answer.earlier:,} of {answer.pieces:,} parts were done before."
    return page_of(answer, _count_grid(answer.count), findings=[Note(where)])


def _count_grid(count: FamilyCount) -> Grid:
    """Show what became of the pairs."""
    rows = [(f"excluded: {tally.what}", f"{tally.pairs:,}") for tally in count.pruned]
    rows += [(tally.what, f"{tally.pairs:,}") for tally in count.fits]
    rows += [(f"of those that fit: {tally.what}", f"{tally.pairs:,}") for tally in count.strengths]
    if count.errors:
        rows.append(("ended with an error", f"{count.errors:,}"))
    return pairs(*rows, title="Pairs")


def _corners(rows: Iterable[FamilyRow]) -> Iterator[Grid]:
    """Make a table for each corner; corners of a vehicle with the same rows share one."""
    for _, found in itertools.groupby(rows, key=lambda row: row.vehicle_id):
        shared: dict[tuple[FamilyRow, ...], list[FamilyRow]] = {}
        for _, of_corner in itertools.groupby(found, key=lambda row: row.corner):
            listed = tuple(of_corner)
            alike = tuple(attrs.evolve(row, corner="") for row in listed)
            shared.setdefault(alike, []).append(listed[0])
        for alike, firsts in shared.items():
            yield _table(alike, firsts)


def _table(rows: Sequence[FamilyRow], firsts: Sequence[FamilyRow]) -> Grid:
    corners = ", ".join(first.corner for first in firsts)
    heights = dict.fromkeys(shown(row.height, 0) for row in rows if row.height is not None)
    at = f" at {', '.join(heights)}" if heights else ""
    clocked = any(row.clocking is not None for row in rows)
    further = ("teeth",) if clocked else ()
    grid = table(
        *("bar", "wheel rate", "change", "frequency", "at bump", "verdict", *further),
        title=f"{firsts[0].vehicle_title}, {corners}{at}",
    )
    for row in rows:
        grid.add_row(
            f"{row.bar_title} (standard)" if row.is_standard else row.bar_title,
            _figure(row.wheel_rate, 1),
            "" if row.wheel_rate_change is None else f"{row.wheel_rate_change:+.1f} %",
            _figure(row.ride_frequency, 2),
            _figure(row.bump_stress, 0),
            _verdict(row),
            *([_teeth(row)] if clocked else []),
        )
    return grid


def _verdict(row: FamilyRow) -> str:
    """Say whether a bar fits and lives; if not, why not; and what must be changed."""
    if row.fit is None or row.error_code:
        return f"error {row.error_text}"
    if row.reason or not row.fits:
        return f"{row.fit.value}: {row.reason}"
    # What a verdict of the strength leaves open is told of all, above.
    lives = "" if row.strength is None else row.strength.value.partition(";")[0]
    changes = f"{row.fit.value} ({', '.join(row.changes)})" if row.changes else row.fit.value
    return ", ".join(filter(None, (changes, lives)))


def _figure(value: Quantity | None, digits: int) -> str:
    return "" if value is None else shown(value, digits)


def _teeth(row: FamilyRow) -> str:
    """Say which teeth lie on the keys, and how many are removed."""
    if row.arm_tooth is None:
        return "" if row.clocking is None else row.clocking.value
    cuts = f", {row.cuts} removed" if row.cuts else ""
    return f"arm {row.arm_tooth:+d}, anchor {row.anchor_tooth:+d}{cuts}"
