"""What a working is of: a question, its answer, and the order of its steps."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal, TypeAlias

import attrs

from barwright.analysis.answer import Answer
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.rates.corner_state import solved_state
from barwright.analysis.rates.rates import rated_corner
from barwright.analysis.rates.ride import ride_of
from barwright.analysis.rates.ride_height import rest_angle
from barwright.analysis.working.anchor_steps import free_angle_steps
from barwright.analysis.working.bar_steps import fit_steps, rate_steps
from barwright.analysis.working.wheel_steps import (
    frequency_steps,
    resting_steps,
    stop_steps,
    wanted_steps,
)
from barwright.analysis.working.worksheet import Worksheet
from barwright.parts.wanted import Wanted

__all__ = ["SUBJECTS", "Subject", "SubjectName"]

SubjectName: TypeAlias = Literal["fit", "rates", "ride"]
"""The questions that have a working."""


@attrs.frozen(kw_only=True)
class Subject:
    """A question that has a working.

    Parameters
    ----------
    answer : callable
        From a corner and a wish to the answer.
    write : callable
        Puts the steps down; it raises where a figure is unknown.
    """

    answer: Callable[[Corner, Wanted | None], Answer]
    write: Callable[[Worksheet, Wanted | None], None]

    def sheet(self, corner: Corner, wanted: Wanted | None) -> Worksheet:
        """Write the working of a corner as far as its figures are known.

        Parameters
        ----------
        corner : Corner
            The corner.
        wanted : Wanted, optional
            Height that it is to have.

        Returns
        -------
        Worksheet
        """
        sheet = Worksheet(corner)
        # Which figures are missing is for the answer to say.
        MissingFigures(corner.setup).tried(lambda: self.write(sheet, wanted))
        return sheet


def _write_fit(sheet: Worksheet, wanted: Wanted | None) -> None:
    del wanted
    fit_steps(sheet)


def _write_rates(sheet: Worksheet, wanted: Wanted | None) -> None:
    sheet.fit, sheet.has_rates = "fit.", True
    fit_steps(sheet)
    if sheet.corner.torsional_rates is None:
        return
    rate = rate_steps(sheet)
    rated = rated_corner(sheet.corner, wanted)
    states = rated.states
    if states is None:
        return
    if wanted is None:
        free = free_angle_steps(sheet)
        resting_steps(sheet, states.ride, rate, free, figure="ride")
    else:
        free_angle = states.ride.angle - states.ride.twist
        wanted_steps(sheet, states, rate, wanted, free=free_angle)
    frequency_steps(sheet, states.ride.wheel_rate)
    stop_steps(sheet, states.droop, rate, place="droop")
    stop_steps(sheet, states.bump, rate, place="bump")


def _write_ride(sheet: Worksheet, wanted: Wanted | None) -> None:
    del wanted
    sheet.fit = "fit."
    fit_steps(sheet)
    if sheet.corner.torsional_rates is None or not sheet.corner.lever_closes:
        return
    rate = rate_steps(sheet)
    free = free_angle_steps(sheet, figure="free_angle")
    corner, spring = sheet.corner, sheet.corner.torsional_rates
    angle = rest_angle(corner, spring, corner.free_angle)
    solved = solved_state(corner, spring, angle=angle, free_angle=corner.free_angle)
    resting_steps(sheet, solved, rate, free, figure="state")


SUBJECTS: Mapping[str, Subject] = {
    "fit": Subject(answer=lambda corner, _: fit_of(corner), write=_write_fit),
    "rates": Subject(
        answer=lambda corner, wanted: rated_corner(corner, wanted).answer, write=_write_rates
    ),
    "ride": Subject(answer=lambda corner, _: ride_of(corner), write=_write_ride),
}
"""Each by its name."""
