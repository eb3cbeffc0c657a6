"""Whether anything of a quantity is left when it is shown."""

from __future__ import annotations

from barwright.units.quantity import Quantity, shown

__all__ = ["is_nothing"]


def is_nothing(value: Quantity, *, digits: int) -> bool:
    """Tell whether so few digits leave nothing of a quantity: of a ±, that none is known.

    Parameters
    ----------
    value : Quantity
        The quantity.
    digits : int
        Digits behind the point, as in :func:`~barwright.units.quantity.shown`.

    Returns
    -------
    bool
    """
    return float(shown(value, digits).split(" ", maxsplit=1)[0]) == 0.0
