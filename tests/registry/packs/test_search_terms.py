"""Tests of `barwright.registry.packs.search_terms`: words, and what a vehicle is found by."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.registry.packs.search_terms import (
    ANY_WORD,
    ATTRIBUTES,
    EVERYWHERE,
    identity,
    months,
    spelled,
    terms,
    words_of,
)
from each_case import each_case
from sample_vehicles import make_chassis


@each_case(
    "text, words",
    [
        ("Fells carrier, short", ["fells", "carrier", "short"]),
        ("FLV-21/b_2", ["flv", "21", "b", "2"]),
        ("  2.5  ", ["2", "5"]),
        ("Straße STRASSE ſ", ["strasse", "strasse", "s"]),
        ("ＦＬＶ ２１ ﬁt", ["flv", "21", "fit"]),
        ("cafe\u0301 café", ["cafe", "cafe"]),
        (
            "Łódź Ærø Œuvre Þing Đak ħ ŧ ı",
            ["lodz", "aero", "oeuvre", "thing", "dak", "h", "t", "i"],
        ),
        ("Ώμος йод", ["ωμοσ", "иод"]),
        ("がら 한국", ["がら", "한국"]),
        ("İ", ["i"]),
        ("一二", ["一二"]),
        ("— * \u200b", []),
        ("", []),
    ],
)
def test_words_are_letters_and_digits_in_a_row(text: str, words: list[str]) -> None:
    assert words_of(text) == words


@given(st.text())
def test_a_word_is_one_word_however_often_it_is_parted(text: str) -> None:
    assert all(words_of(word) == [word] for word in words_of(text))
    assert words_of(spelled(text)) == words_of(text)


@given(st.text(st.characters(categories=["L", "N", "P", "Z"])))
def test_capitals_do_not_matter(text: str) -> None:
    assert words_of(text.casefold()) == words_of(text)


def test_what_is_spelled_alike_is_the_same() -> None:
    assert spelled("Panel-Van") == spelled(" panel  van ") == "panel van"
    assert spelled("Van panel") != "panel van"


STATED: dict[str, Any] = {
    "title": "Yardling, short",
    "maker": "Yard Works",
    "model": "Yardling",
    "body": "panel van",
    "trim": "Plain",
    "drive": "front",
    "markets": ("home", "over sea"),
    "codes": ("YD-7", "—"),
}


def test_a_vehicle_is_found_by_every_word_and_every_whole_text() -> None:
    found = set(terms(make_chassis("van-1", **STATED)))

    assert {word for attribute, word in found if attribute == ANY_WORD} == {
        *("t", "chassis", "van", "1", "yardling", "short", "yard", "works"),
        *("panel", "plain", "front", "home", "over", "sea", "yd", "7"),
    }
    assert {pair for pair in found if pair[0] != ANY_WORD} == {
        ("maker", "yard works"),
        ("model", "yardling"),
        ("body", "panel van"),
        ("trim", "plain"),
        ("drive", "front"),
        ("market", "home"),
        ("market", "over sea"),
        ("code", "yd 7"),
    }


def test_a_vehicle_without_markets_was_sold_everywhere() -> None:
    assert ("market", EVERYWHERE) in set(terms(make_chassis()))
    assert ("market", EVERYWHERE) not in set(terms(make_chassis(markets=("home",))))
    assert spelled(EVERYWHERE) == ""


def test_identity_has_every_attribute() -> None:
    stated = identity(make_chassis(**STATED))

    assert tuple(stated) == ATTRIBUTES
    assert stated["maker"] == ("Yard Works",)
    assert (stated["market"], stated["code"]) == (STATED["markets"], STATED["codes"])
    assert set(identity(make_chassis()).values()) == {()}


@pytest.mark.parametrize(
    ("first", "last", "span"),
    [
        (None, None, None),
        ("2009-03", "2014-05", (12 * 2009 + 2, 12 * 2014 + 4)),
        ("2009-03", None, (12 * 2009 + 2, 12 * 9999 + 11)),
        (None, "2014-05", (12 * 1000, 12 * 2014 + 4)),
    ],
)
def test_months_that_are_left_open_go_on_for_ever(
    first: str | None, last: str | None, span: tuple[int, int] | None
) -> None:
    assert months(make_chassis(first_built=first, last_built=last)) == span


def test_the_ends_of_time_are_months() -> None:
    span = months(make_chassis(first_built="2009-03")), months(make_chassis(last_built="2009-03"))

    assert [bw.parts.Month(9999, 12).number, bw.parts.Month(1000, 1).number] == [
        pair[end] for pair, end in zip(span, (1, 0), strict=True) if pair
    ]
