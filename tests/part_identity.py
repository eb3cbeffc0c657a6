"""What names a part, as tests write it into files."""

from __future__ import annotations

import attrs

import barwright as bw
from barwright.parts.common.record import NOT_IN_FILES, Part

__all__ = ["NAMES", "numbers_table"]

NAMES = NOT_IN_FILES | {f.name for f in attrs.fields(Part)} - {"id", "title"}
"""Fields of every part that say nothing of what it is made of."""


def numbers_table(numbers: tuple[bw.parts.PartNumber, ...]) -> dict[str, list[str]]:
    """Part numbers by their systems, as a file holds them."""
    return {
        one.number_system: [n.number for n in numbers if n.number_system == one.number_system]
        for one in numbers
    }
