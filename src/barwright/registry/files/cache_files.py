"""Files of the cache: named by a digest, marked as the library's own, sealed or digested.

A link, a pipe or a device in place of a file is never opened, and a file without the mark
is never removed.  Any failure is a cache miss.
"""

from __future__ import annotations

import contextlib
import hashlib
import io
import json
import os
import re
import secrets
import time
from collections.abc import Iterator
from enum import StrEnum
from pathlib import Path
from typing import Any

from barwright.registry.files.open_inside import opener_in

__all__ = [
    "APPLICATION",
    "Kind",
    "digest_of_file",
    "discard",
    "file_in",
    "is_digest",
    "is_left_over",
    "newest",
    "opened",
    "read_sealed",
    "temporary",
    "write_sealed",
]


class Kind(StrEnum):
    """Suffix of a file in the cache."""

    INDEX = ".index"
    NOTE = ".note"
    DISTRIBUTIONS = ".distributions"
    PART = ".new"
    """A file that is still being written."""


APPLICATION = int.from_bytes(b"BWRT", "big")
"""Mark of an index: SQLite keeps it in the file's header."""

_SEALED = b"barwright cache 1\n"
_SQLITE = b"SQLite format 3\0"
_MARK = slice(68, 72)  # where SQLite keeps it
_HEAD = 72

_DIGEST = re.compile(r"[0-9a-f]{64}")

# A note of 1,000 packs has 0.4 MB, an index of 100,000 vehicles 0.2 GB.
_LARGEST_SEALED = 64 * 1024 * 1024
_LARGEST_INDEX = 2 * 1024**3

# A writer that is still at work is younger than this, and so is what it has put in
# place but not yet named anywhere.
_GRACE = 3600.0


def file_in(folder: Path, digest: str, kind: Kind) -> Path:
    """Return the place of a file by its digest and its kind."""
    return folder / f"{digest}{kind}"


def is_digest(value: object) -> bool:
    """Tell whether something is a SHA-256 in hexadecimal."""
    return isinstance(value, str) and _DIGEST.fullmatch(value) is not None


@contextlib.contextmanager
def opened(path: Path) -> Iterator[io.BufferedReader]:
    """Open a regular file for reading.

    Parameters
    ----------
    path : Path
        The file.

    Yields
    ------
    binary file

    Raises
    ------
    OSError
        If it cannot be opened, is not a regular file or is larger than any index.
    """
    with open(path, "rb", opener=_opener) as file:
        if os.fstat(file.fileno()).st_size > _LARGEST_INDEX:
            raise OSError
        yield file


def _opener(path: str, flags: int) -> int:
    folder, name = os.path.split(path)
    return opener_in(Path(folder))(name, flags)


def digest_of_file(path: Path) -> str:
    """Return the SHA-256 of a file, read piece by piece, in hexadecimal.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    str

    Raises
    ------
    OSError
        If it cannot be read.
    """
    with opened(path) as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


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
        with opened(path) as file:
            data = file.read(_LARGEST_SEALED + 1)
    except OSError:
        return None
    seal, _, text = data.removeprefix(_SEALED).partition(b"\n")
    if len(data) > _LARGEST_SEALED or not data.startswith(_SEALED) or seal != _seal(text):
        return None
    try:
        return json.loads(text)
    except (ValueError, RecursionError):
        return None


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
                file.write(_SEALED + _seal(text) + b"\n" + text)
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
    part = file_in(folder, secrets.token_hex(32), Kind.PART)
    os.close(os.open(part, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    try:
        yield part
    finally:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)


def discard(path: Path) -> None:
    """Remove a file of the cache if that can be done; all else stays where it is."""
    with contextlib.suppress(OSError):
        if _is_own(path):
            path.unlink()


def newest(folder: Path, kind: Kind) -> list[Path]:
    """List files of a kind, the one that was written last first; none if that cannot be done."""
    try:
        with os.scandir(folder) as entries:
            found = [folder / entry.name for entry in entries if _is_named(entry.name, kind)]
    except OSError:
        return []
    return sorted(found, key=lambda path: (-_written(path), path.name))


def is_left_over(path: Path) -> bool:
    """Tell whether a file is so old that no writer is still at work on it."""
    return _written(path) < time.time() - _GRACE


def _is_named(name: str, kind: Kind) -> bool:
    return name.endswith(kind) and is_digest(name.removesuffix(kind))


def _is_own(path: Path) -> bool:
    """Tell whether a file bears a name and the mark of the library."""
    if not any(_is_named(path.name, kind) for kind in Kind):
        return False
    with opened(path) as file:
        head = file.read(_HEAD)
    is_index = head.startswith(_SQLITE) and head[_MARK] == APPLICATION.to_bytes(4, "big")
    # A writer that was killed at once leaves an empty file.
    is_begun = not head and path.name.endswith(Kind.PART)
    return is_index or is_begun or head.startswith(_SEALED)


def _written(path: Path) -> float:
    try:
        return path.lstat().st_mtime
    except OSError:
        return 0.0


def _seal(text: bytes) -> bytes:
    return hashlib.sha256(text).hexdigest().encode("ascii")
