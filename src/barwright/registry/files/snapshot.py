"""The data files of a folder: listed, identified by the file system, read once."""

from __future__ import annotations

import hashlib
import itertools
import marshal
import os
import stat
import time
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TypeAlias

import attrs

from barwright.errors import FileError
from barwright.registry.files.document import Opener, read_bytes
from barwright.registry.files.file_limits import (
    LARGEST_FILE,
    LARGEST_PACK,
    MOST_ENTRIES,
    MOST_FILES,
)
from barwright.registry.files.file_names import check_name
from barwright.registry.files.find_files import is_file, is_folder
from barwright.registry.files.open_inside import opener_in

__all__ = [
    "HEADER",
    "TICK",
    "FileStat",
    "Snapshot",
    "Stats",
    "comparable",
    "digest_of",
    "snapshot_of",
    "stats_of",
]

HEADER = "pack.toml"
"""Name of the file that makes a folder a pack."""

FileStat: TypeAlias = tuple[str, int, int, int, int]
"""Name, size, times of change of content and of anything, inode; size -1 if no regular file."""

_SUFFIX = ".toml"

# A file that is changed twice within a tick of the file system's clock looks the same
# after the second time; the coarsest clock in use ticks every two seconds.
TICK = 3_000_000_000
"""In nanoseconds."""

# Version of the form of Python's own in which equal values are equal bytes.
_SAME_BYTES = 2


@attrs.frozen
class Stats:
    """What the file system says of a folder's data files.

    Parameters
    ----------
    files : tuple of FileStat
        In the order in which they are read.
    is_settled : bool
        Whether any later change of a file would show.
    excess : str
        What there is more of than a pack can have; then nothing else need be right.
    """

    files: tuple[FileStat, ...]
    is_settled: bool
    excess: str = ""

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

    def text(self, name: str) -> str:
        """Return a file as text; empty where it is none."""
        content = self.files.get(name)
        try:
            return content.decode("utf-8-sig") if isinstance(content, bytes) else ""
        except UnicodeDecodeError:
            return ""


def digest_of(items: Iterable[tuple[str, bytes | str]]) -> str:
    """Return the SHA-256 of named pieces, text and bytes kept apart, in hexadecimal."""
    digest = hashlib.sha256()
    for name, content in items:
        data = content if isinstance(content, bytes) else _encoded(content)
        for piece in (_encoded(name), type(content).__name__.encode(), data):
            digest.update(len(piece).to_bytes(8, "big") + piece)
    return digest.hexdigest()


def comparable(seen: Iterable[tuple[int | str, ...] | None]) -> bytes:
    """Write what the file system says of many files in a sixth of its memory, to be compared.

    Parameters
    ----------
    seen : iterable of tuple
        Numbers and names of each file; None for one that is not there.

    Returns
    -------
    bytes
        Equal where all of it is equal, in a fifth of the time that text would take.
    """
    return marshal.dumps(list(seen), _SAME_BYTES)


def stats_of(folder: Path) -> Stats:
    """Ask the file system for all data files of a folder and those below it.

    Parameters
    ----------
    folder : Path
        The folder.  Links to other folders are not followed, and what is hidden, its
        name beginning with a point, is passed over.

    Returns
    -------
    Stats
    """
    now = time.time_ns()
    entries = list(itertools.islice(_entries(folder), MOST_ENTRIES + 1))
    names = sorted(set(entries) - {""}, key=lambda name: name.split("/"))
    if excess := _excess(len(entries), len(names)):
        return Stats((), is_settled=False, excess=excess)
    files = tuple(_stat(folder, name) for name in names)
    sizes = [size for _, size, *_ in files]
    is_old = all(now - max(modified, changed) > TICK for _, _, modified, changed, _ in files)
    is_settled = bool(files) and is_old and min(sizes) >= 0
    excess = _excess(size=sum(min(size, LARGEST_FILE) for size in sizes))
    return Stats(files, is_settled=is_settled, excess=excess)


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
    files = _contents(folder, stats)
    if any(isinstance(content, FileError) for content in files.values()):
        # What could not be read today may be readable tomorrow.
        stats = attrs.evolve(stats, is_settled=False)
    digest = digest_of((n, c if isinstance(c, bytes) else str(c)) for n, c in files.items())
    return Snapshot(folder, stats, files, digest)


def _entries(folder: Path) -> Iterator[str]:
    """Name of every data file, and an empty one for all else that had to be looked at.

    A folder that cannot be listed counts as a file, which then cannot be read.
    """
    waiting = [""]
    while waiting:
        inner = waiting.pop()
        try:
            with os.scandir(folder / inner) as entries:
                for entry in entries:
                    name = f"{inner}/{entry.name}" if inner else entry.name
                    is_hidden = entry.name.startswith(".")
                    yield name if _is_data(entry.name) and not is_hidden else ""
                    if entry.is_dir(follow_symlinks=False) and not is_hidden:
                        waiting.append(name)
        except (OSError, ValueError):
            if inner:
                yield inner


def _is_data(name: str) -> bool:
    """Tell a data file by its name, which may have the wrong case."""
    return name[-len(_SUFFIX) :].lower() == _SUFFIX


def _excess(entries: int = 0, files: int = 0, size: int = 0) -> str:
    """Tell what there is more of than a pack can have."""
    limits = (
        (entries, MOST_ENTRIES, "files and folders"),
        (files, MOST_FILES, "data files"),
        (size, LARGEST_PACK, "bytes of data"),
    )
    return next((f"more than {most} {what}" for count, most, what in limits if count > most), "")


def _stat(folder: Path, name: str) -> FileStat:
    try:
        found = os.lstat(os.path.join(folder, name))  # noqa: PTH118 - one of thousands
    except (OSError, ValueError):
        return name, -1, 0, 0, 0
    size = found.st_size if stat.S_ISREG(found.st_mode) else -1
    return name, size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino


def _contents(folder: Path, stats: Stats) -> dict[str, bytes | FileError]:
    """Read all files, or tell in place of the first that they are too many or too large."""
    if stats.excess:
        return {HEADER: _too_much(stats.excess)}
    names = [name for name, *_ in stats.files]
    opener = opener_in(folder)
    # The header's place is the first, whether there is one or not.
    files: dict[str, bytes | FileError] = {} if HEADER in names else {HEADER: _no_header(folder)}
    size = 0
    for name in names:
        files[name] = content = _content(name, opener)
        size += len(content) if isinstance(content, bytes) else 0
        if excess := _excess(size=size):  # they grew since they were looked at
            return {HEADER: _too_much(excess)}
    return files


def _content(name: str, opener: Opener) -> bytes | FileError:
    try:
        check_name(name)
        return read_bytes(Path(name), shown_as=name, opener=opener)
    except FileError as error:
        return error


def _no_header(folder: Path) -> FileError:
    if is_file(folder):
        return FileError(
            "F101",
            value="a file",
            expected=f"a folder with a {HEADER} in it",
            remedy=f"if it is an archive, unpack it and name the folder with {HEADER}; if it lies "
            "in that folder, name the folder",
            file=HEADER,
        )
    return FileError(
        "F101",
        value=f"no {HEADER}" if is_folder(folder) else "no folder",
        expected=f"a folder with a {HEADER} in it",
        remedy="check the name and the permissions of the folder, or name one that is a pack",
        file=HEADER,
    )


def _too_much(excess: str) -> FileError:
    return FileError(
        "F107",
        value=excess,
        expected="fewer files and folders in a pack",
        remedy="move everything that is not data out of the folder, or make two packs",
        file=HEADER,
    )


def _encoded(text: str) -> bytes:
    """Encode a name, which may hold what is no text."""
    return text.encode("utf-8", "surrogateescape")
