"""What the metadata of installed distributions say of packs, read once.

Reading a thousand of them takes a quarter of a second, asking the file system whether
any has changed a fiftieth of that.  Where their packages lie is not kept: the import
system tells it in 20 µs, and only it knows when that changes.
"""

from __future__ import annotations

import itertools
import os
import sys
import time
from collections import defaultdict
from collections.abc import Iterator
from importlib.machinery import PathFinder
from pathlib import Path
from typing import Any, TypeAlias

import attrs

from barwright.errors import FileError
from barwright.first_use import FIRST_USE
from barwright.registry.files.cache_files import (
    Kind,
    discard,
    file_in,
    newest,
    read_sealed,
    write_sealed,
)
from barwright.registry.files.document import read_bytes
from barwright.registry.files.file_limits import MOST_PACKS
from barwright.registry.files.find_files import is_file
from barwright.registry.files.snapshot import TICK, comparable, digest_of
from barwright.registry.files.user_cache import cache_folder

__all__ = ["GROUP", "PackDistribution", "declared"]

GROUP = "barwright.packs"
"""Entry-point group in which a distribution names its data package."""

_FORMAT = "2"
_MOST_NOTES = 16

# Where a distribution says what it has, and what it is called; the last is of old ones.
_POINTS = "entry_points.txt"
_HEADS = ("METADATA", "PKG-INFO")

_FileStat: TypeAlias = tuple[str, int, int, int, int]
"""Name, size, times of change and inode."""


class _FlawError(Exception):
    """What is wrong with the metadata of a distribution."""


@attrs.frozen
class PackDistribution:
    """A distribution that says it has packs.

    Parameters
    ----------
    name, version : str
        Of the distribution; of one with a flaw, what to call it.
    points : tuple of tuple
        Name and value of each entry point.
    flaw : str
        What is wrong with its metadata; empty if they are good.
    """

    name: str
    version: str
    points: tuple[tuple[str, str], ...] = ()
    flaw: str = ""


def declared(*, cache: bool = True) -> list[PackDistribution]:
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
    latest = max((moment for _, found in stats for one in found for moment in one[2:4]), default=0)
    listing = digest_of((entry, comparable(found)) for entry, found in stats)
    return listing, now - latest > TICK


def _stats(entry: str) -> Iterator[_FileStat]:
    """List each file that may name a pack."""
    try:
        children = os.listdir(entry)  # noqa: PTH208 - thousands of them
    except OSError:
        yield from filter(None, (_stat("", entry),))
        return
    for child in sorted(filter(_is_metadata, children)):
        points = _stat(child, f"{entry}/{child}/{_POINTS}")
        if points is not None:
            yield points
            yield from _stats_of_heads(child, f"{entry}/{child}")


def _stats_of_heads(child: str, folder: str) -> Iterator[_FileStat]:
    """List the files that are read for the name, up to the first that says anything."""
    for name in _HEADS:
        found = _stat(child, f"{folder}/{name}")
        if found is not None:
            yield found
            if found[1]:
                return


def _is_metadata(name: str) -> bool:
    small = name.lower()
    return small.endswith((".dist-info", ".egg-info")) or small == "egg-info"


def _stat(name: str, path: str) -> _FileStat | None:
    try:
        found = os.stat(path)  # noqa: PTH116 - thousands of them
    except (OSError, ValueError):
        return None
    return name, found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino


def _kept(place: Path, listing: str) -> list[PackDistribution] | None:
    """Return what was read before, if nothing has changed since."""
    try:
        table = read_sealed(place)
        if table["listing"] != listing:
            return None
        return [_declared_as(*row) for row in table["declared"]]
    except (LookupError, TypeError, ValueError):
        return None


def _declared_as(name: Any, version: Any, points: Any, flaw: Any) -> PackDistribution:  # noqa: ANN401 - whatever a file holds
    """Make what was declared of what JSON holds; raises if that is something else."""
    pairs = tuple([(point, value) for point, value in points])
    texts = [name, version, flaw, *itertools.chain.from_iterable(pairs)]
    if not all(isinstance(text, str) for text in texts):
        raise TypeError
    return PackDistribution(name, version, pairs, flaw)


def _keep(place: Path, listing: str, found: list[PackDistribution]) -> None:
    """Keep what was read, if that can be done."""
    rows = [[one.name, one.version, one.points, one.flaw] for one in found]
    write_sealed(place, {"listing": listing, "declared": rows})
    for path in newest(place.parent, Kind.DISTRIBUTIONS)[_MOST_NOTES:]:
        discard(path)


def _read() -> list[PackDistribution]:
    """Read the metadata of all distributions."""
    with FIRST_USE:
        import importlib_metadata  # noqa: PLC0415 - not needed while nothing changes

    by_root: dict[str, list[PackDistribution]] = defaultdict(list)
    for distribution in importlib_metadata.distributions():
        by_root[_root(distribution)] += _declared(distribution)
    # Of one folder's distributions, none is first.
    return [one for found in by_root.values() for one in sorted(found, key=attrs.astuple)]


def _root(distribution: Any) -> str:  # noqa: ANN401 - two types by turns
    try:
        return str(distribution.locate_file(""))
    except Exception:  # noqa: BLE001 - whatever kind of distribution a stranger has made
        return ""


def _declared(distribution: Any) -> list[PackDistribution]:  # noqa: ANN401 - two types by turns
    """List what a distribution declares, or what is wrong with that."""
    try:
        text = _text(distribution, _POINTS)
        if GROUP not in text:
            return []
        points = _points(text)
        return [PackDistribution(*_name_and_version(distribution), points)] if points else []
    except _FlawError as flaw:
        return [PackDistribution(_shown(distribution), "", flaw=str(flaw))]
    except Exception:  # noqa: BLE001 - whatever kind of distribution a stranger has made
        return []


def _points(text: str) -> tuple[tuple[str, str], ...]:
    """Name and value of each entry point of a pack."""
    found, group = [], ""
    for line in map(str.strip, text.splitlines()):
        if line.startswith("["):
            group = line.strip("[]")
        elif group == GROUP and line and not line.startswith("#"):
            name, equals, value = (part.strip() for part in line.partition("="))
            if not equals:
                raise _FlawError(_POINTS)
            found.append((name, value))
            if len(found) > MOST_PACKS:
                raise _FlawError(f"more than {MOST_PACKS} entry points in {_POINTS}")
    return tuple(found)


def _name_and_version(distribution: Any) -> tuple[str, str]:  # noqa: ANN401 - two types by turns
    """Read them at the head of the first file that has one, and look no further."""
    text = next(filter(None, (_text(distribution, name) for name in _HEADS)), "")
    fields: dict[str, str] = {}
    for line in text.splitlines():
        name, colon, value = line.partition(":")
        if not colon:
            break
        fields.setdefault(name.lower(), value.strip())
    try:
        return fields["name"], fields["version"]
    except KeyError:
        raise _FlawError(f"{_POINTS} beside a {_HEADS[0]} without name and version") from None


def _text(distribution: Any, name: str) -> str:  # noqa: ANN401 - two types by turns
    """Return a file of a distribution's metadata; empty if there is none."""
    folder = getattr(distribution, "_path", None)
    if not isinstance(folder, Path):  # such as one in an archive
        return distribution.read_text(name) or ""
    path = folder / name
    if not os.path.lexists(path):
        return ""
    # An installer may leave links, but no pipe or device, which would be waited for.
    if not is_file(path):
        raise _FlawError(f"{name} that is no regular file")
    try:
        return read_bytes(path, shown_as=name).decode("utf-8", "replace")
    except FileError as error:
        raise _FlawError(f"{name}: {error.value}") from None


def _shown(distribution: Any) -> str:  # noqa: ANN401 - two types by turns
    """Return a name for an unnamed distribution."""
    folder = getattr(distribution, "_path", None)
    return folder.name if isinstance(folder, Path) else f"a distribution that names {GROUP}"
