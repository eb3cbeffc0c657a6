"""Shear stresses of a bar's body over the travel, each with its limit."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

import attrs
import numpy as np

from barwright.analysis.rates.bolt_load import BoltLoad
from barwright.analysis.strength.fillet_stress import FilletStress, fillet_stresses
from barwright.analysis.strength.life import FatigueLife
from barwright.analysis.strength.overstress import (
    StressCheck,
    checked_at_yield,
    checked_permissible,
)
from barwright.analysis.strength.presetting import kept_twist, residual_stress
from barwright.analysis.strength.strength_limits import (
    StrengthLimits,
    StressLimit,
    applied_endurance,
    applied_shear_yield,
    applied_ultimate_shear,
    pascals,
)
from barwright.analysis.strength.stressed_corner import StressedCorner, Swing
from barwright.analysis.strength.thread_grip import ThreadGrip, thread_grip
from barwright.mechanics.common.types import Real
from barwright.mechanics.strength import fatigue
from barwright.parts.bar import Bar
from barwright.parts.common.in_short import Summarised
from barwright.units import (
    STRESS,
    Quantity,
    QuantityArray,
    quantity,
    same,
)

__all__ = [
    "HaighLine",
    "StrengthFigures",
    "StressSwing",
    "strength_figures",
]


@attrs.frozen(kw_only=True, repr=False)
class HaighLine(Summarised):
    """Corners of Goodman's line, cut off at yield if that is known.

    Parameters
    ----------
    means, amplitudes : QuantityArray
        Read-only arrays, from the axis of amplitudes to that of means.
    """

    means: QuantityArray = attrs.field(eq=same)
    amplitudes: QuantityArray = attrs.field(eq=same)


@attrs.frozen(kw_only=True, repr=False)
class StressSwing(Summarised):
    """The stress while the wheel goes up and down about ride height.

    Parameters
    ----------
    travel : Quantity
        Of the wheel to either side, as asked; the stops of the suspension cut it.
    mean, amplitude : Quantity
        Of the shear stress.
    endurance : StressLimit, optional
        Amplitude of the bar that is borne for ever without a mean.
    ultimate : StressLimit, optional
        Ultimate stress in shear.
    goodman_factor : float, optional
        Safety by Goodman's line; none unless both limits are known.
    haigh_line : HaighLine, optional
        The line, under the same condition.
    gerber_factor : float, optional
        By Gerber's parabola, under the same condition.  Goodman's line alone decides.
    soderberg_factor, elliptic_factor : float, optional
        By Soderberg's line and the elliptic curve; none unless the endurance limit and the
        yield stress of the steel in shear are known.
    yield_factor : float, optional
        Of the greatest stress of the swing against that yield stress.
    """

    travel: Quantity
    mean: Quantity
    amplitude: Quantity
    endurance: StressLimit | None
    ultimate: StressLimit | None
    goodman_factor: float | None
    haigh_line: HaighLine | None
    gerber_factor: float | None = None
    soderberg_factor: float | None = None
    elliptic_factor: float | None = None
    yield_factor: float | None = None


@attrs.frozen(kw_only=True, repr=False)
class StrengthFigures(Summarised):
    """Stresses of a bar's body, and their limits.

    Parameters
    ----------
    preset : bool
        Whether the bar is pre-set, which decides the permissible stress.
    droop, ride, bump : StressCheck
        Full droop, at rest and full bump, against the permissible shear stress.
    droop_at_yield, at_yield : StressCheck
        Full droop and full bump against the yield stress in shear.
    swing : StressSwing, optional
        If a travel was given.
    life : FatigueLife, optional
        If a history was given.
    fillets : tuple of FilletStress
        Of the fillets between body and heads; none where cones are, or where no model
        covers a fillet.
    residual_stress : Quantity, optional
        Left by pre-setting at the surface of the body, against its sense; none unless
        the twist of pre-setting and the yield stress in shear are known.
    kept_twist : Quantity, optional
        Twist that the bar keeps for ever after its greatest stroke; none unless its body
        yields there, is solid and not pre-set.
    bolt : BoltLoad, optional
        Load of the adjuster's bolt, as of :func:`~barwright.rates`; none with a fixed socket.
    grip : ThreadGrip, optional
        How the nut grips that bolt; none unless the height of a nut is known.
    """

    preset: bool
    droop: StressCheck
    ride: StressCheck
    bump: StressCheck
    droop_at_yield: StressCheck
    at_yield: StressCheck
    swing: StressSwing | None
    life: FatigueLife | None
    fillets: tuple[FilletStress, ...] = ()
    residual_stress: Quantity | None = None
    kept_twist: Quantity | None = None
    bolt: BoltLoad | None = None
    grip: ThreadGrip | None = None

    @property
    def least_factor(self) -> float | None:
        """Least factor to the permissible shear stress; none where none is known."""
        checks = (self.droop, self.ride, self.bump)
        return min((c.factor for c in checks if c.factor is not None), default=None)


def strength_figures(
    stressed: StressedCorner,
    limits: StrengthLimits,
    reach: Quantity | None,
    life: FatigueLife | None,
    bolt: BoltLoad | None,
) -> StrengthFigures:
    """Stresses at the stops, at rest and about ride height, beside the life and bolt load found."""
    bar = stressed.corner.setup.bar
    droop, ride, bump = stressed.at_stops_and_ride.values()
    swing = None if reach is None else stressed.swing(reach)
    return StrengthFigures(
        preset=bar.preset,
        droop=checked_permissible(bar, droop, limits),
        ride=checked_permissible(bar, ride, limits),
        bump=checked_permissible(bar, bump, limits),
        droop_at_yield=checked_at_yield(bar, droop, limits),
        at_yield=checked_at_yield(bar, bump, limits),
        swing=None if swing is None else _swing(bar, limits, swing),
        life=life,
        fillets=fillet_stresses(
            bar,
            greatest=max(abs(droop), abs(bump)),
            amplitude=None if swing is None else swing.amplitude,
        ),
        residual_stress=residual_stress(bar, limits),
        kept_twist=kept_twist(bar, limits, torque=stressed.greatest_torque),
        bolt=bolt,
        grip=thread_grip(stressed.corner.setup.adjuster, bolt),
    )


def _swing(bar: Bar, limits: StrengthLimits, swing: Swing) -> StressSwing:
    endurance, ultimate = applied_endurance(limits), applied_ultimate_shear(bar, limits)
    shear_yield = applied_shear_yield(bar, limits)
    line = None
    if endurance is not None and ultimate is not None:
        pair = {"endurance": pascals(endurance), "ultimate": pascals(ultimate)}
        line = _haigh_line(pair, shear_yield)
    factor = _swing_factor(mean=swing.mean, amplitude=swing.amplitude)
    return StressSwing(
        travel=swing.travel,
        mean=quantity(swing.mean, STRESS),
        amplitude=quantity(swing.amplitude, STRESS),
        endurance=endurance,
        ultimate=ultimate,
        goodman_factor=factor(fatigue.goodman_factor, endurance=endurance, ultimate=ultimate),
        haigh_line=line,
        gerber_factor=factor(fatigue.gerber_factor, endurance=endurance, ultimate=ultimate),
        soderberg_factor=factor(
            fatigue.soderberg_factor, endurance=endurance, shear_yield=shear_yield
        ),
        elliptic_factor=factor(
            fatigue.elliptic_factor, endurance=endurance, shear_yield=shear_yield
        ),
        yield_factor=factor(fatigue.yield_factor, shear_yield=shear_yield),
    )


def _swing_factor(*, mean: float, amplitude: float) -> Callable[..., float | None]:
    """Return a function for the safety factor of a swing [Pa]; any limit may be unknown."""

    def factor(kernel: Callable[..., Real], **limits: StressLimit | None) -> float | None:
        known = {name: pascals(limit) for name, limit in limits.items() if limit is not None}
        if len(known) < len(limits):
            return None
        return _finite(kernel(amplitude=amplitude, mean=mean, **known))

    return factor


def _haigh_line(pair: Mapping[str, float], shear_yield: StressLimit | None) -> HaighLine:
    end = math.inf if shear_yield is None else pascals(shear_yield)
    means, amplitudes = fatigue.haigh_line(**pair, shear_yield=end)
    return HaighLine(
        means=quantity(np.asarray(means), STRESS),
        amplitudes=quantity(np.asarray(amplitudes), STRESS),
    )


def _finite(value: Real) -> float | None:
    return float(value) if math.isfinite(float(value)) else None
