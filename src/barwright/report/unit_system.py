"""Answers in metric or inch units."""

from __future__ import annotations

from typing import TypeVar

import attrs

from barwright.errors import SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.converted import converted
from barwright.units import System, is_quantity

__all__ = ["in_units"]

A = TypeVar("A")


@checks_arguments
def in_units(answer: A, system: System) -> A:
    """Convert an answer to metric units, or to inches, pounds and foot-pounds.

    Parameters
    ----------
    answer : LengthFit, Rates, Reindex, Ride, Donors, …
        An answer; a bench sheet and a working are written in their units from the start.
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
    in_its_units: A = converted(answer, system)
    return in_its_units
