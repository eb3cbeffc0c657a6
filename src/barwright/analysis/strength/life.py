"""The life of a bar under a history of travel: a band, and what it counts."""

from __future__ import annotations

import enum
import math
from collections.abc import Callable, Iterator

import attrs
import numpy as np

from barwright.analysis.corner.bar.fillets import fillets_of, unknown_concentrations
from barwright.analysis.strength.estimated_band import applied_band, is_estimated
from barwright.analysis.strength.life_lines import BarSurface, WoehlerBand, WoehlerLine
from barwright.analysis.strength.presetting import residual_stress
from barwright.analysis.strength.strength_limits import (
    StrengthLimits,
    StressLimit,
    applied_ultimate_shear,
    pascals,
)
from barwright.analysis.strength.stressed_corner import StressedCorner
from barwright.analysis.strength.travel_history import AskedHistory, TravelSpectrum
from barwright.mechanics.common.types import Real
from barwright.mechanics.strength import fatigue, histories
from barwright.mechanics.strength.histories import MINER_SCATTER, Cycles
from barwright.parts.bar import Bar
from barwright.parts.common.in_short import Summarised
from barwright.units import (
    STRESS,
    Quantity,
    QuantityArray,
    quantity,
    quantity_of_unit,
    same,
    si,
    unit_spelling,
)

__all__ = ["FatigueLife", "LifeBand", "LifeBasis", "fatigue_life"]


class LifeBasis(enum.Enum):
    """What a band of life counts, and what it leaves out."""

    MINER = (
        "Miner's sum: failure at a third of it at the lower end, at three times it at the upper one"
    )
    ONE_LINE = "one line of lives without its scatter: the true band is wider"
    TWO_LINES = "the scatter of the bars, by the two lines of lives that were given"
    ESTIMATED = (
        "the scatter of the steel: 95 % of bars outlive the lower line, 5 % the upper one; both "
        "are estimated from its tensile strength"
    )
    ANY_SURFACE = "any surface from as-forged to ground, because the bar's is not stated"
    STATED_SURFACE = "the surface as stated"
    FIGURES = "the ± of the stresses from tolerances, about 95 %"
    EXACT_FIGURES = "no ± of the stresses: no figure that moves them has a tolerance"
    FILLETS = (
        "the stress concentration of the fillets: all of it at the lower end, none at the upper one"
    )
    NO_FILLETS = "no stress concentration beside the heads: no fillet radius is known"
    UNKNOWN_FILLETS = "no stress concentration of the fillets: it is not known"
    PRESETTING = (
        "the residual stress of pre-setting at the upper end only, because it may fade in use"
    )
    UNKNOWN_PRESETTING = (
        "no residual stress of pre-setting: its twist is not known; in its own sense it lengthens "
        "the life"
    )
    NO_PEENING = (
        "no shot peening: no published figure for it is to hand; only if the bar is peened, give a "
        "line of tests on peened bars"
    )
    NO_DAMAGE = "a sound surface: no published life holds for a nick or rust, and the bar is scrap"


@attrs.frozen(kw_only=True, repr=False)
class LifeBand(Summarised):
    """Between what a bar's life lies, if all that its ends count comes together there.

    Parameters
    ----------
    fewest_runs : float, optional
        Runs of the history until failure, with everything at its worst; none if no cycle does
        any harm even there.
    most_runs : float, optional
        With everything at its best; none if no cycle does any harm there.
    shortest, longest : Quantity, optional
        The same as a distance or a time; none, too, unless the history says what a run covers.
    stress_uncertainty : float
        The ± of the stresses that is counted, as a share of them.
    concentration : float
        The greatest stress concentration of a fillet that the lower end counts; 1 if none.
    basis : tuple of LifeBasis
        What the ends count, and what they leave out.
    """

    fewest_runs: float | None
    most_runs: float | None
    shortest: Quantity | None
    longest: Quantity | None
    stress_uncertainty: float
    concentration: float
    basis: tuple[LifeBasis, ...]


@attrs.frozen(kw_only=True, repr=False)
class FatigueLife(Summarised):
    """Cycles of a history of stress, and the band that the life under it lies in.

    Parameters
    ----------
    ranges, means : QuantityArray
        Of each cycle's shear stress: read-only arrays.
    counts : tuple of float
        1 for a whole cycle, 0.5 for a half one; more of a spectrum.
    history_source : str
        Where the cycles come from.
    covers : Quantity, optional
        Distance or time of one run of the history; none if that is not said.
    woehler_band : WoehlerBand, optional
        Lines of lives.
    ultimate : StressLimit, optional
        Ultimate stress in shear, which takes the means into account.
    band : LifeBand, optional
        None unless lines of lives and the ultimate stress are known.
    lasts_one_run : bool
        Whether the bar is expected to live through the first run; also true where its life
        is not known.
    """

    ranges: QuantityArray = attrs.field(eq=same)
    means: QuantityArray = attrs.field(eq=same)
    counts: tuple[float, ...]
    history_source: str
    covers: Quantity | None
    woehler_band: WoehlerBand | None
    ultimate: StressLimit | None
    band: LifeBand | None
    lasts_one_run: bool


def fatigue_life(
    stressed: StressedCorner,
    limits: StrengthLimits,
    history: AskedHistory,
    *,
    stress_uncertainty: Callable[[], float],
) -> FatigueLife:
    """Count the cycles of a history, and find the band of life under it.

    Parameters
    ----------
    stressed : StressedCorner
        The corner.
    limits : StrengthLimits
        What is known of the bar's strength.
    history : AskedHistory
        The history.
    stress_uncertainty : callable
        Finds the ± of the stresses, as a share of them; called only if a band is made.

    Returns
    -------
    FatigueLife
    """
    bar = stressed.corner.setup.bar
    cycles = _cycles(stressed, history)
    lines, ultimate = applied_band(bar, limits), applied_ultimate_shear(bar, limits)
    load = None
    if lines is not None and ultimate is not None:
        load = _Load(cycles, lines, pascals(ultimate))
    return FatigueLife(
        ranges=quantity(cycles.ranges, STRESS),
        means=quantity(cycles.means, STRESS),
        counts=tuple(float(count) for count in cycles.counts),
        history_source=history.source,
        covers=history.covers,
        woehler_band=lines,
        ultimate=ultimate,
        band=None if load is None else _band(load, bar, limits, history, stress_uncertainty()),
        lasts_one_run=load is None or load.runs(load.lines.highest) >= 1.0,
    )


def _cycles(stressed: StressedCorner, history: AskedHistory) -> Cycles:
    if isinstance(history.given, TravelSpectrum):
        return _of_spectrum(stressed, history.given)
    return histories.count_cycles(stressed.stresses(history.given))


def _of_spectrum(stressed: StressedCorner, spectrum: TravelSpectrum) -> Cycles:
    """Cycles of strokes, from the smallest to the largest as they are given."""
    droop, bump = stressed.travel_left
    shares = np.asarray(spectrum.stroke_shares)
    mean, amplitude = fatigue.mean_and_amplitude(
        one=stressed.stresses(droop * shares), other=stressed.stresses(bump * shares)
    )
    return Cycles(
        ranges=2.0 * np.asarray(amplitude),
        means=np.asarray(mean),
        counts=np.asarray(spectrum.stroke_counts),
    )


# -- The band --------------------------------------------------------------------------------


@attrs.frozen(eq=False)
class _Load:
    """Cycles, the lines of lives that they are held against, and the ultimate stress [Pa]."""

    cycles: Cycles
    lines: WoehlerBand
    ultimate: float

    def runs(
        self, line: WoehlerLine, *, times: float = 1.0, residual: float = 0.0, sum_at: float = 1.0
    ) -> float:
        """Find the runs until failure by one line, at changed stresses and sum of damage."""
        cycles = Cycles(
            ranges=self.cycles.ranges * times,
            means=self.cycles.means * times + residual,
            counts=self.cycles.counts,
        )
        damage = _damage(cycles, line, ultimate=self.ultimate)
        return float(histories.repeats_to_failure(damage, damage_at_failure=sum_at))


def _damage(cycles: Cycles, line: WoehlerLine, *, ultimate: float) -> Real:
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


def _band(
    load: _Load, bar: Bar, limits: StrengthLimits, history: AskedHistory, uncertainty: float
) -> LifeBand:
    residual, concentration = residual_stress(bar, limits), _concentration(bar, limits)
    left = 0.0 if residual is None else si(residual, STRESS)
    fewest = load.runs(
        load.lines.lowest, times=(1.0 + uncertainty) * concentration, sum_at=1.0 / MINER_SCATTER
    )
    # Against its sense what pre-setting leaves does harm; it may also have faded.
    most = max(
        load.runs(
            load.lines.highest, times=1.0 - uncertainty, residual=stress, sum_at=MINER_SCATTER
        )
        for stress in (0.0, left)
    )
    return LifeBand(
        fewest_runs=_ended(fewest),
        most_runs=_ended(most),
        shortest=_covered(history.covers, fewest),
        longest=_covered(history.covers, most),
        stress_uncertainty=uncertainty,
        concentration=concentration,
        basis=(*_basis(bar, limits, load.lines, uncertainty, residual),),
    )


def _ended(runs: float) -> float | None:
    return runs if math.isfinite(runs) else None


def _covered(covers: Quantity | None, runs: float) -> Quantity | None:
    if covers is None or not math.isfinite(runs):
        return None
    return quantity_of_unit(float(covers.magnitude) * runs, unit_spelling(covers))


def _concentration(bar: Bar, limits: StrengthLimits) -> float:
    """Greatest known concentration of a fillet; lines that were given contain it."""
    if not is_estimated(limits):
        return 1.0
    known = (fillet.concentration for fillet in fillets_of(bar))
    return max((factor for factor in known if factor is not None), default=1.0)


def _basis(
    bar: Bar,
    limits: StrengthLimits,
    lines: WoehlerBand,
    uncertainty: float,
    residual: Quantity | None,
) -> Iterator[LifeBasis]:
    yield LifeBasis.MINER
    if is_estimated(limits):
        yield LifeBasis.ESTIMATED
        any_surface = limits.surface is BarSurface.ANY
        yield LifeBasis.ANY_SURFACE if any_surface else LifeBasis.STATED_SURFACE
        yield from _of_fillets(bar)
    else:
        yield LifeBasis.ONE_LINE if lines.lowest == lines.highest else LifeBasis.TWO_LINES
    yield LifeBasis.FIGURES if uncertainty > 0.0 else LifeBasis.EXACT_FIGURES
    if residual is not None:
        yield LifeBasis.PRESETTING
    elif bar.preset:
        yield LifeBasis.UNKNOWN_PRESETTING
    if is_estimated(limits):
        yield LifeBasis.NO_PEENING
    yield LifeBasis.NO_DAMAGE


def _of_fillets(bar: Bar) -> Iterator[LifeBasis]:
    if not fillets_of(bar):
        yield LifeBasis.NO_FILLETS
    if any(fillet.concentration is not None for fillet in fillets_of(bar)):
        yield LifeBasis.FILLETS
    if any(unknown_concentrations(bar)):
        yield LifeBasis.UNKNOWN_FILLETS
