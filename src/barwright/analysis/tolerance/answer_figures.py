"""The figures of an answer, and their names."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import attrs
import numpy as np

from barwright.units import Quantity, is_quantity, is_unknown

__all__ = ["answer_figures"]


def answer_figures(value: Any, name: str) -> Iterator[tuple[str, Quantity | int]]:  # noqa: ANN401
    """List the figures of an answer by name; curves, words and findings are left out."""
    if is_unknown(value):
        return
    if is_quantity(value):
        if not np.ndim(value.magnitude):
            yield name, value
    elif type(value) is int:
        yield name, value
    elif isinstance(value, tuple):
        for item in value:
            end = getattr(item, "end", None)
            if end is not None and not hasattr(item, "topic"):
                yield from answer_figures(item, f"{name}.{end.value}")
    elif attrs.has(type(value)):
        for field in attrs.fields(type(value)):
            yield from answer_figures(getattr(value, field.name), f"{name}.{field.name}".strip("."))
