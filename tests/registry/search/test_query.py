"""Tests of `barwright.registry.search.query`: what a description asks of a vehicle."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.registry.packs.search_terms import ANY_WORD, EVERYWHERE, Condition
from barwright.registry.search.query import describe

YEAR_2014 = (12 * 2014, 12 * 2014 + 11)
MAY_2014 = (12 * 2014 + 4, 12 * 2014 + 4)


def word(text: str, **change: Any) -> Condition:
    return Condition(word=text, attribute=ANY_WORD, **change)


def conditions(*words: str, **said: Any) -> list[tuple[Condition, ...]]:
    return [clause.conditions for clause in describe(*words, **said).clauses]


def test_each_word_is_asked_for_once() -> None:
    assert conditions("Fells short, FELLS") == [(word("fells"),), (word("short"),)]
    assert [clause.said for clause in describe("Fells FLV-21").clauses] == [
        "'fells'",
        "'flv'",
        "'21'",
    ]


def test_a_year_may_also_be_a_word() -> None:
    assert conditions("2014") == [(word("2014", months=YEAR_2014),)]
    assert conditions("x2014 0999 20144") == [(word("x2014"),), (word("0999"),), (word("20144"),)]


@pytest.mark.parametrize("text", ["2014-05", "(2014-05)", "2014-05,", "2014-05."])
def test_a_month_is_a_month_and_no_word(text: str) -> None:
    assert conditions(text) == [(Condition(months=MAY_2014),)]
    assert describe(text).clauses[0].said == "'2014-05'"


@pytest.mark.parametrize("text", ["2014-13", "2014-5", "12014-05", "2014-05-01"])
def test_what_is_not_spelled_as_a_month_is_words(text: str) -> None:
    assert conditions(text) == conditions(text.replace("-", " "))


def test_attributes_are_asked_for_by_their_whole_text() -> None:
    described = describe(attributes={"maker": "Yard-Works", "model": None, "code": "YD 7"})

    assert [clause.conditions for clause in described.clauses] == [
        (Condition(word="yard works", attribute="maker"),),
        (Condition(word="yd 7", attribute="code"),),
    ]
    assert described.text == "maker = 'Yard-Works', code = 'YD 7'"


def test_a_vehicle_that_was_sold_everywhere_was_sold_in_any_market() -> None:
    assert conditions(attributes={"market": "Home"}) == [
        (
            Condition(word="home", attribute="market"),
            Condition(word=EVERYWHERE, attribute="market"),
        )
    ]


def test_years_and_months_are_asked_for() -> None:
    assert conditions(year=2014) == [(Condition(months=YEAR_2014),)]
    assert conditions(built="2014-05") == conditions(built=bw.parts.Month(2014, 5))
    assert conditions(built="2014-05") == [(Condition(months=MAY_2014),)]
    assert describe("a", year=2014, built="2014-05").text == "a, year = 2014, built = '2014-05'"


@pytest.mark.parametrize("text", ["fells:chassis/short", "chassis/short", "x:bar/1", " a:b/c "])
def test_an_id_is_an_id(text: str) -> None:
    described = describe(text, year=2014)

    assert described.id == text.strip()
    assert [clause.said for clause in described.clauses] == ["year = 2014"]
    asked_for = [clause.conditions[0].word for clause in described.all_clauses[:-1]]
    assert asked_for == text.strip().replace(":", " ").replace("/", " ").split()


@pytest.mark.parametrize(
    "text", ["a b:c/d", "fells:short", "4/short", "a:b/c/d", "chassis/", "a:/"]
)
def test_what_is_not_spelled_as_an_id_is_words(text: str) -> None:
    assert describe(text).id == ""


def test_one_clause_can_be_left_out() -> None:
    described = describe("a b", year=2014)

    assert described.without(described.clauses[1]).clauses == (
        described.clauses[0],
        described.clauses[2],
    )
    assert described.without(described.clauses[1]).text == described.text


@given(st.text(max_size=30))
def test_any_text_is_words(text: str) -> None:
    for clause in describe(text).clauses:
        (condition,) = clause.conditions
        assert condition.word or condition.months


def test_no_more_than_so_much_is_looked_for() -> None:
    words = " ".join(map(str, range(33)))

    assert len(describe(words.rpartition(" ")[0]).clauses) == 32
    assert len(describe("a " * 1000).clauses) == 1
    with pytest.raises(bw.UnknownNameError) as caught:
        describe(words)
    assert (caught.value.code, caught.value.expected) == ("L101", "at most 32 words and attributes")
    assert caught.value.value == words[:77] + "..."


@pytest.mark.parametrize(
    ("said", "code", "key"),
    [
        ({"words": 5}, "S203", "words"),
        ({"words": None}, "S203", "words"),
        ({"attributes": {"maker": 5}}, "S203", "maker"),
        ({"year": "2014"}, "S203", "year"),
        ({"year": True}, "S203", "year"),
        ({"year": 999}, "S203", "year"),
        ({"year": 10_000}, "S203", "year"),
        ({"built": "2014"}, "S204", "built"),
        ({"built": 2014}, "S203", "built"),
    ],
)
def test_what_cannot_be_said(said: dict[str, Any], code: str, key: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        describe(**said)

    assert (caught.value.code, caught.value.key) == (code, key)


@pytest.mark.parametrize(
    ("said", "expected", "remedy"),
    [
        ({"words": 5}, "text", "write words, like 'fells short 2014'"),
        (
            {"year": "2014"},
            "a year as a whole number of four digits",
            "write it like 2014, or a month like built='2014-05'",
        ),
    ],
)
def test_what_cannot_be_said_is_answered_with_what_can(
    said: dict[str, Any], expected: str, remedy: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        describe(**said)

    assert (caught.value.expected, caught.value.remedy) == (expected, remedy)


@pytest.mark.parametrize("year", [1000, 9999])
def test_years_that_can_be_said(year: int) -> None:
    assert conditions(year=year) == [(Condition(months=(12 * year, 12 * year + 11)),)]
