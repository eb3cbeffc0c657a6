"""Many things are done on all processors as each alone, in their order."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Iterator, Sequence
from concurrent.futures import BrokenExecutor

import pytest

from barwright.analysis.across import processes
from barwright.analysis.across.processes import done_by_processes

TWENTY = range(20)


@pytest.fixture
def one_thread(monkeypatch: pytest.MonkeyPatch) -> None:
    """The test runner's own threads are left out of account."""
    monkeypatch.setattr(threading, "active_count", lambda: 1)


def squared(number: int) -> int:
    return number * number


def squares(numbers: Sequence[int], most: int | None) -> list[int]:
    return list(done_by_processes(squared, numbers, processes=most, fewest=8, at_a_time=4))


def test_few_things_begin_no_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(processes, "_pool", lambda *_: pytest.fail("a process for so few"))

    assert squares(TWENTY[:15], 8) == [n * n for n in TWENTY[:15]]


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

    def noting(_: object, number: int) -> Iterator[object]:
        asked.append(number)
        raise BrokenExecutor

    monkeypatch.setattr(processes, "_pool", noting)

    assert squares(range(40), None) == [n * n for n in range(40)]
    assert asked == [3]


def test_a_process_of_the_pool_leaves_an_interrupt_to_the_one_that_asked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    ignored: list[object] = []
    monkeypatch.setattr(processes, "_task", None)
    monkeypatch.setattr(signal, "signal", lambda *given: ignored.append(given))

    processes._begin(squared)  # noqa: SLF001

    assert processes._done(3) == 9  # noqa: SLF001
    assert ignored == [(signal.SIGINT, signal.SIG_IGN)]


def test_a_program_that_cannot_be_forked_is_not_run_again_unasked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 2)
    monkeypatch.setattr(processes, "_pool", lambda *_: pytest.fail("a process unasked"))

    assert squares(TWENTY, None) == [n * n for n in TWENTY]
