"""The grammar of figures as a regular expression, for programs that read no Python."""

from __future__ import annotations

import re

from barwright.units.grammar import NUMBER, PER_CENT
from barwright.units.kinds import PLACES, Kind, Range

__all__ = ["pattern_of"]

# Neither is known to every dialect, and the units here begin with no digit.
_PLAIN = NUMBER.replace("(?>", "(?:")

_ZERO = r"[0.]+(?![0-9.])"
# Too small for a float, and so zero.
_TINY = r"[0-9.]+[eE]-[0-9]{3}"
_NOTHING = rf"(?:{_ZERO}|{_TINY})"

_SIGNS: dict[Range, str] = {
    "any": "",
    "positive": rf"(?!-|\+?{_ZERO})",
    "zero or more": rf"(?!-(?!{_NOTHING}))",
    "zero or less": rf"(?=-|\+?{_NOTHING})",
}


def pattern_of(kind: Kind, allowed: Range = "any") -> str:
    """Return a regular expression for the text of a figure.

    It refuses nothing that :func:`read_figure` accepts.  The size of a number is not
    looked at.

    Parameters
    ----------
    kind : Kind
        What the figure is.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        Which numbers are possible.

    Returns
    -------
    str
        In what regular expressions of Python and of ECMA-262 have in common.

    Examples
    --------
    >>> import re
    >>> from barwright.units import LENGTH, pattern_of
    >>> length = pattern_of(LENGTH, "positive")
    >>> [bool(re.search(length, text)) for text in ("25.4 mm ± 0.1 mm", "-25.4 mm", "25,4 mm")]
    [True, False, False]
    """
    unit = "|".join(re.escape(u).replace(r"\*", "[*·]") for u in kind.units)
    one = rf"{_PLAIN}\s*(?:{unit})"
    # A share of a place is refused, and so is one of nothing.
    spread_unit = unit if kind in PLACES and allowed == "any" else f"{unit}|{PER_CENT}"
    spread = rf"\s*(?:±|\+/-)\s*{_SIGNS['positive']}{_PLAIN}\s*(?:{spread_unit})"
    deviation = rf"(?:(?=[+-]){_PLAIN}\s*(?:{spread_unit})|[+-]?{_ZERO}\s*(?:{spread_unit})?)"
    unequal = rf"(?:\s+|\s*(?=[+-])){deviation}(?:\s+{deviation})?"
    limits = rf"\s+to\s+{_SIGNS[allowed]}{one}"
    return rf"^\s*{_SIGNS[allowed]}{one}(?:{spread}|{unequal}|{limits})?\s*$"
