"""Checking many job files at once gives what checking each alone gives, in their order."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Iterator
from concurrent.futures import BrokenExecutor
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


def test_a_program_with_threads_of_its_own_is_not_forked(
    monkeypatch: pytest.MonkeyPatch, one_by_one: list[bw.answers.JobCheck]
) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 2)

    found = bw.check_jobs(TWENTY[:16], discovered_once(), processes=2)

    assert list(found) == one_by_one[:16]


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


def test_few_files_begin_no_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(check_many, "_pool", lambda *_: pytest.fail("a process for so few"))

    assert len(list(bw.check_jobs(TWENTY[:15], discovered_once(), processes=8))) == 15


@pytest.mark.usefixtures("one_thread")
@pytest.mark.parametrize("affinity", [{0, 3, 5}, None])
def test_all_processors_are_used(
    monkeypatch: pytest.MonkeyPatch, *, affinity: set[int] | None
) -> None:
    if affinity:
        monkeypatch.setattr(os, "sched_getaffinity", lambda _: affinity, raising=False)
    else:
        monkeypatch.delattr(os, "sched_getaffinity", raising=False)
        monkeypatch.setattr(os, "cpu_count", lambda: 3)
    asked: list[int] = []

    def noting(_: object, processes: int) -> Iterator[object]:
        asked.append(processes)
        raise BrokenExecutor

    monkeypatch.setattr(check_many, "_pool", noting)

    assert len(list(bw.check_jobs(TWENTY * 2, discovered_once()))) == 2 * len(TWENTY)
    assert asked == [3]


def test_a_process_of_the_pool_leaves_an_interrupt_to_the_one_that_asked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    ignored: list[object] = []
    monkeypatch.setattr(check_many, "_check", None)
    monkeypatch.setattr(signal, "signal", lambda *given: ignored.append(given))

    check_many._begin(lambda path: bw.check_job(path, discovered_once()))  # noqa: SLF001

    assert check_many._checked(TWENTY[0]).mark == "good"  # noqa: SLF001
    assert ignored == [(signal.SIGINT, signal.SIG_IGN)]


def test_a_program_that_cannot_be_forked_is_not_run_again_unasked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 2)
    monkeypatch.setattr(check_many, "_pool", lambda *_: pytest.fail("a process unasked"))

    assert len(list(bw.check_jobs(TWENTY, discovered_once()))) == len(TWENTY)
