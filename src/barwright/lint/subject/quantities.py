"""Figures that a pack can be checked by: their names, what they are of, how to get them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import attrs

from barwright.analysis.answer import Answer
from barwright.analysis.finding import Topic
from barwright.analysis.fit.length_fit import length_fit
from barwright.analysis.rates.part_rates import clocking_step, held_bar_rate, held_tube_rate
from barwright.analysis.rates.rate_figures import PartRates
from barwright.analysis.rates.rates import rates
from barwright.analysis.rates.ride import ride
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import (
    ANGLE,
    FORCE,
    FREQUENCY,
    LENGTH,
    STRESS,
    TORQUE,
    TORSIONAL_RATE,
    WHEEL_RATE,
    Kind,
    Quantity,
    unknown,
)

__all__ = ["QUANTITIES", "Computable"]

Get = Callable[[Any], Quantity | None]


@attrs.frozen
class Computable:
    """A figure that can be computed of a pack's records.

    Parameters
    ----------
    kind : Kind
        What it is.
    ways : mapping of str to callable
        How to get it, by the kind of record that it is of; none where there is no answer.
    """

    kind: Kind
    ways: Mapping[str, Get]


def _at_standard_height(path: str) -> Get:
    """Get a figure of the rates at the standard height."""

    def get(setup: Setup) -> Quantity | None:
        answer = rates(setup, wanted=Wanted())
        # Of a vehicle with gaps, those of bar and tube may be all that is known.
        by_part = answer.by_part if path in attrs.fields_dict(PartRates) else None
        return _along(path, answer, answer.figures or by_part)

    return get


def _on_keys(path: str) -> Get:
    """Get a figure of the corner on its keys, with the nut in the middle of its thread."""
    return lambda setup: _along(path, ride(setup))


def _of_fit(path: str) -> Get:
    """Get a figure of how the bar lies."""
    return lambda setup: _along(path, length_fit(setup))


def _along(path: str, answer: Answer, figures: object = attrs.NOTHING) -> Quantity | None:
    """Follow a path of fields to its end, or to where there is nothing, or nothing known."""
    found: Any = answer if figures is attrs.NOTHING else figures
    for name in path.split("."):
        found = None if found is None else getattr(found, name)
    needs_more = any(finding.topic is Topic.NEEDED for finding in answer.findings)
    figure: Quantity | None = unknown() if found is None and needs_more else found
    return figure


_RATES = {
    "bar_rate": TORSIONAL_RATE,
    "tube_rate": TORSIONAL_RATE,
    "system_rate": TORSIONAL_RATE,
    "ride_frequency": FREQUENCY,
    "wheel_hop_frequency": FREQUENCY,
    "bolt.at_ride": FORCE,
    "bolt.at_bump": FORCE,
    "bolt.stress_at_bump": STRESS,
    "bolt.side_thrust_at_bump": FORCE,
    "bolt.proof_load": FORCE,
}
_STATE = {
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
_STATES = ("droop", "ride", "bump")
_FIT = {"active_length": LENGTH, "engaged_span": LENGTH, "largest_body": LENGTH}
_KEYED = {"free_angle": ANGLE, **{f"state.{name}": kind for name, kind in _STATE.items()}}
_ALONE: Mapping[str, tuple[Kind, str, Get]] = {
    "bar_rate": (TORSIONAL_RATE, "bar", held_bar_rate),
    "tube_rate": (TORSIONAL_RATE, "tube", held_tube_rate),
    "clocking_step": (ANGLE, "bar", clocking_step),
}


def _quantities() -> Mapping[str, Computable]:
    """List all figures, those of a corner first, each with every way to get it."""
    found = {
        name: Computable(kind, {"chassis": _at_standard_height(name)})
        for name, kind in (
            *_RATES.items(),
            *((f"{at}.{name}", kind) for at in _STATES for name, kind in _STATE.items()),
        )
    }
    found |= {f"fit.{n}": Computable(kind, {"chassis": _of_fit(n)}) for n, kind in _FIT.items()}
    for path, kind in _KEYED.items():
        name = f"keyed.{path.removeprefix('state.')}"
        found[name] = Computable(kind, {"chassis": _on_keys(path)})
    for name, (kind, record, get) in _ALONE.items():
        ways = found[name].ways if name in found else {}
        found[name] = Computable(kind, {**ways, record: get})
    return found


QUANTITIES: Mapping[str, Computable] = _quantities()
"""By the name that ``computes`` gives them."""
