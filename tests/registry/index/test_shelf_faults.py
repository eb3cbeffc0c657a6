"""Tests of the index under faults: never a wrong answer, never a traceback."""

from __future__ import annotations

import errno
import functools
import os
import resource
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from barwright.registry import open_packs as opening
from barwright.registry.files.cache_files import digest_of_file, read_sealed, write_sealed
from barwright.registry.index import file as index_file
from file_faults import counted, failing, injected
from index_packs import (
    asked,
    broken_pack,
    changed,
    expected,
    fresh_cache,
    indexes,
    is_indexed,
    short_answers,
)
from sample_packs import changed_pack

ERRORS = [errno.ENOSPC, errno.EACCES, errno.EIO]


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder for one test, in which everything is worth an index."""
    monkeypatch.setattr(opening, "_WORTHWHILE", 0)
    return fresh_cache(tmp_path, monkeypatch)


@pytest.fixture
def packs(tmp_path: Path) -> tuple[Path, Path]:
    """A good pack and a broken one."""
    return changed_pack(tmp_path, "pack.toml", "", ""), broken_pack(tmp_path)


# -- Something was changed in the cache -----------------------------------------------


@pytest.fixture
def filled(packs: tuple[Path, Path], cache: Path) -> list[object]:
    """What the packs answer, after their index was written."""
    right = asked(*packs)
    assert is_indexed(bw.Registry.from_folders(*packs))
    assert len(indexes(cache)) == 1
    return right


def flipped(data: bytes, place: int, bit: int) -> bytes:
    """Bytes, one of which is another."""
    return data[:place] + bytes([data[place] ^ (1 << bit)]) + data[place + 1 :]


@pytest.mark.rare
def test_an_index_with_any_byte_flipped_is_no_index(filled: list[object], cache: Path) -> None:
    assert filled
    (path,) = indexes(cache)
    whole = path.read_bytes()
    assert index_file.open_index(path, path.stem) is not None
    with path.open("rb+", buffering=0) as file:
        for place in range(0, len(whole), 7):
            os.pwrite(file.fileno(), flipped(whole[place : place + 1], 0, place % 8), place)
            assert index_file.open_index(path, path.stem) is None
            os.pwrite(file.fileno(), whole[place : place + 1], place)
    assert index_file.open_index(path, path.stem) is not None


def test_a_registry_is_right_whichever_byte_of_its_index_is_flipped(
    filled: list[object], packs: tuple[Path, Path], cache: Path
) -> None:
    (path,) = indexes(cache)
    whole = path.read_bytes()
    for place in range(0, len(whole), 1999):
        path.write_bytes(flipped(whole, place, place % 8))
        assert asked(*packs) == filled
        assert path.read_bytes() == whole  # built again


@pytest.mark.rare
def test_a_registry_is_right_whichever_byte_of_its_note_is_flipped(
    filled: list[object], packs: tuple[Path, Path], cache: Path
) -> None:
    (path,) = cache.glob("*.note")
    whole = path.read_bytes()
    for place in range(0, len(whole), 29):
        path.write_bytes(flipped(whole, place, place % 8))
        assert asked(*packs) == filled
        assert path.read_bytes() == whole


def replaced(path: Path, make: Callable[[Path], None]) -> None:
    """Put something else in the place of a file."""
    path.unlink()
    make(path)


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Indexes that were read whole since the test began, in which files are old at once."""
    found: list[Path] = []

    def noting(path: Path) -> str:
        found.append(path)
        return digest_of_file(path)

    monkeypatch.setattr(index_file, "digest_of_file", noting)
    monkeypatch.setattr(index_file, "TICK", 0)
    return found


def test_an_index_is_read_whole_only_after_a_change(
    filled: list[object], packs: tuple[Path, Path], cache: Path, read: list[Path]
) -> None:
    (path,) = indexes(cache)
    assert [asked(*packs) for _ in range(3)] == [filled] * 3
    assert read == [path]

    os.utime(path)
    assert [asked(*packs) for _ in range(3)] == [filled] * 3
    assert read == [path, path]


def test_an_index_that_was_changed_is_none_though_its_old_time_was_set(
    filled: list[object], packs: tuple[Path, Path], cache: Path, read: list[Path]
) -> None:
    (path,) = indexes(cache)
    assert asked(*packs) == filled
    before, whole = path.stat(), path.read_bytes()
    path.write_bytes(flipped(whole, len(whole) // 2, 3))
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))

    assert asked(*packs) == filled
    assert read[1:] != [path]
    assert path.read_bytes() == whole


def test_an_index_that_was_written_just_now_is_not_relied_on(
    filled: list[object],
    packs: tuple[Path, Path],
    cache: Path,
    read: list[Path],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(index_file, "TICK", 10**12)
    (path,) = indexes(cache)
    assert [asked(*packs) for _ in range(3)] == [filled] * 3
    assert read == [path] * 3


DAMAGE: dict[str, Callable[[Path], object]] = {
    "gone": Path.unlink,
    "empty": lambda path: path.write_bytes(b""),
    "cut": lambda path: path.write_bytes(path.read_bytes()[:-1]),
    "longer": lambda path: path.write_bytes(path.read_bytes() + b"x"),
    "a folder": lambda path: replaced(path, Path.mkdir),
    "a link to itself": lambda path: replaced(path, lambda place: place.symlink_to(place)),
    "a link to a device": lambda path: replaced(path, lambda place: place.symlink_to("/dev/zero")),
    "a pipe": lambda path: replaced(path, os.mkfifo),
    "nothing but zeros": lambda path: path.write_bytes(bytes(len(path.read_bytes()))),
    "another index": lambda path: path.write_bytes(path.read_bytes()[::-1]),
}


@pytest.mark.parametrize("damage", DAMAGE.values(), ids=DAMAGE)
@pytest.mark.parametrize("pattern", ["*.index", "*.note", "*"])
def test_damaged_files_are_as_good_as_none(
    filled: list[object],
    packs: tuple[Path, Path],
    cache: Path,
    damage: Callable[[Path], object],
    pattern: str,
) -> None:
    for path in list(cache.glob(pattern)):
        damage(path)

    assert asked(*packs) == filled
    assert asked(*packs) == filled


def test_a_note_of_another_set_of_packs_is_not_believed(
    filled: list[object], packs: tuple[Path, Path], cache: Path
) -> None:
    """Whole notes and whole indexes, each in the place of another."""
    asked(packs[0])
    notes = sorted(cache.glob("*.note"))
    first, second = (note.read_bytes() for note in notes)
    notes[0].write_bytes(second)
    notes[1].write_bytes(first)

    assert asked(*packs) == filled
    assert asked(packs[0]) == expected(packs[0])


@pytest.mark.rare
def test_a_sealed_note_that_says_something_else_is_no_note(
    filled: list[object], packs: tuple[Path, Path], cache: Path
) -> None:
    (path,) = cache.glob("*.note")
    note = read_sealed(path)
    folder, files, settled, digest = note["packs"][1]
    packs_of: list[Any] = [
        *([[]], 7, [[folder, 5, settled, digest]], [[folder, [5], settled, digest]]),
        *([[[], files, settled, digest]], [[folder, files, [1], digest]]),
        *([[folder, files, settled, [digest]]], [[folder, [[[]]], settled, digest]]),
    ]
    forged: list[Any] = [None, [], {}, "x", {"index": 5}]
    forged += [
        note | {"packs": [note["packs"][0], *wrong] if isinstance(wrong, list) else wrong}
        for wrong in packs_of
    ]
    no_names: list[Any] = [5, [], {}, "\0", "../x", "/dev/zero", "\ud800"]
    forged += [note | {"index": wrong} for wrong in no_names]
    forged += [note | {"state": wrong} for wrong in no_names]
    forged += [note | {"seen": wrong} for wrong in (5, None, ["x"], [1.5], [[1]])]
    for wrong in forged:
        write_sealed(path, wrong)
        assert asked(*packs) == filled
    (other,) = (known for known in note["packs"] if known[0] == str(packs[0]))
    write_sealed(path, note | {"packs": [*note["packs"][:1], other, other]})
    assert asked(*packs) == filled
    asked(packs[0])
    smaller = next(index for index in indexes(cache) if index.stem != note["index"])
    write_sealed(path, note | {"index": smaller.stem})
    assert asked(*packs) == filled


# -- While a registry is open ---------------------------------------------------------


def test_the_cache_can_be_deleted_while_it_is_in_use(
    filled: list[object], packs: tuple[Path, Path], cache: Path
) -> None:
    registry = bw.Registry.from_folders(*packs)
    shutil.rmtree(cache)

    assert short_answers(registry) == filled
    assert is_indexed(registry)
    assert asked(*packs) == filled


def test_an_index_that_is_overwritten_while_it_is_open_is_given_up(
    filled: list[object], packs: tuple[Path, Path], cache: Path
) -> None:
    registry = bw.Registry.from_folders(*packs)
    (path,) = indexes(cache)
    path.write_bytes(b"\xff" * path.stat().st_size)

    assert short_answers(registry) == filled
    assert not is_indexed(registry)


def test_an_index_that_is_written_to_while_it_is_open_gives_no_answer_any_more(
    filled: list[object], packs: tuple[Path, Path], cache: Path
) -> None:
    """A piece at a time, so that most of the index stays as it was."""
    (path,) = indexes(cache)
    whole = path.read_bytes()
    for place in range(0, len(whole), 8009):
        registry = bw.Registry.from_folders(*packs)
        with path.open("rb+") as file:
            file.seek(place)
            file.write(flipped(whole[place : place + 64], 0, place % 8))
        assert short_answers(registry) == filled
        assert not is_indexed(registry)
        path.write_bytes(whole)


def test_an_index_that_is_given_up_after_a_pack_has_changed_is_refused(
    filled: list[object], packs: tuple[Path, Path], cache: Path
) -> None:
    assert filled
    registry = bw.Registry.from_folders(*packs)
    (path,) = indexes(cache)
    changed(packs[0], "Vehicle", "Changed")
    path.write_bytes(b"")

    with pytest.raises(bw.FileError) as caught:
        registry.chassis("tiny:chassis/one")

    assert (caught.value.code, caught.value.file) == ("F101", str(packs[0]))
    assert caught.value.value == "an index that was damaged after the pack changed"
    assert caught.value.expected == "the pack as it was when the registry was opened"
    assert caught.value.remedy == "open the registry again"


# -- Faults of the file system and of SQLite ------------------------------------------


def nothing(packs: tuple[Path, Path]) -> None:
    """Begin with no cache at all."""
    assert packs


def index_them(packs: tuple[Path, Path]) -> None:
    """Begin with a cache that holds all that is needed."""
    asked(*packs)


def index_others(packs: tuple[Path, Path]) -> None:
    """Begin with a cache that is to be brought up to date."""
    asked(*packs)
    changed(packs[0], "Vehicle", "Other")


def index_touched(packs: tuple[Path, Path]) -> None:
    """Begin with a cache whose note is to be written again."""
    asked(*packs)
    (packs[0] / "vehicles.toml").touch()


LONG = [pytest.param(prepare, marks=pytest.mark.slow) for prepare in (nothing, index_others)]


@pytest.mark.parametrize("prepare", [*LONG, index_them, index_touched])
def test_any_one_operation_may_fail(
    packs: tuple[Path, Path],
    cache: Path,
    prepare: Callable[[tuple[Path, Path]], None],
) -> None:
    """Each with another error by turns."""
    prepare(packs)
    spare = cache.with_name("spare")
    if cache.exists():
        shutil.copytree(cache, spare)
    right = expected(*packs)
    operations = counted(cache, functools.partial(asked, *packs))
    assert operations > 10
    for at in range(1, operations + 1):
        shutil.rmtree(cache)
        if spare.exists():
            shutil.copytree(spare, cache)
        with injected(cache, at, failing(ERRORS[at % len(ERRORS)])):
            assert asked(*packs) == right
        assert asked(*packs) == right


@pytest.mark.parametrize("limit", range(0, 60_000, 5_000))
def test_a_disk_that_is_full_at_any_time_changes_no_answer(
    packs: tuple[Path, Path], cache: Path, limit: int
) -> None:
    """The system itself cuts every write short at a size, as it does where space ends."""
    right = expected(*packs)
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, hard))
    try:
        registry = bw.Registry.from_folders(*packs)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))

    assert short_answers(registry) == right
    assert [path.name for path in cache.iterdir() if path.name.startswith(".new-")] == []
    assert asked(*packs) == right


@pytest.mark.slow
def test_a_process_may_be_killed_at_any_operation() -> None:
    script = Path(__file__).with_name("killed.py")

    done = subprocess.run(
        [sys.executable, str(script)],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )

    assert (done.returncode, done.stderr) == (0, "")
    assert int(done.stdout) > 30


def test_a_folder_that_others_may_write_to_is_not_used(
    packs: tuple[Path, Path], cache: Path
) -> None:
    cache.mkdir(parents=True)
    cache.chmod(0o777)

    registry = bw.Registry.from_folders(*packs)

    assert not is_indexed(registry)
    assert list(cache.iterdir()) == []
