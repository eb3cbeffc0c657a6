"""What is kept beside an index: which packs it holds, and what their files looked like."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any, Self

import attrs

from barwright.registry.files.cache_files import is_digest, read_sealed, write_sealed
from barwright.registry.files.snapshot import Stats, snapshot_of

__all__ = ["Known", "Note", "packs_now", "read_note", "write_note"]


@attrs.frozen
class Known:
    """A pack's folder as it was when it was last looked at.

    Parameters
    ----------
    folder : str
        Path of the folder.
    stats : Stats
        What the file system said of its files.
    digest : str
        SHA-256 of its files.
    """

    folder: str
    stats: Stats
    digest: str


@attrs.frozen
class Note:
    """Which index holds a set of packs.

    Parameters
    ----------
    index : str
        Digest and name of the index.
    state : str
        State of the library that wrote it: a digest of all that decides how packs are read.
    packs : tuple of Known
        The standards, and then every pack in the order in which it was asked for.
    seen : tuple of int
        What the file system said of the index when its digest was last looked at; empty where
        a change of it might not have shown.
    """

    index: str
    state: str
    packs: tuple[Known, ...]
    seen: tuple[int, ...] = ()

    @property
    def digests(self) -> frozenset[str]:
        """Digests of all packs that the index holds, and of no other."""
        return frozenset(known.digest for known in self.packs)

    @classmethod
    def of(cls, table: Any) -> Self:  # noqa: ANN401 - whatever the file holds
        """Make a note of what JSON holds; raises if that is no note."""
        packs = tuple(
            Known(folder, Stats(tuple(map(tuple, files)), is_settled=settled is True), digest)
            for folder, files, settled, digest in table["packs"]
        )
        digests = (table["index"], *(known.digest for known in packs))
        seen = tuple(table["seen"])
        texts = (table["state"], *(known.folder for known in packs))
        if not all(map(is_digest, digests)) or not all(isinstance(text, str) for text in texts):
            raise ValueError
        if not all(type(number) is int for number in seen):
            raise ValueError
        return cls(index=table["index"], state=table["state"], packs=packs, seen=seen)

    def plain(self) -> dict[str, Any]:
        """Return what JSON can hold."""
        return {
            "index": self.index,
            "state": self.state,
            "seen": self.seen,
            "packs": [
                [known.folder, known.stats.files, known.stats.is_settled, known.digest]
                for known in self.packs
            ],
        }


def read_note(path: Path) -> Note | None:
    """Read a note; none if it is not there whole."""
    try:
        return Note.of(read_sealed(path))
    except (LookupError, TypeError, ValueError):
        return None


def write_note(path: Path, note: Note) -> None:
    """Write a note, if that can be done."""
    write_sealed(path, note.plain())


def packs_now(folders: Iterable[tuple[Path, Stats]], before: Note | None) -> tuple[Known, ...]:
    """Look at packs' folders, and read those that may have changed.

    Parameters
    ----------
    folders : iterable of tuple
        Each with what the file system says of it now.
    before : Note, optional
        What was known of them.

    Returns
    -------
    tuple of Known
    """
    known = {one.folder: one for one in before.packs} if before else {}
    return tuple(_pack_now(folder, now, known.get(str(folder))) for folder, now in folders)


def _pack_now(folder: Path, now: Stats, before: Known | None) -> Known:
    if before and before.stats.is_settled and before.stats.files == now.files:
        return before
    snapshot = snapshot_of(folder)
    return Known(str(folder), snapshot.stats, snapshot.digest)
