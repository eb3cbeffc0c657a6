"""The family matrix at a terminal."""

from __future__ import annotations

from barwright.family.count import FamilyCount
from barwright.family.family_file import FamilyFile
from barwright.family.matrix import FamilyMatrix
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Grid, Note, pairs

__all__ = ["file_text", "matrix_text"]


def matrix_text(answer: FamilyMatrix) -> Page:
    """Show what became of the pairs; their rows are for programs.

    Parameters
    ----------
    answer : FamilyMatrix
        The answer.

    Returns
    -------
    Page
    """
    counts = [_count_grid(answer.count)] if answer.count.pairs else []
    return page_of(answer, *counts, Note(_WHERE))


_WHERE = (
    "To read the rows as a chart: barwright family. "
    "For a program: --json, or --output FILE.parquet."
)


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
