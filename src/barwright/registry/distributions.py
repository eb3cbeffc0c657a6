"""What the metadata of installed distributions say of packs, read once.

Reading a thousand of them takes a quarter of a second, asking the file system whether
any has changed a fiftieth of that.  Where their packages lie is not kept: the import
system tells it in 20 µs, and only it knows when that changes.
"""

from __future__ import annotations

import os
import sys
import time
from collections import defaultdict
from collections.abc import Iterator
from importlib.machinery import PathFinder
from pathlib import Path
from typing import Any

import attrs

from barwright.first_use import FIRST_USE
from barwright.registry.cache import cache_folder
from barwright.registry.cache_file import (
    Kind,
    discard,
    file_in,
    newest,
    read_sealed,
    write_sealed,
)
from barwright.registry.snapshot import TICK, digest_of

__all__ = ["GROUP", "Declared", "declared"]

GROUP = "barwright.packs"
"""Entry-point group in which a distribution names its data package."""

_FORMAT = "2"
_MOST_NOTES = 16

# Where a distribution says what it is called and what it has; the last is of old ones.
_FILES = ("entry_points.txt", "METADATA", "PKG-INFO")


@attrs.frozen
class Declared:
    """A distribution that says it has packs.

    Parameters
    ----------
    name, version : str
        Of the distribution; of a broken one the name is all that it says.
    points : tuple of tuple
        Name and value of each entry point.
    is_broken : bool
        Whether what it says cannot be understood.
    """

    name: str
    version: str
    points: tuple[tuple[str, str], ...] = ()
    is_broken: bool = False


def declared(*, cache: bool = True) -> list[Declared]:
    """List the distributions on the path that say they have packs, in the path's order.

    Parameters
    ----------
    cache : bool
        Whether what was read may be kept, and used while it is true.

    Returns
    -------
    list of Declared
    """
    folder = cache_folder() if cache and _is_ordinary() else None
    if folder is None:
        return _read()
    named = digest_of([("format", _FORMAT), *(("entry", entry) for entry in sys.path)])
    place = file_in(folder, named, Kind.DISTRIBUTIONS)
    listing, is_settled = _listed()
    kept = _kept(place, listing)
    if kept is None:
        kept = _read()
        if is_settled:
            _keep(place, listing, kept)
    return kept


def _is_ordinary() -> bool:
    """Tell whether all distributions are found by listing the folders of the path."""
    finders = [finder for finder in sys.meta_path if hasattr(finder, "find_distributions")]
    return all(
        finder is PathFinder or type(finder).__module__.partition(".")[0] == "importlib_metadata"
        for finder in finders
    )


def _listed() -> tuple[str, bool]:
    """Digest of what the file system says of all distributions, and whether a change would show."""
    now = time.time_ns()
    stats = [(entry, list(_stats(entry or "."))) for entry in sys.path]
    changed = (time for _, found in stats for _, _, *times, _ in found for time in times)
    listing = digest_of((entry, repr(found)) for entry, found in stats)
    return listing, all(now - time > TICK for time in changed)


def _stats(entry: str) -> Iterator[tuple[str, int, int, int, int]]:
    """Name, size, times of change and inode of each file that may name a pack."""
    try:
        children = sorted(os.listdir(entry))  # noqa: PTH208 - thousands of them
    except OSError:
        yield from _stat("", entry)
        return
    for child in children:
        if child.lower().endswith((".dist-info", ".egg-info")) or child.lower() == "egg-info":
            points, *others = _FILES
            known = list(_stat(child, f"{entry}/{child}/{points}"))
            yield from known
            for other in others if known else ():
                yield from _stat(child, f"{entry}/{child}/{other}")


def _stat(name: str, path: str) -> Iterator[tuple[str, int, int, int, int]]:
    try:
        found = os.stat(path)  # noqa: PTH116 - thousands of them
    except (OSError, ValueError):
        return
    yield name, found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino


def _kept(place: Path, listing: str) -> list[Declared] | None:
    """Return what was read before, if nothing has changed since."""
    try:
        table = read_sealed(place)
        if table["listing"] != listing:
            return None
        return [_declared_as(*row) for row in table["declared"]]
    except (LookupError, TypeError, ValueError):
        return None


def _declared_as(name: Any, version: Any, points: Any, is_broken: Any) -> Declared:  # noqa: ANN401 - whatever a file holds
    """Make what was declared of what JSON holds; raises if that is something else."""
    pairs = tuple((point, value) for point, value in points)
    texts = (name, version, *(text for pair in pairs for text in pair))
    if not all(isinstance(text, str) for text in texts) or not isinstance(is_broken, bool):
        raise TypeError
    return Declared(name, version, pairs, is_broken)


def _keep(place: Path, listing: str, found: list[Declared]) -> None:
    """Keep what was read, if that can be done."""
    rows = [[one.name, one.version, one.points, one.is_broken] for one in found]
    write_sealed(place, {"listing": listing, "declared": rows})
    for path in newest(place.parent, Kind.DISTRIBUTIONS)[_MOST_NOTES:]:
        discard(path)


def _read() -> list[Declared]:
    """Read the metadata of all distributions."""
    with FIRST_USE:
        import importlib_metadata  # noqa: PLC0415 - not needed while nothing changes

    by_root: dict[str, list[Declared]] = defaultdict(list)
    for distribution in importlib_metadata.distributions():
        by_root[_root(distribution)] += _declared(distribution)
    # Of one folder's distributions, none is first.
    return [one for found in by_root.values() for one in sorted(found, key=attrs.astuple)]


def _root(distribution: Any) -> str:  # noqa: ANN401 - two types by turns
    try:
        return str(distribution.locate_file(""))
    except Exception:  # noqa: BLE001 - whatever kind of distribution a stranger has made
        return ""


def _declared(distribution: Any) -> list[Declared]:  # noqa: ANN401 - two types by turns
    """List what a distribution declares, or that it cannot be understood."""
    try:
        points = distribution.entry_points.select(group=GROUP)
        if not points:
            return []
        found = tuple((str(point.name), str(point.value)) for point in points)
        return [Declared(str(distribution.name), str(distribution.version), found)]
    except Exception:  # noqa: BLE001 - whatever is wrong with the metadata of a stranger
        text = _raw(distribution)
        return [Declared(text, "", is_broken=True)] if GROUP in text else []


def _raw(distribution: Any) -> str:  # noqa: ANN401 - as above
    """Return what its entry points say, however damaged; empty if nothing can be read."""
    try:
        return distribution.read_text("entry_points.txt") or ""
    except UnicodeDecodeError as error:
        return error.object.decode("utf-8", "replace")
    except Exception:  # noqa: BLE001 - as above
        return ""
