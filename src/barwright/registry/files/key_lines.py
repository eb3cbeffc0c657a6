"""Line numbers of keys in a TOML file, which the parser does not give.

Reads only what a line begins with: table headers and keys.  What stands inside
an inline table or a list that spans lines is placed at the line where its
outermost key stands.  A text that is no TOML is read as far as it is.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path

from barwright.errors import BarwrightError, FileError
from barwright.registry.files.document import read_text
from barwright.registry.files.file_limits import MOST_PARTS
from barwright.registry.files.find_files import is_file

__all__ = ["line_of", "lines_of", "located", "nearest_line", "text_of_file"]

# No piece of these patterns gives back what it took, and nothing is looked at twice, so
# that the time grows with the length of the text and no faster.
_STRING = r"""(?: "[^"\\\n]*+(?:\\.[^"\\\n]*+)*+" | '[^'\n]*+' )"""
_PART = re.compile(rf"[A-Za-z0-9_-]++ | {_STRING}", re.VERBOSE)
_NAME = rf"""
    (?: {_PART.pattern} ) (?: [ \t]*+ \. [ \t]*+ (?: {_PART.pattern} ) ){{0,{MOST_PARTS}}}+
"""
_STATEMENT = re.compile(
    rf"""
    (?: \s++ | \#[^\n]*+ )*+
    (?:
        (?P<brackets> \[\[?+ ) [ \t]*+ (?P<table> {_NAME} ) [ \t]*+ \]
      | (?P<key> {_NAME} ) [ \t]*+ =
    )
    """,
    re.VERBOSE,
)
_VALUE = re.compile(
    rf"""
        [^"'\#\[\]{{}}\n]++
      | "{{3}} (?: [^"\\]++ | \\[\s\S] | "(?!"") )*+ "{{3}} "{{0,2}}+
      | '{{3}} (?: [^']++ | '(?!'') )*+ '{{3}} '{{0,2}}+
      | (?!"{{3}}|'{{3}}) {_STRING}
      | \#[^\n]*+
      | (?P<open> [\[{{] )
      | (?P<close> [\]}}] )
      | (?P<end> \n )
      | (?P<unclosed> ["'] )
    """,
    re.VERBOSE,
)


def line_of(text: str, key: str) -> int:
    r"""Line on which a key, or the nearest table around it, stands.

    Parameters
    ----------
    text : str
        The file.
    key : str
        Path of the key, like ``bar[0].arm_end.teeth``.

    Returns
    -------
    int
        Counted from 1; 0 if not even the outermost key is there.

    Examples
    --------
    >>> line_of("title = 'x'\n[[bar]]\nid = 'a'\n[[bar]]\nid = 'b'\n", "bar[1].id")
    5
    """
    return nearest_line(lines_of(text), key)


def lines_of(text: str) -> Mapping[str, int]:
    """Return the line of every key and table that begins a line, by its path.

    Parameters
    ----------
    text : str
        The file.

    Returns
    -------
    mapping of str to int
        Counted from 1.
    """
    return dict(_lines(text))


def nearest_line(lines: Mapping[str, int], path: str) -> int:
    """Return the line of a key, or of the nearest table around it.

    Parameters
    ----------
    lines : mapping of str to int
        What :func:`lines_of` returned.
    path : str
        Path of the key.

    Returns
    -------
    int
        0 if not even the outermost key is there.
    """
    while path:
        for known in (path, f"{path}[0]"):
            if known in lines:
                return lines[known]
        path = path[: max(path.rfind("."), path.rfind("["), 0)]
    return 0


def text_of_file(name: str) -> str:
    """Read a file once more, as far as that can be done.

    Parameters
    ----------
    name : str
        Its path.

    Returns
    -------
    str
        Empty if it cannot be read, and for what can be read only once.
    """
    path = Path(name)
    try:
        return read_text(path) if is_file(path) else ""
    except FileError:
        return ""


def located(
    problems: Sequence[BarwrightError], text_of: Callable[[str], str] = text_of_file
) -> tuple[BarwrightError, ...]:
    """Give problems the lines of their keys.

    Parameters
    ----------
    problems : sequence of BarwrightError
        With file and key.
    text_of : callable
        From the name of a file to what is in it; empty if that is not known.

    Returns
    -------
    tuple of BarwrightError
    """
    lines: dict[str, Mapping[str, int]] = {}
    for problem in problems:
        if problem.file and problem.key and not problem.line:
            if problem.file not in lines:
                lines[problem.file] = lines_of(text_of(problem.file))
            problem.line = nearest_line(lines[problem.file], problem.key)
    return tuple(problems)


def _lines(text: str) -> Iterator[tuple[str, int]]:
    """Every key that begins a line, with its path and its line."""
    table, place, line = "", 0, 1
    counts: Counter[str] = Counter()
    while found := _STATEMENT.match(text, place):
        line += text.count("\n", place, found.end())
        if found["key"]:
            yield _below(table, _joined(found["key"])), line
        else:
            table = _opened(found["brackets"], _joined(found["table"]), counts)
            yield table, line
        place = _end_of_value(text, found.end())
        line += text.count("\n", found.end(), place)


def _end_of_value(text: str, start: int) -> int:
    """Where the line ends on which a value does; the end of the text if a string has none."""
    depth = 0
    for token in _VALUE.finditer(text, start):
        if token.lastgroup == "unclosed":
            break
        depth += (token.lastgroup == "open") - (token.lastgroup == "close")
        if token.lastgroup == "end" and depth <= 0:
            return token.end()
    return len(text)


def _opened(brackets: str, name: str, counts: Counter[str]) -> str:
    """Path of the table that a header opens; lists of tables are counted."""
    path = bare = ""
    for part in name.split("."):
        path, bare = _below(path, part), _below(bare, part)
        if brackets == "[[" and bare == name:
            counts[path] += 1
        if counts[path]:
            path = f"{path}[{counts[path] - 1}]"
    return path


def _below(table: str, key: str) -> str:
    return f"{table}.{key}" if table else key


def _joined(name: str) -> str:
    """Write a dotted name without quotes and blanks."""
    parts = _PART.findall(name)
    return ".".join(part[1:-1] if part[0] in "\"'" else part for part in parts)
