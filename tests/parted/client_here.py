"""A client of a cluster that is this process, for tests where Dask need not be installed."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from functools import partial
from types import SimpleNamespace
from typing import Any

import pytest

from barwright.parted import cluster

__all__ = ["Client", "KilledWorker", "work_here"]


class KilledWorker(Exception):  # noqa: N818 - as Dask calls it
    """What Dask raises where a task ended every worker that it was given to."""


class Client:
    """A client whose cluster is this process."""

    def __init__(self, fault: Exception | None = None) -> None:
        self.fault = fault
        self.cancelled = 0

    def map(
        self, task: Callable[..., None], parts: Sequence[int], *, pure: bool, **named: Any
    ) -> list[Any]:
        assert not pure
        return [SimpleNamespace(result=partial(self._done, task, part, named)) for part in parts]

    def _done(self, task: Callable[..., None], part: int, named: dict[str, Any]) -> None:
        if self.fault is not None and part == 3:
            raise self.fault
        task(part, **named)

    def cancel(self, futures: Sequence[object]) -> None:
        self.cancelled = len(futures)


def work_here(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let a client of this process pass for one of Dask."""
    dask = SimpleNamespace(Client=Client, as_completed=iter)
    monkeypatch.setitem(sys.modules, "distributed", dask)
    monkeypatch.setattr(cluster, "_opened", {})
