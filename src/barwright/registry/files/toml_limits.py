"""Check the limits of a TOML document, before and after the parser runs.

Before, one pass over the text finds what could cost the parser too much.  It knows
strings and comments, and of all else only words, points and brackets.  Where a text is
no TOML this pass may lose its way, but no earlier than the parser stops.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from typing import Any

from barwright.errors import FileError
from barwright.registry.files.file_limits import (
    DEEPEST,
    LARGEST_NUMBER,
    LONGEST_LINE,
    LONGEST_TEXT,
    LONGEST_WORD,
    MOST_CHASSIS,
    MOST_ITEMS,
    MOST_PARTS,
    MOST_RECORDS,
    MOST_SOURCES,
    MOST_TABLES,
    MOST_WORDS,
)

__all__ = ["check_records", "check_table", "check_text"]

# No piece of these patterns gives back what it took, so that the time grows with the
# length of the text and no faster.
_WORD = r"[A-Za-z0-9_+:-]++"
_STRING = r'"[^"\\\n]*+(?:\\.[^"\\\n]*+)*+" | \'[^\'\n]*+\''
_PART = rf"(?: {_WORD} | {_STRING} )"
# Most lines of any data; as one token they take a third of the time.
_ORDINARY = rf"""
    [A-Za-z0-9_-]{{1,{LONGEST_WORD}}}+ [ \t]*+ = [ \t]*+ " [^"\\\n]{{1,{LONGEST_TEXT}}}+ "
"""
_TOKEN = re.compile(
    rf"""
    (?:
        {_ORDINARY}
      | \#[^\n]*+
      | (?P<lines> "{{3}} (?: [^"\\]++ | \\[\s\S] | "(?!"") )*+ "{{3}} "{{0,2}}+
                 | '{{3}} (?: [^']++ | '(?!'') )*+ '{{3}} '{{0,2}}+ )
      | (?P<open_lines> "{{3}} | '{{3}} )
      | (?P<key> {_PART} (?: [ \t]*+ \. [ \t]*+ {_PART} ){{{MOST_PARTS}}} )
      | (?P<word> {_WORD} )
      | (?P<line> {_STRING} )
      | (?P<open_line> ["'] )
      | (?P<bracket> [\[{{] )
      | (?P<end> [\]}}] )
      | (?P<point> \. )
    )
    [\s=,]*+
    """,
    re.VERBOSE,
)
_LONG_LINE = re.compile(rf"^[^\n]{{{LONGEST_LINE + 1}}}", re.MULTILINE)

# Characters of a token, its quotes included.
_LONGEST = {"word": LONGEST_WORD, "line": LONGEST_TEXT + 2, "lines": LONGEST_TEXT + 6}

# How much deeper it leads, and how many tables it can make.
_STEPS = {"bracket": (1, 1), "end": (-1, 0), "point": (0, 1)}


def check_text(text: str, *, shown_as: str) -> None:
    """Refuse a document that could cost the parser too much.

    Parameters
    ----------
    text : str
        The document.
    shown_as : str
        What to call the file in messages.

    Raises
    ------
    FileError
        F104 if it nests too deep, or could hold too many tables; F106 if a word or a
        text is too long.

    Examples
    --------
    >>> check_text("a.b.c.d.e.f.g.h.i = 1", shown_as="x.toml")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    barwright.errors.FileError: F104: x.toml:1: got 'a.b.c.d.e.f.g.h.i', expected a key of ...
    """
    excess = _excess_of_a_line(text) or _excess_of_a_token(text)
    if excess is not None:
        raise excess.within(file=shown_as)


def check_table(table: Mapping[str, Any], *, shown_as: str) -> None:
    """Refuse what a document holds if it is too much to look at.

    Parameters
    ----------
    table : mapping
        What the parser made of the document.
    shown_as : str
        What to call the file in messages.

    Raises
    ------
    FileError
        F104 if it nests too deep, or if a table or a list is too long; F106 if a key
        is too long or a number too large.
    """
    try:
        _check_inside(table, depth=0)
    except FileError as error:
        raise error.within(file=shown_as) from None


def check_records(tables: Mapping[str, Mapping[str, Any]]) -> None:
    """Refuse a pack that holds too many records.

    Parameters
    ----------
    tables : mapping
        What each file holds, by its name.

    Raises
    ------
    FileError
        F107 with the file in which they became too many.
    """
    counted: Counter[str] = Counter()
    for name, table in tables.items():
        counted.update({kind: _count(records) for kind, records in table.items()})
        _check_count("chassis", counted["chassis"], MOST_CHASSIS, name)
        _check_count("sources", counted["source"], MOST_SOURCES, name)
        _check_count("records", counted.total(), MOST_RECORDS, name)


def _count(records: object) -> int:
    return len(records) if isinstance(records, list) else 0


def _check_count(what: str, count: int, most: int, file: str) -> None:
    if count > most:
        raise FileError(
            "F107",
            value=f"more than {most} {what}",
            expected=f"at most {most} {what} in a pack",
            remedy="make two packs of it",
            file=file,
        )


def _excess_of_a_line(text: str) -> FileError | None:
    found = _LONG_LINE.search(text)
    if found is None:
        return None
    return _too_much(
        found[0],
        expected=f"a line of at most {LONGEST_LINE} characters",
        remedy="break the line",
        line=_line(found),
    )


def _excess_of_a_token(text: str) -> FileError | None:
    depth = tables = words = 0
    for token in _TOKEN.finditer(text):
        kind = token.lastgroup
        if kind in _LONGEST:
            if token.end(kind) - token.start() > _LONGEST[kind]:
                return _too_long_token(kind, token)
            words += 1
        elif kind in _STEPS:
            deeper, more = _STEPS[kind]
            depth += deeper
            tables += more
        elif kind == "key":
            return _too_many_parts(token["key"], _line(token))
        elif kind is not None:
            # A string is not closed, so that the parser stops here.  To look on for the ends
            # of such strings could take time with the square of the length.
            return None
        if depth > DEEPEST or tables > MOST_TABLES or words > MOST_WORDS:
            return _too_many(depth, tables, _line(token))
    return None


def _too_long_token(kind: str, token: re.Match[str]) -> FileError:
    if kind == "word":
        return _too_long(token[kind], line=_line(token))
    return FileError(
        "F106",
        value=token[kind],
        expected=f"a text of at most {LONGEST_TEXT} characters",
        remedy="shorten it, and check that its quotes are closed",
        line=_line(token),
    )


def _too_many(depth: int, tables: int, line: int) -> FileError:
    if depth > DEEPEST:
        return _too_deep(f"{depth} nested brackets", line=line)
    what = f"{MOST_TABLES} brackets and points"
    if tables <= MOST_TABLES:
        what = f"{MOST_WORDS} keys, numbers and texts"
    return _too_much(
        f"more than {what}",
        expected="less content in one file",
        remedy="split the file",
        line=line,
    )


def _too_many_parts(key: str, line: int) -> FileError:
    return _too_much(
        key,
        expected=f"a key of at most {MOST_PARTS} parts",
        remedy="check the key, and use fewer points",
        line=line,
    )


def _check_inside(holder: Any, depth: int) -> None:  # noqa: ANN401 - whatever the parser made
    """Look at all that a table or list holds, and at what is inside that."""
    if depth > DEEPEST:
        raise _too_deep("a deeper table or list")
    _check_length(holder, depth)
    items = holder.items() if isinstance(holder, dict) else enumerate(holder)
    for key, item in items:
        if isinstance(item, str):  # as most are
            continue
        try:
            if isinstance(item, dict | list):
                _check_inside(item, depth + 1)
            elif isinstance(item, int):
                _check_number(item)
        except FileError as error:
            raise error.within(key=key if isinstance(key, str) else f"[{key}]") from None


def _check_length(holder: Any, depth: int) -> None:  # noqa: ANN401 - as above
    is_table = isinstance(holder, dict)
    # Records stand in lists outside all tables.
    is_records = depth == 1 and not is_table and isinstance(next(iter(holder), None), dict)
    most = MOST_RECORDS if is_records else MOST_ITEMS
    if len(holder) > most:
        raise _too_much(
            f"{len(holder)} {'keys' if is_table else 'items'}",
            expected=f"at most {most} in one {'table' if is_table else 'list'}",
            remedy="check the list or table, and remove what is not data",
        )
    if is_table and holder and len(longest := max(holder, key=len)) > LONGEST_WORD:
        raise _too_long(longest)


def _check_number(number: int) -> None:
    if not -LARGEST_NUMBER <= number < LARGEST_NUMBER:
        raise FileError(
            "F106",
            value=number,
            expected="a whole number of at most 18 digits",
            remedy="check the number",
        )


def _too_deep(value: str, *, line: int = 0) -> FileError:
    return _too_much(
        value,
        expected=f"at most {DEEPEST} levels of tables and lists",
        remedy="look for a bracket that is not closed",
        line=line,
    )


def _too_long(value: str, *, line: int = 0) -> FileError:
    return FileError(
        "F106",
        value=value,
        expected=f"a key or a number of at most {LONGEST_WORD} characters",
        remedy="shorten it, or put text in quotes",
        line=line,
    )


def _too_much(value: str, *, expected: str, remedy: str, line: int = 0) -> FileError:
    return FileError("F104", value=value, expected=expected, remedy=remedy, line=line)


def _line(found: re.Match[str]) -> int:
    return found.string.count("\n", 0, found.start()) + 1
