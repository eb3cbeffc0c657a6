"""How a record or an answer is shown in one line, and in a notebook."""

from __future__ import annotations

import enum
import sys
from collections.abc import Iterator
from typing import Any, Protocol

import attrs

from barwright.units import is_quantity, is_unknown, shown

__all__ = ["Summarised", "said_in_short"]

_MOST = 100


class _Printer(Protocol):
    """What a notebook prints with."""

    def text(self, text: str) -> None: ...


class Summarised:
    """Base of public classes: a ``repr`` of one line, and HTML for notebooks."""

    __slots__ = ()

    def __repr__(self) -> str:
        """Show it in one line."""
        text = "".join(
            c if c.isprintable() else "\ufffd" for c in " ".join(self._in_short().split())
        )
        clipped = text if len(text) <= _MOST else f"{text[: _MOST - 1].rstrip()}…"
        return f"<{type(self).__name__}{': ' if clipped else ''}{clipped}>"

    def _in_short(self) -> str:
        """Show its content in one line."""
        return ", ".join(_fields(self))

    def _repr_pretty_(self, printer: _Printer, cycle: bool) -> None:  # noqa: ARG002, FBT001 - as notebooks call it
        """Show it in a notebook's list of values, and where a test has failed."""
        printer.text(repr(self))

    def _repr_html_(self) -> str:
        """Show it in a notebook, by the public name of what writes it: no record knows how."""
        html: str = sys.modules["barwright"].html(self)
        return html


def _fields(value: Any) -> Iterator[str]:  # noqa: ANN401 - any attrs class
    """Tell the fields that are short."""
    for field in attrs.fields(type(value)):
        said = said_in_short(getattr(value, field.name)) if field.repr else ""
        if said:
            yield f"{field.name.replace('_', ' ')} {said}"


def said_in_short(value: object) -> str:
    """Tell the value of a field, if that is short.

    Parameters
    ----------
    value : object
        Of any type.

    Returns
    -------
    str
        Empty where there is nothing, or too much to tell.
    """
    if is_quantity(value):
        count = 1 if is_unknown(value) else getattr(value.magnitude, "size", 1)
        return shown(value, 2) if count == 1 else f"{count} figures"
    if isinstance(value, enum.Enum):
        return str(value.value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.4g}"
    if isinstance(value, tuple):
        words = all(isinstance(one, str | enum.Enum) for one in value)
        return ", ".join(map(said_in_short, value)) if words else ""
    return str(value) if isinstance(value, str | int) or is_unknown(value) else ""
