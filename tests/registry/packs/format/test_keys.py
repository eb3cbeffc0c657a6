"""Words of the format of packs: they stand in a table, whatever the classes are called."""

from __future__ import annotations

import re
import typing
from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from barwright.parts.adjuster import Adjuster
from barwright.parts.chassis import Axle
from barwright.registry.packs.format.keys import KIND_WORDS, has_kinds, kinds_of

PAGE = Path(__file__).parents[4] / "docs" / "pack-file.md"


def union_of(cls: type[Any], name: str) -> Any:
    """Types of what a field may hold."""
    return typing.get_type_hints(cls)[name]


@pytest.mark.parametrize(
    ("union", "words"),
    [
        (union_of(Axle, "suspension"), {"strut", "double-wishbone", "swing-arm"}),
        (union_of(Adjuster, "mounting"), {"swivelling", "fixed-line", "key-bolt"}),
    ],
)
def test_the_words_are_those_of_the_page(union: Any, words: set[str]) -> None:
    assert set(kinds_of(union)) == words
    assert words <= set(re.findall(r'"([a-z-]+)"', PAGE.read_text(encoding="utf-8")))


def test_each_kind_has_a_word_of_its_own() -> None:
    assert len(set(KIND_WORDS.values())) == len(KIND_WORDS)


@pytest.mark.parametrize("other", [int, bw.Quantity | None, int | str, tuple[int, ...]])
def test_what_is_no_choice_of_kinds_has_no_words(other: Any) -> None:
    assert not has_kinds(other)
    assert kinds_of(other) == {}
