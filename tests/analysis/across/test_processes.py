"""Many things are done on all processors as each alone, in their order."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
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


class _Gone:
    """A process that has ended."""

    def join(self) -> None:
        """Nothing to wait for."""


def test_a_process_of_the_pool_ends_with_the_one_that_asked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    ended: list[int] = []
    monkeypatch.setattr(multiprocessing, "parent_process", _Gone)
    monkeypatch.setattr(os, "_exit", ended.append)

    processes._end_with_the_asker()  # noqa: SLF001

    assert ended == [1]


_KILLED = r"""
import os, signal, time
from barwright.analysis.across.processes import done_by_processes

def told(_):
    os.write(1, f"{os.getpid()}\n".encode())  # at once: two processes share one pipe
    time.sleep(0.2)

for done, _ in enumerate(done_by_processes(told, range(40), processes=2, fewest=1, at_a_time=1)):
    if done == 3:
        os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")
def test_no_process_of_the_pool_outlives_a_killed_one_that_asked() -> None:
    # It reads to the end of what is printed: as long as any process has it open.
    done = subprocess.run(
        [sys.executable, "-c", _KILLED], capture_output=True, text=True, timeout=30, check=False
    )

    assert done.returncode == -signal.SIGKILL
    assert len(set(done.stdout.split())) == 2


def test_a_program_that_cannot_be_forked_is_not_run_again_unasked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 2)
    monkeypatch.setattr(processes, "_pool", lambda *_: pytest.fail("a process unasked"))

    assert squares(TWENTY, None) == [n * n for n in TWENTY]
