"""Which packs are meant by the files and folders that a user names."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from barwright.registry.snapshot import HEADER

__all__ = ["pack_folders"]


def pack_folders(paths: Sequence[Path]) -> list[Path]:
    """List the folders of packs that paths lie in or hold.

    Parameters
    ----------
    paths : sequence of Path
        A pack's folder, a folder with packs below it, or a file of a pack.

    Returns
    -------
    list of Path
        Each once; a path without any stands for itself, so that linting it says so.
    """
    found: dict[Path, None] = {}
    for path in paths:
        found |= dict.fromkeys(_folders(path) or [path])
    return list(found)


def _folders(path: Path) -> list[Path]:
    around = path if path.is_dir() else path.parent
    # Unlike Path.resolve, this bears links that lead to each other.
    above = (around, *around.parents, *Path(os.path.realpath(around)).parents)
    holders = [folder for folder in above if (folder / HEADER).is_file()]
    if path.is_dir() and around not in holders:
        return sorted(header.parent for header in path.rglob(HEADER)) or holders[:1]
    return holders[:1]
