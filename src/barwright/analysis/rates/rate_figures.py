"""Rates of a corner, as quantities."""

from __future__ import annotations

import attrs

from barwright.analysis.fit.head_load import HeadLoad
from barwright.analysis.rates.bolt_load import BoltLoad
from barwright.analysis.rates.corner_state import CornerState
from barwright.analysis.rates.curve import RateCurve
from barwright.parts.common.in_short import Summarised
from barwright.units import Quantity

__all__ = ["PartRates", "RateFigures"]


@attrs.frozen(kw_only=True, repr=False)
class RateFigures(Summarised):
    """Rates and states of a corner.

    Parameters
    ----------
    bar_rate, system_rate : Quantity
        Torsional rates of the bar alone, and of bar and tube in series.
    tube_rate : Quantity, optional
        Rate of the torque tube; none for another anchor, which counts as rigid.
    shear_modulus : Quantity
        That the bar's rate rests on.
    shear_modulus_tolerance : Quantity, optional
        Half width of the interval it lies in, if the pack gives one.
    droop, ride, bump : CornerState
        Full droop, at rest, full bump.
    curve : RateCurve
        Over the whole travel.
    ride_frequency : Quantity, optional
        Of the sprung mass on wheel rate and tyre in series; none where the
        corner has no stiffness at rest.
    damping_ratio : float, optional
        Of the sprung mass on the wheel rate at rest, body and damper alone; none where
        the damper's rate is not known or the corner has no stiffness at rest.
    heads : tuple of HeadLoad
        Stresses in the splined heads at the greatest torque of the travel.
    bolt : BoltLoad, optional
        Load of the adjuster's bolt; none with a fixed socket.  It is for the setup's
        own teeth on the keys; other teeth load the bolt differently.
    wheel_hop_frequency : Quantity, optional
        Natural frequency of the unsprung mass between wheel rate and tyre, the sprung mass
        free to move; none where the corner has no stiffness at rest.
    wheel_hop_damping : float, optional
        Its damping ratio; none if the damper's rate is not known.
    """

    bar_rate: Quantity
    tube_rate: Quantity | None
    system_rate: Quantity
    shear_modulus: Quantity
    shear_modulus_tolerance: Quantity | None
    droop: CornerState
    ride: CornerState
    bump: CornerState
    curve: RateCurve
    ride_frequency: Quantity | None
    damping_ratio: float | None
    heads: tuple[HeadLoad, ...]
    bolt: BoltLoad | None
    wheel_hop_frequency: Quantity | None = None
    wheel_hop_damping: float | None = None


@attrs.frozen(kw_only=True, repr=False)
class PartRates(Summarised):
    """Torsional rates of a corner's bar and tube.

    Parameters
    ----------
    bar_rate, system_rate : Quantity
        Of the bar alone, and of bar and tube in series.
    tube_rate : Quantity, optional
        Rate of the torque tube; none for another anchor, which counts as rigid.
    """

    bar_rate: Quantity
    tube_rate: Quantity | None
    system_rate: Quantity
