"""What is asked for and cannot be meant: parts of another corner, more thread than there is."""

from __future__ import annotations

import math

from barwright.analysis.corner.corner import Corner
from barwright.errors import SchemaError
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import TURNS, quantity, shown, si

__all__ = ["refuse_more_than_the_thread", "refuse_other_corner"]


def refuse_other_corner(setup: Setup, present: Setup) -> None:
    """Refuse present parts of another corner than the one that is asked about."""
    corners = [f"{one.chassis.id} {one.corner}" for one in (setup, present)]
    if corners[0] != corners[1]:
        raise SchemaError(
            "S207",
            value=corners[1],
            expected=f"{corners[0]}, the corner that is asked about",
            remedy="give the present parts of this corner, or leave them out",
            key="present",
        )


def refuse_more_than_the_thread(corner: Corner, wanted: Wanted) -> None:
    """Refuse a reserve that no place of the nut leaves on both sides."""
    reserve = wanted.thread_reserve
    if reserve is None:
        return
    if corner.setup.adjuster is None:
        expected, remedy = "no reserve: this anchor has no thread", "leave it out"
    else:
        low, high = corner.turns_span
        most = (high - low) / 2.0
        if si(reserve, TURNS) <= most:
            return
        # Rounded down, so that what the message names is taken.
        named = shown(quantity(math.floor(most * 10.0) / 10.0, TURNS), 1)
        expected, remedy = f"at most {named}, half of the thread", "ask for less, or leave it out"
    raise SchemaError(
        "S207",
        value=shown(reserve, 1),
        expected=expected,
        remedy=remedy,
        key="wanted.reserve",
    )
