"""Tests of `barwright.registry.files.user_cache`: a folder of one's own."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from barwright.registry.files import user_cache as module
from barwright.registry.files.user_cache import cache_folder, conventional

HOME = Path.home()


@pytest.fixture(autouse=True)
def chosen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The library's own folder in the one that the environment names."""
    folder = tmp_path / "deep" / "cache"
    monkeypatch.setenv("BARWRIGHT_CACHE", str(folder))
    return folder / "barwright-cache"


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


def test_the_folder_is_the_users_own_where_files_are_anyones(chosen: Path) -> None:
    before = os.umask(0)
    try:
        assert cache_folder() == chosen
    finally:
        os.umask(before)
    for folder in (chosen, chosen.parent):
        assert stat.S_IMODE(folder.stat().st_mode) == 0o700


def test_the_convention_holds_where_nothing_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("BARWRIGHT_CACHE")
    monkeypatch.setattr(module, "conventional", lambda *_: tmp_path / "usual")

    assert cache_folder() == tmp_path / "usual" / "barwright-cache"


def test_a_relative_name_counts_from_where_the_program_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("BARWRIGHT_CACHE", "here")

    assert cache_folder() == tmp_path / "here" / "barwright-cache"


@pytest.mark.parametrize("word", ["off", "OFF", " off "])
def test_it_can_be_switched_off(word: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BARWRIGHT_CACHE", word)

    assert cache_folder() is None


@pytest.mark.parametrize("mode", [0o777, 0o770, 0o702])
@pytest.mark.parametrize("is_around", [False, True])
def test_a_folder_that_others_can_write_to_is_none(
    chosen: Path, mode: int, *, is_around: bool
) -> None:
    chosen.mkdir(parents=True)
    folder = chosen.parent if is_around else chosen
    folder.chmod(mode)
    assert cache_folder() is None
    folder.chmod(0o755)
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
    chosen.parent.parent.write_bytes(b"")
    assert cache_folder() is None
    monkeypatch.delenv("BARWRIGHT_CACHE")

    def homeless() -> Path:
        raise RuntimeError

    monkeypatch.setattr(Path, "home", homeless)
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    assert cache_folder() is None
