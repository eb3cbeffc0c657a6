"""The data files of a folder: listed, told apart by what the file system says, read once."""

from __future__ import annotations

import hashlib
import os
import time
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TypeAlias

import attrs

from barwright.errors import FileError
from barwright.registry.document import read_bytes

__all__ = [
    "HEADER",
    "TICK",
    "FileStat",
    "Snapshot",
    "Stats",
    "digest_of",
    "snapshot_of",
    "stats_of",
]

HEADER = "pack.toml"
"""Name of the file that makes a folder a pack."""

FileStat: TypeAlias = tuple[str, int, int, int, int]
"""Name, size, time of change of content and of anything, inode; size -1 if there is none."""

_MOST_FILES = 4096

# A file that is changed twice within a tick of the file system's clock looks the same
# after the second time; the coarsest clock in use ticks every two seconds.
TICK = 3_000_000_000
"""In nanoseconds."""


@attrs.frozen
class Stats:
    """What the file system says of a folder's data files.

    Parameters
    ----------
    files : tuple of FileStat
        In the order in which they are read.
    is_settled : bool
        Whether any later change of a file would show.
    """

    files: tuple[FileStat, ...]
    is_settled: bool

    @property
    def size(self) -> int:
        """Bytes of all files together."""
        return sum(max(size, 0) for _, size, *_ in self.files)


@attrs.frozen
class Snapshot:
    """A folder's data files as they were read at one time.

    Parameters
    ----------
    folder : Path
        The folder.
    stats : Stats
        Taken before the files were read.
    files : mapping
        Content by name; an error where there is none to be had.
    digest : str
        SHA-256 over names and contents, in hexadecimal.
    """

    folder: Path
    stats: Stats
    files: Mapping[str, bytes | FileError] = attrs.field(repr=False)
    digest: str


def digest_of(items: Iterable[tuple[str, bytes | str]]) -> str:
    """Return the SHA-256 of named pieces, text and bytes kept apart, in hexadecimal."""
    digest = hashlib.sha256()
    for name, content in items:
        data = content if isinstance(content, bytes) else _encoded(content)
        for piece in (_encoded(name), type(content).__name__.encode(), data):
            digest.update(len(piece).to_bytes(8, "big") + piece)
    return digest.hexdigest()


def stats_of(folder: Path, *, suffixes: tuple[str, ...] = (".toml",)) -> Stats:
    """Ask the file system for all data files of a folder and those below it.

    Parameters
    ----------
    folder : Path
        The folder; links to other folders are not followed.
    suffixes : tuple of str
        Of the names of data files.

    Returns
    -------
    Stats
    """
    now = time.time_ns()
    found = sorted(_entries(folder, suffixes), key=lambda entry: entry[0].split("/"))
    links = dict(found[:_MOST_FILES])
    files = tuple(_stat(folder, name) for name in links)
    is_old = all(now - max(modified, changed) > TICK for _, _, modified, changed, _ in files)
    return Stats(files, is_settled=bool(links) and is_old and not any(links.values()))


def snapshot_of(folder: Path) -> Snapshot:
    """Read all data files of a pack's folder.

    Parameters
    ----------
    folder : Path
        The folder; it need not be there.

    Returns
    -------
    Snapshot
        Always with an entry for ``pack.toml``.
    """
    stats = stats_of(folder)
    names = [name for name, *_ in stats.files]
    root = folder.resolve()
    ordered = names if HEADER in names else [HEADER, *names]
    files = {name: _content(folder, name, root) for name in ordered}
    if any(isinstance(content, FileError) for content in files.values()):
        # What could not be read today may be readable tomorrow.
        stats = attrs.evolve(stats, is_settled=False)
    digest = digest_of((n, c if isinstance(c, bytes) else str(c)) for n, c in files.items())
    return Snapshot(folder, stats, files, digest)


def _entries(folder: Path, suffixes: tuple[str, ...]) -> Iterator[tuple[str, bool]]:
    """Name of every data file, and whether it is a link.

    A folder that cannot be listed counts as a file, which then cannot be read.
    """
    waiting = [""]
    while waiting:
        inner = waiting.pop()
        try:
            with os.scandir(folder / inner) as entries:
                for entry in entries:
                    name = f"{inner}/{entry.name}" if inner else entry.name
                    if entry.name.endswith(suffixes):
                        yield name, entry.is_symlink()
                    if entry.is_dir(follow_symlinks=False):
                        waiting.append(name)
        except (OSError, ValueError):
            if inner:
                yield inner, False


def _stat(folder: Path, name: str) -> FileStat:
    try:
        found = os.stat(folder / name)  # noqa: PTH116 - one of thousands
    except (OSError, ValueError):
        return name, -1, 0, 0, 0
    return name, found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino


def _content(folder: Path, name: str, root: Path) -> bytes | FileError:
    try:
        if not _is_inside(folder / name, root):
            return _outside(name)
        return read_bytes(folder / name, shown_as=name)
    except FileError as error:
        return error


def _is_inside(path: Path, root: Path) -> bool:
    try:
        return path.resolve().is_relative_to(root)
    except (OSError, RuntimeError, ValueError):  # such as a link that leads to itself
        return False


def _outside(name: str) -> FileError:
    return FileError(
        "F101",
        value=name,
        expected="a file inside the pack's folder",
        remedy="copy the file instead of linking to it",
        file=name,
    )


def _encoded(text: str) -> bytes:
    """Encode a name, which may hold what is no text."""
    return text.encode("utf-8", "surrogateescape")
