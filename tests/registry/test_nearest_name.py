"""`nearest` and `closest`: which of the known names was meant."""

from __future__ import annotations

import difflib
import random
import string
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from barwright.registry.nearest_name import closest, nearest
from one_slip import one_slip_away


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
    assert "'bar/mountain-pass'" in nearest("bar/muontian-pass", [*names, "bar/mountain-pass"])
    assert compared == [(17, 10)]


def test_of_a_name_of_any_length_the_beginning_is_compared(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    compared = watched(monkeypatch)
    known = [f"fells:bar/{i}" for i in range(1000)]
    assert nearest("x" * 1_000_000, known).startswith("known: fells:bar/0, ")
    assert compared == [(200, 10)]


# -- Slips ---------------------------------------------------------------------------------

WORDS = st.text(string.ascii_lowercase, min_size=1, max_size=6)


@given(WORDS, st.integers(0, 10_000))
def test_a_slip_of_the_pen_is_seen_through(word: str, seed: int) -> None:
    slips = sorted(set(one_slip_away(word)) - {word, ""})

    assert closest(random.Random(seed).choice(slips), [word]) == [word]  # noqa: S311 - no secret


@given(WORDS, st.sets(WORDS, max_size=30))
def test_words_that_are_one_slip_away_are_the_nearest(word: str, known: set[str]) -> None:
    assume(word not in known)
    slips = set(one_slip_away(word)) & known

    near = closest(word, sorted(known))

    assert len(near) <= 5
    if slips:
        assert set(near) <= slips
        assert len(near) == min(len(slips), 5)


def test_where_nothing_is_one_slip_away_what_looks_alike_is_near() -> None:
    known = ["alder", "wheelbarrow", "wheelbase"]

    assert closest("wheelbse2", known) == ["wheelbase", "wheelbarrow"]
    assert closest("ab", ["ba"]) == ["ba"]
    assert closest("abcd", ["badc"]) == []
    assert closest("x", known) == []
    assert closest("alder", ["alder"]) == ["alder"]


def test_a_word_of_any_length_is_answered() -> None:
    assert closest("a" * 100_000, ["a" * 200, "a" * 201, "b"]) == ["a" * 201]


def test_five_words_at_most_are_near() -> None:
    words = [f"shor{letter}" for letter in "abcdefg"]

    assert closest("shorx", words) == words[:5]


def test_of_several_slips_the_least_comes_first() -> None:
    # A letter too many leaves more of the name than another letter does.
    assert closest("abcd", ["abce", "abcde"]) == ["abcde", "abce"]
