"""Tests of `variants`: every combination of what a job lists, or why there is none."""

from __future__ import annotations

from typing import Any

import pytest

import barwright as bw
from barwright.registry.jobs.variants import variants


def no_text(_: str) -> str:
    """Of a table alone, no problem has a line."""
    return ""


def refused(table: dict[str, Any]) -> list[bw.BarwrightError]:
    with pytest.raises(bw.DocumentError) as caught:
        list(variants(table, "job.toml", no_text))
    assert (caught.value.code, caught.value.file) == ("D101", "job.toml")
    return list(caught.value.problems)


def test_a_job_without_lists_is_its_one_variant() -> None:
    table = {"vehicle": "one", "parts": {"bar": "b"}, "title": "x"}

    assert list(variants(table, "", no_text)) == [("", table)]


def test_the_last_list_turns_fastest_and_the_table_itself_stays_as_it_is() -> None:
    table = {"vehicle": ["v", "w"], "parts": {"bar": ["b", "c"], "arm": "a"}}

    found = list(variants(table, "", no_text))

    assert [name for name, _ in found] == [
        "vehicle v, bar b",
        "vehicle v, bar c",
        "vehicle w, bar b",
        "vehicle w, bar c",
    ]
    assert found[1][1] == {"vehicle": "v", "parts": {"bar": "c", "arm": "a"}}
    assert table == {"vehicle": ["v", "w"], "parts": {"bar": ["b", "c"], "arm": "a"}}


def test_a_thousand_combinations_are_read_and_one_more_is_not() -> None:
    most = {"vehicle": [str(n) for n in range(1000)]}
    assert len(list(variants(most, "", no_text))) == 1000

    (error,) = refused({"vehicle": [str(n) for n in range(1001)]})

    assert (error.code, error.value, error.expected) == ("J102", "1001 variants", "at most 1000")
    assert (error.remedy, error.file) == ("split the job", "job.toml")


def test_a_list_that_names_one_thing_twice_is_refused_and_says_which() -> None:
    first, second = refused(
        {"vehicle": ["v", "w", "w"], "parts": {"bar": ["b", "b"], "arm": ["a"]}}
    )

    assert (first.code, first.key, first.value) == ("S207", "vehicle", "w")
    assert first.expected == "each vehicle and each part once"
    assert first.remedy == "remove the repeated one"
    assert (second.code, second.key, second.value) == ("S207", "parts.bar", "b")
    assert {first.file, second.file} == {"job.toml"}
