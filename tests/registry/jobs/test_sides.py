"""Tests of `sides`: what a job file says of one side of a vehicle."""

from __future__ import annotations

from typing import Any

import pytest

from barwright.parts.bar import Side
from barwright.registry.jobs.sides import merged, replaced, unused_sides


def test_a_table_of_a_side_that_no_corner_is_on_is_refused_with_what_to_write() -> None:
    (error,) = unused_sides({"parts": {"right": {}, "bar": "one"}, "title": "x"}, {"left"})

    assert (error.code, error.key) == ("S207", "parts.right")
    assert error.value == "a table for the right side"
    assert error.expected == "tables only for the corners of the job (left)"
    assert error.remedy == "add the right corner to corners, or remove the table"


@pytest.mark.parametrize("table", ["load", "parts", "wanted", "present"])
def test_each_table_may_have_one_for_each_side_of_the_job(table: str) -> None:
    file: dict[str, Any] = {table: {"left": {}, "right": {}}}

    assert list(unused_sides(file, {"left", "right"})) == []
    assert [one.key for one in unused_sides(file, {"right"})] == [f"{table}.left"]


def test_one_side_overrules_key_by_key_or_as_a_whole() -> None:
    table = {"bar": "both", "arm": "both", "left": {"bar": "left"}}

    assert merged(table, Side.LEFT) == {"bar": "left", "arm": "both"}
    assert replaced(table, Side.LEFT) == {"bar": "left"}
    assert (
        merged(table, Side.RIGHT) == replaced(table, Side.RIGHT) == {"bar": "both", "arm": "both"}
    )


def test_a_side_that_is_no_table_is_left_for_whoever_reads_it() -> None:
    assert merged({"bar": "both", "left": 5}, Side.LEFT) == {"bar": "both", "left": 5}
    assert replaced({"left": 5}, Side.LEFT) == {"left": 5}
