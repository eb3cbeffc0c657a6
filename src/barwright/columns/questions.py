"""Questions put to columns of corners, and the same put to the corner of a row."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.out_of_range import is_unbearable
from barwright.analysis.corner.torsional_rates import TorsionalRates
from barwright.analysis.fit.length_fit import LengthFit, length_fit
from barwright.analysis.rates.corner_state import (
    CornerState,
    SolvedState,
    solved_state,
    solved_states,
)
from barwright.analysis.rates.rates import Rates, rates
from barwright.analysis.rates.ride import Ride, ride
from barwright.analysis.rates.ride_height import rest_angles
from barwright.columns.column_corner import ColumnCorner, Flags
from barwright.errors import QuantityError
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import damping, statics
from barwright.mechanics.vehicle import ride as frequencies
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import (
    ANGLE,
    DAMPING_RATE,
    FORCE,
    FREQUENCY,
    LENGTH,
    STRESS,
    TORQUE,
    TORSIONAL_RATE,
    WHEEL_RATE,
    Kind,
    Quantity,
    si,
)

__all__ = ["QUESTIONS", "Found", "Question"]

Found: TypeAlias = dict[str, Any]
"""Numbers in SI units by the name of their column, or one row of them."""


@attrs.frozen(kw_only=True, eq=False)
class Question:
    """A question, and the columns of its answer.

    Parameters
    ----------
    kinds : mapping of str to Kind
        What each column of figures holds, by its name; none for a number without a unit.
    of_column : callable
        From a column of corners, and the heights wanted of them, to the verdicts and the numbers.
    of_row : callable
        From a setup, and the height wanted of it, to the answer.
    figures : callable
        From that answer to its figures by the names of the columns; none where it has none.
    """

    kinds: Mapping[str, Kind | None]
    of_column: Callable[[ColumnCorner, Real | None], tuple[NDArray[np.str_], Found]]
    of_row: Callable[[Setup, Wanted | None], Answer]
    figures: Callable[[Any], Mapping[str, Quantity | float | None]]


# -- Fit ---------------------------------------------------------------------------------

_FIT: dict[str, Kind | None] = {
    "position": LENGTH,
    "arm_engagement": LENGTH,
    "anchor_engagement": LENGTH,
    "arm_protrusion": LENGTH,
    "anchor_protrusion": LENGTH,
    "active_length": LENGTH,
}


def _fit_of_column(corner: ColumnCorner, _: Real | None) -> tuple[NDArray[np.str_], Found]:
    where = corner.seat
    found = {name: getattr(where, name) for name in _FIT if name != "active_length"}
    found["active_length"] = _where(corner.lies_in_both, cast("float", corner.seated_length))
    return _fit_verdict(corner), found


def _fit_verdict(corner: ColumnCorner) -> NDArray[np.str_]:
    good = np.where(corner.needs_changes, *_words(Verdict.FITS_WITH_CHANGES, Verdict.FITS))
    return np.where(corner.does_not_fit, Verdict.DOES_NOT_FIT.value, good)


def _fit_figures(fit: LengthFit) -> Mapping[str, Quantity | float | None]:
    arm, anchor = fit.ends
    return {
        "position": fit.position,
        "arm_engagement": arm.engagement,
        "anchor_engagement": anchor.engagement,
        "arm_protrusion": arm.protrusion,
        "anchor_protrusion": anchor.protrusion,
        "active_length": fit.active_length,
    }


# -- Height and rates ----------------------------------------------------------------------

_STATE: dict[str, Kind | None] = {
    "arm_angle": ANGLE,
    "height": LENGTH,
    "twist": ANGLE,
    "torque": TORQUE,
    "shear_stress": STRESS,
    "wheel_load": FORCE,
    "wheel_rate": WHEEL_RATE,
    "damper_length": LENGTH,
    "stroke_to_closed": LENGTH,
    "stroke_to_open": LENGTH,
}


def _state_found(corner: ColumnCorner, solved: SolvedState) -> Found:
    """Numbers of a state, by the names that a described one has."""
    damper = corner.setup.damper
    return {
        "arm_angle": solved.angle,
        "height": corner.height(solved.angle),
        "twist": solved.twist,
        "torque": solved.torque,
        "shear_stress": solved.shear_stress,
        "wheel_load": solved.wheel_load,
        "wheel_rate": solved.wheel_rate,
        "damper_length": solved.damper_length,
        "stroke_to_closed": solved.damper_length - si(damper.closed_length, LENGTH),
        "stroke_to_open": si(damper.open_length, LENGTH) - solved.damper_length,
    }


def _state_figures(state: CornerState) -> Mapping[str, Quantity | float | None]:
    return {name: getattr(state, name) for name in _STATE}


def _ride_of_column(corner: ColumnCorner, _: Real | None) -> tuple[NDArray[np.str_], Found]:
    spring, free = cast("TorsionalRates", corner.torsional_rates), corner.free_angle
    there = corner.lies_in_both & corner.lever_closes
    angle = cast("float", rest_angles(corner, spring, free))
    low, high = corner.travel
    on_a_stop = np.equal(angle, low) | np.equal(angle, high)
    state = solved_state(corner, spring, angle=angle, free_angle=free)
    found = {"free_angle": free} | _state_found(corner, state)
    verdict = np.where(on_a_stop, *_words(Verdict.ON_A_STOP, Verdict.AT_REST))
    return (
        np.where(there, verdict, Verdict.DOES_NOT_FIT.value),
        {name: _where(there, number) for name, number in found.items()},
    )


def _ride_figures(answer: Ride) -> Mapping[str, Quantity | float | None]:
    if answer.state is None:
        return {}
    return {"free_angle": answer.free_angle, **_state_figures(answer.state)}


_RATES: dict[str, Kind | None] = {
    "bar_rate": TORSIONAL_RATE,
    "tube_rate": TORSIONAL_RATE,
    "system_rate": TORSIONAL_RATE,
    "ride_frequency": FREQUENCY,
    "damping_ratio": None,
    **{
        f"{place}.{name}": kind
        for place in ("droop", "ride", "bump")
        for name, kind in _STATE.items()
    },
}


def _rates_of_column(corner: ColumnCorner, heights: Real | None) -> tuple[NDArray[np.str_], Found]:
    spring = cast("TorsionalRates", corner.torsional_rates)
    there = corner.lies_in_both & corner.lever_closes
    if heights is None:
        free = corner.free_angle
        angle = cast("float", rest_angles(corner, spring, free))
        reached = np.asarray(True)
    else:
        angle, free, reached = _asked_for(corner, spring, heights)
    states = solved_states(corner, spring, ride=angle, free_angle=free)
    found: Found = {
        "bar_rate": spring.bar,
        "tube_rate": np.nan if spring.tube is None else spring.tube,
        "system_rate": spring.system,
        **_frequency(corner, states.ride),
    }
    for place in ("droop", "ride", "bump"):
        state = _state_found(corner, getattr(states, place))
        found |= {f"{place}.{name}": number for name, number in state.items()}
    has_figures = there & reached
    verdict = np.where(corner.does_not_fit, *_words(Verdict.DOES_NOT_FIT, Verdict.RATED))
    verdict = np.where(reached, verdict, Verdict.OUT_OF_REACH.value)
    return (
        np.where(there, verdict, Verdict.DOES_NOT_FIT.value),
        {name: _where(has_figures, number) for name, number in found.items()},
    )


def _rates_of_row(setup: Setup, wanted: Wanted | None) -> Rates:
    return rates(setup, wanted=wanted)


def _asked_for(
    corner: ColumnCorner, spring: TorsionalRates, heights: Real
) -> tuple[float, float, Flags]:
    """Arm angles at wanted heights [m], free angles for them, and where they are in reach."""
    angle = cast("float", corner.angle_at_height(cast("float", heights)))
    in_travel = np.isfinite(angle)
    low, _ = corner.travel
    angle = cast("float", np.where(in_travel, angle, low))
    torque = statics.bar_torque(
        corner.linkage.motion(angle), load=corner.load, springs=corner.springs
    )
    if np.any(in_travel & is_unbearable(corner, torque)):
        raise QuantityError("Q302", value="an unbearable load", expected="", remedy="")
    free = angle - torque / spring.system
    is_slack = np.asarray(corner.is_slack(cast("float", angle - free)))
    return angle, cast("float", free), in_travel & ~is_slack


def _frequency(corner: ColumnCorner, at_ride: SolvedState) -> Found:
    """Ride frequency and damping ratio; not a number where the corner has no stiffness."""
    is_stiff = np.greater(at_ride.wheel_rate, 0.0)
    wheel_rate = cast("float", np.where(is_stiff, at_ride.wheel_rate, 1.0))
    rate = frequencies.ride_rate(wheel_rate=wheel_rate, tyre_rate=corner.tyre_rate)
    frequency = frequencies.natural_frequency(rate=rate, mass=corner.sprung_mass)
    known, ratio = corner.setup.damper.damping_rate, cast("Real", np.nan)
    if known is not None:
        motion_ratio = corner.linkage.motion(at_ride.angle).motion_ratio
        at_wheel = damping.wheel_damping(
            damper_rate=si(known, DAMPING_RATE), motion_ratio=motion_ratio
        )
        ratio = damping.damping_ratio(damping=at_wheel, rate=wheel_rate, mass=corner.sprung_mass)
    return {
        "ride_frequency": _where(is_stiff, frequency),
        "damping_ratio": _where(is_stiff, ratio),
    }


def _rates_figures(answer: Rates) -> Mapping[str, Quantity | float | None]:
    figures = answer.figures
    if figures is None:
        return {}
    whole = ("bar_rate", "tube_rate", "system_rate", "ride_frequency", "damping_ratio")
    return {name: getattr(figures, name) for name in whole} | {
        f"{place}.{name}": figure
        for place in ("droop", "ride", "bump")
        for name, figure in _state_figures(getattr(figures, place)).items()
    }


# -- All of them ---------------------------------------------------------------------------


def _words(*verdicts: Verdict) -> list[str]:
    return [verdict.value for verdict in verdicts]


def _where(flags: Any, numbers: Real) -> Any:  # noqa: ANN401 - a number or a column
    """Keep numbers where flags are raised; elsewhere there is none."""
    return np.where(flags, numbers, np.nan)


QUESTIONS: Mapping[str, Question] = {
    "fit": Question(
        kinds=_FIT,
        of_column=_fit_of_column,
        of_row=lambda setup, _: length_fit(setup),
        figures=_fit_figures,
    ),
    "height": Question(
        kinds={"free_angle": ANGLE, **_STATE},
        of_column=_ride_of_column,
        of_row=lambda setup, _: ride(setup),
        figures=_ride_figures,
    ),
    "rates": Question(
        kinds=_RATES, of_column=_rates_of_column, of_row=_rates_of_row, figures=_rates_figures
    ),
}
"""Questions that columns can be asked, by their names."""
