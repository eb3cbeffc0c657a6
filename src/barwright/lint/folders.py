"""Find the packs in the files and folders that a user names."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from barwright.registry.files.find_files import files_below, is_file, is_folder
from barwright.registry.files.snapshot import HEADER

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
        Each once.  A path without any, and a folder that cannot be searched, stands for
        itself, so that linting it says so.
    """
    found: dict[Path, None] = {}
    for path in paths:
        found |= dict.fromkeys(_folders(path) or [path])
    return list(found)


def _folders(path: Path) -> list[Path]:
    around = path if is_folder(path) else path.parent
    # Unlike Path.resolve, this bears links that lead to each other.
    above = (around, *around.parents, *Path(os.path.realpath(around)).parents)
    holders = [folder for folder in above if _is_pack(folder)]
    if is_folder(path) and around not in holders:
        headers, unreadable = files_below(path, lambda name: name == HEADER)
        return sorted([*(header.parent for header in headers), *unreadable]) or holders[:1]
    return holders[:1]


def _is_pack(folder: Path) -> bool:
    return is_file(folder / HEADER)
