"""`write_whole`: a file appears whole or not at all, and what is no file stays what it is."""

from __future__ import annotations

import os
import stat
import threading
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli.command import run
from barwright.cli.output import write_whole


def test_a_file_takes_the_place_of_another(tmp_path: Path) -> None:
    place = tmp_path / "a.txt"
    for text in ("one", "two ±"):
        write_whole(place, text)
        assert place.read_text(encoding="utf-8") == text
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]


def test_a_link_stays_a_link_and_what_it_leads_to_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "there").mkdir()
    link = tmp_path / "link"
    link.symlink_to("there/a.txt")
    write_whole(link, "text")
    assert link.is_symlink()
    assert (tmp_path / "there" / "a.txt").read_text(encoding="utf-8") == "text"
    assert [path.name for path in (tmp_path / "there").iterdir()] == ["a.txt"]


def test_a_pipe_is_written_to(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    read: list[str] = []
    reader = threading.Thread(target=lambda: read.append(pipe.read_text(encoding="utf-8")))
    reader.start()
    write_whole(pipe, "text")
    reader.join()
    assert read == ["text"]
    assert stat.S_ISFIFO(pipe.lstat().st_mode)


@pytest.mark.parametrize("name", [".", "folder", "none/a.txt", "a\0b"])
def test_what_cannot_be_a_file_is_refused(tmp_path: Path, name: str) -> None:
    (tmp_path / "folder").mkdir()
    with pytest.raises(bw.FileError) as caught:
        write_whole(tmp_path / name, "text")
    assert (caught.value.code, caught.value.file) == ("F201", str(tmp_path / name))
    assert [path.name for path in tmp_path.iterdir()] == ["folder"]


def test_a_folder_for_a_lock_is_bad_input(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["lock", "--output", "."]) == 2
    assert "F201" in capsys.readouterr().err
