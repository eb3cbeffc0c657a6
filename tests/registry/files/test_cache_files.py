"""Tests of `barwright.registry.files.cache_files`: files that prove themselves, and no others."""

from __future__ import annotations

import errno
import hashlib
import itertools
import os
import sqlite3
import stat
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.registry.files import cache_files as module
from barwright.registry.files.cache_files import (
    Kind,
    digest_of_file,
    discard,
    file_in,
    is_left_over,
    newest,
    read_sealed,
    temporary,
    write_sealed,
)
from barwright.registry.index.build import IndexBuilder
from each_case import each_case
from file_faults import counted, failing, injected

PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
    max_leaves=8,
)


@given(value=PLAIN)
def test_what_was_sealed_comes_back(tmp_path_factory: pytest.TempPathFactory, value: Any) -> None:
    path = tmp_path_factory.getbasetemp() / "sealed"

    assert write_sealed(path, value)
    assert read_sealed(path) == value


def test_a_digest_is_the_published_one_of_its_content(tmp_path: Path) -> None:
    """The example of FIPS 180-4's companion vectors, from memory: SHA-256 of "abc"."""
    (tmp_path / "file").write_bytes(b"abc")
    assert digest_of_file(tmp_path / "file") == (
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    )


def test_a_sealed_file_with_any_byte_changed_is_none(tmp_path: Path) -> None:
    path = tmp_path / "sealed"
    write_sealed(path, {"some": ["value", 1.5]})
    whole = path.read_bytes()
    for place in range(len(whole)):
        path.write_bytes(whole[:place] + bytes([whole[place] ^ 4]) + whole[place + 1 :])
        assert read_sealed(path) is None
    for cut in range(len(whole)):
        path.write_bytes(whole[:cut])
        assert read_sealed(path) is None
    path.write_bytes(whole)
    assert read_sealed(path) == {"some": ["value", 1.5]}


def test_a_sealed_file_is_written_whole_or_not_at_all(tmp_path: Path) -> None:
    path = tmp_path / "sealed"
    operations = counted(tmp_path, lambda: write_sealed(path, "old"))
    assert operations > 4
    for at in range(1, operations + 1):
        with injected(tmp_path, at, failing(errno.ENOSPC)):
            written = write_sealed(path, "new" * at)
        assert read_sealed(path) == ("new" * at if written else "old")
        assert written == (at == operations)  # the last is to tidy up
        assert [one.name for one in tmp_path.iterdir()] == ["sealed"]
        write_sealed(path, "old")


def test_only_the_user_can_read_it(tmp_path: Path) -> None:
    write_sealed(tmp_path / "sealed", 1)

    assert stat.S_IMODE((tmp_path / "sealed").stat().st_mode) == 0o600


def sealed(text: bytes) -> bytes:
    """A file with a right seal."""
    seal = hashlib.sha256(text).hexdigest().encode()
    return b"barwright cache 1\n" + seal + b"\n" + text


@pytest.mark.parametrize("text", [b"", b"[", b"\xff", b"[" * 100_000, b"9" * 5000, b'{"a":1}x'])
def test_a_forged_file_is_none(tmp_path: Path, text: bytes) -> None:
    (tmp_path / "sealed").write_bytes(sealed(text))
    assert read_sealed(tmp_path / "sealed") is None
    (tmp_path / "sealed").write_bytes(sealed(b"7"))
    assert read_sealed(tmp_path / "sealed") == 7
    (tmp_path / "sealed").write_bytes(sealed(b"7").partition(b"\n")[2])
    assert read_sealed(tmp_path / "sealed") is None


NO_FILES: dict[str, Callable[[Path], object]] = {
    "a link to a device": lambda path: path.symlink_to("/dev/zero"),
    "a link to a file": lambda path: path.symlink_to(__file__),
    "a pipe": os.mkfifo,
    "a folder": Path.mkdir,
    "a hole of four gigabytes": lambda path: os.truncate(made(path), 4 * 1024**3),
    "nothing": lambda path: path.parent,
}


def made(path: Path) -> Path:
    """An empty file."""
    path.touch()
    return path


@pytest.mark.parametrize("make", NO_FILES.values(), ids=NO_FILES)
def test_what_is_no_file_is_never_waited_for(
    tmp_path: Path, make: Callable[[Path], object]
) -> None:
    path = tmp_path / f"{'0' * 64}.note"
    make(path)
    before = os.path.lexists(path)

    assert read_sealed(path) is None
    with pytest.raises(OSError):  # noqa: PT011 - whichever
        digest_of_file(path)
    discard(path)
    assert os.path.lexists(path) == before


def test_a_sealed_file_that_is_too_large_is_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_sealed(tmp_path / "sealed", "a text")
    assert read_sealed(tmp_path / "sealed") == "a text"
    monkeypatch.setattr(module, "_LARGEST_SEALED", 20)
    assert read_sealed(tmp_path / "sealed") is None


def test_a_temporary_file_is_gone_whatever_happens(tmp_path: Path) -> None:
    def interrupted() -> None:
        with temporary(tmp_path) as part:
            assert part.parent == tmp_path
            assert len(part.name) == 64 + len(".new")
            part.write_bytes(b"half")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        interrupted()
    assert list(tmp_path.iterdir()) == []

    with temporary(tmp_path) as part:
        part.rename(tmp_path / "kept")
    assert [path.name for path in tmp_path.iterdir()] == ["kept"]


def test_the_newest_comes_first(tmp_path: Path) -> None:
    for name, age in (("a.note", 10), ("b.note", 5), ("c.note", 10), ("d.index", 0)):
        path = tmp_path / (name[0] * 64 + name[1:])
        path.write_bytes(b"")
        os.utime(path, (1e9 - age, 1e9 - age))
        (tmp_path / name).write_bytes(b"of another name")

    assert [path.name[0] for path in newest(tmp_path, Kind.NOTE)] == ["b", "a", "c"]
    assert newest(tmp_path / "nowhere", Kind.NOTE) == []


def foreign_index(path: Path) -> Path:
    """A database of some other program."""
    connection = sqlite3.connect(path)
    connection.execute("CREATE TABLE pack (number)")
    connection.close()
    return path


def own_index(path: Path) -> Path:
    """An index that is being written."""
    IndexBuilder(made(path)).close()
    return path


@each_case("kind, digest", itertools.product(Kind, ["0" * 64, "f" * 63, "F" * 64, "f" * 65, ""]))
def test_only_what_bears_name_and_mark_of_the_library_is_removed(
    tmp_path: Path, kind: Kind, digest: str
) -> None:
    path = file_in(tmp_path, digest, kind)
    is_named = digest == "0" * 64

    for content in (b"anything", b"SQLite format 3\0", b"barwright"):
        path.write_bytes(content)
        discard(path)
        assert path.exists()
    path.unlink()
    discard(foreign_index(path))
    assert path.exists()
    path.write_bytes(b"")
    discard(path)
    assert path.exists() == (not is_named or kind != Kind.PART)
    write_sealed(path, 1)
    discard(path)
    assert path.exists() == (not is_named)
    path.unlink(missing_ok=True)
    discard(own_index(path))
    assert path.exists() == (not is_named)


def test_a_file_that_is_gone_is_left_over(tmp_path: Path) -> None:
    assert is_left_over(tmp_path / "gone")


def test_a_file_is_left_over_after_an_hour(tmp_path: Path) -> None:
    (tmp_path / "x").write_bytes(b"")
    assert not is_left_over(tmp_path / "x")
    os.utime(tmp_path / "x", (0, time.time() - 3601))
    assert is_left_over(tmp_path / "x")
