"""Checking many job files at once gives what checking each alone gives, in their order."""

from __future__ import annotations

import os
import signal
import threading
from pathlib import Path

import pytest

import barwright as bw
from barwright.analysis.across import check_many
from sample_packs import SPECIMENS, discovered_once

TWENTY = sorted((SPECIMENS / "twenty").glob("*.toml"))


@pytest.fixture
def one_thread(monkeypatch: pytest.MonkeyPatch) -> None:
    """The test runner's own threads are left out of account."""
    monkeypatch.setattr(threading, "active_count", lambda: 1)


@pytest.fixture(scope="module")
def one_by_one() -> list[bw.answers.JobCheck]:
    return [bw.check_job(path, discovered_once()) for path in TWENTY]


@pytest.mark.usefixtures("one_thread")
@pytest.mark.parametrize("processes", [1, 2])
def test_many_are_checked_as_each_alone(
    processes: int, one_by_one: list[bw.answers.JobCheck]
) -> None:
    found = bw.check_jobs(TWENTY, discovered_once(), processes=processes)

    assert list(found) == one_by_one


@pytest.mark.slow
def test_a_program_with_threads_of_its_own_is_not_forked(
    monkeypatch: pytest.MonkeyPatch, one_by_one: list[bw.answers.JobCheck]
) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 2)

    found = bw.check_jobs(TWENTY[:16], discovered_once(), processes=2)

    assert list(found) == one_by_one[:16]


@pytest.mark.slow
@pytest.mark.usefixtures("one_thread")
def test_what_a_killed_process_leaves_is_done_here(
    monkeypatch: pytest.MonkeyPatch, one_by_one: list[bw.answers.JobCheck]
) -> None:
    here = os.getpid()

    def deadly(path: Path, **named: object) -> bw.answers.JobCheck:
        if os.getpid() != here and path == TWENTY[9]:
            os.kill(os.getpid(), signal.SIGKILL)
        return bw.check_job(path, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(check_many, "check_job", deadly)

    found = bw.check_jobs(TWENTY, discovered_once(), processes=2)

    assert list(found) == one_by_one
