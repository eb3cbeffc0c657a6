"""Tests of `barwright.registry.cache`: a folder of one's own, files that prove themselves."""

from __future__ import annotations

import errno
import os
import stat
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.registry import cache as module
from barwright.registry.cache import (
    cache_folder,
    conventional,
    is_left_over,
    newest,
    read_sealed,
    temporary,
    write_sealed,
)
from faulting import counted, failing, injected

HOME = Path.home()


@pytest.fixture(autouse=True)
def chosen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that the environment names."""
    folder = tmp_path / "deep" / "cache"
    monkeypatch.setenv("BARWRIGHT_CACHE", str(folder))
    return folder


@pytest.mark.parametrize(
    ("platform", "environment", "folder"),
    [
        ("linux", {}, HOME / ".cache" / "barwright"),
        ("linux", {"XDG_CACHE_HOME": "/srv/caches"}, Path("/srv/caches/barwright")),
        ("linux", {"XDG_CACHE_HOME": "caches"}, HOME / ".cache" / "barwright"),
        ("linux", {"XDG_CACHE_HOME": ""}, HOME / ".cache" / "barwright"),
        ("freebsd14", {}, HOME / ".cache" / "barwright"),
        ("darwin", {"XDG_CACHE_HOME": "/srv"}, HOME / "Library" / "Caches" / "barwright"),
        ("win32", {"LOCALAPPDATA": "/data"}, Path("/data/barwright/Cache")),
        ("win32", {}, HOME / "AppData" / "Local" / "barwright" / "Cache"),
    ],
)
def test_each_platform_has_its_convention(
    platform: str, environment: dict[str, str], folder: Path
) -> None:
    assert conventional(platform, environment) == folder


def test_the_environment_may_name_the_folder_and_it_is_the_users_own(chosen: Path) -> None:
    assert cache_folder() == chosen
    assert stat.S_IMODE(chosen.stat().st_mode) == 0o700
    assert cache_folder() == chosen


def test_the_convention_holds_where_nothing_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("BARWRIGHT_CACHE")
    monkeypatch.setattr(module, "conventional", lambda *_: tmp_path / "usual")

    assert cache_folder() == tmp_path / "usual"


def test_a_relative_name_counts_from_where_the_program_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("BARWRIGHT_CACHE", "here")

    assert cache_folder() == tmp_path / "here"


@pytest.mark.parametrize("word", ["off", "OFF", " off "])
def test_it_can_be_switched_off(word: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BARWRIGHT_CACHE", word)

    assert cache_folder() is None


@pytest.mark.parametrize("mode", [0o777, 0o770, 0o702])
def test_a_folder_that_others_can_write_to_is_none(chosen: Path, mode: int) -> None:
    chosen.mkdir(parents=True)
    chosen.chmod(mode)
    assert cache_folder() is None
    chosen.chmod(0o755)
    assert cache_folder() == chosen


def test_a_folder_of_somebody_else_is_none(chosen: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert cache_folder() == chosen
    monkeypatch.setattr(os, "geteuid", lambda: chosen.stat().st_uid + 1)
    assert cache_folder() is None
    monkeypatch.delattr(os, "geteuid")
    assert cache_folder() == chosen


def test_a_file_in_its_place_or_no_home_is_none(
    chosen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    chosen.parent.write_bytes(b"")
    assert cache_folder() is None
    monkeypatch.delenv("BARWRIGHT_CACHE")

    def homeless() -> Path:
        raise RuntimeError

    monkeypatch.setattr(Path, "home", homeless)
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    assert cache_folder() is None


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


def test_a_temporary_file_is_gone_whatever_happens(tmp_path: Path) -> None:
    def interrupted() -> None:
        with temporary(tmp_path) as part:
            assert part.parent == tmp_path
            assert part.name.startswith(".new-")
            part.write_bytes(b"half")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        interrupted()
    assert list(tmp_path.iterdir()) == []

    with temporary(tmp_path) as part:
        part.rename(tmp_path / "kept")
    assert [path.name for path in tmp_path.iterdir()] == ["kept"]


def test_the_newest_comes_first_and_what_is_gone_last(tmp_path: Path) -> None:
    for name, age in (("a.x", 10), ("b.x", 5), ("c.x", 10), ("d.y", 0)):
        (tmp_path / name).write_bytes(b"")
        os.utime(tmp_path / name, (1e9 - age, 1e9 - age))
    (tmp_path / "e.x").symlink_to(tmp_path / "nowhere")

    assert [path.name for path in newest(tmp_path, "*.x")] == ["b.x", "a.x", "c.x", "e.x"]


def test_a_file_is_left_over_after_an_hour(tmp_path: Path) -> None:
    (tmp_path / "x").write_bytes(b"")
    assert not is_left_over(tmp_path / "x")
    os.utime(tmp_path / "x", (0, time.time() - 3601))
    assert is_left_over(tmp_path / "x")
    assert is_left_over(tmp_path / "gone")
