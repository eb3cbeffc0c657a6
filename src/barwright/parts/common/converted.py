"""Records and answers with their quantities in the units of a reader."""

from __future__ import annotations

from typing import Any

import attrs

from barwright.parts.common.source import About
from barwright.units import System, in_system, is_quantity

__all__ = ["converted"]


def converted(value: Any, system: System) -> Any:  # noqa: ANN401 - any part of an answer
    """Return a value with every quantity in it in the units of a system.

    Parameters
    ----------
    value : object
        A quantity, a record or an answer, or a tuple of these; anything else stays.
    system : {"metric", "inch"}
        What the reader wants.

    Returns
    -------
    object
    """
    if is_quantity(value):
        return in_system(value, system)
    if isinstance(value, tuple):
        return tuple(converted(item, system) for item in value)
    if isinstance(value, About):
        return About({name: converted(figure, system) for name, figure in value.items()})
    if attrs.has(type(value)):
        fields = {f.name: getattr(value, f.name) for f in attrs.fields(type(value)) if f.init}
        return attrs.evolve(value, **{n: converted(v, system) for n, v in fields.items()})
    return value
