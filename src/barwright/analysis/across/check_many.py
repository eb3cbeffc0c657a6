"""Check many job files on all processors, in their order."""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, ProcessPoolExecutor
from functools import partial
from itertools import islice
from os import PathLike
from pathlib import Path
from typing import TypeAlias

from barwright.analysis.across.check import JobCheck, check_job
from barwright.parts.arguments import checks_arguments
from barwright.registry.registry import Registry

__all__ = ["check_jobs"]

Check: TypeAlias = Callable[[Path], JobCheck]

# Fewer files than this for a process are checked before it has begun.
_FEWEST = 8

# Files that a process is handed at a time: little waiting for them, and for the last one.
_AT_A_TIME = 4


@checks_arguments
def check_jobs(
    paths: Sequence[str | PathLike[str]],
    registry: Registry,
    *,
    require_strength: bool = False,
    processes: int | None = None,
) -> Iterator[JobCheck]:
    """Answer :func:`barwright.check_job` for many files, with several processes at once.

    Parameters
    ----------
    paths : sequence of path
        The files.
    registry : Registry
        Where their vehicles and parts are looked up.
    require_strength : bool
        Whether a job whose bars are of unknown strength is refused.
    processes : int, optional
        The most processes to share the work.  If left out, as many as there are processors, or
        this one alone where a process cannot be forked: a new one would run the caller's
        program again.  Few files are checked in this process alone.

    Returns
    -------
    iterator of JobCheck
        In the order of the files, each as soon as it is known.  If a process is killed, this one
        does what it left.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> [one.mark for one in check_jobs(["no-such-job.toml"], Registry.discover())]
    ['bad']
    """
    files = [Path(path) for path in paths]
    check = partial(check_job, registry=registry, require_strength=require_strength)
    most = (_processors() if _can_fork() else 1) if processes is None else processes
    return _each(files, check, processes=min(most, len(files) // _FEWEST))


def _each(files: Sequence[Path], check: Check, *, processes: int) -> Iterator[JobCheck]:
    done = 0
    if processes > 1:
        with contextlib.suppress(BrokenExecutor), _pool(check, processes) as pool:
            for result in pool.map(_checked, files, chunksize=_AT_A_TIME):
                yield result
                done += 1
    yield from map(check, islice(files, done, None))


def _pool(check: Check, processes: int) -> ProcessPoolExecutor:
    context = multiprocessing.get_context("fork" if _can_fork() else "spawn")
    return ProcessPoolExecutor(processes, mp_context=context, initializer=_begin, initargs=(check,))


def _can_fork() -> bool:
    """Whether a fork is safe: it has everything loaded, and what other threads hold locked."""
    return sys.platform == "linux" and threading.active_count() == 1


def _processors() -> int:
    """Processors that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


# -- In a process of the pool ----------------------------------------------------------------

_check: Check | None = None


def _begin(check: Check) -> None:
    """Keep what is to be done with each file, and leave Ctrl-C to the process that asked."""
    global _check  # noqa: PLW0603 - a process of the pool does nothing else
    _check = check
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _checked(file: Path) -> JobCheck:
    assert _check is not None  # noqa: S101 - the pool begins every process so
    return _check(file)
