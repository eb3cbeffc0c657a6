"""Tests of `toml_text`: what is written is what TOML reads."""

from __future__ import annotations

import datetime as dt
import tomllib
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from barwright.registry.importing.toml_text import record_text, toml_value

TEXTS = st.text(st.characters(exclude_categories=["Cs"]))
PLAIN = TEXTS | st.booleans() | st.integers(-(2**63), 2**63 - 1) | st.floats(allow_nan=False)
VALUES = st.recursive(
    PLAIN,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXTS, inner, max_size=3),
    max_leaves=8,
)


@given(VALUES)
def test_any_value_is_read_as_it_was(value: Any) -> None:
    assert tomllib.loads(f"value = {toml_value(value)}") == {"value": value}


@given(st.dictionaries(TEXTS, VALUES, max_size=4))
def test_any_record_is_read_as_it_was(table: dict[str, Any]) -> None:
    text = record_text(table, "bar")

    assert tomllib.loads(text + text) == {"bar": [table, table]}
    assert text.endswith(("\n\n", "]]\n"))


def test_a_date_is_written_as_one() -> None:
    assert tomllib.loads(f"day = {toml_value(dt.date(2031, 5, 4))}") == {"day": dt.date(2031, 5, 4)}
