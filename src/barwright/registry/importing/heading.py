"""The heading of a column: its name, and the unit in brackets behind it."""

from __future__ import annotations

import attrs

__all__ = ["Heading", "heading_of"]


@attrs.frozen
class Heading:
    """A column's heading, such as ``length [mm]``.

    Parameters
    ----------
    name : str
        What stands before the unit.
    unit : str
        Unit of its figures; empty where the heading gives none.
    """

    name: str
    unit: str = ""

    def __str__(self) -> str:
        """Write it as it is read."""
        return f"{self.name} [{self.unit}]" if self.unit else self.name


def heading_of(text: str) -> Heading:
    """Read the heading of a column.

    Parameters
    ----------
    text : str
        As it stands in the table.

    Returns
    -------
    Heading

    Examples
    --------
    >>> heading_of("bar diameter [mm]")
    Heading(name='bar diameter', unit='mm')
    """
    text = text.strip()
    name, opened, unit = text.removesuffix("]").partition("[")
    is_one = opened and text.endswith("]") and not any(sign in name + unit for sign in "[]")
    return Heading(name.strip(), unit.strip()) if is_one else Heading(text)
