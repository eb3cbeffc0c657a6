"""A cell of a table that is a number, whose unit stands in the heading."""

from __future__ import annotations

import re

__all__ = ["BARE_NUMBER", "with_unit"]

_NUMBER = r"[+-]?[0-9]+(?:[.,][0-9]+)?(?:[eE][+-]?[0-9]+)?"

BARE_NUMBER = re.compile(rf"({_NUMBER})(?:\s*(±|\+/-)\s*({_NUMBER}))?")
"""A number without a unit, perhaps with its tolerance."""


def with_unit(cell: str, unit: str) -> str:
    """Write the unit of a heading behind a number, and behind its tolerance.

    Parameters
    ----------
    cell : str
        The cell.
    unit : str
        What the heading says; empty for nothing.

    Returns
    -------
    str
        The cell as it is if it is no bare number, or there is no unit.

    Examples
    --------
    >>> with_unit("742.0 ± 0.4", "mm")
    '742.0 mm ± 0.4 mm'
    """
    found = BARE_NUMBER.fullmatch(cell)
    if not (found and unit):
        return cell
    number, sign, tolerance = found.groups()
    return f"{number} {unit}{f' {sign} {tolerance} {unit}' if sign else ''}"
