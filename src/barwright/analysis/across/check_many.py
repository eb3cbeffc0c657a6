"""Check many job files on all processors, in their order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from os import PathLike
from pathlib import Path

from barwright.analysis.across.check import JobCheck, check_job
from barwright.analysis.across.house_rules import HouseRules
from barwright.analysis.across.processes import done_by_processes
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.registry.registry import Registry

__all__ = ["check_jobs"]

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
    require_no_cuts: bool = False,
    max_stress: FigureLike | None = None,
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
    require_no_cuts : bool
        Whether a job is refused that goes only with a tooth removed or a key cleared.
    max_stress : str or Quantity, optional
        Shear stress that no bar may exceed, where its steel does not permit less.
    processes : int, optional
        The most processes to share the work.  If left out, as many as there are processors, or
        this one alone where a process cannot be forked: a new one would run the caller's
        program again.  Few files are checked in this process alone.

    Returns
    -------
    iterator of JobCheck
        In the order of the files, each as soon as it is known.  If a process is killed, this one
        does what it left.

    Raises
    ------
    QuantityError
        If ``max_stress`` is not a stress.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> [one.mark for one in check_jobs(["no-such-job.toml"], Registry.discover())]
    ['bad']
    """
    return done_by_processes(
        partial(
            check_job,
            registry=registry,
            require_strength=require_strength,
            require_no_cuts=require_no_cuts,
            max_stress=HouseRules(max_stress=max_stress).max_stress,
        ),
        [Path(path) for path in paths],
        processes=processes,
        fewest=_FEWEST,
        at_a_time=_AT_A_TIME,
    )
