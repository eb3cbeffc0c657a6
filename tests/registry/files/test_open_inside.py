"""Tests of `open_inside`: nothing but a regular file of the folder is opened."""

from __future__ import annotations

import os
import socket
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from barwright.registry.files import open_inside as inside
from barwright.registry.files.document import read_bytes
from barwright.registry.files.open_inside import opener_in


@pytest.fixture(autouse=True, params=["by part", "by path"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both ways of opening; not every system has the first."""
    if request.param == "by path":
        monkeypatch.setattr(inside, "_CAN_OPEN_BY_PART", False)
        monkeypatch.setattr(inside, "_NO_LINK", 0)
    return str(request.param)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with files in it, and a secret beside it."""
    (tmp_path / "folder" / "in" / "ner").mkdir(parents=True)
    for place in ("folder", "folder/in", "folder/in/ner"):
        (tmp_path / place / "x.toml").write_text(place, encoding="utf-8")
    (tmp_path / "secret.toml").write_text("secret", encoding="utf-8")
    return tmp_path / "folder"


def read(folder: Path, name: str) -> bytes:
    """What a file of a folder holds."""
    return read_bytes(Path(name), shown_as=name, opener=opener_in(folder))


def refusal(folder: Path, name: str) -> tuple[str, str]:
    """Code and value that a file is refused with, all that was opened being closed again."""
    left: list[int] = []
    really_open, really_close = os.open, os.close

    def noting(*arguments: Any, **options: Any) -> int:
        left.append(really_open(*arguments, **options))
        return left[-1]

    def forgetting(descriptor: int) -> None:
        really_close(descriptor)
        left.remove(descriptor)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "open", noting)
        patch.setattr(os, "close", forgetting)
        with pytest.raises(bw.FileError) as caught:
            read(folder, name)
    assert left == []
    assert caught.value.file == name
    return caught.value.code, caught.value.value


@pytest.mark.parametrize("name", ["x.toml", "in/x.toml", "in/ner/x.toml"])
def test_a_regular_file_is_read(folder: Path, name: str) -> None:
    assert read(folder, name) == f"folder/{name}".removesuffix("/x.toml").encode()


def test_the_folder_itself_may_be_a_link(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(folder)

    assert read(tmp_path / "link", "in/x.toml") == b"folder/in"


def test_a_hard_link_is_a_regular_file(folder: Path) -> None:
    """Some installers lay files out so."""
    os.link(folder / "x.toml", folder / "y.toml")

    assert read(folder, "y.toml") == b"folder"


@pytest.mark.parametrize("name", ["none.toml", "in/none.toml", "none/x.toml"])
def test_a_file_that_is_not_there(folder: Path, name: str) -> None:
    assert refusal(folder, name) == ("F101", "No such file or directory")


def bound(path: Path) -> None:
    """Put a socket somewhere; its path may be longer than such a one can be."""
    here = Path.cwd()
    os.chdir(path.parent)
    try:
        with socket.socket(socket.AF_UNIX) as made:
            made.bind(path.name)
    finally:
        os.chdir(here)


MADE: dict[str, tuple[Callable[[Path], object], str]] = {
    "a link outside": (lambda path: path.symlink_to("../secret.toml"), "a link"),
    "a link inside": (lambda path: path.symlink_to("x.toml"), "a link"),
    "a link to nothing": (lambda path: path.symlink_to("nothing"), "a link"),
    "a link to itself": (lambda path: path.symlink_to(path), "a link"),
    "a link to a folder": (lambda path: path.symlink_to("in"), "a link"),
    "a link to a device without end": (lambda path: path.symlink_to("/dev/zero"), "a link"),
    "a folder": (Path.mkdir, "a folder"),
    "a pipe": (os.mkfifo, "a pipe or a device"),
    "a socket": (bound, "a pipe or a device"),
}


@pytest.mark.parametrize(("make", "kind"), MADE.values(), ids=MADE)
def test_what_is_no_regular_file_is_refused_and_not_opened(
    folder: Path, monkeypatch: pytest.MonkeyPatch, make: Callable[[Path], object], kind: str
) -> None:
    make(folder / "y.toml")
    opened = []
    really_open = os.open

    def noting(path: Any, *arguments: Any, **options: Any) -> int:
        opened.append(Path(path).name)
        return really_open(path, *arguments, **options)

    monkeypatch.setattr(os, "open", noting)

    assert refusal(folder, "y.toml") == ("F109", kind)
    assert "y.toml" not in opened


@pytest.mark.parametrize("target", ["..", "in/ner", "/"])
def test_a_link_to_a_folder_on_the_way_is_not_followed(folder: Path, target: str) -> None:
    (folder / "way").symlink_to(target)
    name = "way/secret.toml" if target == ".." else "way/x.toml"

    assert refusal(folder, name)[0] in {"F101", "F109"}


# -- Exchanged between a look and the opening ---------------------------------------------


@pytest.mark.parametrize("kind", ["a link outside", "a link inside", "a pipe", "a folder"])
def test_a_file_that_is_exchanged_before_it_is_opened_is_not_read(
    folder: Path, monkeypatch: pytest.MonkeyPatch, kind: str
) -> None:
    really_open = os.open
    (folder / "y.toml").write_text("folder", encoding="utf-8")

    def exchanging(path: Any, *arguments: Any, **options: Any) -> int:
        if Path(path).name == "y.toml":
            (folder / "y.toml").unlink()
            MADE[kind][0](folder / "y.toml")
        return really_open(path, *arguments, **options)

    monkeypatch.setattr(os, "open", exchanging)

    assert refusal(folder, "y.toml")[0] in {"F101", "F109"}


@pytest.mark.parametrize("way", ["by part"], indirect=True)  # the other leaves a moment
def test_a_folder_that_is_exchanged_before_it_is_opened_is_not_entered(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    really_open = os.open
    (folder.parent / "x.toml").write_text("secret", encoding="utf-8")

    def exchanging(path: Any, *arguments: Any, **options: Any) -> int:
        if path == "in":
            (folder / "in").rename(folder / "away")
            (folder / "in").symlink_to("..")
        return really_open(path, *arguments, **options)

    monkeypatch.setattr(os, "open", exchanging)

    assert refusal(folder, "in/x.toml")[0] == "F101"
