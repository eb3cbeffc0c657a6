"""A new folder of files, written complete or not at all."""

from __future__ import annotations

import contextlib
import os
import secrets
import shutil
from collections.abc import Mapping
from pathlib import Path

from barwright.errors import FileError

__all__ = ["write_new_folder"]


def write_new_folder(folder: Path, contents: Mapping[str, str]) -> tuple[Path, ...]:
    """Write files into a folder that is not there yet.

    Parameters
    ----------
    folder : Path
        Where they are to be.
    contents : mapping of str to str
        Text of each file, by its path inside the folder.

    Returns
    -------
    tuple of Path
        All files, each with the folder.

    Raises
    ------
    FileError
        F201 if the folder is there, or cannot be written; then nothing is left of it.
    """
    if os.path.lexists(folder):
        raise _refused(folder, "it already exists", "name a new folder")
    try:
        _write(folder, contents)
    except OSError as error:
        reason = error.strerror or type(error).__name__
        remedy = "check the folder around it, its permissions and the free space"
        raise _refused(folder, reason, remedy) from None
    return tuple(folder / name for name in sorted(contents))


def _write(folder: Path, contents: Mapping[str, str]) -> None:
    """Write all files beside the folder's place, and put them there when they are complete."""
    # Of a name that no other writer has, and that is left over from none.
    part = folder.with_name(f".barwright-{secrets.token_hex(8)}.part")
    part.mkdir()
    try:
        for name, content in contents.items():
            path = part / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(content, encoding="utf-8", newline="\n")
        part.rename(folder)
    except BaseException:
        with contextlib.suppress(OSError):
            shutil.rmtree(part)
        raise


def _refused(folder: Path, value: str, remedy: str) -> FileError:
    return FileError(
        "F201",
        value=value,
        expected="a place for a new folder",
        remedy=remedy,
        file=str(folder),
    )
