"""What rates the corners of a column have."""

from __future__ import annotations

import numpy as np

from barwright.analysis.answer import Verdict
from barwright.analysis.rates.rate_figures import RateFigures
from barwright.analysis.rates.rates import Rates, rates
from barwright.columns.asked.frequencies import Oscillation
from barwright.columns.asked.question import Figures, Found, Question
from barwright.columns.asked.states import STATE, state_figures, state_found
from barwright.columns.column_corner import ColumnCorner
from barwright.columns.verdicts import Verdicts, answered, picked, where, words
from barwright.units import FREQUENCY, TORSIONAL_RATE, Kind

__all__ = ["RATES", "rated_verdicts"]

_PLACES = ("droop", "ride", "bump")

_WHOLE: dict[str, Kind | None] = {
    "bar_rate": TORSIONAL_RATE,
    "tube_rate": TORSIONAL_RATE,
    "system_rate": TORSIONAL_RATE,
    "ride_frequency": FREQUENCY,
    "damping_ratio": None,
}


def _of_column(corner: ColumnCorner) -> tuple[Verdicts, Found]:
    rated, spring = corner.rated, corner.spring
    found: Found = {
        "bar_rate": spring.bar,
        "tube_rate": np.nan if spring.tube is None else spring.tube,
        "system_rate": spring.system,
        **Oscillation(corner, rated.states.ride).of_body(),
    }
    for place in _PLACES:
        state = state_found(corner, getattr(rated.states, place))
        found |= {f"{place}.{name}": number for name, number in state.items()}
    return (
        rated_verdicts(corner),
        {name: where(rated.has_figures, number) for name, number in found.items()},
    )


def rated_verdicts(corner: ColumnCorner) -> Verdicts:
    """Verdict of the rates of each row.

    Parameters
    ----------
    corner : ColumnCorner
        The corners.

    Returns
    -------
    array of str
    """
    rated = corner.rated
    verdict = picked(corner.does_not_fit, *words(Verdict.DOES_NOT_FIT, Verdict.RATED))
    verdict = picked(rated.is_reached, verdict, Verdict.OUT_OF_REACH.value)
    verdict = picked(rated.is_there, verdict, Verdict.DOES_NOT_FIT.value)
    return answered(verdict, ~rated.is_refused)


def _figures(answer: Rates) -> Figures:
    figures: RateFigures | None = answer.figures
    if figures is None:
        return {}
    return {name: getattr(figures, name) for name in _WHOLE} | {
        f"{place}.{name}": figure
        for place in _PLACES
        for name, figure in state_figures(getattr(figures, place)).items()
    }


RATES = Question(
    kinds=_WHOLE | {f"{place}.{name}": kind for place in _PLACES for name, kind in STATE.items()},
    of_column=_of_column,
    of_row=lambda setup, wanted: rates(setup, wanted=wanted),
    figures=_figures,
    takes_height=True,
)
"""Question of :func:`barwright.rates`."""
