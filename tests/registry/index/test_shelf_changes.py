"""Tests of `shelf`: an index is brought up to date, and tidied up after."""

from __future__ import annotations

import errno
import gc
import os
import shutil
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeAlias

import attrs
import pytest

from barwright.registry import open_packs as opening
from barwright.registry.discovery import distributions
from barwright.registry.files import snapshot
from barwright.registry.files.cache_files import Kind, file_in, write_sealed
from barwright.registry.index import shelf as cached
from barwright.registry.packs.load import standards
from index_packs import (
    answers,
    broken_pack,
    changed,
    fresh_cache,
    indexes,
    is_indexed,
    opened,
    reported,
    small_packs,
    uncached,
)
from rare_cases import rarely_after
from sample_packs import GOOD_PACK


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder for one test."""
    return fresh_cache(tmp_path, monkeypatch)


@pytest.fixture
def packs(tmp_path: Path) -> list[Path]:
    """Good packs, and one that is broken in the middle of them."""
    first, *others = small_packs(tmp_path / "packs")
    return [first, broken_pack(tmp_path), *others]


Change: TypeAlias = Callable[[Path], object]


def deeper(pack: Path) -> None:
    """Move a file into a folder of its own."""
    (pack / "deep").mkdir()
    (pack / "vehicles.toml").rename(pack / "deep" / "vehicles.toml")


def removed(pack: Path) -> None:
    """Remove a file."""
    (pack / "vehicles.toml").unlink()


CHANGES: dict[str, tuple[Change, int]] = {
    "a figure": (lambda pack: changed(pack, "wheelbase", "# wheelbase"), 1),
    "a title of the same length": (lambda pack: changed(pack, "Maker", "Other"), 1),
    "a new file": (lambda pack: (pack / "new.toml").write_text("# nothing\n", "utf-8"), 1),
    "a file that is gone": (removed, 1),
    "a file of another name": (lambda pack: (pack / "vehicles.toml").rename(pack / "a.toml"), 1),
    "a file in a folder": (deeper, 1),
    "a file that is no data": (lambda pack: (pack / "new.txt").write_text("x", "utf-8"), 0),
    "a file that was touched": (lambda pack: os.utime(pack / "vehicles.toml"), 0),
    "a pack that is gone": (shutil.rmtree, 1),
}


@pytest.mark.parametrize(("change", "reads"), rarely_after(4, CHANGES.values()), ids=CHANGES)
def test_only_a_pack_that_changed_is_read_again(
    packs: list[Path], change: Change, reads: int
) -> None:
    opened(*packs)
    change(packs[2])

    registry, counts = opened(*packs)

    assert is_indexed(registry)
    assert counts == [(1, 1)][:reads]
    assert answers(registry) == uncached(*packs)
    assert opened(*packs)[1] == []


def test_a_change_that_hides_behind_times_and_size_is_seen(packs: list[Path]) -> None:
    """Nothing lets a program set the time at which a file was changed in any way."""
    opened(*packs)
    file = packs[0] / "vehicles.toml"
    before = file.stat()
    changed(packs[0], "Maker0", "Other0")
    os.utime(file, ns=(before.st_atime_ns, before.st_mtime_ns))

    registry, counts = opened(*packs)

    assert file.stat().st_size == before.st_size
    assert file.stat().st_mtime_ns == before.st_mtime_ns
    assert counts == [(1, 1)]
    assert registry.chassis("p0000:chassis/v0").title.startswith("Other0")


@pytest.mark.parametrize(("age", "is_seen"), [(0.0, True), (10.0, False)])
def test_a_change_within_a_tick_of_the_clock_is_seen(
    packs: list[Path], monkeypatch: pytest.MonkeyPatch, age: float, *, is_seen: bool
) -> None:
    """What was written just now is read again, even if it looks the same; later it cannot."""
    then = time.time_ns() - round(age * 1e9)
    monkeypatch.setattr(snapshot, "TICK", 3_000_000_000)
    monkeypatch.setattr(snapshot, "_stat", lambda _, name: (name, 5000, then, then, 1))
    opened(*packs)
    changed(packs[0], "Maker0", "Other0")

    registry, _ = opened(*packs)

    assert registry.chassis("p0000:chassis/v0").title.startswith("Other0") == is_seen


def test_what_could_not_be_read_is_tried_again(
    packs: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    really_open = os.open

    def failing(path: Any, *arguments: Any, **options: Any) -> int:
        if path == "vehicles.toml":
            raise OSError(errno.EIO, "Input/output error")
        return really_open(path, *arguments, **options)

    with monkeypatch.context() as patched:
        patched.setattr(os, "open", failing)
        registry, _ = opened(*packs)
        assert [problem.problems[0].code for problem in registry.problems] == ["F101"] * 4

    registry, _ = opened(*packs)
    assert is_indexed(registry)
    assert answers(registry) == uncached(*packs)


def test_a_pack_that_was_broken_is_repaired_and_the_other_way_round(packs: list[Path]) -> None:
    opened(*packs)
    changed(packs[1], "teeth = 0,", "teeth = 39,", file="parts.toml")
    changed(packs[1], '"904"', '"904 mm"', file="parts.toml")
    (packs[1] / "more.toml").unlink()
    changed(packs[0], '"Steel"', "Steel", file="parts.toml")

    registry, counts = opened(*packs)

    assert counts == [(1, 2), (2, 2)]
    assert [pack.id for pack in registry.packs] == ["tiny", "p0001", "p0002"]
    assert [problem.problems[0].code for problem in registry.problems] == ["F103"]
    assert answers(registry) == uncached(*packs)


def test_problems_are_told_again_without_reading_the_pack(
    packs: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    first, _ = opened(*packs)
    monkeypatch.setattr(opening, "load_pack", None)
    monkeypatch.setattr(cached, "load_snapshot", None)

    second, _ = opened(*packs)

    assert [reported(problem) for problem in second.problems] == [
        reported(p) for p in first.problems
    ]
    codes = [problem.code for problem in second.problems[0].problems]
    assert codes == ["S201", "S203", "Q105"]
    assert second.problems[0].problems[1].line > 0


def test_an_added_pack_is_read_alone_and_one_that_is_gone_is_taken_out(
    packs: list[Path], tmp_path: Path
) -> None:
    more = small_packs(tmp_path / "more", count=5)[3:]
    opened(*packs)

    added, counts = opened(*packs, *more)
    assert counts == [(1, 2), (2, 2)]
    assert answers(added) == uncached(*packs, *more)

    fewer, counts = opened(*packs[:-1], *more)
    assert (is_indexed(fewer), counts) == (True, [])
    assert answers(fewer) == uncached(*packs[:-1], *more)


def test_a_small_part_of_a_large_index_is_read_afresh(tmp_path: Path) -> None:
    packs = small_packs(tmp_path / "packs", count=9)
    opened(*packs)

    few, counts = opened(*packs[:3])

    assert (is_indexed(few), counts) == (True, [(1, 4), (2, 4), (3, 4), (4, 4)])
    assert answers(few) == uncached(*packs[:3])


def test_another_library_reads_all_packs_anew(
    packs: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    opened(*packs)
    monkeypatch.setattr(cached, "library_state", lambda: "of another version")

    registry, counts = opened(*packs)

    assert counts[-1] == (len(packs) + 1, len(packs) + 1)
    assert answers(registry) == uncached(*packs)


@pytest.mark.rare
def test_what_decides_how_packs_are_read_is_part_of_the_state(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package = tmp_path / "barwright"
    shutil.copytree(Path(cached.__file__).parents[2], package)
    monkeypatch.setattr(cached, "__file__", str(package / "registry" / "index" / "shelf.py"))
    read = cached.library_state.__wrapped__
    before = read()
    assert read() == before

    (package / "cli" / "asking.py").write_text("", "utf-8")
    assert read() == before
    (package / "standards" / "pack.toml").write_text("", "utf-8")
    without_standards = read()
    assert without_standards != before
    (package / "units" / "kinds.py").write_text("", "utf-8")
    assert read() != without_standards

    shutil.rmtree(package)
    with pytest.raises(FileNotFoundError):
        read()


def test_the_library_cannot_be_replaced_while_it_runs(
    packs: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Standards that are not those on the disk any more make no index."""
    older = attrs.evolve(standards(), info=attrs.evolve(standards().info, digest="0" * 64))
    monkeypatch.setattr(cached, "standards", lambda: older)

    registry, _ = opened(*packs)

    assert not is_indexed(registry)
    assert answers(registry) == uncached(*packs)


def test_an_index_that_is_copied_in_part_is_not_gone_on_with(
    packs: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    opened(*packs)
    changed(packs[0], "Maker", "Other")
    monkeypatch.setattr(shutil, "copyfileobj", lambda old, new: new.write(old.read(5000)))

    registry, counts = opened(*packs)

    assert counts[-1] == (len(packs) + 1, len(packs) + 1)
    assert answers(registry) == uncached(*packs)


def test_a_program_that_looks_for_no_garbage_need_not_afterwards(packs: list[Path]) -> None:
    gc.disable()
    try:
        opened(*packs)
        assert not gc.isenabled()
    finally:
        gc.enable()
    changed(packs[0], "Maker", "Other")
    opened(*packs)
    assert gc.isenabled()


# -- The cache folder -----------------------------------------------------------------


def test_what_is_superseded_is_removed(packs: list[Path], cache: Path) -> None:
    opened(*packs)
    (old,) = indexes(cache)
    changed(packs[0], "Maker", "Other")
    opened(*packs)

    assert len(indexes(cache)) == 1
    assert indexes(cache) != [old]
    assert len(list(cache.iterdir())) == 2


def test_an_index_that_another_set_of_packs_needs_is_left(packs: list[Path], cache: Path) -> None:
    opened(*packs)
    opened(*packs[::-1])
    changed(packs[0], "Maker", "Other")
    opened(*packs)

    assert len(indexes(cache)) == 1  # a set is the same in any order
    opened(*packs, GOOD_PACK)
    assert len(indexes(cache)) == 2
    changed(packs[0], "Other", "Maker")
    opened(*packs)
    assert len(indexes(cache)) == 2


def test_what_killed_writers_left_behind_is_removed_in_time(packs: list[Path], cache: Path) -> None:
    opened(*packs)
    (whole,) = indexes(cache)
    half = whole.read_bytes()[:5000]
    left, fresh = (
        [file_in(cache, digit * 64, kind) for kind in (Kind.PART, Kind.INDEX)] for digit in "01"
    )
    for path in (*left, *fresh):
        path.write_bytes(half)
    for path in left:
        os.utime(path, (0, time.time() - 4000))
    changed(packs[0], "Maker", "Other")

    opened(*packs)

    assert [path.exists() for path in (*left, *fresh)] == [False, False, True, True]


def the_users_own(folder: Path) -> dict[Path, bytes]:
    """Files of the user's, old and new, whose names are like those of the library's."""
    digest = "a" * 64
    names = [f"book{kind}" for kind in Kind] + [f"{'B' * 64}{kind}" for kind in Kind]
    names += [".new-draft", "1-1.note", "1-1.distributions", f"{digest}.txt", digest]
    names += [f"{digest}{kind}" for kind in Kind]  # with a digest, but without the mark
    for age, place in enumerate((folder, folder / "barwright-cache")):
        place.mkdir(mode=0o700, exist_ok=True)
        for name in names:
            (place / name).write_bytes(b"the user's own")
            os.utime(place / name, (age, age))
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_files_of_the_user_are_left_alone(
    packs: list[Path], cache: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    cache.parent.mkdir(mode=0o700)
    own = the_users_own(cache.parent)
    monkeypatch.setattr(distributions, "TICK", 0)
    monkeypatch.setattr(cached, "_MOST_NOTES", 0)
    monkeypatch.setattr(distributions, "_MOST_NOTES", 0)

    opened(*packs)
    changed(packs[0], "Maker", "Other")
    opened(*packs, *small_packs(tmp_path / "more", count=4)[3:])
    distributions.declared()

    assert {path: path.read_bytes() for path in own if path.exists()} == own
    assert {path.parent for path in cache.parent.rglob("*")} == {cache.parent, cache}


def test_sets_of_packs_that_were_not_used_for_long_are_forgotten(
    packs: list[Path], cache: Path, tmp_path: Path
) -> None:
    opened(*packs)
    (oldest,) = cache.glob("*.note")
    os.utime(oldest, (0, 0))
    for number in range(16):
        write_sealed(file_in(cache, f"{number:064x}", Kind.NOTE), None)

    opened(*packs, *small_packs(tmp_path / "more", count=4)[3:])

    assert not oldest.exists()
    assert len(list(cache.glob("*.note"))) == 16
