"""The table of turns on a printed sheet says what the answers of its corners say."""

from __future__ import annotations

import io
import re

import attrs
import pypdf
import pytest

import barwright as bw
from barwright.report.page.content import page_of
from barwright.report.page.drawings import thread_curves
from barwright.report.page.turns import page_turns
from barwright.report.sheet.turn_notes import turn_notes
from printed_pages import demo_sheet


def with_tables(
    sheet: bw.answers.BenchSheet, *tables: bw.answers.NutTable
) -> bw.answers.BenchSheet:
    """A sheet with other tables of turns."""
    corners = (
        attrs.evolve(corner, nut_table=table)
        for corner, table in zip(sheet.corners, tables, strict=True)
    )
    return attrs.evolve(sheet, corners=tuple(corners))


def table_of(sheet: bw.answers.BenchSheet, corner: int) -> bw.answers.NutTable:
    table = sheet.corners[corner].nut_table
    assert table is not None
    return table


def test_each_turn_of_each_side_has_its_figures() -> None:
    sheet = demo_sheet("shorter-dampers")
    turns = page_turns(sheet)
    assert turns is not None
    assert turns.title == "What each turn of the nut gives"
    assert turns.corners == ("left", "right")
    assert turns.quantities == (
        "nut at [mm]",
        "hub to arch [mm]",
        "droop to spare [mm]",
        "bolt load [N]",
    )
    assert [row.turns for row in turns.rows if row.is_set] == ["set"]
    assert len(turns.rows) == 11
    for side in (0, 1):
        for row, known in zip(turns.rows, table_of(sheet, side).rows_near(), strict=True):
            assert row.turns in (f"{known.raising_turns:+d}", "set")
            assert [values[side] for values in row.values] == [
                f"{known.pin_distance.m_as('mm'):.1f}",
                f"{known.height.m_as('mm'):.0f}",
                f"{known.droop_left.m_as('mm'):.0f}",
                f"{known.bolt_at_ride.m_as('N'):.0f}",
            ]
    assert turns.notes == (
        "+1: one turn clockwise, seen from the bolt's free end. It raises the vehicle.",
    )


def test_sides_that_are_alike_share_their_columns_and_their_notes() -> None:
    sheet = demo_sheet("firmer-bars")
    turns = page_turns(sheet)
    assert turns is not None
    assert turns.corners == ()
    assert {len(values) for row in turns.rows for values in row.values} == {1}
    unsafe = [row for row in table_of(sheet, 0).rows_near() if any(turn_notes(row))]
    assert unsafe
    marked = [row.turns.removesuffix(" !") for row in turns.rows if row.turns.endswith(" !")]
    assert marked == [f"{row.raising_turns:+d}" for row in unsafe]
    assert turns.notes[1:] == (f"! {', '.join(marked)}: not safe: lever loose at droop.",)


def test_a_thread_that_ends_before_the_other_leaves_cells_empty() -> None:
    sheet = demo_sheet("firmer-bars")
    table = table_of(sheet, 0)
    short = attrs.evolve(table, table_rows=table.rows_near(count=2))
    turns = page_turns(with_tables(sheet, table, short))
    assert turns is not None
    assert turns.rows[0].values[0][1] == ""
    assert turns.rows[5].values[0][1] == turns.rows[5].values[0][0]
    assert turns.notes[1].startswith("! Front left, -5")
    assert turns.notes[2].startswith("! Front right, -2")


def test_a_set_place_that_must_be_known_of_is_noted() -> None:
    sheet = demo_sheet("firmer-bars")
    table = table_of(sheet, 0)
    rows = tuple(attrs.evolve(row, bolt_takes_set=row.is_set) for row in table.table_rows)
    turns = page_turns(with_tables(sheet, *[attrs.evolve(table, table_rows=rows)] * 2))
    assert turns is not None
    assert "set !" in [row.turns for row in turns.rows]
    assert "! set: not safe: bolt too weak at bump." in turns.notes


def test_nothing_is_turned_with_a_fixed_socket_or_without_a_plan(
    refused: bw.answers.BenchSheet,
) -> None:
    assert page_turns(demo_sheet("loaded-trailer")) is None
    assert page_turns(refused) is None


def test_corners_of_two_axles_have_their_whole_names() -> None:
    sheet = demo_sheet("shorter-dampers")
    front, rear = sheet.corners
    sheet = attrs.evolve(sheet, corners=(front, attrs.evolve(rear, corner="rear right")))
    turns = page_turns(sheet)
    assert turns is not None
    assert turns.corners == ("front left", "rear right")


@pytest.mark.parametrize("name", ["shorter-dampers", "firmer-bars"])
def test_the_page_shows_the_table_in_every_form(name: str) -> None:
    sheet = demo_sheet(name)
    assert "What each turn of the" in bw.sheet_html(sheet)
    assert "What each turn of the" in bw.sheet_markdown(sheet)


@pytest.mark.parametrize("name", ["shorter-dampers", "firmer-bars"])
def test_in_a_pdf_each_turn_stands_in_a_line_with_its_figures(name: str) -> None:
    sheet = demo_sheet(name)
    turns = page_turns(sheet)
    assert turns is not None
    page = pypdf.PdfReader(io.BytesIO(bw.sheet_pdf(sheet))).pages[1]
    text = page.extract_text(extraction_mode="layout")
    # The heads of the columns may fall on the line of the first row.
    lines = [re.sub(r"left|right|spare|\[mm\]", " ", line) for line in text.splitlines()]
    for row in turns.rows:
        cells = [*row.turns.split(), *(value for values in row.values for value in values)]
        in_a_line = re.compile(r"(?:^|\s)" + r"\s+".join(map(re.escape, cells)) + r"\s*$")
        assert any(in_a_line.search(line) for line in lines), row.turns


@pytest.mark.parametrize("name", ["shorter-dampers", "firmer-bars"])
def test_in_html_each_row_of_the_table_is_full(name: str) -> None:
    sheet = demo_sheet(name)
    turns = page_turns(sheet)
    assert turns is not None
    table = bw.sheet_html(sheet).partition('<table class="turns">')[2].partition("</table>")[0]
    heads, *rows = table.partition("</thead>")[::2]
    across = len(turns.quantities) * max(len(turns.corners), 1)
    assert [row.count("<td") for row in rows[0].split("</tr>")[:-1]] == [across] * len(turns.rows)
    assert heads.count("<tr>") == (2 if turns.corners else 1)
    assert f'rowspan="{heads.count("<tr>")}"' in heads


def test_no_number_is_parted_from_its_unit() -> None:
    page = page_of(demo_sheet("shorter-dampers"))
    assert "349\xa0±\xa07\xa0mm" in page.headlines[0]
    parted = re.compile(r"\d (mm|N|kg|Hz|J|turns?|±)")
    texts = [page.sources, *page.headlines, *page.notes]
    texts += [step.text for stage in page.stages for step in stage.steps]
    texts += [cell.text for row in page.figures for cell in row.cells]
    assert [text for text in texts if parted.search(text)] == []


# -- The whole thread ----------------------------------------------------------------------


@pytest.mark.parametrize("name", ["shorter-dampers", "firmer-bars"])
def test_the_whole_thread_has_a_page_with_its_curves_and_every_turn(name: str) -> None:
    sheet = demo_sheet(name)
    thread = page_turns(sheet, whole_thread=True)
    assert thread is not None
    assert thread.title.startswith("Every turn of the ")
    assert len(thread.rows) == max(len(table_of(sheet, side).table_rows) for side in (0, 1))
    pages = pypdf.PdfReader(io.BytesIO(bw.sheet_pdf(sheet, whole_thread=True))).pages
    assert len(pages) == 3
    text = pages[2].extract_text()
    assert thread.title in text
    first, last = thread.rows[0], thread.rows[-1]
    assert all(values[0] in text for row in (first, last) for values in row.values)
    html = bw.sheet_html(sheet, whole_thread=True)
    assert thread.title in html
    assert html.count('<table class="turns">') == 2


def test_corners_that_are_alike_share_the_curve_of_their_thread() -> None:
    for name, titles in (
        ("firmer-bars", ["Front left and right, height over the thread"]),
        (
            "shorter-dampers",
            ["Front left, height over the thread", "Front right, height over the thread"],
        ),
        ("loaded-trailer", []),
    ):
        assert [each.title for each in thread_curves(demo_sheet(name))] == titles


def test_without_a_thread_or_a_plan_no_page_of_turns_follows(
    refused: bw.answers.BenchSheet,
) -> None:
    for sheet in (demo_sheet("loaded-trailer"), refused):
        assert bw.sheet_html(sheet, whole_thread=True) == bw.sheet_html(sheet)
        assert page_of(sheet).thread is None
