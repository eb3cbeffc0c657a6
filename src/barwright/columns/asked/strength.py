"""Whether the bars of a column are strong enough, and how long they last."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

import numpy as np

from barwright.analysis.answer import Verdict
from barwright.analysis.corner.corner import metres
from barwright.analysis.strength.strength import (
    AskedStrength,
    Strength,
    asked_strength,
    strength,
)
from barwright.analysis.strength.strength_limits import StrengthLimits
from barwright.analysis.strength.stressed_corner import StressedCorner
from barwright.analysis.strength.stresses import StrengthFigures, StressSwing
from barwright.columns.asked.question import Figures, Found, Question
from barwright.columns.asked.rates import rated_verdicts
from barwright.columns.bar_stresses import BarStresses, finite
from barwright.columns.column_corner import ColumnCorner
from barwright.columns.possible import any_of
from barwright.columns.verdicts import Verdicts, answered, where, words
from barwright.mechanics.common.types import Real
from barwright.mechanics.strength import fatigue
from barwright.parts.chassis import BarEndName
from barwright.parts.common.fields import FigureLike
from barwright.units import STRESS, ArrayWithUnit, Kind

__all__ = ["strength_question"]

_FACTORS: dict[str, tuple[Callable[..., Real], tuple[str, ...]]] = {
    "goodman_factor": (fatigue.goodman_factor, ("endurance", "ultimate")),
    "gerber_factor": (fatigue.gerber_factor, ("endurance", "ultimate")),
    "soderberg_factor": (fatigue.soderberg_factor, ("endurance", "shear_yield")),
    "elliptic_factor": (fatigue.elliptic_factor, ("endurance", "shear_yield")),
    "yield_factor": (fatigue.yield_factor, ("shear_yield",)),
}

_RUNS = ("fewest_runs", "most_runs")

_ENDS = {BarEndName.ARM: "arm_end", BarEndName.ANCHOR: "anchor_end"}

_KINDS: dict[str, Kind | None] = {
    **{f"{place}.stress": STRESS for place in ("droop", "ride", "bump")},
    **{f"{place}.factor": None for place in ("droop", "ride", "bump")},
    "bump.limit": STRESS,
    "least_factor": None,
    "droop_at_yield.factor": None,
    "at_yield.factor": None,
    "at_yield.limit": STRESS,
    **{f"{end}.fillet_stress": STRESS for end in _ENDS.values()},
    "residual_stress": STRESS,
    "swing.mean": STRESS,
    "swing.amplitude": STRESS,
    **{f"swing.{name}": None for name in _FACTORS},
    **{f"life.{name}": None for name in _RUNS},
}


def strength_question(
    *,
    limits: StrengthLimits | None = None,
    travel: FigureLike | None = None,
    history: Sequence[FigureLike] | ArrayWithUnit | None = None,
) -> Question:
    """Make the question of :func:`barwright.strength`.

    Parameters
    ----------
    limits : StrengthLimits, optional
        Known limits of the bars' strength.
    travel : str or Quantity, optional
        Of the hub to either side of ride height.
    history : sequence of str or Quantity, or ArrayWithUnit, optional
        Travel of the hub from ride height in the order of time.

    Returns
    -------
    Question

    Raises
    ------
    BarwrightError
        As :func:`barwright.strength`.
    """
    asked = asked_strength(limits=limits, travel=travel, history=history, history_covers=None)
    return Question(
        kinds=_KINDS,
        of_column=partial(_of_column, asked=asked),
        of_row=lambda setup, wanted: strength(
            setup, limits=limits, travel=travel, history=history, wanted=wanted
        ),
        figures=_figures,
        takes_height=True,
    )


def _of_column(corner: ColumnCorner, *, asked: AskedStrength) -> tuple[Verdicts, Found]:
    rated, bars = corner.rated, BarStresses(corner.setup.bar, asked.limits)
    stressed = StressedCorner(corner, rated.states)
    stresses = stressed.at_stops_and_ride
    swing = _swing(stressed, bars, asked)
    passed = any_of(
        (
            bars.exceeded(**stresses),
            np.less(swing.get("swing.goodman_factor", np.nan), 1.0),
        )
    )
    bump = bars.permissible(stresses["bump"])
    verdict = np.where(np.isnan(bump.limit), *words(Verdict.BELOW_YIELD, Verdict.HOLDS))
    verdict = np.where(bars.is_judged, verdict, Verdict.STRENGTH_NOT_KNOWN.value)
    verdict = np.where(passed, Verdict.OVERSTRESSED.value, verdict)
    rates = rated_verdicts(corner)
    verdict = np.where(rates == Verdict.RATED.value, verdict, rates)
    found = _checked(bars, stresses) | swing
    return (
        answered(verdict, ~(rated.has_figures & _is_asked_alone(bars, asked))),
        {name: where(rated.has_figures, number) for name, number in found.items()},
    )


def _checked(bars: BarStresses, stresses: dict[str, float]) -> Found:
    """Stresses at the stops and at rest, and their factors."""
    permissible = {place: bars.permissible(stress) for place, stress in stresses.items()}
    ends = {place: stresses[place] for place in ("droop", "bump")}
    at_yield = {place: bars.at_yield(stress) for place, stress in ends.items()}
    factors = {place: check.factor for place, check in permissible.items()}
    return {
        **{f"{place}.stress": stress for place, stress in stresses.items()},
        **{f"{place}.factor": factor for place, factor in factors.items()},
        "bump.limit": permissible["bump"].limit,
        "least_factor": np.fmin(np.fmin(factors["droop"], factors["ride"]), factors["bump"]),
        "droop_at_yield.factor": at_yield["droop"].factor,
        "at_yield.factor": at_yield["bump"].factor,
        "at_yield.limit": at_yield["bump"].limit,
        **{f"{_ENDS[end]}.fillet_stress": bars.fillet_stress(end, **ends) for end in _ENDS},
        "residual_stress": bars.left,
    }


# -- Swing ------------------------------------------------------------------------------


def _swing(stressed: StressedCorner, bars: BarStresses, asked: AskedStrength) -> Found:
    """Mean and amplitude of a swing about ride height, and its factors."""
    if asked.travel is None:
        return {}
    reach = metres(asked.travel)
    one, other = stressed.stresses(np.array([[-reach], [reach]]))
    mean, amplitude = fatigue.mean_and_amplitude(one=one, other=other)
    return {
        "swing.mean": mean,
        "swing.amplitude": amplitude,
        **{
            f"swing.{name}": finite(kernel(amplitude=amplitude, mean=mean, **known))
            for name, (kernel, needed) in _FACTORS.items()
            if len(known := _known(bars, needed)) == len(needed)
        },
    }


def _known(bars: BarStresses, names: tuple[str, ...]) -> dict[str, Real]:
    """Those of some limits that are known [Pa]."""
    applied = bars.applied
    limits = {
        "endurance": applied.endurance,
        "ultimate": applied.ultimate_shear,
        "shear_yield": applied.shear_yield,
    }
    return {name: limit for name in names if (limit := limits[name]) is not None}


def _is_asked_alone(bars: BarStresses, asked: AskedStrength) -> Any:  # noqa: ANN401 - one flag or a column
    """Whether a row is asked by itself.

    The cycles of a history are counted row by row, with the tolerances of its figures; and
    where the limits of a swing contradict each other, a single corner is refused.
    """
    if asked.history is not None:
        return np.asarray(True)
    known = _known(bars, ("endurance", "ultimate"))
    if asked.travel is None or len(known) < len(("endurance", "ultimate")):
        return np.asarray(False)
    return ~np.less(known["endurance"] / known["ultimate"], 1.0)


def _figures(answer: Strength) -> Figures:
    figures = answer.figures
    if figures is None:
        return {}
    checks = {place: getattr(figures, place) for place in ("droop", "ride", "bump")}
    limits = {"bump": figures.bump.limit, "at_yield": figures.at_yield.limit}
    return {
        **{f"{place}.stress": check.stress for place, check in checks.items()},
        **{f"{place}.factor": check.factor for place, check in checks.items()},
        **{f"{name}.limit": limit.stress for name, limit in limits.items() if limit},
        "least_factor": figures.least_factor,
        "droop_at_yield.factor": figures.droop_at_yield.factor,
        "at_yield.factor": figures.at_yield.factor,
        **{f"{_ENDS[one.end]}.fillet_stress": one.greatest for one in figures.fillets},
        "residual_stress": figures.residual_stress,
        **_swing_figures(figures.swing),
        **_life_figures(figures),
    }


def _swing_figures(swing: StressSwing | None) -> Figures:
    if swing is None:
        return {}
    return {f"swing.{name}": getattr(swing, name) for name in ("mean", "amplitude", *_FACTORS)}


def _life_figures(figures: StrengthFigures) -> Figures:
    band = None if figures.life is None else figures.life.band
    return {} if band is None else {f"life.{name}": getattr(band, name) for name in _RUNS}
