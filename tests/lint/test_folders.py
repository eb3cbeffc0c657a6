"""Which packs are meant by the files and folders that a user names."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from barwright.lint.folders import pack_folders
from barwright.lint.linting import lint_pack


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    """Two packs, one of them deeper, and a folder without any."""
    for name in ("b", "a/src/inner"):
        (tmp_path / name).mkdir(parents=True)
        (tmp_path / name / "pack.toml").write_text("", encoding="utf-8")
    (tmp_path / "b" / "deep").mkdir()
    (tmp_path / "b" / "deep" / "parts.toml").write_text("", encoding="utf-8")
    (tmp_path / "empty").mkdir()
    (tmp_path / "loose.toml").write_text("", encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize(
    ("paths", "packs"),
    [
        (["b"], ["b"]),
        (["."], ["a/src/inner", "b"]),
        (["a"], ["a/src/inner"]),
        (["b/pack.toml"], ["b"]),
        (["b/deep/parts.toml", "b"], ["b"]),
        (["b/deep"], ["b"]),
        (["b", "a"], ["b", "a/src/inner"]),
        (["empty"], ["empty"]),
        (["none"], ["none"]),
        (["loose.toml"], ["loose.toml"]),
    ],
)
def test_a_path_stands_for_the_packs_that_it_holds_or_lies_in(
    shelf: Path, paths: list[str], packs: list[str]
) -> None:
    found = pack_folders([shelf / path for path in paths])
    assert found == [shelf / pack for pack in packs]


def test_a_pack_around_the_working_directory_is_found(
    shelf: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(shelf / "b" / "deep")
    assert pack_folders([Path("parts.toml")]) == [shelf / "b"]


def test_links_that_lead_to_each_other_hold_no_pack(tmp_path: Path) -> None:
    (tmp_path / "one").symlink_to("two")
    (tmp_path / "two").symlink_to("one")
    for path in (tmp_path / "one", tmp_path / "one" / "pack.toml"):
        assert pack_folders([path]) == [path]


def test_a_folder_that_cannot_be_searched_stands_for_itself(
    shelf: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    scan = os.scandir

    def closed(path: str | Path) -> object:
        if Path(path) == shelf / "empty":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
        return scan(path)

    monkeypatch.setattr(os, "scandir", closed)
    assert pack_folders([shelf]) == [shelf / name for name in ("a/src/inner", "b", "empty")]
    assert lint_pack(shelf / "empty").exit_code == 2


@pytest.mark.parametrize("name", ["x" * 300, "x" * 300 + "/parts.toml", "a\0b"])
def test_a_name_that_no_folder_can_have_is_bad_input(name: str) -> None:
    (folder,) = pack_folders([Path(name)])
    (finding,) = lint_pack(folder).findings
    assert (finding.code, lint_pack(folder).exit_code) == ("F101", 2)
