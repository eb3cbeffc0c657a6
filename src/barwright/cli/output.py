"""Output files that appear whole or not at all."""

from __future__ import annotations

import os
import tempfile
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
    temporary = None
    try:
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
        Path(temporary).replace(path)
    except OSError as error:
        if temporary is not None:
            Path(temporary).unlink(missing_ok=True)
        raise FileError(
            "F201",
            value=error.strerror or type(error).__name__,
            expected="a place that can be written to",
            remedy="check the folder, its permissions and the space left",
            file=str(path),
        ) from None
