"""Reading a file of unknown origin: size first; of TOML, nesting too, then the parser."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from barwright.errors import FileError

__all__ = ["parse_toml", "read_bytes", "read_text", "read_toml"]

_LARGEST = 1024 * 1024
_DEEPEST = 16
_LONGEST_LINE = 4096
_LARGEST_NUMBER = 2**63
# The parser's memory for a dotted key grows with the square of its parts.
_MOST_DOTS_SQUARED = 4_000_000
_BRACKETS = re.compile(rf"[\[{{]{{{_DEEPEST},}}")
_POSITION = re.compile(r"line (\d+), column (\d+)")


def read_text(path: Path, *, shown_as: str = "") -> str:
    """Read a text file.

    Parameters
    ----------
    path : Path
        The file.
    shown_as : str
        What to call it in messages; the path if left out.

    Returns
    -------
    str

    Raises
    ------
    FileError
        F101 if it cannot be read, F102 if it is not UTF-8, F104 if it is too large
        to be data.
    """
    name = shown_as or str(path)
    return _decoded(read_bytes(path, shown_as=name), name)


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
    return parse_toml(read_bytes(path, shown_as=name), shown_as=name)


def parse_toml(data: bytes, *, shown_as: str) -> dict[str, Any]:
    """Read a TOML file's bytes.

    Parameters
    ----------
    data : bytes
        All of the file.
    shown_as : str
        What to call it in messages.

    Returns
    -------
    dict

    Raises
    ------
    FileError
        F102 if it is not UTF-8, F103 if it is not TOML, F104 if it is too deeply
        nested to be data.
    """
    text = _decoded(data, shown_as)
    if _is_costly(text):
        raise _too_much("keys, brackets or a line beyond any use", shown_as)
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _not_toml(error, text, shown_as) from None
    except (RecursionError, MemoryError, ValueError):
        raise _too_much("nesting or a number beyond any use", shown_as) from None
    if _is_beyond_use(table):
        raise _too_much("nesting or a number beyond any use", shown_as)
    return table


def read_bytes(path: Path, *, shown_as: str) -> bytes:
    """Read a file's bytes, no more than data can have.

    Parameters
    ----------
    path : Path
        The file.
    shown_as : str
        What to call it in messages.

    Returns
    -------
    bytes

    Raises
    ------
    FileError
        F101 if it cannot be read, F104 if it is too large to be data.
    """
    try:
        with path.open("rb") as file:
            data = file.read(_LARGEST + 1)
    except (OSError, ValueError) as error:
        raise FileError(
            "F101",
            value=getattr(error, "strerror", None) or str(error),
            expected="a file that can be read",
            remedy="check the name and the permissions",
            file=shown_as,
        ) from None
    if len(data) > _LARGEST:
        raise _too_much(f"more than {_LARGEST} bytes", shown_as)
    return data


def _is_costly(text: str) -> bool:
    """Tell from its lines alone whether a text would take the parser too long."""
    lines = text.split("\n")
    return (
        max(map(len, lines)) > _LONGEST_LINE
        or sum(line.count(".") ** 2 for line in lines) > _MOST_DOTS_SQUARED
        or _BRACKETS.search(text) is not None
    )


def _is_beyond_use(table: dict[str, Any]) -> bool:
    """Tell whether a document nests too deep, or holds a number too large to be data."""
    level: list[Any] = [table]
    for _ in range(_DEEPEST + 1):
        if any(isinstance(item, int) and abs(item) > _LARGEST_NUMBER for item in level):
            return True
        level = [inner for item in level for inner in _inside(item)]
    return bool(level)


def _inside(item: object) -> list[Any]:
    if isinstance(item, dict):
        return list(item.values())
    return item if isinstance(item, list) else []


def _decoded(data: bytes, name: str) -> str:
    try:
        return data.decode("utf-8").removeprefix("\ufeff")
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
    lines = text.split("\n")
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
        expected=f"at most {_LARGEST} bytes, {_LONGEST_LINE} in a line, nested {_DEEPEST} deep",
        remedy="split the file, and check its keys and brackets",
        file=name,
    )
