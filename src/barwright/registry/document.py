"""Reading a TOML file of unknown origin: size and nesting first, then the parser."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from barwright.errors import FileError

__all__ = ["read_toml"]

_LARGEST = 1024 * 1024
_DEEPEST = 16
# A dotted key of thousands of parts costs the parser gigabytes.
_LONG_KEY = re.compile(r"(?:[\w\"'-]+\s*\.\s*){16,}[\w\"'-]")
_BRACKETS = re.compile(rf"[\[{{]{{{_DEEPEST},}}")
_POSITION = re.compile(r"line (\d+), column (\d+)")


def read_toml(path: Path, *, shown_as: str = "") -> dict[str, Any]:
    """Read a TOML file.

    Parameters
    ----------
    path : Path
        The file.
    shown_as : str
        What to call it in messages; the path if left out.

    Returns
    -------
    dict

    Raises
    ------
    FileError
        F101 if it cannot be read, F102 if it is not UTF-8, F103 if it is not
        TOML, F104 if it is too large or too deeply nested to be data.
    """
    name = shown_as or str(path)
    text = _decoded(_bytes(path, name), name)
    if _LONG_KEY.search(text) or _BRACKETS.search(text):
        raise _too_much("a key or bracket nested beyond any use", name)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _not_toml(error, text, name) from None
    except (RecursionError, MemoryError):
        raise _too_much("a document nested beyond any use", name) from None


def _bytes(path: Path, name: str) -> bytes:
    try:
        if path.stat().st_size > _LARGEST:
            raise _too_much(f"{path.stat().st_size} bytes", name)
        return path.read_bytes()
    except OSError as error:
        if isinstance(error, FileError):
            raise
        raise FileError(
            "F101",
            value=error.strerror or type(error).__name__,
            expected="a file that can be read",
            remedy="check the name and the permissions",
            file=name,
        ) from None


def _decoded(data: bytes, name: str) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise FileError(
            "F102",
            value=f"byte 0x{data[error.start]:02x}",
            expected="UTF-8 text",
            remedy="save the file as UTF-8",
            file=name,
            line=data[: error.start].count(b"\n") + 1,
        ) from None


def _not_toml(error: tomllib.TOMLDecodeError, text: str, name: str) -> FileError:
    found = _POSITION.search(str(error))
    lines = text.splitlines() or [""]
    line = min(int(found[1]), len(lines)) if found else len(lines)
    return FileError(
        "F103",
        value=lines[line - 1].strip(),
        expected="TOML",
        remedy=f"correct this line: {_POSITION.sub('', str(error)).removesuffix(' (at )')}",
        file=name,
        line=line,
    )


def _too_much(value: str, name: str) -> FileError:
    return FileError(
        "F104",
        value=value,
        expected=f"at most {_LARGEST} bytes, nested at most {_DEEPEST} deep",
        remedy="split the file",
        file=name,
    )
