"""Do the parts of a work that are missing, and make the result of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import attrs

from barwright.analysis.across.processes import done_by_processes
from barwright.parted.cluster import check_client, done_by_cluster
from barwright.parted.part_files import PartFiles
from barwright.parted.work import Work
from barwright.registry.files.user_cache import Progress

__all__ = ["Written", "write_parted"]


@attrs.frozen
class Written:
    """A result that is complete.

    Parameters
    ----------
    counted : Counter
        What its parts count together.
    parts : int
        How many there are.
    earlier : int
        How many of them were there before.
    """

    counted: Counter[str]
    parts: int
    earlier: int


def write_parted(
    work: Work,
    output: Path,
    *,
    inputs: tuple[Path, ...] = (),
    processes: int | None = None,
    client: Any = None,  # noqa: ANN401 - of an optional dependency
    progress: Progress | None = None,
) -> Written:
    """Write the result of a work, part by part.

    Parameters
    ----------
    work : Work
        The work.
    output : Path
        A Parquet file; the parts are in a folder beside it until it is complete.
    inputs : tuple of Path
        What the work reads, over which nothing is written.
    processes : int, optional
        The most processes to share the work; as for :func:`done_by_processes`.
    client : distributed.Client, optional
        A cluster that does the work instead.
    progress : callable, optional
        Called with two counts after each part: of those that are done, and of all.

    Returns
    -------
    Written

    Raises
    ------
    FileError
        F201 or F202 if a file cannot be written, F203 for parts of other work.
    ClusterError
        C101 if the cluster cannot do a part.
    """
    if client is not None:
        check_client(client)
    files = PartFiles(work, output, inputs)
    counted = files.complete()
    missing = files.begin() if counted is None else []
    earlier = work.number - len(missing)
    for done, _ in enumerate(_done(files, missing, processes, client), start=earlier + 1):
        if progress is not None:
            progress(done, work.number)
    if counted is None:
        counted = files.join()
    files.remove()
    return Written(counted, work.number, earlier)


def _done(
    files: PartFiles,
    missing: Sequence[int],
    processes: int | None,
    client: Any,  # noqa: ANN401 - of an optional dependency
) -> Iterator[None]:
    if client is not None:
        return done_by_cluster(files, missing, client)
    return done_by_processes(files.do, missing, processes=processes, fewest=1, at_a_time=1)
