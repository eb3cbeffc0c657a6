"""Names of data files: such as every system takes, and takes for the same file."""

from __future__ import annotations

import re

from barwright.errors import FileError
from barwright.registry.files.file_limits import DEEPEST_FOLDER, LONGEST_NAME

__all__ = ["check_name"]

# Of names that differ in case only, some systems keep one; so no capital is allowed.
_PLAIN = re.compile(rf"(?=.{{1,{LONGEST_NAME}}}\Z)[a-z0-9_][a-z0-9._-]*(?<!\.)", re.DOTALL)

# With any suffix they are a device on some systems, and no file.
_DEVICE = re.compile(r"(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\..*)?")


def check_name(name: str) -> None:
    """Refuse a data file that not every system could hold under its name.

    Parameters
    ----------
    name : str
        From the pack's folder, with ``/`` between its parts.

    Raises
    ------
    FileError
        F108 with the part of the name that is not plain, or if it has too many.

    Examples
    --------
    >>> check_name("front/bars.toml")
    >>> check_name("Front/bars.toml")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    barwright.errors.FileError: F108: Front/bars.toml: got 'Front', expected small letters, ...
    """
    parts = name.split("/")
    for part in parts:
        if not _PLAIN.fullmatch(part) or _DEVICE.fullmatch(part):
            raise _not_plain(
                part,
                name,
                expected=f"small letters, digits, points, hyphens and underscores, at most "
                f"{LONGEST_NAME}, and no name of a device",
                remedy="rename it, like 'front-axle.toml'",
            )
    if len(parts) > DEEPEST_FOLDER:
        raise _not_plain(
            f"{len(parts)} parts",
            name,
            expected=f"at most {DEEPEST_FOLDER}, the folders and the file",
            remedy="move the file up",
        )


def _not_plain(value: str, name: str, *, expected: str, remedy: str) -> FileError:
    return FileError("F108", value=value, expected=expected, remedy=remedy, file=name)
