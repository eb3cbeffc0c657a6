"""Pages of several corners as one: what they share once, what differs side by side."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.report.text.layout.corners import names_of, side_by_side
from barwright.report.text.layout.page import Page, Section
from barwright.report.text.layout.tables import Grid, Note, marked, pairs, plain_lines, table
from barwright.report.text.rates import rates_text
from barwright.report.text.reindex import reindex_text
from sample_packs import discovered_once


def shown(page: Page, width: int = 80) -> list[str]:
    return list(plain_lines(page, width))


def page(headline: str, *parts: Grid | Note | Section, findings: tuple[str, ...] = ()) -> Page:
    return Page(
        headlines=(Note(headline),),
        findings=tuple(marked("*", text) for text in findings),
        parts=parts,
    )


def both(left: Page, right: Page, width: int = 80) -> list[str]:
    return shown(side_by_side({"front left": left, "front right": right}), width)


@pytest.mark.parametrize(
    ("corners", "names"),
    [
        (["rear left"], "rear left"),
        (["front left", "front right"], "front left and right"),
        (["front left", "rear left"], "front left and rear left"),
    ],
)
def test_corners_are_named_with_their_axle_once(corners: list[str], names: str) -> None:
    assert names_of(corners) == names


def test_a_headline_names_its_corners() -> None:
    assert both(page("Holds."), page("Holds.")) == ["Front left and right: holds."]
    assert both(page("Holds."), page("12 N/mm.")) == ["Front left: holds.", "Front right: 12 N/mm."]


def test_findings_of_all_stand_once_and_others_with_their_corner() -> None:
    left = page("Fits.", findings=("change: a new cap", "note: slack"))
    right = page("Fits.", findings=("note: tight", "change: a new cap"))
    assert both(left, right)[1:] == [
        "   * front right: tight",
        "   * change: a new cap",
        "   * front left: slack",
    ]


def test_places_leave_the_corner_out() -> None:
    left, right = (page("Fits.").of(f"one: Van, front {side}, Bar", "") for side in SIDES)
    assert both(left, right)[1:] == ["one: Van, Bar"]


SIDES = ("left", "right")


def test_pairs_have_a_column_a_corner() -> None:
    left = pairs(("nut", "-0.33 turn"), ("droop left", "74 mm"), title="Plan 1")
    right = pairs(("nut", "-0.67 turn"), ("droop left", "74 mm"), ("more", "1"), title="Plan 1")
    assert both(page("x", left), page("x", right))[2:] == [
        "Plan 1",
        "            left        right",
        "nut         -0.33 turn  -0.67 turn",
        "droop left  74 mm       74 mm",
        "more                    1",
    ]


def test_tables_that_are_the_same_stand_once() -> None:
    assert both(page("x", pairs(("a", "1"))), page("x", pairs(("a", "1"))))[2:] == ["a  1"]


def rows(*texts: tuple[str, ...]) -> Grid:
    made = table("hub to arch", "load", "rate", "angle")
    for row in texts:
        made.add_row(*row)
    return made


def test_few_columns_that_differ_are_there_for_each_corner() -> None:
    left, right = (rows(("400 mm", load, "20 N/mm", "1°")) for load in ("10 N", "11 N"))
    assert both(page("x", left), page("x", right))[2:] == [
        "hub to arch  load, left  load, right  rate     angle",
        "400 mm       10 N        11 N         20 N/mm  1°",
    ]


def test_rows_that_differ_in_more_are_there_for_each_corner() -> None:
    left = rows(("400 mm", "10 N", "20 N/mm", "1°"), ("390 mm", "20 N", "21 N/mm", "2°"))
    right = rows(("400 mm", "11 N", "22 N/mm", "3°"), ("390 mm", "20 N", "21 N/mm", "2°"))
    assert both(page("x", left), page("x", right))[3:] == [
        "400 mm, left   10 N  20 N/mm  1°",
        "400 mm, right  11 N  22 N/mm  3°",
        "390 mm         20 N  21 N/mm  2°",
    ]


def test_long_tables_of_which_all_rows_differ_stand_below_each_other() -> None:
    left, right = (
        rows(*((f"{n} mm", f"{n}.{side} N", f"{n} N", f"{n}.{side}°") for n in range(7)))
        for side in (1, 2)
    )
    for table_of in (left, right):
        table_of.rows = [(*row[:2], f"{row[1]} x", row[3]) for row in table_of.rows]
    lines = both(page("x", left), page("x", right))
    assert [line for line in lines if line in SIDES] == ["left", "right"]
    assert len(lines) == 2 + 2 * 9 + 1
    few = [attrs.evolve(one, rows=one.rows[:6]) for one in (left, right)]
    assert "0 mm, left" in "\n".join(both(page("x", few[0]), page("x", few[1])))


def test_rows_of_one_corner_alone_say_so() -> None:
    left, right = rows(("400 mm", "10 N", "", "")), rows(("390 mm", "20 N", "", ""))
    assert both(page("x", left), page("x", right))[3:] == [
        "400 mm, left   10 N",
        "390 mm, right  20 N",
    ]


def test_a_table_of_one_corner_alone_says_so() -> None:
    one, other = pairs(("a", "1"), title="Plan 2"), pairs(("b", "2"))
    assert both(page("x", one, other), page("x"))[2:] == [
        *("Plan 2, front left", "a  1", "", "front left", "b  2"),
    ]


def test_lines_and_sections_are_joined_too() -> None:
    left = page("x", Note("by A"), Section("Others", (pairs(("a", "1"), title="Plan 2"),)))
    right = page("x", Note("by B"), Section("Others", (pairs(("a", "2"), title="Plan 2"),)))
    assert both(left, right)[2:] == [
        *("front left: by A", "front right: by B", "", "Others", "Plan 2"),
        *("   left  right", "a  1     2"),
    ]


@pytest.mark.parametrize(
    ("corners", "title"),
    [
        (("front right",), "Others, front right only"),
        (("front left", "rear left"), "Others, front left and rear left only"),
        (("front left", "front right", "rear left"), "Others"),
    ],
)
def test_a_section_that_only_some_corners_have_says_so(
    corners: tuple[str, ...], title: str
) -> None:
    others = Section("Others", (pairs(("a", "1")),))
    pages = {
        corner: page("x", *((others,) if corner in corners else ()))
        for corner in ("front left", "front right", "rear left")
    }
    assert [line for line in shown(side_by_side(pages)) if "Others" in line] == [title]


def test_the_corners_of_a_job_are_written_in_half_of_the_lines() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", discovered_once())
    corners = {corner.setup.corner: corner for corner in job.corners}
    for pages in (
        {n: rates_text(bw.rates(c.setup, wanted=c.wanted)) for n, c in corners.items()},
        {n: reindex_text(bw.reindex(c.setup, wanted=c.wanted)) for n, c in corners.items()},
    ):
        apart = sum(len(shown(page)) for page in pages.values())
        together = shown(side_by_side(pages))
        assert len(together) < 0.75 * apart
        words = set(" ".join(together).split())
        for one in pages.values():
            figures = {word for line in shown(one) for word in line.split() if word[0].isdigit()}
            assert figures <= words


def test_axles_are_told_apart() -> None:
    front, rear = pairs(("a", "1")), pairs(("a", "2"))
    together = side_by_side({"front left": page("x", front), "rear left": page("x", rear)})
    assert shown(together)[2:] == ["   front left  rear left", "a  1           2"]


def test_a_place_is_added_to_those_that_are_there() -> None:
    page_of_one = page("x").of("one").of("", "two")
    assert [note.text for note in page_of_one.place] == ["one", "two"]
    assert attrs.evolve(page_of_one, place=()) == page("x")
