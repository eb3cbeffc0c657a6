"""The user's cache folder, and files in it that prove themselves.

Nothing here is needed: whatever cannot be read or written is as if it were not there.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, TypeAlias

__all__ = [
    "TEMPORARY",
    "DamagedIndexError",
    "Progress",
    "cache_folder",
    "conventional",
    "discard",
    "is_left_over",
    "newest",
    "read_sealed",
    "temporary",
    "write_sealed",
]

Progress: TypeAlias = Callable[[int, int], None]
"""Called with the count of packs that were read, and of those that are to be."""

_VARIABLE = "BARWRIGHT_CACHE"
TEMPORARY = ".new-"
"""Beginning of the name of a file that is being written."""

# A writer that is still at work is younger than this, and so is what it has put in
# place but not yet named anywhere.
_GRACE = 3600.0


class DamagedIndexError(BaseException):
    """What was taken from the cache changed while it was open, or cannot be read any more.

    No exception of the usual kind, since whoever makes a record of many pieces gathers
    those as problems of the record.
    """


def cache_folder() -> Path | None:
    """Return the user's cache folder, made if need be.

    ``BARWRIGHT_CACHE`` names another one, or switches it off with ``off``.

    Returns
    -------
    Path or None
        None if there is none to be had, or if others can write to it.
    """
    chosen = os.environ.get(_VARIABLE, "")
    if chosen.strip().lower() == "off":
        return None
    try:
        folder = Path(chosen).absolute() if chosen else conventional(sys.platform, os.environ)
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        return folder if _is_own(folder) else None
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


def _is_own(folder: Path) -> bool:
    """Whether nobody else can put anything into a folder."""
    if not hasattr(os, "geteuid"):
        return True
    found = folder.stat()
    return found.st_uid == os.geteuid() and not found.st_mode & 0o022


def read_sealed(path: Path) -> Any:  # noqa: ANN401 - whatever JSON holds
    """Read a file that :func:`write_sealed` has written.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    object
        What was written; None if it is not there whole.
    """
    try:
        seal, _, text = path.read_bytes().partition(b"\n")
    except OSError:
        return None
    if seal != _seal(text):
        return None
    return json.loads(text)


def write_sealed(path: Path, value: object) -> bool:
    """Write a file in one step, under a digest of its own.

    Parameters
    ----------
    path : Path
        The file.
    value : object
        Anything that JSON holds.

    Returns
    -------
    bool
        Whether it is there now.
    """
    text = json.dumps(value, separators=(",", ":")).encode("ascii")
    try:
        with temporary(path.parent) as part:
            with part.open("wb") as file:
                file.write(_seal(text) + b"\n" + text)
                file.flush()
                os.fsync(file.fileno())
            part.replace(path)
    except OSError:
        return False
    return True


@contextlib.contextmanager
def temporary(folder: Path) -> Iterator[Path]:
    """Make an empty file of a name that no other process has; it is gone at the end.

    Parameters
    ----------
    folder : Path
        Where it is to lie.

    Yields
    ------
    Path
        The file, which may be moved away.

    Raises
    ------
    OSError
        If it cannot be made.
    """
    handle, name = tempfile.mkstemp(prefix=TEMPORARY, dir=folder)
    os.close(handle)
    part = Path(name)
    try:
        yield part
    finally:
        discard(part)


def discard(path: Path) -> None:
    """Remove a file if that can be done."""
    with contextlib.suppress(OSError):
        path.unlink(missing_ok=True)


def newest(folder: Path, pattern: str) -> list[Path]:
    """List files of a pattern, the one that was written last first; none if that cannot be done."""
    try:
        found = list(folder.glob(pattern))
    except OSError:
        return []
    return sorted(found, key=lambda path: (-_written(path), path.name))


def is_left_over(path: Path) -> bool:
    """Tell whether a file is so old that no writer is still at work on it."""
    return _written(path) < time.time() - _GRACE


def _written(path: Path) -> float:
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def _seal(text: bytes) -> bytes:
    return hashlib.sha256(text).hexdigest().encode("ascii")
