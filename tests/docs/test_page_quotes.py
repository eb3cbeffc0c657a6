"""Excerpts and shown outputs are found again in an output that has changed."""

from __future__ import annotations

import pytest

from page_quotes import excerpts_anew, line_anew, nearest, shown_anew

PRINTED = """\
Van, front left
wanted         350.0 mm
free angle     -16.85°

Plan 1: no tooth to remove
   - arm end: leave this end on its tooth;
     on the key: the blank
hub to arch    350.2 mm
Van, front right
free angle     -16.62°
""".splitlines()


def test_figures_are_those_that_are_printed_now() -> None:
    old = [["wanted         349.0 mm"], ["hub to arch    349.1 mm"]]

    assert excerpts_anew(old, PRINTED) == [["wanted         350.0 mm"], ["hub to arch    350.2 mm"]]


def test_of_two_like_lines_the_first_in_order_is_taken() -> None:
    assert excerpts_anew([["free angle     -17.00°"]], PRINTED) == [["free angle     -16.85°"]]
    both = [["free angle     -17.00°"], ["free angle     -17.00°"]]
    assert excerpts_anew(both, PRINTED)[1] == ["free angle     -16.62°"]


def test_a_line_that_now_goes_on_is_taken_whole() -> None:
    old = [["   - arm end: leave this end on its tooth; on the key: the blank"]]

    assert excerpts_anew(old, PRINTED) == [PRINTED[5:7]]


def test_lines_that_have_come_between_join_the_excerpt_before_them() -> None:
    old = [["Van, front left"], ["Plan 1: no tooth to remove"]]

    assert excerpts_anew(old, PRINTED) == old
    assert excerpts_anew(old, PRINTED, joined_up_to=9) == [PRINTED[:3], PRINTED[4:5]]
    assert excerpts_anew(old, PRINTED, joined_up_to=2) == [PRINTED[:2], PRINTED[4:5]]


def test_an_excerpt_stays_together_where_a_line_of_it_comes_again_far_below() -> None:
    printed = ["a 350.0 mm", "b 2", "other words", *["between"] * 9, "as it was once", "end"]
    old = [["a 349.0 mm", "b 1", "as it was once"]]

    assert excerpts_anew(old, printed) == [["a 350.0 mm", "b 2", "other words"]]


def test_what_nothing_is_like_stays() -> None:
    assert excerpts_anew([["quite another thing"]], PRINTED) == [["quite another thing"]]


@pytest.mark.parametrize(
    ("shown", "anew"),
    [
        ("a 1\n…\nc 3\n", "a 10\n…\nc 30\n"),
        ("…\nc 3\n", "…\nc 30\n"),
        ("a 1\n…\n", "a 10\n…\n"),
        ("a 1\nb 2 … x\nc 3\n", "a 10\nb 20 … x\nc 30\n"),
        ("a 1\nc 3\n", "a 10\nb 20 y z x\nc 30\n"),
        ("…\n", "…\n"),
    ],
)
def test_a_whole_output_keeps_what_is_left_out(shown: str, anew: str) -> None:
    assert shown_anew(shown, ["a 10", "b 20 y z x", "c 30  "]) == anew


def test_a_very_long_line_that_fits_no_more_stays_and_another_one_does_not() -> None:
    words = " ".join(f"word{n}" for n in range(60))
    shown = f"a b c … {words}\nlong {words} 1\n"
    printed = [f"a b d e {words}", f"long {words} 2"]

    assert shown_anew(shown, printed) == f"a b c … {words}\nlong {words} 2\n"


def test_a_line_with_text_left_out_takes_new_figures_only() -> None:
    assert line_anew("a 1 … c 2.5", "a 3 b c 4") == "a 3 … c 4"
    assert line_anew("a 1 … c", "b 1 x c") is None


def test_the_nearest_line_is_like_it_or_the_line_itself() -> None:
    assert nearest("arm is 3 mm long", ["the bar", "arm is 30.5 mm long"]) == "arm is 30.5 mm long"
    assert nearest("arm is 3 mm long", ["nothing of it"]) == "arm is 3 mm long"
    assert nearest("arm", []) == "arm"
