"""Index of the records in packs' folders, rebuilt after a change.

In the cache folder lie indexes, each named by the digest of its bytes, and for each set
of packs a note: which index holds them, and what their files looked like when it was
written.  Any failure here is a cache miss: then the packs are read.
"""

from __future__ import annotations

import contextlib
import functools
import gc
import importlib.util
import itertools
import os
import shutil
import sqlite3
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import attrs

from barwright.errors import PackError
from barwright.registry.files.cache_files import (
    Kind,
    digest_of_file,
    discard,
    file_in,
    is_left_over,
    newest,
    opened,
    temporary,
)
from barwright.registry.files.snapshot import Snapshot, Stats, digest_of, snapshot_of, stats_of
from barwright.registry.files.user_cache import DamagedIndexError, Progress, cache_folder
from barwright.registry.index.build import IndexBuilder
from barwright.registry.index.file import (
    FORMAT,
    IndexFile,
    PackRow,
    open_index,
)
from barwright.registry.index.note import Known, Note, packs_now, read_note, write_note
from barwright.registry.packs.format.pack import Pack
from barwright.registry.packs.format.requirement import own_version
from barwright.registry.packs.load import STANDARDS, load_snapshot, standards

__all__ = ["Indexed", "index_of"]

_MOST_NOTES = 16

# What decides how a pack is read, and what its records are: all rooms that the registry is made
# of, since imports run down only, the steels that every index holds, and the libraries that make
# the records.  Single files beside the rooms count by the version of barwright.
_ROOMS = ("parts", "registry", "standards", "units")
_DECIDING = (".py", ".toml")
_LIBRARIES = ("attrs", "cattrs", "pint")


@attrs.frozen
class Indexed:
    """An index of the requested packs and the standards.

    Parameters
    ----------
    path : Path
        Where it lies.
    file : IndexFile
        The index, open.
    digest : str
        SHA-256 of its bytes.
    packs : tuple of PackRow
        The standards and the packs, in the order in which they were given.
    """

    path: Path
    file: IndexFile
    digest: str
    packs: tuple[PackRow, ...]


def index_of(
    folders: Sequence[tuple[Path, Stats]], *, name: str, progress: Progress | None = None
) -> Indexed | None:
    """Return an index of the packs in some folders, built or brought up to date if need be.

    Parameters
    ----------
    folders : sequence of tuple
        The packs' folders, each with what the file system says of it now.
    name : str
        What the set of packs is known by, so that its next index can go on from this one.
    progress : callable, optional
        Called after each pack that is read.

    Returns
    -------
    Indexed or None
        None if there can be none.
    """
    folder = cache_folder()
    if folder is None:
        return None
    try:
        return _Shelf(folder, name, progress).index([(STANDARDS, stats_of(STANDARDS)), *folders])
    except (OSError, sqlite3.Error, DamagedIndexError):
        return None


class _Shelf:
    """The place of one set of packs in the cache folder."""

    def __init__(self, folder: Path, name: str, progress: Progress | None) -> None:
        self._folder = folder
        named = digest_of([("name", name), ("format", str(FORMAT))])
        self._note = file_in(folder, named, Kind.NOTE)
        self._noted: Note | None = None
        self._progress = progress

    def index(self, folders: Sequence[tuple[Path, Stats]]) -> Indexed:
        """Return the index of the packs in some folders."""
        before = self._read_notes()
        packs = packs_now(folders, before)
        # Another process may just have put a newer index in place of the one that was noted.
        found = self._found(before, packs) or self._found(self._read_notes(), packs)
        return found or self._built(before, packs)

    def _read_notes(self) -> Note | None:
        """Read this set's note anew, keep it, and return it or, without one, another set's newest.

        Only a note of a library that reads packs as this one does is returned.
        """
        self._noted = read_note(self._note)
        others = (read_note(path) for path in newest(self._folder, Kind.NOTE))
        notes = itertools.chain((self._noted,), others)
        return next((note for note in notes if note and note.state == library_state()), None)

    def _found(self, note: Note | None, packs: tuple[Known, ...]) -> Indexed | None:
        """Return the index that is noted, if it holds these packs and no others."""
        if note is None or note.digests != {known.digest for known in packs}:
            return None
        found = self._opened(note.index, packs, seen=note.seen)
        if found is not None:
            self._write(Note(note.index, library_state(), packs, found.file.seen))
        return found

    def _opened(
        self, digest: str, packs: tuple[Known, ...], *, seen: Sequence[int] = ()
    ) -> Indexed | None:
        path = self._path(digest)
        file = open_index(path, digest, seen=seen)
        if file is None:
            return None
        rows = file.packs()
        if not all(known.digest in rows for known in packs):
            return None
        return Indexed(path, file, digest, tuple(rows[known.digest] for known in packs))

    def _built(self, before: Note | None, packs: tuple[Known, ...]) -> Indexed:
        """Write an index of these packs."""
        with temporary(self._folder) as part:
            self._go_on(part, before, packs)
            with contextlib.closing(IndexBuilder(part)) as builder:
                packs = self._filled(builder, packs)
                digest = builder.finish()
            # Where one of this name is open, it cannot be replaced, nor need it be.
            with contextlib.suppress(OSError):
                part.replace(self._path(digest))
        found = self._opened(digest, packs)
        if found is None:
            raise DamagedIndexError
        superseded = self._noted.index if self._noted else ""
        self._write(Note(digest, library_state(), packs))
        _sweep(self._folder, superseded)
        return found

    def _go_on(self, part: Path, before: Note | None, packs: tuple[Known, ...]) -> None:
        """Begin with the index that was there before, if most of it is wanted still."""
        wanted = {known.digest for known in packs}
        if before is None or len(before.digests & wanted) * 2 < len(before.digests):
            return
        if open_index(self._path(before.index), before.index) is None:
            return
        with (
            contextlib.suppress(OSError),
            opened(self._path(before.index)) as old,
            part.open("wb") as new,
        ):
            shutil.copyfileobj(old, new)
        if digest_of_file(part) != before.index:
            part.write_bytes(b"")

    def _filled(self, builder: IndexBuilder, packs: tuple[Known, ...]) -> tuple[Known, ...]:
        """Take packs out of an index, and put packs in, until it holds these."""
        builder.drop(builder.digests() - {known.digest for known in packs})
        held = builder.digests()
        missing = list(dict.fromkeys(known for known in packs if known.digest not in held))
        added: dict[Known, Known] = {}
        for done, known in enumerate(missing, start=1):
            with _without_collection():
                added[known] = _added(builder, held, known)
            if self._progress is not None:
                self._progress(done, len(missing))
        return tuple(added.get(known, known) for known in packs)

    def _write(self, note: Note) -> None:
        if self._noted != note:
            write_note(self._note, note)

    def _path(self, digest: str) -> Path:
        return file_in(self._folder, digest, Kind.INDEX)


@contextlib.contextmanager
def _without_collection() -> Iterator[None]:
    """Look for no garbage while a pack is read, of which all stays and then all goes.

    A quarter of the time would go into looking through everything else that there is.
    """
    was_enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_enabled:
            gc.enable()


def _added(builder: IndexBuilder, held: set[str], known: Known) -> Known:
    """Put a pack into an index as it is by now."""
    if known.folder == str(STANDARDS):
        return _with_standards(builder, known)
    snapshot = snapshot_of(Path(known.folder))
    if snapshot.digest not in held:
        builder.add(snapshot.digest, _loaded(snapshot))
        held.add(snapshot.digest)
    return Known(known.folder, snapshot.stats, snapshot.digest)


def _with_standards(builder: IndexBuilder, known: Known) -> Known:
    pack = standards()
    if pack.digest != known.digest:  # the library was replaced while it ran
        raise DamagedIndexError
    builder.add(pack.digest, pack)
    return known


def _loaded(snapshot: Snapshot) -> Pack | PackError:
    try:
        return load_snapshot(snapshot, origin="")
    except PackError as error:
        return error


@functools.cache
def library_state() -> str:
    """Return a digest of all that decides how packs are read, beside the packs.

    Raises
    ------
    OSError
        If that cannot be found out.
    """
    package = Path(__file__).parents[2]
    files = sorted(
        (folder, name)
        for room in _ROOMS
        for folder, _, names in os.walk(package / room)
        for name in names
        if name.endswith(_DECIDING)
    )
    if not files:
        raise FileNotFoundError(package)
    items = [(name, _written(f"{folder}/{name}")) for folder, name in files]
    items.append(("barwright", own_version().encode()))
    for library in _LIBRARIES:
        spec = importlib.util.find_spec(library)
        items.append((library, _written(spec.origin or "") if spec else b""))
    return digest_of([("python", sys.version), ("format", str(FORMAT)), *items])


def _written(path: str) -> bytes:
    """Size of a file, and when it was written."""
    found = os.stat(path)  # noqa: PTH116 - one of hundreds
    return repr((found.st_size, found.st_mtime_ns)).encode()


def _sweep(folder: Path, superseded: str) -> None:
    """Remove what no set of packs in use has named, and what killed writers left behind."""
    notes = newest(folder, Kind.NOTE)
    for path in notes[_MOST_NOTES:]:
        discard(path)
    read = (read_note(path) for path in notes[:_MOST_NOTES])
    named = {note.index for note in read if note}
    for path in newest(folder, Kind.INDEX):
        if path.stem not in named and (path.stem == superseded or is_left_over(path)):
            discard(path)
    for path in newest(folder, Kind.PART):
        if is_left_over(path):
            discard(path)
