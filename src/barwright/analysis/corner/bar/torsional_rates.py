"""Torsional rates of the bar, of the tube, and of both in series."""

from __future__ import annotations

import attrs

from barwright.analysis.corner.suspension import metres
from barwright.mechanics.bar import torsion
from barwright.mechanics.common.one_or_many import plain
from barwright.parts.bar import Bar
from barwright.parts.setup import Setup
from barwright.parts.tube import Tube
from barwright.units import SHEAR_MODULUS, TORSIONAL_RATE, si

__all__ = ["TorsionalRates", "bar_rate", "rates_in_series", "torsional_rates", "tube_rate"]


@attrs.frozen(kw_only=True)
class TorsionalRates:
    """Torsional rates of bar and tube, and of both in series [N·m/rad], SI floats.

    Parameters
    ----------
    bar, system : float
        The rates of the bar and of the whole.
    tube : float, optional
        Rate of the tube; none for another anchor, which counts as rigid.
    """

    bar: float
    tube: float | None
    system: float


def torsional_rates(setup: Setup, *, active_length: float | None) -> TorsionalRates | None:
    """Work out the rates as the bar lies; none if it does not lie in both sockets.

    Parameters
    ----------
    setup : Setup
        The corner.
    active_length : float, optional
        Of the bar as it lies [m].

    Returns
    -------
    TorsionalRates, optional
    """
    if active_length is None:
        return None
    tube = setup.anchor if isinstance(setup.anchor, Tube) else None
    return rates_in_series(setup.bar, tube, active_length=active_length)


def rates_in_series(bar: Bar, tube: Tube | None, *, active_length: float) -> TorsionalRates:
    """Work out the rates of a bar with an active length [m], of its tube if any, and of both."""
    alone = bar_rate(bar, active_length=active_length)
    if tube is None:
        return TorsionalRates(bar=alone, tube=None, system=alone)
    of_tube = tube_rate(tube)
    system = plain(torsion.series_rate(alone, of_tube))
    return TorsionalRates(bar=alone, tube=of_tube, system=system)


def bar_rate(bar: Bar, *, active_length: float) -> float:
    """Torsional rate [N·m/rad] of a bar with an active length [m]; as measured, where it was."""
    if bar.measured_rate is not None:
        return si(bar.measured_rate, TORSIONAL_RATE)
    rate = torsion.torsional_rate(
        diameter=metres(bar.diameter),
        bore=metres(bar.bore),
        active_length=active_length,
        shear_modulus=si(bar.material.shear_modulus, SHEAR_MODULUS),
    )
    return plain(rate)


def tube_rate(tube: Tube) -> float:
    """Torsional rate [N·m/rad] of a tube between its lever and its socket."""
    rate = torsion.torsional_rate(
        diameter=metres(tube.outside_diameter),
        bore=metres(tube.bore),
        active_length=abs(metres(tube.socket_position) - metres(tube.lever_position)),
        shear_modulus=si(tube.material.shear_modulus, SHEAR_MODULUS),
    )
    return plain(rate)
