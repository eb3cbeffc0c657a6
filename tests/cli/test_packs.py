"""Tests of `barwright.cli.packs`: which packs are read, and what a person sees meanwhile."""

from __future__ import annotations

import contextlib
import io
import json
import os
import pty
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli.command import run
from barwright.cli.packs import ProgressBar
from barwright.registry import registry as index
from barwright.registry.authoring.scaffold import new_overlay
from index_packs import small_packs
from sample_packs import GOOD_PACK, SPECIMENS, distribution


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


@pytest.mark.slow
def test_a_bar_is_shown_once_while_packs_are_read(environment: dict[str, str]) -> None:
    first = seen(environment)

    assert "reading packs" in first
    assert "100%" in first
    assert seen(environment) == ""


@pytest.mark.slow
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


def test_counting_again_gets_another_bar(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen(terminal=True)
    monkeypatch.setattr(sys, "stderr", screen)

    with contextlib.ExitStack() as stack:
        bar = ProgressBar(stack)
        for done in (8, 8, 1, 8):
            bar(done, 8)

    assert screen.getvalue().count("100%") == 2


# -- Where no pack is installed ----------------------------------------------------------


@pytest.fixture
def _nothing_installed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(index, "installed_packs", lambda **_: [])


WAYS = ("no pack is installed", "barwright new-pack", "--pack", "--demo")


@pytest.mark.usefixtures("_nothing_installed")
@pytest.mark.parametrize("command", [["vehicles"], ["vehicles", "--json"], ["vehicles", "fells"]])
def test_whoever_has_no_pack_is_told_the_ways_on(
    command: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(command) == 1

    reported = capsys.readouterr()
    assert reported.out in ("", '{"vehicles": []}\n')
    (line,) = reported.err.splitlines()
    assert all(way in line for way in WAYS)


@pytest.mark.usefixtures("_nothing_installed")
def test_a_job_without_a_pack_is_told_them_too(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["fit", str(SPECIMENS / "jobs" / "least.toml")]) == 2

    reported = capsys.readouterr().err
    assert "error L101" in reported
    assert reported.count("--demo") == 2


@pytest.mark.usefixtures("_nothing_installed")
def test_the_demo_data_is_read_when_it_is_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["fit", "--demo", str(SPECIMENS / "jobs" / "least.toml")]) == 0
    assert run(["vehicles", "--demo"]) == 0

    reported = capsys.readouterr()
    assert reported.err == ""
    assert "6 vehicles.\nPacks with invented figures: fells, hodmule, trundlet\n" in reported.out


def test_the_folder_of_a_pack_is_read_alone_or_beside_the_demo_data(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(["vehicles", "--json", "--pack", str(GOOD_PACK)]) == 0
    assert run(["vehicles", "--json", "--pack", str(GOOD_PACK), "--demo"]) == 0

    alone, both = map(json.loads, capsys.readouterr().out.splitlines())
    own = [chassis["id"] for chassis in alone["vehicles"]]
    assert {name.partition(":")[0] for name in own} == {"tiny"}
    every = [chassis["id"] for chassis in both["vehicles"]]
    assert every == sorted([*own, *(van.id for van in bw.Registry.demo().vehicles())])


LIMITED = "looked in: tiny; with --pack, the installed packs are not read\n"


def test_what_another_pack_may_hold_is_told_with_the_packs_that_were_read(
    capsys: pytest.CaptureFixture[str],
) -> None:
    job = str(SPECIMENS / "jobs" / "least.toml")
    assert run(["fit", job, "--pack", str(GOOD_PACK)]) == 2

    told = capsys.readouterr().err
    assert "; no pack 'fells' is read, only: tiny; install it, or name its folder too (" in told
    assert f"\n{LIMITED}for more: barwright explain L101\n" in told

    assert run(["fit", job, "--json", "--pack", str(GOOD_PACK)]) == 2
    assert capsys.readouterr().err.endswith(LIMITED)


@pytest.mark.parametrize("listing", ["vehicles", "parts"])
def test_an_empty_list_says_which_packs_were_read(
    listing: str, capsys: pytest.CaptureFixture[str]
) -> None:
    run([listing, "nosuchword", "--pack", str(GOOD_PACK)])
    assert capsys.readouterr().err.endswith(LIMITED)
    # Of all that is installed there is nothing to say.
    run([listing, "nosuchword"])
    assert "looked in" not in capsys.readouterr().err


def test_other_errors_do_not_tell_of_packs(capsys: pytest.CaptureFixture[str]) -> None:
    wrong = str(SPECIMENS / "jobs" / "no-such.toml")
    assert run(["fit", wrong, "--pack", str(GOOD_PACK)]) == 2
    assert "looked in" not in capsys.readouterr().err


def test_the_packs_below_a_folder_are_read(tmp_path: Path) -> None:
    shutil.copytree(GOOD_PACK, tmp_path / "own/src/tiny")

    assert run(["vehicles", "--pack", str(tmp_path)]) == 0


def test_a_folder_without_a_pack_is_bad_input(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["vehicles", "--pack", str(tmp_path)]) == 2

    told = capsys.readouterr().err
    assert told.startswith("error F101: --pack: got ")
    assert "a folder with a pack.toml in it or below it" in told


def test_an_overlay_lies_on_the_demo_data(tmp_path: Path) -> None:
    new_overlay(tmp_path / "shop", "shop")
    demo = bw.Registry.demo(overlays=[tmp_path / "shop"])

    assert [name.partition(":")[0] for name in demo.ids("bar")].count("shop") == 1
