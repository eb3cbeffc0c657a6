"""Rates of a part by itself, on no vehicle."""

from __future__ import annotations

from barwright.analysis.corner.bar.active_length import active_length
from barwright.analysis.corner.bar.torsional_rates import (
    TorsionalRates,
    bar_rate,
    rates_in_series,
    tube_rate,
)
from barwright.mechanics.spline.clocking import smallest_step
from barwright.parts.bar import Bar
from barwright.parts.tube import Tube
from barwright.units import ANGLE, TORSIONAL_RATE, Quantity, quantity

__all__ = ["clocking_step", "held_bar_rate", "held_rates", "held_tube_rate"]


def held_bar_rate(bar: Bar) -> Quantity:
    """Answer the rate of a bar held over the whole length of its splines.

    Parameters
    ----------
    bar : Bar
        The bar.

    Returns
    -------
    Quantity
        Torsional rate.

    References
    ----------
    See :mod:`barwright.mechanics.bar.torsion` and :mod:`barwright.mechanics.bar.transitions`.
    """
    return quantity(bar_rate(bar, active_length=active_length(bar)), TORSIONAL_RATE)


def held_tube_rate(tube: Tube) -> Quantity:
    """Answer what rate a torque tube has between its lever and its socket.

    Parameters
    ----------
    tube : Tube
        The tube.

    Returns
    -------
    Quantity
        Torsional rate.

    References
    ----------
    See :mod:`barwright.mechanics.bar.torsion`.
    """
    return quantity(tube_rate(tube), TORSIONAL_RATE)


def held_rates(bar: Bar, tube: Tube | None) -> TorsionalRates:
    """Rates of a bar held over the whole length of its splines, alone and with a tube in series.

    Parameters
    ----------
    bar : Bar
        The bar.
    tube : Tube, optional
        The tube that its anchor end lies in.

    Returns
    -------
    TorsionalRates

    References
    ----------
    See :mod:`barwright.mechanics.bar.torsion` and :mod:`barwright.mechanics.bar.transitions`.
    """
    return rates_in_series(bar, tube, active_length=active_length(bar))


def clocking_step(bar: Bar) -> Quantity:
    """Answer by which smallest angle a bar can be re-indexed.

    Parameters
    ----------
    bar : Bar
        The bar.

    Returns
    -------
    Quantity
        Angle.

    References
    ----------
    See :mod:`barwright.mechanics.spline.clocking`.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> bar = Registry.discover().part("fells:bar/short-standard")
    >>> f"{clocking_step(bar).magnitude:.4f}"
    '0.6593'
    """
    teeth = {"arm_teeth": bar.arm_end.teeth, "anchor_teeth": bar.anchor_end.teeth}
    return quantity(float(smallest_step(**teeth)), ANGLE)
