"""Exit codes: one list, which help, pages and behaviour share."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli import jobs as asking
from barwright.cli.command import run
from barwright.errors import ExitCode
from sample_packs import SPECIMENS, discovered_once

JOBS = SPECIMENS / "jobs"


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Load the installed packs once for all tests."""
    registry = discovered_once()
    monkeypatch.setattr(bw.Registry, "discover", lambda **_: registry)


def plain(text: str) -> str:
    """Text on one line."""
    return " ".join(text.split())


def test_the_list_is_the_agreed_one() -> None:
    assert [code.value for code in ExitCode] == [0, 1, 2, 3, 130]


def test_help_and_the_read_me_have_the_same_list(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--help"]) == ExitCode.FINE
    wanted = f"Exit codes: {ExitCode.listed()}."
    assert wanted in plain(capsys.readouterr().out)
    assert wanted in plain(Path("README.md").read_text(encoding="utf-8"))


def test_the_page_on_scripts_explains_each() -> None:
    page = Path("docs/scripts.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| (\d+) \| \w* ?\| (.*) \|$", page, re.MULTILINE)
    assert [int(code) for code, _ in rows] == list(ExitCode)
    for code, reported in rows:
        assert reported.lower().startswith(ExitCode(int(code)).meaning), reported


@pytest.mark.parametrize(
    ("job", "code"),
    [
        ("least.toml", ExitCode.FINE),
        ("out-of-reach.toml", ExitCode.NO),
        ("bad/comma.toml", ExitCode.BAD_INPUT),
    ],
)
@pytest.mark.parametrize("question", ["check", "rates", "reindex", "sheet"])
def test_a_command_ends_with_them(question: str, job: str, code: ExitCode) -> None:
    assert run([question, str(JOBS / job)]) == code


@pytest.mark.parametrize(
    ("error", "code"),
    [
        (RuntimeError(), ExitCode.FAULT),
        # Of a file that nobody meant to read, and not of standard output.
        (PermissionError(13, "Permission denied", "somewhere"), ExitCode.FAULT),
        (KeyboardInterrupt(), ExitCode.INTERRUPTED),
    ],
)
def test_a_fault_and_an_interrupt_have_theirs(
    error: BaseException, code: ExitCode, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise error

    monkeypatch.setattr(asking, "load_jobs", broken)
    assert run(["fit", str(JOBS / "least.toml")]) == code


def test_a_checked_job_and_its_command_agree() -> None:
    for name in ("least", "out-of-reach", "bad/comma"):
        path = JOBS / f"{name}.toml"
        assert bw.check_job(path, discovered_once()).exit_code == run(["check", str(path)])
