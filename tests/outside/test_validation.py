"""Every public computation is held against the world, and the page says how."""

from __future__ import annotations

import math

import pytest

import validation
from validation import EXACT, Row

ROWS = validation.rows()
KERNELS = sorted(validation.kernels())

# Expected, got and error in a line of the page.
FIGURES = slice(3, 6)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.of)
def test_a_kernel_gives_the_figure_from_outside(row: Row) -> None:
    expected, got = row.figures()

    assert math.isfinite(expected)
    assert expected != 0.0
    assert validation.relative_error(expected, got) <= row.within


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.of)
def test_a_row_speaks_of_a_kernel_and_gives_reasons(row: Row) -> None:
    assert callable(row.kernel()) or isinstance(row.kernel(), property)
    assert row.source
    assert row.given
    assert row.why or row.within <= EXACT


@pytest.mark.parametrize("kernel", KERNELS)
def test_no_public_computation_lacks_a_row(kernel: str) -> None:
    assert kernel in {row.of for row in ROWS}


def test_the_page_says_what_the_rows_say() -> None:
    written = validation.PAGE.read_text(encoding="utf-8").splitlines()
    now = validation.page().splitlines()

    assert [_words(line) for line in written] == [_words(line) for line in now], (
        "write it anew: python tests/validation.py"
    )


def _words(line: str) -> list[str]:
    """Cells of a line without its figures, whose last digits are not the same on every engine."""
    cells = line.split(" | ")
    return cells[: FIGURES.start] + cells[FIGURES.stop :]
