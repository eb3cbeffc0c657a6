"""`nearest`: which of the known names was meant."""

from __future__ import annotations

import difflib
from typing import Any

import pytest

from barwright.registry.nearest_name import nearest


def watched(monkeypatch: pytest.MonkeyPatch) -> list[tuple[int, int]]:
    """Length of the name, and count of the names, each time that any are compared."""
    compared: list[tuple[int, int]] = []
    compare = difflib.get_close_matches

    def counted(name: str, known: list[str], **options: Any) -> list[str]:
        compared.append((len(name), len(known)))
        return compare(name, known, **options)

    monkeypatch.setattr(difflib, "get_close_matches", counted)
    return compared


@pytest.mark.parametrize(
    ("name", "names", "remedy"),
    [
        ("ab", ["abc", "xyz"], "did you mean 'abc'?"),
        ("ab", [], "none is known"),
        ("zzz", ["abc", "aab"], "known: aab, abc"),
        ("zzz", [f"n{i}" for i in range(9)], "known: n0, n1, n2, n3, n4, n5, n6, n7, …"),
    ],
)
def test_nearest(name: str, names: list[str], remedy: str) -> None:
    assert nearest(name, names) == remedy


def test_of_very_many_names_only_those_that_share_most_letters_are_compared(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    names = [f"bar/{'abcdefghij' * 4}-{i}" for i in range(3000)]
    compared = watched(monkeypatch)
    assert "'bar/mountain-pass'" in nearest("bar/muontain-pass", [*names, "bar/mountain-pass"])
    assert compared == [(17, 10)]


def test_of_a_name_of_any_length_the_beginning_is_compared(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    compared = watched(monkeypatch)
    known = [f"fells:bar/{i}" for i in range(1000)]
    assert nearest("x" * 1_000_000, known).startswith("known: fells:bar/0, ")
    assert compared == [(200, 10)]
