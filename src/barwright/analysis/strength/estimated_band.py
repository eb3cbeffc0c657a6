"""The lines of lives that apply to a bar: as given, else estimated from its steel."""

from __future__ import annotations

import attrs

from barwright.analysis.corner.suspension import metres
from barwright.analysis.strength.life_lines import BarSurface, WoehlerBand, WoehlerLine
from barwright.analysis.strength.strength_limits import (
    StrengthLimits,
    applied_ultimate_shear,
    pascals,
    tensile_limit,
)
from barwright.mechanics.strength import estimated_lives as kernels
from barwright.mechanics.strength.estimated_lives import SurfaceFinish
from barwright.parts.bar import Bar
from barwright.units import STRESS, quantity

__all__ = ["applied_band", "is_estimated"]

# What 95 % of normally distributed bars reach lies so many standard deviations below the mean.
_DEVIATIONS = 1.645

_SOURCE = "estimated after Shigley, 8th ed., ch. 6 (from memory)"


def is_estimated(limits: StrengthLimits) -> bool:
    """Answer whether lives are estimated, because no line of them is given.

    Parameters
    ----------
    limits : StrengthLimits
        What is given.

    Returns
    -------
    bool
    """
    return not (limits.woehler_line or limits.woehler_band) and limits.surface is not None


def applied_band(bar: Bar, limits: StrengthLimits) -> WoehlerBand | None:
    """Lines of lives between which those of a bar lie.

    Parameters
    ----------
    bar : Bar
        The bar.
    limits : StrengthLimits
        What is known of its strength.

    Returns
    -------
    WoehlerBand, optional
        With two equal lines if one line is given; none unless a line, a band, or a surface and
        the tensile strength of the steel are known.

    Raises
    ------
    QuantityError
        If lives are to be estimated of a bar thinner than 2.79 mm or thicker than 254 mm.
    """
    if limits.woehler_line:
        return WoehlerBand(lowest=limits.woehler_line, highest=limits.woehler_line)
    if limits.woehler_band or limits.surface is None:
        return limits.woehler_band
    return _estimated(bar, limits, limits.surface)


def _estimated(bar: Bar, limits: StrengthLimits, surface: BarSurface) -> WoehlerBand | None:
    tensile, ultimate = tensile_limit(bar), applied_ultimate_shear(bar, limits)
    if tensile is None or ultimate is None:
        return None
    known = _Known(pascals(tensile), pascals(ultimate), metres(bar.diameter))
    worst, best = _finishes(surface)
    least, greatest = kernels.LOW_CYCLE_SHARES
    lowest = known.line(worst, _DEVIATIONS, low_cycle_share=least, outlived_by="95 %")
    highest = known.line(best, -_DEVIATIONS, low_cycle_share=greatest, outlived_by="5 %")
    return WoehlerBand(
        lowest=lowest,
        # What is carried on below its end is the lower line alone.
        highest=attrs.evolve(highest, endurance=highest.at_stress),
    )


def _finishes(surface: BarSurface) -> tuple[SurfaceFinish, SurfaceFinish]:
    """Worst and best surface that a stated one may be."""
    if surface is BarSurface.ANY:
        return SurfaceFinish.AS_FORGED, SurfaceFinish.GROUND
    return SurfaceFinish(surface.value), SurfaceFinish(surface.value)


@attrs.frozen
class _Known:
    """What lives are estimated from."""

    tensile: float
    ultimate: float
    diameter: float

    def line(
        self,
        finish: SurfaceFinish,
        deviations: float,
        *,
        low_cycle_share: float,
        outlived_by: str,
    ) -> WoehlerLine:
        """Line of bars with a surface that lie so many deviations below the mean."""
        low_cycle = low_cycle_share * self.ultimate
        high_cycle = float(
            kernels.specimen_endurance(self.tensile)
            * kernels.surface_factor(self.tensile, finish=finish)
            * kernels.size_factor(self.diameter)
            * kernels.TORSION_FACTOR
            * kernels.survival_factor(deviations)
        )
        return WoehlerLine(
            at_stress=quantity(high_cycle, STRESS),
            at_life=kernels.HIGH_CYCLES,
            exponent=float(
                kernels.life_exponent(low_cycle_stress=low_cycle, high_cycle_stress=high_cycle)
            ),
            source=f"{_SOURCE}, {finish.value}, {outlived_by} of bars outlive it",
        )
