"""Do the parts of a work on a cluster of machines, with Dask."""

from __future__ import annotations

import pickle
from collections.abc import Iterator, Sequence
from typing import Any

from barwright.errors import BarwrightError, ClusterError, MissingExtraError, SchemaError
from barwright.first_use import FIRST_USE
from barwright.parted.part_files import PartFiles

__all__ = ["check_client", "done_by_cluster"]


def check_client(client: object) -> None:
    """Refuse what is no client of a cluster.

    Parameters
    ----------
    client : object
        What the caller gives as one.

    Raises
    ------
    SchemaError
        S203.
    MissingExtraError
        X101 if ``distributed`` is not installed.
    """
    if not isinstance(client, _distributed().Client):
        raise SchemaError(
            "S203",
            value=client,
            expected="a client of a Dask cluster",
            remedy="pass distributed.Client(address), or leave it out",
            key="client",
        )


def _distributed() -> Any:  # noqa: ANN401 - a module
    try:
        with FIRST_USE:
            import distributed  # noqa: PLC0415 - an extra
    except ImportError:
        raise MissingExtraError(
            "X101",
            value="distributed",
            expected="the extra 'cluster'",
            remedy="pip install 'barwright[cluster]'",
        ) from None
    return distributed


def done_by_cluster(files: PartFiles, parts: Sequence[int], client: Any) -> Iterator[None]:  # noqa: ANN401
    """Do parts on the workers of a cluster, which see the same files as this process.

    Dask does the parts of a worker that is lost again on another one.

    Parameters
    ----------
    files : PartFiles
        The files of the work.
    parts : sequence of int
        Numbers of the parts.
    client : distributed.Client
        The cluster.

    Yields
    ------
    None
        After each part.

    Raises
    ------
    BarwrightError
        As the part raises it.
    ClusterError
        C101 if the cluster cannot do a part.
    """
    sent = pickle.dumps(files)
    futures: list[Any] = []
    try:
        futures += client.map(_done_on_worker, parts, work=files.key, sent=sent, pure=False)
        for future in _distributed().as_completed(futures):
            future.result()
            yield
    except BarwrightError:
        raise
    except Exception as error:
        raise ClusterError(
            "C101",
            value=f"{type(error).__name__}: {error}",
            expected="a cluster that does every part",
            remedy="look at the logs of its workers, and whether each has enough memory and the "
            "same packages and files; then start again, what is done is kept",
        ) from error
    finally:
        client.cancel(futures)


# -- On a worker ---------------------------------------------------------------------------

# The one work that this process does parts of, as it opened it for the first of them.
_opened: dict[str, PartFiles] = {}


def _done_on_worker(part: int, *, work: str, sent: bytes) -> None:
    if work not in _opened:
        files: PartFiles = pickle.loads(sent)  # noqa: S301 - of the client that asks
        _opened.clear()
        _opened[work] = files
    _opened[work].do(part)
