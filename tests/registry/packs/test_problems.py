"""Tests of `problems`: a problem that was kept says what it said before."""

from __future__ import annotations

import json

import pytest

import barwright as bw
from barwright.errors import CODES
from barwright.registry.packs.problems import pack_error, tables_of
from index_packs import reported

CLASSES = [
    bw.FileError,
    bw.GeometryError,
    bw.JobError,
    bw.NotConvergedError,
    bw.QuantityError,
    bw.SchemaError,
    bw.UnknownNameError,
]


@pytest.mark.parametrize("cls", CLASSES)
def test_a_problem_of_any_class_is_told_again(cls: type[bw.BarwrightError]) -> None:
    problems = tuple(
        cls(code, value=value, expected="e — ü", remedy="r\udcff", key=key, file="f", line=line)
        for code in ("S203", next(iter(CODES)))
        for value in ("text", 5, "x" * 200, None)
        for key, line in (("", 0), ("bar[0].length", 7))
    )
    error = bw.PackError("P101", problems=problems, file="yard 1.0")

    kept = json.loads(json.dumps(tables_of(error)))
    again = pack_error(kept, origin="yard 1.0")

    assert reported(again) == reported(error)
    assert [type(problem) for problem in again.problems] == [cls] * len(problems)
    assert reported(pack_error(kept, origin="other"))[1]["file"] == "other"
