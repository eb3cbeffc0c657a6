"""How tables are laid out: in any width, without a broken word or a lost text."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from barwright.report.text.layout.grids import grid_lines
from barwright.report.text.layout.tables import Grid, pairs, plain_lines, table
from barwright.report.text.layout.words import cells, unbroken

WORDS = st.lists(st.sampled_from(["bar", "349 mm", "clockwise", "of", "0.3 N·m", ""]), max_size=9)
CELLS = WORDS.map(" ".join)


@st.composite
def grids(draw: st.DrawFn) -> Grid:
    count = draw(st.integers(1, 6))
    made = Grid(
        tuple(draw(st.lists(CELLS, min_size=count, max_size=count))),
        title=draw(st.sampled_from(["", "Plan 1"])),
        together=draw(st.booleans()),
    )
    for _ in range(draw(st.integers(0, 4))):
        made.add_row(*draw(st.lists(CELLS, min_size=count, max_size=count)))
        if count > 2 and draw(st.booleans()):
            made.add_shared(draw(CELLS), draw(CELLS))
    return made


@given(grid=grids(), width=st.integers(20, 120), ascii_only=st.booleans())
def test_no_line_is_too_wide_and_no_text_is_lost(
    *, grid: Grid, width: int, ascii_only: bool
) -> None:
    lines = list(plain_lines(grid, width, ascii_only=ascii_only))
    for line in lines:
        assert cells(line) <= width
        assert line.isascii() or not ascii_only
    printed = "".join(lines)
    for row in grid.rows:
        for text in row:
            for part in unbroken(text):
                assert ascii_only or part in printed


def lines_of(grid: Grid, width: int) -> list[str]:
    return list(plain_lines(grid, width))


def test_columns_without_room_stand_beneath_their_row_with_their_names() -> None:
    rows = table("figure", "value", "source", "key")
    rows.add_row("bar: diameter", "23.1 mm", "drawing-board", "bars.toml: diameter")
    rows.add_row("bar: length", "904 mm", "", "")
    assert lines_of(rows, 60) == [
        "figure         value    source         key",
        "bar: diameter  23.1 mm  drawing-board  bars.toml: diameter",
        "bar: length    904 mm",
    ]
    assert lines_of(rows, 40) == [
        "figure         value    source",
        "bar: diameter  23.1 mm  drawing-board",
        "    key: bars.toml: diameter",
        "bar: length    904 mm",
    ]
    assert lines_of(rows, 24)[1:4] == [
        "bar: diameter  23.1 mm",
        "    source:",
        "    drawing-board; key:",
    ]


def test_names_of_rows_that_are_to_stay_whole_stay_so() -> None:
    rows = table("", "one", "other")
    rows.add_row("short-firm, front left of the van", "can be reached", "cannot be reached")
    assert lines_of(rows, 60)[1].startswith("short-firm, front left ")
    assert "of the van" not in lines_of(rows, 60)[1]
    rows.whole_names = True
    assert lines_of(rows, 60)[1] == "short-firm, front left of the van  can be reached"


def test_what_holds_for_all_columns_is_in_each_or_across_them() -> None:
    rows = Grid(("", "left", "right"), together=True)
    rows.add_row("nut", "-0.33 turn", "-0.67 turn")
    rows.add_shared("droop left", "74 mm")
    rows.add_shared("arm end", "remove a tooth of the bar")
    assert lines_of(rows, 60) == [
        "            left        right",
        "nut         -0.33 turn  -0.67 turn",
        "droop left  74 mm       74 mm",
        "arm end     remove a tooth of the bar",
    ]
    assert lines_of(rows, 24) == [
        "nut",
        "    left: -0.33 turn;",
        "    right: -0.67 turn",
        "droop left",
        "    74 mm",
        "arm end",
        "    remove a tooth of",
        "    the bar",
    ]


def test_a_row_that_is_too_short_is_filled_and_a_table_without_rows_is_nothing() -> None:
    rows = table("part", "id", "replaces")
    assert lines_of(rows, 60) == []
    rows.add_row("load")
    assert lines_of(rows, 60) == ["part  id  replaces", "load"]
    assert lines_of(pairs(title="Limits"), 60) == ["Limits"]


def test_names_of_columns_are_dim_and_so_are_those_of_pairs() -> None:
    (header, row) = grid_lines(("a", "b"), [("1", "2")], width=40)
    assert [style for _, style in (*header, *row)] == ["dim", "dim", "", ""]
    (pair,) = grid_lines(("", ""), [("1", "2")], width=40)
    assert [style for _, style in pair] == ["dim", ""]
