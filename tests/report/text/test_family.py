"""The terminal's text of a family matrix: counts first, then a table for each corner."""

from __future__ import annotations

from typing import Any

import attrs

import barwright as bw
from barwright.report.text.family import matrix_text
from barwright.report.text.layout.tables import plain_lines
from terminal_text import folded

DEMO = bw.Registry.demo()


def shown(*, most: int = 200, **asked: Any) -> str:
    """The text in lines so wide that no cell is broken, as one line."""
    page = matrix_text(bw.family_matrix(DEMO, **asked), most=most)
    return " ".join(" ".join(plain_lines(page, 200)).split())


def test_counts_come_before_the_table_of_a_corner() -> None:
    text = shown(vehicles="fells short", bars="short-firm")
    assert text.startswith("1 bar on 1 vehicle, 2 pairs: 2 fit; ")
    assert "Pairs fits 2 of those that fit: below yield; permissible stress not known 2 " in text
    assert text.endswith(
        "Fells carrier, short wheelbase, front left, front right at 404 mm "
        "bar wheel rate change frequency at bump verdict "
        "Firm bar, short van 27.5 N/mm +30.6 % 1.44 Hz 655 MPa fits, below yield"
    )


def test_what_is_excluded_is_counted_by_its_requirement() -> None:
    text = shown(vehicles="fells", bars="short-standard")
    assert "excluded: no overlap 4 fits 2 " in text
    assert "Standard bar, short van (standard) " in text


def test_corners_that_differ_have_a_table_each_with_what_must_be_changed_or_prevents() -> None:
    text = shown(vehicles="fells short", bars="left")
    left, right = text.split("front left at ")[1].split("front right at ")
    assert "fits, below yield" in left
    assert "fits with changes (made for the other side), below yield" in right
    assert "does not fit: the pre-setting of the bar is made for the other side" in right


def test_teeth_are_shown_where_they_were_asked_for() -> None:
    text = shown(vehicles="fells short", bars="left", height="390 mm", clocking=True)
    assert "verdict teeth" in text
    assert "arm +" in text
    assert " removed " in f"{text} "
    lost = shown(vehicles="fells short", bars="short-firm", height="900 mm", clocking=True)
    assert lost.endswith("Firm bar, short van fits, cannot be reached cannot be reached")


def test_an_error_and_an_unanswered_pair_are_told() -> None:
    answer = bw.family_matrix(DEMO, vehicles="fells short", bars="short-firm")
    row = attrs.evolve(answer.rows[0], error_code="Q302", error_text="Q302: too heavy")
    count = attrs.evolve(answer.count, errors=1)
    text = folded(matrix_text(attrs.evolve(answer, rows=(row,), count=count), most=9))
    assert "ended with an error 1" in text
    assert "error Q302: too heavy" in text
    bare = attrs.evolve(answer.rows[0], strength=None)
    assert folded(matrix_text(attrs.evolve(answer, rows=(bare,)), most=9)).endswith("655 MPa fits")


def test_too_many_rows_are_only_counted() -> None:
    text = shown(vehicles="fells short", most=3)
    assert text.endswith("20 rows are too many to show: choose by words, or write them to a file.")


def test_nothing_has_no_table() -> None:
    assert shown(bars="zzz") == "0 bars on 6 vehicles, 0 pairs: none is known to fit."
