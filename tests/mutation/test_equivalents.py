"""Tests of the list of equivalent slips: each can still be made, and has a reason."""

from __future__ import annotations

import ast
import tomllib
from collections.abc import Iterator

import pytest

from mutation.mutants import slips_of
from mutation.run import EQUIVALENTS, PACKAGE

LISTED = tomllib.loads(EQUIVALENTS.read_text(encoding="utf-8"))["equivalent"]


def slips_at(module: str, code: str) -> Iterator[str]:
    """Slips that can be made in a line of code."""
    source = (PACKAGE / module).read_text(encoding="utf-8")
    lines = [line.strip() for line in source.splitlines()]
    for node, slips in slips_of(ast.parse(source)):
        if lines[getattr(node, "lineno", 1) - 1] == code:
            yield from (f"{ast.unparse(node)} → {ast.unparse(slip)}" for slip in slips)


@pytest.mark.parametrize("one", LISTED, ids=lambda one: one["module"])
def test_a_listed_slip_can_be_made_and_has_a_reason(one: dict[str, str]) -> None:
    assert one["slip"] in slips_at(one["module"], one["code"])
    assert one["reason"].endswith(".")


def test_no_slip_is_listed_twice() -> None:
    keys = [(one["module"], one["code"], one["slip"]) for one in LISTED]
    assert len(set(keys)) == len(keys)
