"""Tests of `barwright.cli.asking`: what a person sees who waits for many packs."""

from __future__ import annotations

import contextlib
import io
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest

from barwright.cli.asking import ProgressBar
from indexing import small_packs
from packing import distribution


@pytest.fixture
def environment(tmp_path: Path) -> dict[str, str]:
    """Variables with which a program finds nine more packs, and no cache yet."""
    for folder in small_packs(tmp_path / "site", count=9):
        distribution(tmp_path / "site", folder.name, f"x = {folder.name}")
    path = os.pathsep.join([str(tmp_path / "site"), *sys.path])
    return os.environ | {"PYTHONPATH": path, "BARWRIGHT_CACHE": str(tmp_path / "cache")}


def seen(environment: dict[str, str]) -> str:
    """What the terminal shows beside the answer."""
    ours, theirs = pty.openpty()
    code = "from barwright.cli import main; main()"
    done = subprocess.run(
        [sys.executable, "-c", code, "vehicles", "--json"],
        stdout=subprocess.PIPE,
        stderr=theirs,
        check=True,
        timeout=60,
        env=environment,
    )
    os.close(theirs)
    shown = bytearray()
    try:
        while piece := os.read(ours, 4096):
            shown += piece
    except OSError:  # the other end is closed
        pass
    os.close(ours)
    assert b"p0008:chassis/v1" in done.stdout
    return shown.decode()


def test_a_bar_is_shown_once_while_packs_are_read(environment: dict[str, str]) -> None:
    first = seen(environment)

    assert "reading packs" in first
    assert "100%" in first
    assert seen(environment) == ""


def test_no_bar_is_shown_into_a_pipe_or_without_a_cache(environment: dict[str, str]) -> None:
    code = "from barwright.cli import main; main()"
    done = subprocess.run(
        [sys.executable, "-c", code, "vehicles"],
        capture_output=True,
        check=True,
        timeout=60,
        env=environment,
    )

    assert done.stderr == b""
    assert seen(environment | {"BARWRIGHT_CACHE": "off"}) == ""


class Screen(io.StringIO):
    """What stands for a terminal, or for a file."""

    def __init__(self, *, terminal: bool) -> None:
        super().__init__()
        self.terminal = terminal

    def isatty(self) -> bool:
        return self.terminal


@pytest.mark.parametrize(
    ("terminal", "length", "shown"),
    [(True, 9, True), (True, 7, False), (False, 9, False)],
)
def test_a_bar_is_for_a_terminal_and_for_many(
    *, terminal: bool, length: int, shown: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    screen = Screen(terminal=terminal)
    monkeypatch.setattr(sys, "stderr", screen)

    with contextlib.ExitStack() as stack:
        bar = ProgressBar(stack)
        for done in range(length + 1):
            bar(done, length)

    assert ("reading packs" in screen.getvalue()) is shown
    assert ("100%" in screen.getvalue()) is shown


def test_a_bar_says_what_it_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen(terminal=True)
    monkeypatch.setattr(sys, "stderr", screen)

    with contextlib.ExitStack() as stack:
        bar = ProgressBar(stack, label="drawing")
        bar(100, 100)

    assert "drawing" in screen.getvalue()
