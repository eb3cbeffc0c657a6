"""Output files that appear whole or not at all."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

from barwright.errors import FileError

__all__ = ["write_whole"]


def write_whole(path: Path, text: str) -> None:
    """Write a file beside its place, and put it there when it is complete.

    Parameters
    ----------
    path : Path
        Where it is to be.
    text : str
        All of it.

    Raises
    ------
    FileError
        F201; what was there before is then still there.
    """
    # Made like any new file, so that it has the mode that the user's files have.
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with part.open("x", encoding="utf-8") as file:
            file.write(text)
        part.replace(path)
    except OSError as error:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)
        raise FileError(
            "F201",
            value=error.strerror or type(error).__name__,
            expected="a place that can be written to",
            remedy="check the folder, its permissions and the space left",
            file=str(path),
        ) from None
