"""Tests of `snapshot`: which files a pack has, and what tells them apart."""

from __future__ import annotations

import hashlib
import os
import time
from collections.abc import Callable
from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.registry.files import snapshot as module
from barwright.registry.files.snapshot import Stats, comparable, digest_of, snapshot_of, stats_of
from barwright.registry.packs.load import load_pack
from sample_packs import changed_pack, problems_in


@pytest.fixture
def pack(tmp_path: Path) -> Path:
    """The good pack, in a folder that may be changed."""
    return changed_pack(tmp_path, "pack.toml", "", "")


def age(folder: Path, seconds: float = 10.0) -> None:
    """Let the files be of an earlier time; the system keeps the time of this very change."""
    then = time.time() - seconds
    for path in folder.rglob("*.toml"):
        os.utime(path, (then, then))


def test_files_are_listed_in_the_order_of_their_names(pack: Path) -> None:
    (pack / "a").mkdir()
    for name in ("a/z.toml", "a.toml", "Z.toml", "a/b", "notes.txt"):
        (pack / name).write_text("", encoding="utf-8")

    names = [name for name, *_ in stats_of(pack).files]

    expected = ["Z.toml", "a/z.toml", "a.toml", "pack.toml", "parts.toml", "steel.toml"]
    assert names == [*expected, "vehicles.toml"]
    assert list(snapshot_of(pack).files) == names


def test_what_the_system_says_is_what_it_says(pack: Path) -> None:
    stats = stats_of(pack)

    for name, size, modified, changed, inode in stats.files:
        found = (pack / name).stat()
        assert (size, inode) == (found.st_size, found.st_ino)
        assert (modified, changed) == (found.st_mtime_ns, found.st_ctime_ns)
    assert stats.size == sum(path.stat().st_size for path in pack.rglob("*.toml"))


def test_files_are_settled_once_a_tick_has_passed(
    pack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    age(pack)
    assert not stats_of(pack).is_settled  # the time of the change itself is now
    soon = time.time_ns() + module.TICK
    monkeypatch.setattr(time, "time_ns", lambda: soon + 1_000_000_000)
    assert stats_of(pack).is_settled
    (pack / "linked.toml").symlink_to(pack / "steel.toml")
    assert not stats_of(pack).is_settled
    (pack / "linked.toml").unlink()
    later = soon / 1e9 + 5.0
    os.utime(pack / "steel.toml", (later, later))
    assert not stats_of(pack).is_settled


@pytest.mark.parametrize(("later", "is_settled"), [(0, False), (1, True)])
def test_a_file_is_settled_when_more_than_a_tick_has_passed(
    pack: Path, monkeypatch: pytest.MonkeyPatch, later: int, *, is_settled: bool
) -> None:
    """After a tick to the nanosecond, the clock may still show the time of the change."""
    latest = max(path.stat().st_ctime_ns for path in pack.rglob("*.toml"))
    monkeypatch.setattr(time, "time_ns", lambda: latest + module.TICK + later)

    assert stats_of(pack).is_settled == is_settled


def test_an_empty_file_is_as_settled_as_any_other(
    pack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "TICK", 0)
    (pack / "x.toml").write_bytes(b"")

    assert stats_of(pack).is_settled
    assert problems_in(pack) == []


@pytest.mark.parametrize("folder", ["none", "empty", "file"])
def test_a_folder_without_data_is_never_settled(
    tmp_path: Path, folder: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "TICK", 0)
    (tmp_path / "empty").mkdir()
    (tmp_path / "file").write_bytes(b"")

    taken = snapshot_of(tmp_path / folder)

    assert (stats_of(tmp_path / folder).files, taken.stats.is_settled) == ((), False)
    assert list(taken.files) == ["pack.toml"]
    assert isinstance(taken.files["pack.toml"], bw.FileError)


def test_what_cannot_be_read_is_not_settled(pack: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "TICK", 0)
    assert snapshot_of(pack).stats.is_settled
    (pack / "folder.toml").mkdir()

    taken = snapshot_of(pack)

    assert not taken.stats.is_settled
    assert isinstance(taken.files["folder.toml"], bw.FileError)


CHANGES: dict[str, Callable[[Path], object]] = {
    "a byte": lambda pack: replaced(pack / "steel.toml", b"77 GPa", b"78 GPa"),
    "a name": lambda pack: (pack / "steel.toml").rename(pack / "steels.toml"),
    "a place": lambda pack: into(pack, "steel.toml"),
    "an empty file": lambda pack: (pack / "x.toml").write_bytes(b""),
    "one less": lambda pack: (pack / "steel.toml").unlink(),
    "a line end": lambda pack: replaced(pack / "steel.toml", b"\n", b"\r\n"),
    "a border between files": lambda pack: moved(pack / "parts.toml", pack / "steel.toml"),
}


def replaced(path: Path, old: bytes, new: bytes) -> None:
    """Change a file."""
    data = path.read_bytes()
    assert old in data
    path.write_bytes(data.replace(old, new, 1))


def into(pack: Path, name: str) -> None:
    """Move a file into a folder."""
    (pack / "inside").mkdir()
    (pack / name).rename(pack / "inside" / name)


def moved(first: Path, second: Path) -> None:
    """Move the last byte of a file to the beginning of the next one."""
    data = first.read_bytes()
    first.write_bytes(data[:-1])
    second.write_bytes(data[-1:] + second.read_bytes())


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_any_change_of_a_file_changes_digest_and_stats(
    pack: Path, change: Callable[[Path], object]
) -> None:
    before = snapshot_of(pack)
    assert snapshot_of(pack) == before

    change(pack)

    after = snapshot_of(pack)
    assert after.digest != before.digest
    assert after.stats.files != before.stats.files


def test_a_change_that_is_no_change_of_data_keeps_the_digest(pack: Path, tmp_path: Path) -> None:
    before = snapshot_of(pack)
    (pack / "notes.txt").write_text("x", encoding="utf-8")
    age(pack)
    pack.rename(tmp_path / "elsewhere")

    after = snapshot_of(tmp_path / "elsewhere")

    assert after.digest == before.digest
    assert after.stats.files != before.stats.files


def test_a_pack_knows_the_digest_of_what_was_read(pack: Path) -> None:
    assert load_pack(pack, origin="").digest == snapshot_of(pack).digest


def test_a_digest_keeps_names_kinds_and_contents_apart() -> None:
    pieces: list[list[tuple[str, bytes | str]]] = [
        [("a", "bc")],
        [("ab", "c")],
        [("a", b"bc")],
        [("a", "b"), ("c", "")],
        [("a", "b"), ("", "c")],
        [],
    ]
    assert len({digest_of(items) for items in pieces}) == len(pieces)
    framed = b"".join(len(p).to_bytes(8, "big") + p for p in (b"a", b"str", b"bc"))
    assert digest_of([("a", "bc")]) == hashlib.sha256(framed).hexdigest()


def test_what_was_seen_is_comparable_whoever_else_holds_it() -> None:
    moment = 1_700_000_000 * 10**9
    name = Path("a").with_suffix(".toml").name  # equal to the other one, but another object
    one, other = ("a.toml", 3, moment), (name, 3, moment)

    assert comparable([one, None, one]) == comparable([one, None, other])
    assert comparable([one, None]) != comparable([None, one])
    assert comparable([one]) != comparable([("a.toml", 3, moment + 1)])


def test_a_name_that_is_no_text_is_a_name(pack: Path) -> None:
    before = snapshot_of(pack).digest
    with open(os.fsencode(pack) + b"/\xff.toml", "wb") as file:  # noqa: PTH123 - no text
        file.write(b"")

    assert snapshot_of(pack).digest != before
    assert problems_in(pack) == ["F108"]


def test_a_folder_that_cannot_be_listed_is_told(
    pack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It may hold data, so that it is no matter of indifference."""
    (pack / "closed").mkdir()
    scandir = os.scandir

    def refusing(path: Path) -> object:
        if path.name == "closed":
            raise PermissionError
        return scandir(path)

    monkeypatch.setattr(os, "scandir", refusing)

    taken = snapshot_of(pack)

    assert isinstance(taken.files["closed"], bw.FileError)
    assert not taken.stats.is_settled


def test_a_very_deep_folder_is_listed(tmp_path: Path) -> None:
    deep = tmp_path
    for _ in range(200):
        deep /= "d"
    deep.mkdir(parents=True)
    (deep / "x.toml").write_bytes(b"")

    assert [name for name, *_ in stats_of(tmp_path).files] == ["d/" * 200 + "x.toml"]


HIDDEN = (".#parts.toml", ".parts.toml", "._parts.toml", ".git/x.toml", ".toml", "a/.b/x.toml")
LEFT_OVER = ("parts.toml~", "#parts.toml#", "parts.toml.orig", "parts.tml", "toml", "x_toml")


@pytest.mark.parametrize("name", [*HIDDEN, *LEFT_OVER])
def test_what_editors_leave_behind_is_passed_over(pack: Path, name: str) -> None:
    before = snapshot_of(pack)
    (pack / name).parent.mkdir(parents=True, exist_ok=True)
    (pack / name).write_text("not = TOML = at all", encoding="utf-8")

    assert snapshot_of(pack).files == before.files
    assert snapshot_of(pack).digest == before.digest


def test_a_link_that_an_editor_left_behind_is_passed_over(pack: Path) -> None:
    (pack / ".#parts.toml").symlink_to("somebody@a-machine.4711:1234")

    assert problems_in(pack) == []


def files_and_folders(pack: Path, count: int) -> None:
    """Put so many more into a folder, data or not, in two folders."""
    for number in range(count):
        folder = pack / ("odd" if number % 2 else "even")
        folder.mkdir(exist_ok=True)
        (folder / f"{number}.txt").touch()


@pytest.mark.parametrize(
    ("limit", "most", "excess"),
    [
        ("MOST_ENTRIES", 20, "more than 20 files and folders"),
        ("MOST_FILES", 3, "more than 3 data files"),
        ("LARGEST_PACK", 2000, "more than 2000 bytes of data"),
    ],
)
def test_a_folder_that_holds_too_much_is_one_problem(
    pack: Path, monkeypatch: pytest.MonkeyPatch, limit: str, most: int, excess: str
) -> None:
    monkeypatch.setattr(module, "TICK", 0)
    files_and_folders(pack, 20)
    assert problems_in(pack) == []
    monkeypatch.setattr(module, limit, most)

    taken = snapshot_of(pack)

    assert (stats_of(pack).excess, taken.stats.is_settled) == (excess, False)
    [(name, problem)] = taken.files.items()
    assert isinstance(problem, bw.FileError)
    assert (name, problem.code, problem.value) == ("pack.toml", "F107", excess)
    assert problems_in(pack) == ["F107"]


@pytest.mark.parametrize(("limit", "more"), [("MOST_ENTRIES", 2), ("MOST_FILES", 0)])
def test_a_folder_may_hold_just_as_much_as_the_limit(
    pack: Path, monkeypatch: pytest.MonkeyPatch, limit: str, more: int
) -> None:
    (pack / "notes").mkdir()
    (pack / "notes" / "x.txt").touch()
    monkeypatch.setattr(module, limit, len(list(pack.glob("*.toml"))) + more)

    assert problems_in(pack) == []


@pytest.mark.parametrize(("less", "is_read"), [(0, True), (1, False)])
def test_a_pack_may_hold_just_as_many_bytes_as_the_limit(
    pack: Path, monkeypatch: pytest.MonkeyPatch, less: int, *, is_read: bool
) -> None:
    """What cannot be read for its name weighs nothing."""
    (pack / "Capital.toml").touch()
    size = sum(path.stat().st_size for path in pack.glob("*.toml"))
    monkeypatch.setattr(module, "LARGEST_PACK", size - less)

    files = snapshot_of(pack).files

    assert isinstance(files["pack.toml"], bytes) == is_read
    assert isinstance(files.get("Capital.toml"), bw.FileError) == is_read


def test_a_file_that_is_gone_before_it_is_looked_at_is_told(
    pack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "TICK", 0)
    lstat = os.lstat

    def gone(path: str) -> os.stat_result:
        # Whoever tells of a failure looks at files too: nothing but the pack may go.
        if pack in Path(path).parents:
            Path(path).unlink()
        return lstat(path)

    with monkeypatch.context() as patched:
        patched.setattr(os, "lstat", gone)
        taken = snapshot_of(pack)

    assert [size for _, size, *_ in taken.stats.files] == [-1] * 4
    assert not stats_of(pack).is_settled
    assert all(isinstance(content, bw.FileError) for content in taken.files.values())


def test_files_that_grow_while_they_are_read_are_a_problem(
    pack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen = stats_of(pack)
    monkeypatch.setattr(module, "stats_of", lambda _: seen)
    monkeypatch.setattr(module, "LARGEST_PACK", 2000)

    assert problems_in(pack) == ["F107"]


def test_no_more_is_looked_at_than_the_limit(pack: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """However many files a folder holds, and whatever they are."""
    files_and_folders(pack, 200)
    monkeypatch.setattr(module, "MOST_ENTRIES", 20)
    monkeypatch.setattr(os, "lstat", lambda path: pytest.fail(f"asked for {path}"))

    assert stats_of(pack).files == ()


def test_the_size_of_one_file_does_not_make_the_pack_too_large(pack: Path) -> None:
    (pack / "x.toml").touch()
    os.truncate(pack / "x.toml", 2**40)

    assert problems_in(pack) == ["F104"]


def test_stats_are_values() -> None:
    stats = Stats((("a", 1, 2, 3, 4), ("b", -1, 0, 0, 0)), is_settled=True)

    assert stats.size == 1
    assert attrs.evolve(stats, is_settled=False) != stats


def test_what_is_text_can_be_had_as_text(tmp_path: Path) -> None:
    (tmp_path / "pack.toml").write_bytes(b"\xef\xbb\xbfid = 'a'\n")
    (tmp_path / "no-text.toml").write_bytes(b"\xff")
    (tmp_path / "Capital.toml").write_bytes(b"")
    found = snapshot_of(tmp_path)
    names = ("pack.toml", "no-text.toml", "Capital.toml", "none.toml")
    assert [found.text(name) for name in names] == ["id = 'a'\n", "", "", ""]


@pytest.mark.parametrize(("name", "value"), [("nowhere", "no folder"), ("empty", "no pack.toml")])
def test_a_folder_that_is_no_pack_is_told_from_one_that_is_not_there(
    tmp_path: Path, name: str, value: str
) -> None:
    (tmp_path / "empty").mkdir()
    (left_out,) = bw.Registry.from_folders(tmp_path / name, cache=False).problems
    (problem,) = left_out.problems

    assert (problem.code, problem.value) == ("F101", value)
