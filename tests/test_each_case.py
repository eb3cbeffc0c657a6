"""Tests of `each_case`: every case is run, and each that fails is named."""

from __future__ import annotations

from pathlib import Path

import pytest

from each_case import each_case

PLACE: dict[str, int] = {"of": 0}


@each_case("wanted", [1, 2, 3])
def _is_two(wanted: int) -> None:
    assert wanted == 2


@each_case("a, b", [(1, 1), (2, 2)])
@each_case("by", [1, 2])
def test_several_are_crossed(a: int, b: int, by: int) -> None:
    assert a * by == b * by


@each_case("of", [1, 2])
def test_a_case_has_a_folder_of_its_own_and_leaves_nothing_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, of: int
) -> None:
    assert list(tmp_path.iterdir()) == []
    (tmp_path / "file").touch()
    assert PLACE["of"] == 0
    monkeypatch.setitem(PLACE, "of", of)


def test_each_case_that_fails_is_named() -> None:
    with pytest.raises(ExceptionGroup, match="2 of 3 cases") as caught:
        _is_two()

    assert [failure.__notes__ for failure in caught.value.exceptions] == [
        ["in the case 1"],
        ["in the case 3"],
    ]


def test_a_case_may_be_failed_by_hand() -> None:
    @each_case("name", "ab", called=str.upper)
    def fails(name: str) -> None:
        pytest.fail(f"not {name}")

    with pytest.raises(ExceptionGroup) as caught:
        fails()

    assert [str(failure) for failure in caught.value.exceptions] == ["not a", "not b"]


def test_without_a_case_nothing_would_be_tested() -> None:
    with pytest.raises(AssertionError):
        each_case("name", [])
