"""The terminal's text of a family matrix: counts, and where the rows are."""

from __future__ import annotations

from typing import Any

import attrs

import barwright as bw
from barwright.report.text.across.family import matrix_text
from barwright.report.text.layout.tables import plain_lines
from terminal_text import folded

DEMO = bw.Registry.demo()


def shown(**asked: Any) -> str:
    """The text in lines so wide that no cell is broken, as one line."""
    page = matrix_text(bw.family_matrix(DEMO, **asked))
    return " ".join(" ".join(plain_lines(page, 200)).split())


WHERE = (
    "To read the rows as a chart: barwright family. "
    "For a program: --json, or --output FILE.parquet."
)


def test_what_became_of_the_pairs_is_counted() -> None:
    text = shown(vehicles="fells", bars="short-standard")
    assert text.startswith("1 bar on 3 vehicles, 6 pairs: 2 fit; ")
    assert "Pairs excluded: no overlap 4 fits 2 of those that fit: below yield; " in text
    assert text.endswith(WHERE)


def test_errors_are_counted() -> None:
    answer = bw.family_matrix(DEMO, vehicles="fells short", bars="short-firm")
    count = attrs.evolve(answer.count, errors=1)
    assert "ended with an error 1" in folded(matrix_text(attrs.evolve(answer, count=count)))


def test_nothing_has_no_table() -> None:
    assert shown(bars="zzz") == f"0 bars on 6 vehicles, 0 pairs: none is known to fit. {WHERE}"
