"""Make untrusted text safe to show: no control character reaches a terminal or a file."""

from __future__ import annotations

import re

__all__ = ["escaped_json", "in_ascii", "in_ascii_json", "one_line", "printable"]

# Control characters but the line feed; what parts lines or turns text around; halves of
# characters, which stand for bytes of a file's name that are no text; and the two beside
# them that XML cannot hold.
_STEERING = re.compile(
    "[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069"
    "\ud800-\udfff\ufffe\uffff]"
)
_MARK = "\ufffd"


def printable(text: str) -> str:
    r"""Put a mark for each character that would steer a terminal or turn its text around.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        With its line feeds; XML can hold it.

    Examples
    --------
    >>> printable("\x1b[31mred\x9b0m")
    '�[31mred�0m'
    """
    return _STEERING.sub(_MARK, text)


def one_line(text: str) -> str:
    r"""Return text as :func:`printable` does, with blanks for its line feeds.

    What stands at the beginning of a line can be a command to the program that reads it.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str

    Examples
    --------
    >>> one_line("Bar\n::error::")
    'Bar ::error::'
    """
    return printable(text.replace("\n", " "))


def escaped_json(text: str) -> str:
    r"""Escape in a JSON document what would steer a terminal; the document says the same.

    Parameters
    ----------
    text : str
        The document.

    Returns
    -------
    str

    Examples
    --------
    >>> escaped_json('{"title": "\x9b31m"}')
    '{"title": "\\u009b31m"}'
    """
    return _STEERING.sub(lambda found: f"\\u{ord(found[0]):04x}", text)


# What a terminal without Unicode shows instead; what packs say is read back from most of it.
_IN_ASCII = str.maketrans(
    {
        "°": " deg",
        "·": "*",
        "±": "+/-",
        "×": "x",
        "−": "-",
        "–": "-",
        "—": "-",
        "…": "...",
        "²": "**2",
        "³": "**3",
        "’": "'",
        "′": "'",
        "″": "''",
        "⁴": "**4",
        "“": '"',
        "”": '"',
        "→": "->",
        "≤": "<=",
        "≥": ">=",
        "√": "sqrt ",
        "½": "1/2",
        "\u2800": " ",
        "\ufffd": "?",
    }
)
_DOTS = re.compile("[\u2801-\u28ff]")


def in_ascii(text: str) -> str:
    """Spell the signs of units and of charts without Unicode; other letters stay.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str

    Examples
    --------
    >>> in_ascii("43.1 ± 2.2 N·m at −4°")
    '43.1 +/- 2.2 N*m at -4 deg'
    """
    return _DOTS.sub("*", text.translate(_IN_ASCII))


def in_ascii_json(text: str) -> str:
    r"""Escape in a JSON document what is not ASCII; the document says the same.

    Parameters
    ----------
    text : str
        The document.

    Returns
    -------
    str

    Examples
    --------
    >>> in_ascii_json('{"figure": "±"}')
    '{"figure": "\\u00b1"}'
    """
    return _BEYOND_ASCII.sub(_escapes, text)


def _escapes(found: re.Match[str]) -> str:
    """Write characters as JSON escapes them, those beyond 16 bits in two halves."""
    halves = found[0].encode("utf-16-be", "surrogatepass").hex(" ", 2)
    return "".join(f"\\u{half}" for half in halves.split())


_BEYOND_ASCII = re.compile("[^\x00-\x7f]")
