"""Find the packs in a folder that a user names."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from os import PathLike
from pathlib import Path

from barwright.registry.discovery.entry_points import LocatedPack
from barwright.registry.files.find_files import files_below, is_file, is_folder
from barwright.registry.files.snapshot import HEADER

__all__ = ["is_pack", "located_in", "packs_in"]


def located_in(folder: str | PathLike[str]) -> Iterator[LocatedPack]:
    """Find the packs that a folder is or holds.

    Parameters
    ----------
    folder : path
        As it was named.  One without a pack is listed too; an error says so when it is opened.

    Yields
    ------
    LocatedPack
    """
    inside: Sequence[str | PathLike[str]] = (
        [folder] if is_pack(Path(folder)) else packs_in(Path(folder))
    )
    for found in inside or [folder]:
        # What the current folder is later must not decide what is read again.
        yield LocatedPack(str(found), folder=Path(found).absolute())


def packs_in(folder: Path) -> list[Path]:
    """List the packs that a folder is or holds, at any depth; links are not followed.

    Parameters
    ----------
    folder : Path
        A pack's own folder, or one with packs below it.

    Returns
    -------
    list of Path
        Their folders, and those below that cannot be searched: to open one says so.
    """
    if is_pack(folder):
        return [folder]
    if not is_folder(folder):
        return []
    headers, unreadable = files_below(folder, lambda name: name == HEADER)
    return sorted([*(header.parent for header in headers), *unreadable])


def is_pack(folder: Path) -> bool:
    """Whether a folder is a pack: it has a ``pack.toml`` in it."""
    return is_file(folder / HEADER)
