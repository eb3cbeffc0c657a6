"""Single values of a file, each of the right type or refused."""

from __future__ import annotations

import enum
import math
from typing import Any

from barwright.errors import SchemaError
from barwright.parts.common.identity import Month, PartNumber
from barwright.registry.packs.tables.refusals import wrong_type

__all__ = [
    "LARGEST_WHOLE",
    "month",
    "number",
    "part_numbers",
    "table",
    "text",
    "truth",
    "whole_number",
    "word",
]

LARGEST_WHOLE = 9999
"""Of a whole number."""


def whole_number(value: Any, _: Any) -> int:  # noqa: ANN401 - whatever the file holds
    """Take a whole number, and nothing that merely looks like one."""
    if type(value) is not int or abs(value) > LARGEST_WHOLE:
        raise SchemaError(
            "S203",
            value=f'"{value}"' if isinstance(value, str) else value,
            expected=f"a whole number, at most {LARGEST_WHOLE}",
            remedy="write it without quotes, point or unit, like 36",
        )
    return value


def number(value: Any, _: Any) -> float:  # noqa: ANN401 - whatever the file holds
    """Take a finite number."""
    if type(value) not in (int, float) or not math.isfinite(value):
        raise wrong_type(value, "a finite number")
    return float(value)


def text(value: Any, _: Any) -> str:  # noqa: ANN401 - whatever the file holds
    """Take text that says something."""
    if not isinstance(value, str) or not value.strip():
        raise wrong_type(value, "text in quotes")
    return value


def truth(value: Any, _: Any) -> bool:  # noqa: ANN401 - whatever the file holds
    """Take true or false."""
    if not isinstance(value, bool):
        raise wrong_type(value, "true or false")
    return value


def month(value: Any, _: Any) -> Month:  # noqa: ANN401 - whatever the file holds
    """Take a month."""
    return Month.of(value)


def part_numbers(value: Any, _: Any) -> tuple[PartNumber, ...]:  # noqa: ANN401 - whatever the file holds
    """Take a table of numbers by their systems, of each one number or a list."""
    if not isinstance(value, dict):
        raise wrong_type(value, "a table of numbers by their systems, like { works = '71-20 455' }")
    return tuple(
        PartNumber(system, number)
        for system, held in value.items()
        for number in _numbers_of(held, system)
    )


def _numbers_of(held: Any, system: str) -> list[str]:  # noqa: ANN401 - whatever the file holds
    """List the numbers of one system."""
    listed: list[Any] = held if isinstance(held, list) else [held]
    for number in listed:
        if not isinstance(number, str):
            # A bare number would lose its zeros in front.
            raise wrong_type(number, "a part number in quotes, or a list of them", key=system)
    return listed


def word(value: Any, cls: type[enum.Enum]) -> enum.Enum:  # noqa: ANN401 - whatever the file holds
    """Take one of the words of an enumeration."""
    words = [member.value for member in cls]
    if value not in words:
        raise SchemaError(
            "S204",
            value=value,
            expected=" or ".join(repr(word) for word in words),
            remedy="write one of these words",
        )
    return cls(value)


def table(value: Any, _: Any) -> dict[str, Any]:  # noqa: ANN401 - whatever the file holds
    """Take any table."""
    if not isinstance(value, dict):
        raise wrong_type(value, "a table of keys")
    return value
