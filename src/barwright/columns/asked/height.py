"""Where the corners of a column rest."""

from __future__ import annotations

import numpy as np

from barwright.analysis.answer import Verdict
from barwright.analysis.rates.corner_state import solved_state
from barwright.analysis.rates.ride import Ride, ride
from barwright.columns.asked.question import Figures, Found, Question
from barwright.columns.asked.states import STATE, state_figures, state_found
from barwright.columns.column_corner import ColumnCorner
from barwright.columns.verdicts import Verdicts, answered, where, words
from barwright.units import ANGLE

__all__ = ["HEIGHT"]


def _of_column(corner: ColumnCorner) -> tuple[Verdicts, Found]:
    angle, free = corner.rest, corner.free_angle
    low, high = corner.travel
    on_a_stop = np.equal(angle, low) | np.equal(angle, high)
    state = solved_state(corner, corner.spring, angle=angle, free_angle=free)
    found = {"free_angle": free} | state_found(corner, state)
    verdict = np.where(on_a_stop, *words(Verdict.ON_A_STOP, Verdict.AT_REST))
    return (
        answered(
            np.where(corner.has_place, verdict, Verdict.DOES_NOT_FIT.value),
            ~corner.has_place | corner.holds_nut,
        ),
        {name: where(corner.has_place, number) for name, number in found.items()},
    )


def _figures(answer: Ride) -> Figures:
    if answer.state is None:
        return {}
    return {"free_angle": answer.free_angle, **state_figures(answer.state)}


HEIGHT = Question(
    kinds={"free_angle": ANGLE, **STATE},
    of_column=_of_column,
    of_row=lambda setup, _: ride(setup),
    figures=_figures,
)
"""Question of :func:`barwright.ride`."""
