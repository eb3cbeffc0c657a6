"""The grammar of figures: what is written as a number, a unit and a tolerance.

Every piece is atomic or ends where the next one begins, so that no text makes a pattern
try one split after another.
"""

from __future__ import annotations

import re

__all__ = ["FIGURE", "LIMITS", "LONGEST_TEXT", "NUMBER", "PER_CENT", "UNEQUAL", "UNIT"]

LONGEST_TEXT = 64
"""Characters of a figure with its tolerance."""

PER_CENT = "%"
"""Unit of a tolerance that is a share of its figure."""

# Atomic, so that the end of a bare number is never taken for its unit.
_DIGITS = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?"

NUMBER = rf"(?>[+-]?{_DIGITS})"
"""A decimal number."""

UNIT = r"[^\s\d±+,'\"″”'′’/][^\s±+]*"
"""Whatever may stand for a unit."""

# A deviation has a sign, unless it is zero; its unit then may be left out.
_DEVIATION = rf"(?>[+-]{_DIGITS}|0+(?:\.0*)?(?![0-9.]))"
_ITS_UNIT = r"[^\s\d±+,'\"″”'′’/.\-](?:[^\s±+/]|/(?=[^\W\d]))*+"

FIGURE = re.compile(
    rf"\s*(?P<number>{NUMBER})\s*(?P<unit>{UNIT})"
    rf"(?:\s*(?:±|\+/-)\s*(?P<spread>{NUMBER})\s*(?P<spread_unit>{UNIT}))?\s*"
)
"""``742.0 mm`` and ``742.0 mm ± 0.4 mm``."""

UNEQUAL = re.compile(
    rf"\s*+(?P<number>{NUMBER})\s*+(?P<unit>(?>{UNIT}))"
    rf"\s*+(?P<first>{_DEVIATION})(?:\s*+(?P<first_unit>{_ITS_UNIT}))?+"
    rf"(?:\s++(?P<second>{_DEVIATION})(?:\s*+(?P<second_unit>{_ITS_UNIT}))?+)?+\s*+"
)
"""``742.0 mm +0.4 mm -0.1 mm``: what the figure may be above and below."""

LIMITS = re.compile(
    rf"\s*+(?P<low>{NUMBER})\s*+(?P<low_unit>(?>{UNIT}))\s++to\s++"
    rf"(?P<high>{NUMBER})\s*+(?P<high_unit>(?>{UNIT}))\s*+"
)
"""``741 mm to 743 mm``."""
