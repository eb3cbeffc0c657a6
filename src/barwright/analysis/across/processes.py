"""Do something with many things on all processors, in their order."""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, ProcessPoolExecutor
from itertools import islice
from typing import Any, TypeVar

__all__ = ["done_by_processes"]

T = TypeVar("T")
R = TypeVar("R")


def done_by_processes(
    task: Callable[[T], R],
    items: Sequence[T],
    *,
    processes: int | None,
    fewest: int,
    at_a_time: int,
) -> Iterator[R]:
    """Do a task with each of many things, with several processes at once.

    Parameters
    ----------
    task : callable
        From a thing to its result; a process that is forked has it as it is.
    items : sequence of object
        The things.
    processes : int, optional
        The most processes to share the work.  If left out, as many as there are processors, or
        this one alone where a process cannot be forked: a new one would run the caller's
        program again.
    fewest : int
        Fewer things than this for a process are done before it has begun.
    at_a_time : int
        Things that a process is handed at a time.

    Returns
    -------
    iterator of object
        The results in the order of the things, each as soon as it is known.  If a process is
        killed, this one does what it left.
    """
    most = (_processors() if _can_fork() else 1) if processes is None else processes
    return _each(task, items, processes=min(most, len(items) // fewest), at_a_time=at_a_time)


def _each(
    task: Callable[[T], R], items: Sequence[T], *, processes: int, at_a_time: int
) -> Iterator[R]:
    done = 0
    if processes > 1:
        with contextlib.suppress(BrokenExecutor), _pool(task, processes) as pool:
            for result in pool.map(_done, items, chunksize=at_a_time):
                yield result
                done += 1
    yield from map(task, islice(items, done, None))


def _pool(task: Callable[[Any], object], processes: int) -> ProcessPoolExecutor:
    context = multiprocessing.get_context("fork" if _can_fork() else "spawn")
    return ProcessPoolExecutor(processes, mp_context=context, initializer=_begin, initargs=(task,))


def _can_fork() -> bool:
    """Whether a fork is safe: it has everything loaded, and what other threads hold locked."""
    return sys.platform == "linux" and threading.active_count() == 1


def _processors() -> int:
    """Processors that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


# -- In a process of the pool ----------------------------------------------------------------

_task: Callable[[Any], Any] | None = None


def _begin(task: Callable[[Any], Any]) -> None:
    """Keep what is to be done with each thing, and leave Ctrl-C to the process that asked."""
    global _task  # noqa: PLW0603 - a process of the pool does nothing else
    _task = task
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_the_asker, daemon=True).start()


def _end_with_the_asker() -> None:
    """Wait for the process that asked, and end once it is gone: a killed one tells nobody."""
    asker = multiprocessing.parent_process()
    if asker is not None:
        asker.join()
        os._exit(1)


def _done(item: Any) -> Any:  # noqa: ANN401 - whatever the task takes and gives
    assert _task is not None  # noqa: S101 - the pool begins every process so
    return _task(item)
