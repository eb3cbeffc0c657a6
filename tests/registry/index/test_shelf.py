"""Tests of `barwright.registry.index.shelf`: an index answers as its packs do."""

from __future__ import annotations

import os
import pickle
import shutil
from pathlib import Path
from typing import Self

import pytest

import barwright as bw
from barwright.registry import open_packs as opening
from barwright.registry.files.user_cache import DamagedIndexError
from barwright.registry.index import store as index_store
from index_packs import (
    answers,
    broken_pack,
    changed,
    fresh_cache,
    indexes,
    is_indexed,
    opened,
    small_packs,
    uncached,
)
from sample_packs import GOOD_PACK, distribution


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder for one test."""
    return fresh_cache(tmp_path, monkeypatch)


@pytest.fixture
def packs(tmp_path: Path) -> list[Path]:
    """Good packs, and one that is broken in the middle of them."""
    first, *others = small_packs(tmp_path / "packs")
    return [first, broken_pack(tmp_path), *others]


def test_an_index_answers_as_the_packs_do(packs: list[Path]) -> None:
    first, built = opened(*packs)
    second, again = opened(*packs)

    assert (len(built), again) == (len(packs) + 1, [])
    assert is_indexed(first)
    assert is_indexed(second)
    assert answers(first) == answers(second) == uncached(*packs)
    assert [problem.file for problem in second.problems] == [str(packs[1])]


def test_a_switch_and_an_argument_turn_the_cache_off(
    packs: list[Path], cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    bw.Registry.from_folders(*packs, cache=False)
    monkeypatch.setenv("BARWRIGHT_CACHE", "OFF")
    registry, counts = opened(*packs)

    assert (is_indexed(registry), counts, cache.exists()) == (False, [], False)
    assert answers(registry) == uncached(*packs)


def test_packs_that_are_read_in_no_time_are_not_indexed(cache: Path) -> None:
    registry, counts = opened(GOOD_PACK)

    assert (is_indexed(registry), counts, cache.exists()) == (False, [], False)


@pytest.mark.parametrize(("less", "is_worthwhile"), [(0, True), (1, False)])
def test_packs_are_indexed_from_a_certain_size_on(
    packs: list[Path], monkeypatch: pytest.MonkeyPatch, less: int, *, is_worthwhile: bool
) -> None:
    size = sum(path.stat().st_size for pack in packs for path in pack.rglob("*.toml"))
    monkeypatch.setattr(opening, "_WORTHWHILE", size + less)

    registry, _ = opened(*packs)

    assert is_indexed(registry) == is_worthwhile


def test_installed_packs_are_indexed_as_well(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = tmp_path / "site"
    for number, folder in enumerate(small_packs(site)):
        distribution(site, f"dist{number}", f"x = {folder.name}", version=f"1.{number}")
    distribution(site, "lost", "x = no_such_pack")
    monkeypatch.syspath_prepend(site)

    registry = bw.Registry.discover()

    assert is_indexed(registry)
    assert [problem.file for problem in registry.problems] == ["lost 1.0"]
    versions = {pack.id: pack.version for pack in registry.packs}
    assert versions["p0002"] == "1.2"
    assert answers(registry) == answers(bw.Registry.discover(cache=False))


def test_the_order_of_packs_changes_no_answer_but_their_own_order(packs: list[Path]) -> None:
    one, _ = opened(*packs)
    other, counts = opened(*reversed(packs))

    assert counts == []
    assert [pack.id for pack in other.packs] == [pack.id for pack in reversed(one.packs)]
    assert answers(other) == uncached(*reversed(packs))


def test_the_order_on_the_disk_changes_nothing(
    packs: list[Path], cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    registry, _ = opened(*packs)
    before, index = answers(registry), indexes(cache)
    scandir = os.scandir

    class Backwards:
        """A folder's entries, the last one first."""

        def __init__(self, path: object) -> None:
            with scandir(path) as entries:  # type: ignore[call-overload]
                self._entries = list(entries)[::-1]

        def __enter__(self) -> Self:
            return self

        def __exit__(self, *_: object) -> None:
            pass

        def __iter__(self) -> object:
            return iter(self._entries)

    monkeypatch.setattr(os, "scandir", Backwards)
    shutil.rmtree(cache)

    assert answers(opened(*packs)[0]) == before == uncached(*packs)
    assert indexes(cache) == index


def test_packs_of_one_id_are_left_out_as_without_an_index(
    packs: list[Path], tmp_path: Path
) -> None:
    twin = tmp_path / "twin"
    shutil.copytree(packs[0], twin)
    changed(twin, "Maker", "Other")
    same = (*packs, twin, packs[-1])

    registry, _ = opened(*same)

    assert is_indexed(registry)
    assert [problem.problems[0].code for problem in registry.problems].count("P301") == 2
    assert answers(registry) == uncached(*same)


def test_a_folder_that_is_no_pack_is_told_as_without_an_index(
    packs: list[Path], tmp_path: Path
) -> None:
    nowhere = tmp_path / "nowhere"

    registry, _ = opened(*packs, nowhere)
    assert is_indexed(registry)
    assert answers(registry) == uncached(*packs, nowhere)

    write = small_packs(tmp_path / "later", count=1)[0]
    shutil.copytree(write, nowhere)
    changed(nowhere, '"p0000"', '"late"', file="pack.toml")
    registry, counts = opened(*packs, nowhere)
    assert counts == [(1, 1)]
    assert "late" in [pack.id for pack in registry.packs]
    assert answers(registry) == uncached(*packs, nowhere)


def test_a_registry_of_an_index_survives_pickling(packs: list[Path], cache: Path) -> None:
    registry, _ = opened(*packs)
    kept = pickle.dumps(registry)

    assert answers(pickle.loads(kept)) == answers(registry)  # noqa: S301 - our own bytes
    shutil.rmtree(cache)
    again = pickle.loads(kept)  # noqa: S301 - our own bytes
    assert not is_indexed(again)
    assert answers(again) == answers(registry)


def test_two_threads_that_meet_damage_read_the_packs_once(
    packs: list[Path], cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second one finds that the first one has already done so."""
    registry, _ = opened(*packs)
    store = registry.store
    assert isinstance(store, index_store.SafeStore)
    (path,) = indexes(cache)
    path.write_bytes(b"")
    really, reads = index_store._from_folders, []  # noqa: SLF001 - counted

    def reading(*arguments: object) -> object:
        reads.append(arguments)
        return really(*arguments)  # type: ignore[arg-type]

    monkeypatch.setattr(index_store, "_from_folders", reading)

    def meanwhile(asked: object) -> object:
        first.append(asked)
        if len(first) == 1:
            assert store.part("p0000:bar/p1") is not None
            raise DamagedIndexError
        return "answered"

    first: list[object] = []

    assert store._ask(meanwhile) == "answered"  # noqa: SLF001 - as any method does
    assert len(reads) == 1
