"""The user's cache folder: where it lies, and whether it may be used.

Nothing here is needed: whatever cannot be had is a cache miss.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TypeAlias

__all__ = ["DamagedIndexError", "Progress", "cache_folder", "conventional"]

Progress: TypeAlias = Callable[[int, int], None]
"""Called with the count of packs that were read, and of those that are to be."""

_VARIABLE = "BARWRIGHT_CACHE"

# The folder that a user names may hold files of the user's own.
_OWN = "barwright-cache"


class DamagedIndexError(Exception):
    """What was taken from the cache changed while it was open, or cannot be read any more.

    No error of the data: where a record is made of many pieces, whose problems are gathered,
    it is raised again.
    """


def cache_folder() -> Path | None:
    """Return the library's own folder inside the user's cache folder, made if need be.

    ``BARWRIGHT_CACHE`` names another cache folder, or switches it off with ``off``.

    Returns
    -------
    Path or None
        None if there is none to be had, or if others can write to it.
    """
    chosen = os.environ.get(_VARIABLE, "")
    if chosen.strip().lower() == "off":
        return None
    try:
        around = Path(chosen).absolute() if chosen else conventional(sys.platform, os.environ)
        around.mkdir(mode=0o700, parents=True, exist_ok=True)
        folder = around / _OWN
        folder.mkdir(mode=0o700, exist_ok=True)
        return folder if _is_private(around) and _is_private(folder) else None
    except (OSError, RuntimeError):  # such as no home
        return None


def conventional(platform: str, environment: Mapping[str, str]) -> Path:
    """Return the cache folder by the convention of a platform.

    Parameters
    ----------
    platform : str
        As ``sys.platform`` names it.
    environment : mapping of str to str
        Its variables.

    Returns
    -------
    Path

    Raises
    ------
    RuntimeError
        If the user has no home.
    """
    if platform == "win32":
        local = environment.get("LOCALAPPDATA")
        return (Path(local) if local else Path.home() / "AppData" / "Local") / "barwright" / "Cache"
    if platform == "darwin":
        return Path.home() / "Library" / "Caches" / "barwright"
    stated = Path(environment.get("XDG_CACHE_HOME", ""))
    return (stated if stated.is_absolute() else Path.home() / ".cache") / "barwright"


def _is_private(folder: Path) -> bool:
    """Whether nobody else can put anything into a folder."""
    if not hasattr(os, "geteuid"):
        return True
    found = folder.stat()
    return found.st_uid == os.geteuid() and not found.st_mode & 0o022
