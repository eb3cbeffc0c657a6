"""Loads and heights far from the vehicle's own, and what may have been meant.

The limits are common practice, no source: a corner that carries less than half, or more
than 1.8 times, what it carries in standard trim is rarely loaded so and often written so.
Pounds written as kilograms are 2.2 times the figure, an axle's load for one wheel's twice.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.finding import Finding, Topic
from barwright.errors import QuantityError
from barwright.mechanics.bar import torsion
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real
from barwright.parts.load import LoadKind
from barwright.parts.wanted import Wanted
from barwright.units import (
    LENGTH,
    MASS,
    STRESS,
    Quantity,
    quantity,
    quantity_of_unit,
    shown,
    si,
    unit_spelling,
)

__all__ = ["height_meant", "is_unbearable", "refuse_unbearable_load", "unusual_load"]

_LEAST, _MOST = 0.5, 1.8

# Shear stress that no spring steel bears [Pa]: common practice, no source.
_UNBEARABLE = 1.5e9


# -- Load ------------------------------------------------------------------------------


def unusual_load(corner: Corner) -> tuple[Finding, ...]:
    """Report a load far from the vehicle's own, and its likely cause.

    Parameters
    ----------
    corner : Corner
        The corner.

    Returns
    -------
    tuple of Finding
        One, or none for a load near that of standard trim.
    """
    if _is_usual(corner, corner.sprung_mass):
        return ()
    own = corner.setup.axle.standard_mass
    text = f"the sprung mass is far from that of standard trim{_load_meant(corner)}"
    low, high = (quantity(share * si(own, MASS), MASS) for share in (_LEAST, _MOST))
    sprung = quantity(corner.sprung_mass, MASS)
    return (Finding(topic=Topic.LOAD, text=text, figure=sprung, limit=low, upper=high),)


def refuse_unbearable_load(corner: Corner, torque: float) -> None:
    """Refuse a load whose torque [N·m] no bar of these diameters can carry in any steel.

    Raises
    ------
    QuantityError
        Q302, with what the load may be instead.
    """
    bar = corner.setup.bar
    if not is_unbearable(corner, torque):
        return
    unbearable = f"{shown(quantity(_UNBEARABLE, STRESS))} in shear, which no spring steel can carry"
    raise QuantityError(
        "Q302",
        value=shown(corner.setup.load.mass),
        expected=f"a load under which the bar of {shown(bar.diameter)} stays below {unbearable}",
        remedy=f"check the load{_load_meant(corner)}, and the bar",
        key="load.mass",
    )


def is_unbearable(corner: Corner, torque: Real) -> bool:
    """Tell whether no bar of these diameters can carry a torque [N·m] in any steel.

    Parameters
    ----------
    corner : Corner
        The corner.
    torque : float or array
        Of the bar.

    Returns
    -------
    bool
        Or an array of them.
    """
    bar = corner.setup.bar
    size = {"diameter": metres(bar.diameter), "bore": metres(bar.bore)}
    return plain(np.abs(torsion.shear_stress(torque, **size))) > _UNBEARABLE


def _is_usual(corner: Corner, sprung: float) -> bool:
    own = si(corner.setup.axle.standard_mass, MASS)
    return _LEAST * own <= sprung <= _MOST * own


def _load_meant(corner: Corner) -> str:
    """Give the likely meaning of a load, as a clause; empty if there is none."""
    meant = " or ".join(_meant_loads(corner))
    return f": it may be {meant}" if meant else ""


def _meant_loads(corner: Corner) -> Iterator[str]:
    """Slips that would make a load usual."""
    load = corner.setup.load
    unsprung = si(corner.setup.axle.unsprung_mass, MASS)
    is_reading = load.kind is LoadKind.SCALE_READING
    off = unsprung if is_reading else 0.0
    given, written = si(load.mass, MASS), float(load.mass.magnitude)
    if unit_spelling(load.mass) == "lb":
        slip = "kilograms written as pounds"
        other = quantity_of_unit(written, "kg")
    else:
        slip = "pounds written as kilograms"
        other = quantity_of_unit(written, "lb")
    if _is_usual(corner, si(other, MASS) - off):
        yield f"{slip} ({shown(other)})"
    if _is_usual(corner, given / 2.0 - off):
        yield "the load of the axle given for one wheel"
    if is_reading and _is_usual(corner, given):
        yield "the sprung mass given as a scale's reading"
    if not is_reading and _is_usual(corner, given - unsprung):
        yield "a scale's reading given as the sprung mass"


# -- Height ----------------------------------------------------------------------------


def height_meant(corner: Corner, wanted: Wanted, *, low: Quantity, high: Quantity) -> str:
    """Give the likely meaning of a height out of the travel, as a clause; empty if none.

    Parameters
    ----------
    corner : Corner
        The corner.
    wanted : Wanted
        The wish.
    low, high : Quantity
        Heights that the travel reaches.

    Returns
    -------
    str
    """
    if wanted.height is None:
        return ""
    meant = " or ".join(_meant_heights(corner, wanted.height, metres(low), metres(high)))
    return f"; it may be {meant}" if meant else ""


def _meant_heights(corner: Corner, height: Quantity, low: float, high: float) -> Iterator[str]:
    """Mistakes that explain a height out of the travel."""
    own = unit_spelling(height)
    for unit in LENGTH.units:
        other = quantity_of_unit(float(height.magnitude), unit)
        if unit != own and low <= metres(other) <= high:
            yield f"{shown(other)} with the wrong unit"
    from_hub = metres(height) - metres(corner.setup.axle.tyre_radius)
    if low <= from_hub <= high:
        yield "measured from the ground instead of from the hub"
