"""Where lines end: at spaces, and never between a number and its unit."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from barwright.report.text.layout.words import cells, unbroken, wrapped

TEXTS = st.lists(st.sampled_from(["stands", "349", "±", "7", "mm,", "N·m", "-0.3", "%", "車", "a"]))


@given(words=TEXTS, width=st.integers(1, 40))
def test_lines_hold_all_words_and_are_as_wide_as_they_may_be(words: list[str], width: int) -> None:
    text = " ".join(words)
    lines = list(wrapped(text, width))
    assert " ".join(lines) == text
    parts = unbroken(text)
    for line in lines:
        assert cells(line) <= width or line in parts
    for line, following in itertools.pairwise(lines):
        assert cells(line) + 1 + cells(unbroken(following)[0]) > width


def test_a_figure_stays_with_its_unit_and_its_tolerance() -> None:
    text = "349 ± 7 mm; 12 N·m/deg (95 %), tooth 3 of 4 to -0.3°"
    assert unbroken(text) == [
        *("349 ± 7 mm;", "12 N·m/deg", "(95 %),", "tooth", "3", "of", "4", "to", "-0.3°"),
    ]
    assert unbroken("14 deg +/- 2 deg, 3 N*m") == ["14 deg +/- 2 deg,", "3 N*m"]


def test_wide_letters_take_two_columns_and_accents_none() -> None:
    assert [cells(text) for text in ("", "mm", "°", "車輪", "e\u0301")] == [0, 2, 1, 4, 1]
