"""Finding files below a folder, and the folders that cannot be searched."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

__all__ = ["files_below", "is_file", "is_folder"]


def files_below(folder: Path, is_wanted: Callable[[str], bool]) -> tuple[list[Path], list[Path]]:
    """Look for files in a folder and in those below it; links to folders are not followed.

    Parameters
    ----------
    folder : Path
        Where to begin.
    is_wanted : callable
        Tells a file that is looked for by its name.

    Returns
    -------
    tuple
        The files, without pipes and devices, since opening one is to wait for whoever writes
        to it; and the folders that cannot be searched.
    """
    errors: list[OSError] = []
    files = [
        Path(inner, name)
        for inner, _, names in os.walk(folder, onerror=errors.append)
        for name in names
        if is_wanted(name) and _may_be_read(Path(inner, name))
    ]
    return files, [Path(error.filename) for error in errors]


def is_folder(path: Path) -> bool:
    """Whether this is a folder.

    Unlike ``Path.is_dir``, this raises for no path: not for a name that is too long, and not
    where the folder around it is closed.
    """
    return os.path.isdir(path)  # noqa: PTH112 - as said


def is_file(path: Path) -> bool:
    """Tell a regular file from all else, like :func:`is_folder` without an error."""
    return os.path.isfile(path)  # noqa: PTH113 - as said


def _may_be_read(path: Path) -> bool:
    """Tell a file, or what only reading it can tell about."""
    try:
        return path.is_file()
    except OSError:
        return True
