"""Find the packs in the files and folders that a user names."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from barwright.registry.discovery.in_folders import is_pack, packs_in
from barwright.registry.files.find_files import is_folder

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
    holders = [folder for folder in above if is_pack(folder)]
    inside = packs_in(path) if around not in holders else []
    return inside or holders[:1]
