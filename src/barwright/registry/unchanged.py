"""The registry of installed packs that this process has opened, while nothing has changed.

A folder tells by its time that a file was put into it or taken out, and a file by its own that
it was written.  Only what has not changed for a while is relied on: a change at the same tick of
the file system's clock would not show.  What is written in place into the metadata of an
installed distribution is seen by the next process.
"""

from __future__ import annotations

import itertools
import os
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, TypeAlias, TypeVar

import attrs

from barwright.registry.files.file_limits import MOST_ENTRIES
from barwright.registry.files.snapshot import TICK, comparable

__all__ = ["keep", "unchanged"]

R = TypeVar("R")

_Seen: TypeAlias = tuple[int, int, int, int] | None


@attrs.frozen
class _Opened:
    """A registry, the environment that it was opened in, and what it was opened from."""

    registry: Any
    found_by: object
    environment: tuple[object, ...]
    paths: tuple[str, ...]
    seen: bytes


_latest: _Opened | None = None


def unchanged(cls: type[R], *, found_by: object) -> R | None:
    """Return the registry that was opened before, if it would be the same now.

    Parameters
    ----------
    cls : type
        Class of the registry.
    found_by : callable
        What finds the packs.

    Returns
    -------
    Registry or None
    """
    latest = _latest
    if latest is None or type(latest.registry) is not cls or latest.found_by is not found_by:
        return None
    if latest.environment != _environment():
        return None
    if comparable(map(_seen, latest.paths)) != latest.seen:
        return None
    registry: R = latest.registry
    return registry


def keep(registry: object, folders: Iterable[Path], *, found_by: object, since: int) -> None:
    """Keep a registry until anything changes, if that would show.

    Parameters
    ----------
    registry : Registry
        The registry of all installed packs.
    folders : iterable of Path
        Folders of the packs.
    found_by : callable
        What found them.
    since : int
        When it was begun to open it [ns].
    """
    global _latest  # noqa: PLW0603 - one environment at a time
    inside = itertools.chain.from_iterable(_inside(str(folder)) for folder in folders)
    paths = (*(entry or os.curdir for entry in sys.path), *itertools.islice(inside, MOST_ENTRIES))
    seen = list(map(_seen, paths))
    changed = [moment for found in seen if found for moment in found[1:3]]
    if len(paths) <= MOST_ENTRIES and all(since - moment > TICK for moment in changed):
        _latest = _Opened(registry, found_by, _environment(), paths, comparable(seen))


def _environment() -> tuple[object, ...]:
    """Return what else decides which packs are found, and whether they are kept."""
    return (
        tuple(sys.path),
        tuple(map(id, sys.meta_path)),
        os.environ.get("BARWRIGHT_CACHE"),
        _here(),
    )


def _here() -> str:
    try:
        return os.getcwd()  # noqa: PTH109 - a tenth of the time
    except OSError:  # it was removed
        return ""


def _inside(folder: str) -> Iterator[str]:
    """List a folder with all folders and files in it."""
    yield folder
    for inner, folders, files in os.walk(folder):
        yield from (f"{inner}/{name}" for name in (*folders, *files))


def _seen(path: str) -> _Seen:
    """Size, times and inode of a file or a folder."""
    try:
        found = os.stat(path)  # noqa: PTH116 - one of hundreds, in microseconds
    except (OSError, ValueError):
        return None
    return found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino
