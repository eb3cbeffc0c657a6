"""Shear stresses of a bar's body over the travel, each with its limit."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.rates.corner_state import SolvedStates
from barwright.analysis.strength.fillet_stress import FilletStress, fillet_stresses
from barwright.analysis.strength.overstress import (
    StressCheck,
    checked_at_yield,
    checked_permissible,
)
from barwright.analysis.strength.presetting import residual_stress
from barwright.analysis.strength.strength_limits import (
    StrengthLimits,
    StressLimit,
    WoehlerLine,
    applied_endurance,
    applied_shear_yield,
    applied_ultimate_shear,
    pascals,
)
from barwright.mechanics.bar import torsion
from barwright.mechanics.common import solve
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real
from barwright.mechanics.strength import fatigue, histories
from barwright.parts.bar import Bar
from barwright.parts.in_short import Summarised
from barwright.units import (
    STRESS,
    Quantity,
    QuantityArray,
    quantity,
    same,
    si,
)

__all__ = [
    "FatigueLife",
    "HaighLine",
    "StrengthFigures",
    "StressSwing",
    "StressedCorner",
    "Swing",
    "damage_of",
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
class FatigueLife(Summarised):
    """Cycles of a stress history, counted by rainflow, and the share of life they use.

    Parameters
    ----------
    ranges, means : QuantityArray
        Of each cycle's shear stress: read-only arrays.
    counts : tuple of float
        1 for a whole cycle, 0.5 for a half one.
    woehler_line : WoehlerLine, optional
        Line of lives.
    ultimate : StressLimit, optional
        Ultimate stress in shear, which takes the means into account.
    damage : float, optional
        Share of the life that one run uses up; none unless both are known, and
        none where the first run breaks the bar.
    repeats : float, optional
        Runs until failure is expected; none unless both are known, and none where
        the history does no harm.  Good to compare; uncertain by a factor of three.
    """

    ranges: QuantityArray = attrs.field(eq=same)
    means: QuantityArray = attrs.field(eq=same)
    counts: tuple[float, ...]
    woehler_line: WoehlerLine | None
    ultimate: StressLimit | None
    damage: float | None
    repeats: float | None


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

    @property
    def least_factor(self) -> float | None:
        """Least factor to the permissible stress shear stress; none where none is known."""
        checks = (self.droop, self.ride, self.bump)
        return min((c.factor for c in checks if c.factor is not None), default=None)


@attrs.frozen(eq=False)
class Swing:
    """A travel of the wheel, and mean and amplitude of the stress in the bar's body [Pa]."""

    travel: Quantity
    mean: float
    amplitude: float


@attrs.frozen(eq=False)
class StressedCorner:
    """A corner as it is rated, and the stress in its bar's body over the travel."""

    corner: Corner
    states: SolvedStates

    @property
    def at_stops_and_ride(self) -> dict[str, float]:
        """Shear stress [Pa] at full droop, at rest and at full bump."""
        states = {"droop": self.states.droop, "ride": self.states.ride, "bump": self.states.bump}
        return {place: state.shear_stress for place, state in states.items()}

    def stresses(self, travel: NDArray[np.float64]) -> NDArray[np.float64]:
        """Shear stress [Pa] where the hub has moved from ride height [m], bump positive."""
        ride, bar = self.states.ride, self.corner.setup.bar
        height = plain(self.corner.height(ride.angle))
        twist = self._arm_angle(height - travel) - (ride.angle - ride.twist)
        torque, _ = self.corner.hold(twist, rate=self.states.system_rate)
        diameter, bore = metres(bar.diameter), metres(bar.bore)
        return np.asarray(torsion.shear_stress(torque, diameter=diameter, bore=bore))

    def swing(self, travel: Quantity) -> Swing:
        """Find mean and amplitude of that stress for a travel to either side."""
        one, other = self.stresses(np.array([-metres(travel), metres(travel)]))
        mean, amplitude = fatigue.mean_and_amplitude(one=float(one), other=float(other))
        return Swing(travel, float(mean), float(amplitude))

    def _arm_angle(self, height: NDArray[np.float64]) -> Real:
        """Arm angle [rad] at a hub-to-arch height [m]; beyond a stop, that of the stop."""

        def below(angle: Real) -> tuple[Real, Real]:
            hub = self.corner.linkage.motion(angle).hub
            return height - self.corner.arch_height + hub.height, hub.slope

        low, high = self.corner.travel
        return solve.rising_root(below, low=low, high=high)


def strength_figures(
    stressed: StressedCorner,
    limits: StrengthLimits,
    reach: Quantity | None,
    points: NDArray[np.float64] | None,
) -> StrengthFigures:
    """Stresses at the stops, at rest, about ride height and over a history [m]."""
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
        life=None if points is None else _life(stressed, limits, points),
        fillets=fillet_stresses(
            bar,
            greatest=max(abs(droop), abs(bump)),
            amplitude=None if swing is None else swing.amplitude,
        ),
        residual_stress=residual_stress(bar, limits),
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


def _life(
    stressed: StressedCorner, limits: StrengthLimits, points: NDArray[np.float64]
) -> FatigueLife:
    cycles = histories.count_cycles(stressed.stresses(points))
    line = limits.woehler_line
    ultimate = applied_ultimate_shear(stressed.corner.setup.bar, limits)
    damage = (
        None
        if line is None or ultimate is None
        else damage_of(cycles, line, ultimate=pascals(ultimate))
    )
    return FatigueLife(
        ranges=quantity(cycles.ranges, STRESS),
        means=quantity(cycles.means, STRESS),
        counts=tuple(float(count) for count in cycles.counts),
        woehler_line=line,
        ultimate=ultimate,
        damage=None if damage is None else _finite(damage),
        repeats=None if damage is None else _finite(histories.repeats_to_failure(damage)),
    )


def damage_of(cycles: histories.Cycles, line: WoehlerLine, *, ultimate: float) -> Real:
    """Share of a bar's life that counted cycles use, by its ultimate stress in shear [Pa]."""
    endurance = 0.0 if line.endurance is None else si(line.endurance, STRESS)
    return histories.history_damage(
        cycles,
        ultimate=ultimate,
        at_stress=si(line.at_stress, STRESS),
        at_life=line.at_life,
        exponent=line.exponent,
        endurance=endurance,
    )


def _finite(value: Real) -> float | None:
    return float(value) if math.isfinite(float(value)) else None
