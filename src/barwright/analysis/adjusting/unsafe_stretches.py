"""Positions along the thread at which the nut must not stand, and why."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from typing import TypeAlias

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.adjusting.thread import Array, thread_states
from barwright.analysis.assembly.slack_at_droop import only_bar_holds_lever
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner, Span
from barwright.parts.common.in_short import Summarised
from barwright.units import LENGTH, Quantity, quantity

__all__ = ["UnsafeStretch", "unsafe_stretches"]

_Flags: TypeAlias = NDArray[np.bool_]


@attrs.frozen(kw_only=True, repr=False)
class UnsafeStretch(Summarised):
    """A stretch of the thread on which the nut must not stand.

    Parameters
    ----------
    unsafe_from, unsafe_to : Quantity
        Its two ends, each as a ``pin_distance``; first the end nearer the slack end of the
        thread.
    lever_unheld : bool
        Whether nothing holds the lever on its bolt at full droop there.
    bolt_takes_set : bool
        Whether the bolt there carries more than its proof load at full bump.
    """

    unsafe_from: Quantity
    unsafe_to: Quantity
    lever_unheld: bool = False
    bolt_takes_set: bool = False


def unsafe_stretches(
    corner: Corner, spring: TorsionalRates, turns: Array
) -> Iterator[UnsafeStretch]:
    """Find the stretches of a thread on which the nut must not stand.

    Parameters
    ----------
    corner : Corner
        A corner with an adjuster.
    spring : TorsionalRates
        Its rates.
    turns : array
        Places from the slack end of the thread to its other end, in turns from the middle; a
        stretch that lies between two of them is not seen.

    Yields
    ------
    UnsafeStretch
        One for each reason, even where they overlap.
    """

    def unheld(places: Array) -> _Flags:
        return thread_states(corner, spring, places).slack_at_droop

    def takes_set(places: Array) -> _Flags:
        return thread_states(corner, spring, places).bolt_takes_set

    def place(at: float) -> Quantity:
        return quantity(float(corner.setting_at_turns(at)), LENGTH)

    if only_bar_holds_lever(corner.setup):
        for start, end in _stretches(unheld, turns):
            yield UnsafeStretch(unsafe_from=place(start), unsafe_to=place(end), lever_unheld=True)
    for start, end in _stretches(takes_set, turns):
        yield UnsafeStretch(unsafe_from=place(start), unsafe_to=place(end), bolt_takes_set=True)


def _stretches(holds: Callable[[Array], _Flags], places: Array) -> Iterator[Span]:
    """Find where something holds, between the first of some places and the last."""
    flags = holds(places)
    changes = [float(places[0])] if flags[0] else []
    changes += [
        _change(holds, float(low), float(high))
        for (low, high), (one, other) in zip(
            itertools.pairwise(places), itertools.pairwise(flags), strict=True
        )
        if one != other
    ]
    changes += [float(places[-1])] if flags[-1] else []
    yield from zip(changes[::2], changes[1::2], strict=True)


def _change(holds: Callable[[Array], _Flags], low: float, high: float) -> float:
    """Find by halves where something begins or ceases to hold."""
    at_low = bool(holds(np.array([low]))[0])
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        if bool(holds(np.array([middle]))[0]) is at_low:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


# Half a turn is halved to less than a micrometre along the bolt.
_HALVINGS = 20
