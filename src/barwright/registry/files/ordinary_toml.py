r"""TOML as packs are ordinarily written, read in a fraction of the time of the parser.

A line of a key and its text, which most lines are, is told by one pattern; a value of numbers,
texts, lists and tables is read as the same in JSON.  Whatever is written in another way, and
whatever may be wrong or near a limit, is left to the parser, which alone says what TOML is: what
is read here is what the parser reads.
"""

from __future__ import annotations

import json
import re
import tomllib
from typing import Any

from barwright.errors import FileError
from barwright.registry.files.file_limits import (
    LONGEST_TEXT,
    LONGEST_WORD,
    MOST_ITEMS,
    MOST_RECORDS,
    MOST_TABLES,
    MOST_WORDS,
)
from barwright.registry.files.toml_limits import check_table, check_text

__all__ = ["ordinary_table"]

# No piece of these patterns gives back what it took, and each ends after so many characters
# that no line which is read here is too long.
_BLANK = r"[ \t]{0,64}+"
_KEY = rf"[A-Za-z0-9_-]{{1,{LONGEST_WORD}}}+"
_PATH = rf"{_KEY} (?: \. {_KEY} ){{0,2}}+"
_CONTROL = r"\x00-\x08\x0a-\x1f\x7f"
_TEXT = rf'"[^"\\{_CONTROL}]{{1,{LONGEST_TEXT}}}+"'
_PLAIN = rf'[^"\\{_CONTROL}]*+'
_ANY_TEXT = rf'"{_PLAIN}(?:\\[^{_CONTROL}]{_PLAIN})*+"'
_END = rf"{_BLANK} (?: \#[^{_CONTROL}]{{0,1024}}+ )?+ (?: \n | \Z )"
_LINE = re.compile(
    rf"""
    {_BLANK}
    (?:
        ({_KEY}) {_BLANK} = {_BLANK}
        (?:
            "([^"\\{_CONTROL}]{{1,{LONGEST_TEXT}}}+)" {_END}
          | (   \[ (?: [^\[\]"'\#] | {_ANY_TEXT} )*+ \] (?= {_END} )
              | (?: [^"\#{_CONTROL}] | {_ANY_TEXT} )++
            ) {_END}
        )
      | \[\[ ({_PATH}) \]\] {_END}
      | \[ ({_PATH}) \] {_END}
      | \#[^{_CONTROL}]{{0,1024}}+ (?: \n | \Z )
      | \n++
    )
    | ([\s\S]++)
    """,
    re.VERBOSE,
)

# A value that is the same in JSON, once its keys are in quotes and parted by colons.
_AS_IN_JSON = re.compile(
    rf"""
    (?: [ \t]++ | {_TEXT} | {_KEY} [ \t]*+ = | [\[\]{{}},]
      | (?: -?+ (?: 0 | [1-9][0-9]{{0,11}}+ ) (?: \.[0-9]{{1,12}}+ )?+ | true | false ) (?![\w.+-])
    )++
    """,
    re.VERBOSE,
)
_KEY_OR_TEXT = re.compile(rf'"[^"]*+"|({_KEY})[ \t]*+=')

# Of one value.
_LONGEST = 4096
_DEEPEST = 3


def ordinary_table(text: str) -> dict[str, Any] | None:
    r"""Read a document.

    Parameters
    ----------
    text : str
        All of it.

    Returns
    -------
    dict or None
        What the parser makes of it; none if that is for the parser to say.

    Examples
    --------
    >>> ordinary_table('[[bar]]\nlength = "904 mm"\nteeth = 39')
    {'bar': [{'length': '904 mm', 'teeth': 39}]}
    >>> ordinary_table("teeth = 39 = 40")
    """
    try:
        return _Document().read(text)
    except (_UnusualError, FileError, ValueError, RecursionError, MemoryError):
        return None


class _UnusualError(Exception):
    """Something is written in an unusual way, or may be wrong."""


class _Document:
    """What was read of a document."""

    def __init__(self) -> None:
        self._whole: dict[str, Any] = {}
        # Tables that a header may open another one in, by their path.
        self._open: dict[str, dict[str, Any]] = {}
        self._lists: set[str] = set()
        self._headers = 0
        self._values: list[str] = []

    def read(self, text: str) -> dict[str, Any]:
        """Read all lines."""
        table = self._whole
        for key, plain, value, listed, single, unusual in _LINE.findall(text.replace("\r\n", "\n")):
            if key:
                if key in table:
                    raise _UnusualError
                table[key] = plain or self._value(value)
            elif listed or single:
                _check_length(table)
                table = self._in_list(listed) if listed else self._alone(single)
            elif unusual:
                raise _UnusualError
        _check_length(table)
        self._check_count()
        return self._whole

    def _alone(self, path: str) -> dict[str, Any]:
        """Open a table that is there once."""
        holder, name = self._around(path)
        if name in holder:
            raise _UnusualError
        made: dict[str, Any] = {}
        holder[name] = self._open[path] = made
        return made

    def _in_list(self, path: str) -> dict[str, Any]:
        """Open the next table of a list."""
        holder, name = self._around(path)
        if name in holder and path not in self._lists:
            raise _UnusualError
        found = holder.setdefault(name, [])
        made: dict[str, Any] = {}
        found.append(made)
        if len(found) > (MOST_ITEMS if "." in path else MOST_RECORDS):
            raise _UnusualError
        if path in self._lists:
            # What was opened in the table before is not open in this one.
            below = f"{path}."
            self._open = {p: one for p, one in self._open.items() if not p.startswith(below)}
            self._lists = {p for p in self._lists if not p.startswith(below)}
        self._lists.add(path)
        self._open[path] = made
        return made

    def _around(self, path: str) -> tuple[dict[str, Any], str]:
        """Return the table that a header opens another one in, and the key of that."""
        self._headers += 1
        around, _, name = path.rpartition(".")
        if around and around not in self._open:
            raise _UnusualError
        return (self._open[around] if around else self._whole), name

    def _value(self, value: str) -> Any:  # noqa: ANN401 - whatever TOML holds
        """Read a value that is no plain text."""
        if len(value) > _LONGEST or value.count(",") >= MOST_ITEMS:
            raise _UnusualError
        self._values.append(value)
        if not _AS_IN_JSON.fullmatch(value):
            return _by_the_parser(value)
        read = _decoded(_KEY_OR_TEXT.sub(_in_json, value) if "=" in value else value)
        if value.count("[") + value.count("{") > _DEEPEST < _depth(read):
            raise _UnusualError
        return read

    def _check_count(self) -> None:
        """Refuse what may hold more than the parser is to be given."""
        values = " ".join(self._values)
        tables = sum(map(values.count, "[{.")) + 4 * self._headers
        words = sum(map(values.count, "\"'=,[{ ")) + 3 * self._headers
        if tables > MOST_TABLES or words > MOST_WORDS:
            raise _UnusualError


def _by_the_parser(value: str) -> Any:  # noqa: ANN401 - whatever TOML holds
    document = f"x = {value}\n"
    check_text(document, shown_as="")
    table = tomllib.loads(document)
    check_table({"x": [[[[table]]]]}, shown_as="")
    return table["x"]


def _in_json(found: re.Match[str]) -> str:
    return f'"{found[1]}":' if found[1] else found[0]


def _table_of(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    table = dict(pairs)
    if len(table) < len(pairs):
        raise _UnusualError
    return table


_decoded = json.JSONDecoder(object_pairs_hook=_table_of).decode


def _depth(value: Any) -> int:  # noqa: ANN401 - whatever JSON holds
    """Count the tables and lists in each other."""
    if not isinstance(value, dict | list):
        return 0
    return 1 + max(map(_depth, value.values() if isinstance(value, dict) else value), default=0)


def _check_length(table: dict[str, Any]) -> None:
    if len(table) > MOST_ITEMS:
        raise _UnusualError
