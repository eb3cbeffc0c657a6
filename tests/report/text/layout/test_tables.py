"""What the terminal's tables are made of: nothing is cut off, and no text begins a row."""

from __future__ import annotations

from barwright.report.text.layout.tables import marked, pairs, table
from terminal_text import folded, printed

LONG = "x" * 300


def test_a_word_that_is_too_long_for_its_line_is_neither_broken_nor_cut() -> None:
    one = table("name", "figure")
    one.add_row("a", LONG)
    for shown in (one, pairs(("a", LONG)), marked("*", LONG)):
        assert LONG in printed(shown).split()


def test_a_table_has_a_heading_and_pairs_and_marks_have_none() -> None:
    one = table("name", "figure")
    one.add_row("a", "1\n2")
    assert [line.rstrip() for line in printed(one).splitlines()] == ["name  figure", "a     1 2"]
    assert [line.rstrip() for line in printed(pairs(("a", "1\n2"))).splitlines()] == ["a  1 2"]
    assert folded(marked("*", "1\n2")) == "* 1 2"
    assert len(printed(marked("*", "1\n2")).splitlines()) == 1
