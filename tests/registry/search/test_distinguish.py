"""Tests of `barwright.registry.search.distinguish`: what tells vehicles apart."""

from __future__ import annotations

from typing import Any

import pytest

from barwright.registry.search.distinguish import built_text, distinguishing_words, listed
from sample_vehicles import make_chassis


def reported(*stated: dict[str, Any]) -> str:
    """What tells vehicles apart that state this and that."""
    vehicles = [make_chassis(f"van-{number}", **one) for number, one in enumerate(stated)]
    return distinguishing_words(vehicles)


@pytest.mark.parametrize("name", ["maker", "model", "body", "trim", "drive"])
def test_an_attribute_tells_two_apart(name: str) -> None:
    assert reported({name: "Wide"}, {name: "Broad"}) == f"add {name}: 'Broad' or 'Wide'"


def test_an_attribute_tells_three_apart() -> None:
    assert reported({"body": "c"}, {"body": "b"}, {"body": "a"}) == "add body: 'a', 'b' or 'c'"


def test_what_is_spelled_alike_or_not_stated_tells_nothing_apart() -> None:
    assert reported({"body": "panel van"}, {"body": "Panel-Van"}) == ""
    assert reported({"body": "panel van"}, {}) == ""
    assert reported({"codes": ("—",)}, {"codes": ("*",)}) == ""


def test_codes_and_markets_tell_apart_where_none_is_shared() -> None:
    assert reported({"codes": ("A", "B")}, {"codes": ("C",)}) == "add code: 'A', 'B' or 'C'"
    assert reported({"codes": ("A", "B")}, {"codes": ("b", "C")}) == ""
    assert (
        reported({"markets": ("home",)}, {"markets": ("export",)})
        == "add market: 'export' or 'home'"
    )
    assert reported({"markets": ("home",)}, {}) == ""


@pytest.mark.parametrize(
    ("one", "other", "text"),
    [
        (
            ("2009-03", "2014-05"),
            ("2014-06", None),
            "add built: 2009-03 to 2014-05 or from 2014-06",
        ),
        (("2014-06", None), (None, "2014-05"), "add built: from 2014-06 or to 2014-05"),
        (("2009-03", "2014-05"), ("2014-05", None), ""),
        (("2009-03", "2014-05"), (None, None), ""),
    ],
)
def test_months_tell_apart_where_none_is_shared(one: Any, other: Any, text: str) -> None:
    spans = [{"first_built": first, "last_built": last} for first, last in (one, other)]

    assert reported(*spans) == reported(*reversed(spans)) == text


def test_one_attribute_goes_before_words_of_titles_and_words_before_several_attributes() -> None:
    short: dict[str, Any] = {"title": "Short van", "body": "van", "trim": "plain"}
    long: dict[str, Any] = {"title": "Long van", "body": "van", "trim": "rich"}
    box: dict[str, Any] = {"title": "Box", "body": "box", "trim": "plain"}

    assert reported(short, long) == "add trim: 'plain' or 'rich'"
    assert reported(short, long, box) == "add one of the words 'short', 'long' or 'box'"
    same = [one | {"title": "Van"} for one in (short, long, box)]
    assert reported(*same) == "add body: 'box' or 'van', and trim: 'plain' or 'rich'"


def test_a_word_that_another_has_elsewhere_is_no_word_of_ones_own() -> None:
    assert (
        reported({"title": "Short"}, {"title": "Long"}) == "add one of the words 'short' or 'long'"
    )
    assert reported({"title": "Short"}, {"title": "Long", "trim": "short"}) == ""


def test_a_number_in_a_title_may_be_a_year_of_the_other() -> None:
    assert reported({"title": "Van 2014"}, {"title": "Van 2015"}) == ""


def test_what_is_alike_in_everything_is_not_told_apart() -> None:
    assert reported({}, {}) == ""


def test_what_helps_is_named_even_if_two_stay_alike() -> None:
    assert reported({"body": "a"}, {"body": "a"}, {"body": "b"}) == "add body: 'a' or 'b'"


def test_many_attributes_that_help_little_are_all_named() -> None:
    vehicles = [
        {"body": body, "trim": trim, "drive": drive}
        for body in ("a", "b")
        for trim in ("c", "d")
        for drive in ("e", "f")
    ]

    assert (
        reported(*vehicles) == "add body: 'a' or 'b', and trim: 'c' or 'd', and drive: 'e' or 'f'"
    )


def test_a_hostile_text_cannot_break_the_line() -> None:
    assert reported({"body": "a\nb\x1b[31m"}, {"body": "\u202ec"}) == (
        r"add body: '\u202ec' or 'a\nb\x1b[31m'"
    )


def test_the_months_of_a_vehicle_as_text() -> None:
    assert built_text(make_chassis()) == ""
    assert built_text(make_chassis(first_built="2009-03")) == "from 2009-03"
    assert built_text(make_chassis(last_built="2009-03")) == "to 2009-03"
    assert built_text(make_chassis(first_built="2009-03", last_built="2009-03")) == (
        "2009-03 to 2009-03"
    )


def test_texts_are_listed_with_or_before_the_last() -> None:
    assert listed(["a"]) == "a"
    assert listed(iter("ab")) == "a or b"
    assert listed("abcd") == "a, b, c or d"
