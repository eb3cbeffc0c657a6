"""Bars that a corner cannot take, found by spline keys and lengths before anything is computed.

Every bar that is pruned would be refused by :func:`barwright.length_fit` for the same reason; a
requirement that rests on an unknown figure prunes nothing.
"""

from __future__ import annotations

import contextlib
import math
from collections.abc import Callable, Iterable, Sequence
from typing import Self, TypeAlias

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.bar.seating import ROUNDING, layout_of, room_between_stops
from barwright.analysis.corner.corner import metres
from barwright.analysis.finding import Topic
from barwright.errors import NeedsError
from barwright.mechanics.spline.seating import seat
from barwright.parts.bar import Bar
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd, Socket
from barwright.units import Quantity, is_unknown

__all__ = ["MEETS_ALL", "OTHER_SPLINES", "REQUIREMENTS", "BarTable", "EndTable", "pruned"]

Flags: TypeAlias = NDArray[np.bool_]
Lengths: TypeAlias = NDArray[np.float64]

REQUIREMENTS = (
    Topic.TOOTH_COUNT,
    Topic.TOOTH_FORM,
    Topic.TOOTH_DEPTH,
    Topic.STOPS,
    Topic.NO_OVERLAP,
    Topic.ENGAGEMENT,
    Topic.SPACE_BEHIND,
)
"""What a bar is pruned by, in the order in which it is looked at."""

OTHER_SPLINES = tuple(
    REQUIREMENTS.index(topic) for topic in (Topic.TOOTH_COUNT, Topic.TOOTH_FORM, Topic.TOOTH_DEPTH)
)
"""Numbers of those that bars of other families do not meet."""

MEETS_ALL = -1
"""Instead of the number of a requirement."""


@attrs.frozen(eq=False)
class EndTable:
    """One end of many bars.

    Parameters
    ----------
    teeth : array of float
        Tooth counts; not a number where unknown, as all figures here.
    form : array of str
        Tooth forms.
    length, nose : array [m]
        Of the spline, and of what lies beyond it.
    tips, roots : array [m]
        Diameters over the teeth, and of the root circle.
    """

    teeth: Lengths
    form: NDArray[np.str_]
    length: Lengths
    nose: Lengths
    tips: Lengths
    roots: Lengths

    @classmethod
    def of(cls, ends: Sequence[BarEnd]) -> Self:
        """Put ends side by side."""
        return cls(
            teeth=np.array([math.nan if is_unknown(end.teeth) else end.teeth for end in ends]),
            form=np.array([end.form for end in ends], dtype=np.str_),
            length=_lengths(end.length for end in ends),
            nose=_lengths(end.nose for end in ends),
            tips=_lengths(end.major_diameter for end in ends),
            roots=_lengths(end.root_diameter for end in ends),
        )

    def at(self, rows: NDArray[np.intp]) -> Self:
        """Return some of them."""
        return type(self)(*(getattr(self, field.name)[rows] for field in attrs.fields(type(self))))


@attrs.frozen(eq=False)
class BarTable:
    """Many bars, with what decides where they can go in.

    Parameters
    ----------
    arm, anchor : EndTable
        Their ends.
    length : array [m]
        Over both splines.
    """

    arm: EndTable
    anchor: EndTable
    length: Lengths

    @classmethod
    def of(cls, bars: Sequence[Bar]) -> Self:
        """Put bars side by side."""
        return cls(
            arm=EndTable.of([bar.arm_end for bar in bars]),
            anchor=EndTable.of([bar.anchor_end for bar in bars]),
            length=_lengths(bar.length for bar in bars),
        )

    def at(self, rows: NDArray[np.intp]) -> Self:
        """Return some of them."""
        return type(self)(self.arm.at(rows), self.anchor.at(rows), self.length[rows])


def _lengths(lengths: Iterable[Quantity]) -> Lengths:
    return np.array([math.nan if is_unknown(length) else metres(length) for length in lengths])


def pruned(setup: Setup, bars: BarTable) -> NDArray[np.intp]:
    """Tell of each bar by which requirement a corner cannot take it.

    Parameters
    ----------
    setup : Setup
        The corner.
    bars : BarTable
        The bars.

    Returns
    -------
    array of int
        The first of :data:`REQUIREMENTS` that a bar does not meet, by its number;
        :data:`MEETS_ALL` where it meets them all.
    """
    found = np.full(bars.length.size, MEETS_ALL)
    left = np.arange(bars.length.size)
    for check in (_counts, _forms, _depths, _seated):
        for topic, fails in check(setup, bars.at(left)).items():
            is_first = fails & (found[left] == MEETS_ALL)
            found[left[is_first]] = REQUIREMENTS.index(topic)
        left = left[found[left] == MEETS_ALL]
    return found


# -- Requirements: which of some bars do not meet them ---------------------------------------


def _counts(setup: Setup, bars: BarTable) -> dict[Topic, Flags]:
    def differs(end: EndTable, socket: Socket) -> Flags:
        differing: Flags = (end.teeth != int(socket.teeth)) & ~np.isnan(end.teeth)
        return differing

    return {Topic.TOOTH_COUNT: _at_either_end(setup, bars, differs)}


def _forms(setup: Setup, bars: BarTable) -> dict[Topic, Flags]:
    def differs(end: EndTable, socket: Socket) -> Flags:
        differing: Flags = end.form != socket.form
        return differing

    return {Topic.TOOTH_FORM: _at_either_end(setup, bars, differs)}


def _depths(setup: Setup, bars: BarTable) -> dict[Topic, Flags]:
    def misses(end: EndTable, socket: Socket) -> Flags:
        inside = metres(socket.minor_diameter)
        return (end.tips <= inside) | (inside < end.roots)

    return {Topic.TOOTH_DEPTH: _at_either_end(setup, bars, misses)}


def _at_either_end(
    setup: Setup, bars: BarTable, check: Callable[[EndTable, Socket], Flags]
) -> Flags:
    """Tell which bars fail a check of an end; where the socket's figure is unknown, none does."""
    fails = np.zeros(bars.length.size, dtype=np.bool_)
    sockets = (setup.arm.socket, setup.anchor.socket)
    for end, socket in zip((bars.arm, bars.anchor), sockets, strict=True):
        with contextlib.suppress(NeedsError):
            fails |= check(end, socket)
    return fails


def _seated(setup: Setup, bars: BarTable) -> dict[Topic, Flags]:
    """Seat all bars at once; of one without room between the stops, only that is looked at."""
    try:
        layout = attrs.evolve(
            layout_of(setup, with_stops=True),
            bar_length=bars.length,
            arm_spline=bars.arm.length,
            anchor_spline=bars.anchor.length,
            arm_nose=bars.arm.nose,
            anchor_nose=bars.anchor.nose,
        )
        room, space_behind = room_between_stops(setup), metres(setup.axle.space_behind)
    except NeedsError:
        return {}
    where = seat(layout)
    arm, anchor = where.arm_engagement, where.anchor_engagement
    too_little = (arm < layout.arm_required - ROUNDING, anchor < layout.anchor_required - ROUNDING)
    # No comparison with a length that is not a number, since it is unknown, is true.
    return {
        Topic.STOPS: bars.length + bars.arm.nose + bars.anchor.nose > room,
        Topic.NO_OVERLAP: np.minimum(arm, anchor) <= ROUNDING,
        Topic.ENGAGEMENT: np.logical_or(*too_little),
        Topic.SPACE_BEHIND: np.asarray(where.anchor_protrusion > space_behind + ROUNDING),
    }
