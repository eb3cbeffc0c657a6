"""Reading a file of unknown origin: its size first; of TOML, its limits, then the parser."""

from __future__ import annotations

import os
import re
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeAlias

from barwright.errors import FileError
from barwright.registry.files.file_limits import LARGEST_FILE
from barwright.registry.files.ordinary_toml import ordinary_table
from barwright.registry.files.toml_limits import check_table, check_text

__all__ = ["Opener", "parse_toml", "read_bytes", "read_text", "read_toml", "refuse_too_large"]

Opener: TypeAlias = Callable[[str, int], int]
"""Takes a path and flags of the system, and returns a descriptor."""

_POSITION = re.compile(r"line (\d+), column (\d+)")


def read_text(path: Path, *, shown_as: str = "", largest: int = LARGEST_FILE) -> str:
    """Read a text file.

    Parameters
    ----------
    path : Path
        The file.
    shown_as : str
        What to call it in messages; the path if left out.
    largest : int
        Most bytes that are read.

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
    return _decoded(read_bytes(path, shown_as=name, largest=largest), name)


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
        TOML, F104 if it is too large or too deeply nested to be data, F106 if a key,
        a text or a number in it is too long.
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
        nested to be data, F106 if a key, a text or a number in it is too long.
    """
    text = _decoded(data, shown_as)
    ordinary = ordinary_table(text)
    if ordinary is not None:
        return ordinary
    check_text(text, shown_as=shown_as)
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _not_toml(error, text, shown_as) from None
    except (RecursionError, MemoryError, ValueError):
        # None is known of a text within the limits, but the program around may be short of both.
        raise _too_large("more than the parser can take", shown_as) from None
    check_table(table, shown_as=shown_as)
    return table


def read_bytes(
    path: Path, *, shown_as: str, opener: Opener | None = None, largest: int = LARGEST_FILE
) -> bytes:
    """Read a file's bytes, no more than data can have.

    Parameters
    ----------
    path : Path
        The file.
    shown_as : str
        What to call it in messages.
    opener : callable, optional
        Opener, as in :func:`open`.
    largest : int
        Most bytes that are read.

    Returns
    -------
    bytes

    Raises
    ------
    FileError
        F101 if it cannot be read, F104 if it is too large to be data.
    """
    try:
        with open(path, "rb", opener=opener) as file:
            size = os.fstat(file.fileno()).st_size
            # What says that it is small may be a device, or may be growing.
            data = file.read(largest + 1) if size <= largest else b""
    except FileError:
        raise
    except (OSError, ValueError) as error:
        raise FileError(
            "F101",
            value=getattr(error, "strerror", None) or str(error),
            expected="a file that can be read",
            remedy="check the name and the permissions",
            file=shown_as,
        ) from None
    refuse_too_large(max(size, len(data)), shown_as=shown_as, largest=largest)
    return data


def refuse_too_large(size: int, *, shown_as: str, largest: int = LARGEST_FILE) -> None:
    """Refuse more bytes than data can have.

    Parameters
    ----------
    size : int
        Bytes that there are.
    shown_as : str
        What to call the file in messages.
    largest : int
        The most bytes.

    Raises
    ------
    FileError
        F104 if there are more.
    """
    if size > largest:
        raise _too_large(f"more than {largest} bytes", shown_as, largest)


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


# Quotation marks that a word processor writes for straight ones.
_TYPOGRAPHIC = frozenset("“”„‟‘’«»")


def _remedy(line: str, found: str) -> str:
    """Say how a line is corrected, by what the parser found there."""
    if _TYPOGRAPHIC & set(line) and not {'"', "'"} & set(line):
        return 'write straight quotation marks, "'
    return f"correct this line: {found}"


def _not_toml(error: tomllib.TOMLDecodeError, text: str, name: str) -> FileError:
    found = _POSITION.search(str(error))
    lines = text.split("\n")
    line = min(int(found[1]), len(lines)) if found else len(lines)
    return FileError(
        "F103",
        value=lines[line - 1].strip(),
        expected="TOML",
        remedy=_remedy(lines[line - 1], _POSITION.sub("", str(error)).removesuffix(" (at )")),
        file=name,
        line=line,
    )


def _too_large(value: str, name: str, largest: int = LARGEST_FILE) -> FileError:
    return FileError(
        "F104",
        value=value,
        expected=f"at most {largest} bytes",
        remedy="split the file",
        file=name,
    )
