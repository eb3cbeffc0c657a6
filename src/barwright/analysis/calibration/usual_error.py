"""The usual ± of what is read of a corner, from the catalogue of tools."""

from __future__ import annotations

from barwright.registry.usual.catalogue import usual_error_of
from barwright.units import Quantity

__all__ = ["usual_error"]

_TOOLS = {
    "height": "tape",
    "arm_angle": "protractor",
    "mass": "scales",
    "pin_distance": "adjuster-calliper",
    "nut_turns": "counted-turns",
}


def usual_error(field: str) -> Quantity:
    """Return the usual ± of a figure of a reading.

    Parameters
    ----------
    field : str
        Field of a reading, or ``mass`` of its load.

    Returns
    -------
    Quantity
    """
    return usual_error_of(_TOOLS[field]).within
