"""Answers in metric or inch units."""

from __future__ import annotations

from typing import Any, TypeVar

import attrs

from barwright.errors import SchemaError
from barwright.parts.arguments import checks_arguments
from barwright.parts.source import About
from barwright.units import System, in_system, is_quantity

__all__ = ["in_units"]

A = TypeVar("A")


@checks_arguments
def in_units(answer: A, system: System) -> A:
    """Convert an answer to metric units, or to inches, pounds and foot-pounds.

    Parameters
    ----------
    answer : LengthFit, Rates, Reindex, Ride, Donors, …
        An answer; a bench sheet is written in its units from the start.
    system : {"metric", "inch"}
        What the reader wants.

    Returns
    -------
    answer
        The same with every quantity converted; angles, turns and frequencies stay.

    Examples
    --------
    >>> from barwright.analysis.fit.length_fit import length_fit
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> print(f"{in_units(length_fit(setup), 'inch').active_length:.3f}")
    31.999 inch
    """
    if not (attrs.has(type(answer)) or is_quantity(answer) or isinstance(answer, tuple)):
        raise SchemaError(
            "S203",
            value=answer,
            expected="an answer, a record, a quantity or a tuple of these",
            remedy="pass the answer of a question, like rates(setup)",
            key="answer",
        )
    converted: A = _converted(answer, system)
    return converted


def _converted(value: Any, system: System) -> Any:  # noqa: ANN401 - any part of an answer
    if is_quantity(value):
        return in_system(value, system)
    if isinstance(value, tuple):
        return tuple(_converted(item, system) for item in value)
    if isinstance(value, About):
        return About({name: _converted(figure, system) for name, figure in value.items()})
    if attrs.has(type(value)):
        fields = {f.name: getattr(value, f.name) for f in attrs.fields(type(value))}
        return attrs.evolve(value, **{n: _converted(v, system) for n, v in fields.items()})
    return value
