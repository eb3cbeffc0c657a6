"""Open a file safely inside a folder.

A pack must not read outside its folder, and nothing that it is made of may keep a reader
waiting.  No link is followed, and only a regular file is opened: not even a file that
is exchanged for a link while it is looked at leads out of the folder.
"""

from __future__ import annotations

import functools
import os
import stat
from pathlib import Path

from barwright.errors import FileError
from barwright.registry.files.document import Opener

__all__ = ["opener_in"]

_CAN_OPEN_BY_PART = {os.open, os.stat} <= os.supports_dir_fd and hasattr(os, "O_NOFOLLOW")

# A pipe in place of the file would be waited for.
_AT_ONCE = getattr(os, "O_NONBLOCK", 0)
_NO_LINK = getattr(os, "O_NOFOLLOW", 0)
_FOLDER = os.O_RDONLY | getattr(os, "O_DIRECTORY", 0) | getattr(os, "O_CLOEXEC", 0)

_KINDS = ((stat.S_ISLNK, "a link"), (stat.S_ISDIR, "a folder"))


def opener_in(folder: Path) -> Opener:
    """Return a way to open regular files of a folder by their names in it.

    Parameters
    ----------
    folder : Path
        The folder, or a link to it.

    Returns
    -------
    callable
        Takes a name with ``/`` between its parts.  Raises F109 if it is no regular
        file, and an error of the system if it cannot be opened.
    """
    return functools.partial(_open_by_part if _CAN_OPEN_BY_PART else _open_by_path, folder)


def _open_by_part(folder: Path, name: str, flags: int) -> int:
    """Open each folder in the one before, so that none can be exchanged on the way."""
    *around, last = name.split("/")
    place = os.open(folder, _FOLDER)
    try:
        for part in around:
            inner = os.open(part, _FOLDER | _NO_LINK, dir_fd=place)
            os.close(place)
            place = inner
        # To open a device can have an effect.
        _check_kind(os.stat(last, dir_fd=place, follow_symlinks=False), name)
        descriptor = os.open(last, flags | _NO_LINK | _AT_ONCE, dir_fd=place)
    finally:
        os.close(place)
    return _checked(descriptor, name)


def _open_by_path(folder: Path, name: str, flags: int) -> int:
    """Open a file where the system cannot open it by part."""
    path = os.path.join(folder, name)  # noqa: PTH118 - the same form as that below
    if os.path.realpath(path) != os.path.join(os.path.realpath(folder), *name.split("/")):  # noqa: PTH118
        raise _not_regular("a link", name)
    before = os.lstat(path)
    _check_kind(before, name)
    descriptor = os.open(path, flags | _AT_ONCE)
    return _checked(descriptor, name, before)


def _checked(descriptor: int, name: str, before: os.stat_result | None = None) -> int:
    """Return a descriptor, unless what it leads to was put there in between."""
    found = os.fstat(descriptor)
    try:
        _check_kind(found, name)
        if before is not None and not os.path.samestat(before, found):
            raise _not_regular("a file that was exchanged", name)
    except FileError:
        os.close(descriptor)
        raise
    return descriptor


def _check_kind(found: os.stat_result, name: str) -> None:
    if not stat.S_ISREG(found.st_mode):
        kinds = (kind for is_kind, kind in _KINDS if is_kind(found.st_mode))
        raise _not_regular(next(kinds, "a pipe or a device"), name)


def _not_regular(kind: str, name: str) -> FileError:
    return FileError(
        "F109",
        value=kind,
        expected="a regular file",
        remedy="put the file itself there, or remove this name",
        file=name,
    )
