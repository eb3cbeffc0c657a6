"""What a working is of: a question, its answer, and the order of its steps."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Literal, TypeAlias

import attrs

from barwright.analysis.adjusting.nut_table import nut_table_of
from barwright.analysis.answer import Answer
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.rates.corner_state import solved_state
from barwright.analysis.rates.rates import RatedCorner, rated_corner
from barwright.analysis.rates.ride import ride_of
from barwright.analysis.rates.ride_height import rest_angle, with_height
from barwright.analysis.reindex.plan.setup_after import carried_out
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.analysis.strength.strength import strength_as_rated
from barwright.analysis.working.expression import Symbol
from barwright.analysis.working.steps.bar_steps import fit_steps, rate_steps
from barwright.analysis.working.steps.free_angle_steps import free_angle_steps
from barwright.analysis.working.steps.linkage_steps import LinkageSteps
from barwright.analysis.working.steps.load_steps import damping_steps, frequency_steps
from barwright.analysis.working.steps.nut_steps import plan_steps, turn_steps
from barwright.analysis.working.steps.strength_steps import strength_steps
from barwright.analysis.working.steps.wheel_steps import (
    Named,
    resting_steps,
    stop_steps,
    wanted_steps,
)
from barwright.analysis.working.worksheet import Worksheet
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted

__all__ = ["SUBJECTS", "Asked", "Subject", "SubjectName"]

SubjectName: TypeAlias = Literal["fit", "rates", "ride", "strength", "nut", "reindex"]
"""The questions that have a working."""


@attrs.frozen(kw_only=True)
class Asked:
    """What a question is asked of.

    Parameters
    ----------
    corner : Corner
        The corner.
    wanted : Wanted, optional
        Height that it is to have.
    present : Setup, optional
        The corner as it is now, where that is another one.
    """

    corner: Corner
    wanted: Wanted | None = None
    present: Setup | None = None


def _as_it_is(asked: Asked, answer: Answer) -> Asked:
    del answer
    return asked


@attrs.frozen(kw_only=True)
class Subject:
    """A question that has a working.

    Parameters
    ----------
    answer : callable
        From what is asked to the answer.
    write : callable
        Puts the steps down; it raises where a figure is unknown.
    computed : callable
        From what is asked, and the answer, to what is computed: of a plan, the corner with the
        plan carried out.
    """

    answer: Callable[[Asked], Answer]
    write: Callable[[Worksheet, Wanted | None], None]
    computed: Callable[[Asked, Any], Asked] = _as_it_is

    def sheet(self, asked: Asked) -> Worksheet:
        """Write the working of what is computed, as far as its figures are known.

        Parameters
        ----------
        asked : Asked
            The corner, and the height that it is to have.

        Returns
        -------
        Worksheet
        """
        sheet = Worksheet(asked.corner)
        # Which figures are missing is for the answer to say.
        MissingFigures(asked.corner.setup).tried(lambda: self.write(sheet, asked.wanted))
        return sheet


# -- Fit, rates and strength ---------------------------------------------------------


def _write_fit(sheet: Worksheet, wanted: Wanted | None) -> None:
    del wanted
    fit_steps(sheet)


def _write_rates(sheet: Worksheet, wanted: Wanted | None) -> None:
    sheet.has_rates = True
    rated, state = _write_states(sheet, wanted, lambda place: lambda field: f"{place}.{field}")
    figures = rated.answer.figures
    if rated.states is not None and state is not None and figures is not None:
        frequency_steps(sheet, rated.states.ride.wheel_rate)
        damping_steps(state, figures.damping_ratio)


def _write_strength(sheet: Worksheet, wanted: Wanted | None) -> None:
    rated, _ = _write_states(sheet, wanted, _of_stress)
    figures = strength_as_rated(rated).figures
    if figures is not None:
        strength_steps(sheet, figures)


def _of_stress(place: str) -> Named:
    return lambda field: f"{place}.stress" if field == "shear_stress" else ""


def _write_states(
    sheet: Worksheet, wanted: Wanted | None, named: Callable[[str], Named]
) -> tuple[RatedCorner, LinkageSteps | None]:
    """Put down a corner at rest and at both limits of its travel, if it has rates."""
    sheet.fit = "fit."
    fit_steps(sheet)
    rated = rated_corner(sheet.corner, wanted)
    states = rated.states
    rest: LinkageSteps | None = None
    if sheet.corner.torsional_rates is None:
        return rated, rest
    rate = rate_steps(sheet)
    if states is not None:
        if wanted is None:
            free = free_angle_steps(sheet, rate)
            rest = resting_steps(sheet, states.ride, rate, free, named=named("ride"))
        else:
            rest = wanted_steps(sheet, states.ride, rate, wanted, named=named("ride"))
        for place, state in (("droop", states.droop), ("bump", states.bump)):
            stop_steps(sheet, state, rate, place=place, named=named(place))
    return rated, rest


# -- Where the corner rests ----------------------------------------------------------


def _write_ride(sheet: Worksheet, wanted: Wanted | None) -> None:
    del wanted
    _write_rest(sheet, lambda field: f"state.{field}", free_angle="free_angle")


def _write_nut(sheet: Worksheet, wanted: Wanted | None) -> None:
    del wanted
    if sheet.setup.adjuster is None:
        return
    named = {"height": "height", "torque": "torque"}
    rested = _write_rest(sheet, lambda field: named.get(field, ""), fit="")
    if rested is not None:
        turn_steps(*rested)


def _write_rest(
    sheet: Worksheet, named: Named, *, free_angle: str = "", fit: str = "fit."
) -> tuple[LinkageSteps, Symbol] | None:
    """Put down where a corner rests as it is clocked and set; nothing if it does not fit."""
    corner = sheet.corner
    sheet.fit = fit
    fit_steps(sheet, named=bool(fit))
    spring = corner.torsional_rates
    if spring is None or not corner.lever_closes:
        return None
    rate = rate_steps(sheet)
    free = free_angle_steps(sheet, rate, figure=free_angle)
    angle = rest_angle(corner, spring, corner.free_angle)
    solved = solved_state(corner, spring, angle=angle, free_angle=corner.free_angle)
    return resting_steps(sheet, solved, rate, free, named=named), rate


# -- A plan --------------------------------------------------------------------------


def _planned(asked: Asked) -> Reindex:
    corner = asked.corner
    return reindex(corner.setup, wanted=asked.wanted, present=asked.present)


def _carried_out(asked: Asked, answer: Reindex) -> Asked:
    """Return the corner with the first plan carried out, and the height that was meant."""
    if not answer.plans:
        return asked
    wanted = with_height(asked.wanted or Wanted(), now=asked.corner)
    return Asked(corner=carried_out(asked.corner, answer.plans[0]), wanted=wanted)


def _write_plan(sheet: Worksheet, wanted: Wanted | None) -> None:
    sheet.set_by = "the plan"
    fit_steps(sheet, named=False)
    corner, spring = sheet.corner, sheet.corner.torsional_rates
    states = rated_corner(corner, wanted).states
    if spring is None or states is None or wanted is None:
        return
    rate = rate_steps(sheet)
    wanted_steps(sheet, states.ride, rate, wanted, named=lambda _: "", mark="w")
    free = free_angle_steps(sheet, rate)
    plan_steps(sheet, Symbol("φ_free_w"), free)
    angle = rest_angle(corner, spring, corner.free_angle)
    solved = solved_state(corner, spring, angle=angle, free_angle=corner.free_angle)
    height = {"height": "height"}
    resting_steps(sheet, solved, rate, free, named=lambda field: height.get(field, ""))


SUBJECTS: Mapping[str, Subject] = {
    "fit": Subject(answer=lambda asked: fit_of(asked.corner), write=_write_fit),
    "rates": Subject(
        answer=lambda asked: rated_corner(asked.corner, asked.wanted).answer, write=_write_rates
    ),
    "ride": Subject(answer=lambda asked: ride_of(asked.corner), write=_write_ride),
    "strength": Subject(
        answer=lambda asked: strength_as_rated(rated_corner(asked.corner, asked.wanted)),
        write=_write_strength,
    ),
    "nut": Subject(
        answer=lambda asked: nut_table_of(asked.corner, measured=None, wanted=None),
        write=_write_nut,
    ),
    "reindex": Subject(answer=_planned, write=_write_plan, computed=_carried_out),
}
"""Each by its name."""
