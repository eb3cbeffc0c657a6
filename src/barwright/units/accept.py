"""Takes a pint quantity of any registry as one of ours, of the right kind."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pint

from barwright.errors import QuantityError
from barwright.units.kept import Kept, kept, registry, spelling_of, unit_of
from barwright.units.kinds import ANGLE, ENERGY, TORQUE, TURNS, Kind, a_kind, listed
from barwright.units.quantity import Quantity, quantity

__all__ = ["accepted"]


def accepted(value: Quantity, kind: Kind, key: str) -> Quantity:
    """Bring a pint quantity of any registry into one of the kind's units."""
    if _is_as_wanted(value, kind):
        return value
    ours = _ours(value)
    if ours is None or not _is_of_kind(ours, kind):
        raise QuantityError(
            "Q202",
            value=str(value),
            expected=a_kind(kind),
            remedy=f"give it in {listed(kind)}",
            key=key,
        )
    number = _real(ours.magnitude)
    if number is None:
        raise QuantityError(
            "Q104",
            value=str(value),
            expected=f"{a_kind(kind)} as one real number with its unit",
            remedy="give one figure, not several",
            key=key,
        )
    spelling = spelling_of(ours)
    if spelling in kind.units:
        return kept(number, spelling)
    return quantity(float(registry().Quantity(number, ours.units).m_as(kind.si_unit)), kind)


def _real(magnitude: Any) -> float | None:  # noqa: ANN401 - whatever pint takes
    """Return a magnitude as one real number; none if it is several or not real."""
    found = np.asarray(magnitude)
    # NumPy drops an imaginary part with a warning alone, and older releases make a number
    # of an array that holds one.
    if found.ndim or found.dtype.kind in "bc":
        return None
    try:
        return float(magnitude)
    except (TypeError, ValueError, OverflowError):
        return None


def _is_as_wanted(value: Quantity, kind: Kind) -> bool:
    """Tell at a glance what we made ourselves, in a unit that only this kind has."""
    return type(value) is Kept and type(value.magnitude) is float and value.spelling in kind.units


def _ours(value: Quantity) -> Quantity | None:
    """Return a quantity of any registry as one of our own; none if units are unknown to it."""
    rewrites: tuple[Callable[[], Any], ...] = (lambda: value, value.to_root_units)
    for rewritten in rewrites:
        given = rewritten()
        powers: dict[str, Any] = dict(given.unit_items())
        units = pint.util.UnitsContainer({name: float(power) for name, power in powers.items()})
        try:
            registry().get_dimensionality(units)
        except pint.UndefinedUnitError:
            continue
        return registry().Quantity(given.magnitude, units)
    return None


def _is_of_kind(value: Quantity, kind: Kind) -> bool:
    """Tell whether a quantity of our registry has the dimension and the angle of a kind."""
    one = registry().Quantity(1.0, value.units)
    names = dict(one.unit_items())
    energy = unit_of("J").dimensionality
    # A torque in joules or an angle in turns is the right dimension and the wrong kind.
    is_energy = any(registry().Unit(name).dimensionality == energy for name in names)
    is_turn = any(name.endswith("turn") for name in names)
    return (
        one.dimensionality == registry().parse_units(kind.si_unit).dimensionality
        and dict(one.to_root_units().unit_items()).get("radian", 0) == kind.angle_power
        and (kind not in (TORQUE, ENERGY) or is_energy == (kind == ENERGY))
        and (kind not in (ANGLE, TURNS) or is_turn == (kind == TURNS))
    )
