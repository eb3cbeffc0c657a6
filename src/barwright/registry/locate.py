"""Lines of keys in a TOML file, which the parser does not tell.

Reads only what a line begins with: table headers and keys.  What stands inside
an inline table or a list that spans lines is placed at the line where its
outermost key stands.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path

from barwright.errors import BarwrightError, FileError
from barwright.registry.document import read_text
from barwright.registry.walking import is_file

__all__ = ["line_of", "lines_of", "located", "nearest_line", "text_of_file"]

_HEADER = re.compile(r"\s*(\[\[?)([^\[\]]+)\]\]?\s*(?:#.*)?")
_KEY = re.compile(
    r"\s*((?:[\w-]+|\"[^\"]*\"|'[^']*')(?:\s*\.\s*(?:[\w-]+|\"[^\"]*\"|'[^']*'))*)\s*="
)
_PART = re.compile(r"[\w-]+|\"[^\"]*\"|'[^']*'")
_STRING = re.compile(r"\"(?:\\.|[^\"\\])*\"|'[^']*'|#.*")
_MARK_OR_STRING = re.compile(rf"(\"\"\"|''')|{_STRING.pattern}")


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
    table, depth, quote = "", 0, ""
    counts: Counter[str] = Counter()
    for number, line in enumerate(text.split("\n"), start=1):
        if quote:
            quote = "" if quote in line else quote
            continue
        if depth == 0 and (header := _HEADER.fullmatch(line)):
            table = _opened(header[1], _joined(header[2]), counts)
            yield table, number
            continue
        if depth == 0 and (found := _KEY.match(line)):
            key = _joined(found[1])
            yield f"{table}.{key}".strip("."), number
        quote = _left_open(line)
        bare = _STRING.sub("", line)
        depth = max(0, depth + sum(map(bare.count, "[{")) - sum(map(bare.count, "]}")))


def _opened(bracket: str, name: str, counts: Counter[str]) -> str:
    """Path of the table that a header opens; lists of tables are counted."""
    path = ""
    for part in name.split("."):
        path = f"{path}.{part}".strip(".")
        if bracket == "[[" and _bare(path) == name:
            counts[path] += 1
        if counts[path]:
            path = f"{path}[{counts[path] - 1}]"
    return path


def _bare(path: str) -> str:
    return re.sub(r"\[\d+\]", "", path)


def _joined(name: str) -> str:
    """Write a dotted name without quotes and blanks."""
    return ".".join(part.strip("\"'") for part in _PART.findall(name))


def _left_open(line: str) -> str:
    """Return the triple quote that a line opens and does not close."""
    start = 0
    while found := _MARK_OR_STRING.search(line, start):
        start = found.end()
        if mark := found[1]:
            end = line.find(mark, start)
            if end < 0:
                return mark
            start = end + len(mark)
    return ""
