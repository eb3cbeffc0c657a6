"""The functions of the package, with the first line of each, as Markdown."""

from __future__ import annotations

import inspect
import re

import barwright

__all__ = ["markdown"]


def markdown() -> str:
    """List the functions in a table."""
    named = ((name, getattr(barwright, name)) for name in sorted(barwright.__all__))
    rows = [
        f"| {{func}}`~barwright.{n}` | {_first(f)} |" for n, f in named if inspect.isfunction(f)
    ]
    return "\n".join(["| function | what it does |", "| --- | --- |", *rows])


def _first(function: object) -> str:
    """Return the first line of a docstring, its references as plain names."""
    line = (inspect.getdoc(function) or "").partition("\n")[0]
    return re.sub(r":func:`(?:barwright\.)?(\w+)`", r"`\1`", line).replace("|", r"\|")
