"""A column of corners at both ends of every tolerance, and the ± that follows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.unloading_reserve import unloading_reserve
from barwright.analysis.tolerance.figures import HeldFigure, read_places, toleranced_figures_among
from barwright.analysis.tolerance.plan_tolerance import CornerGroup
from barwright.analysis.tolerance.shifted_answers import half_change, uncertainty
from barwright.columns.column_corner import ColumnCorner, Flags
from barwright.columns.possible import any_of, possible
from barwright.columns.stack import moved
from barwright.computed_once import cached_property
from barwright.errors import BarwrightError
from barwright.parts.common.fields import figure_fields
from barwright.parts.setup import Setup
from barwright.units import Quantity, check_range

__all__ = ["ColumnEnds", "Open", "ends_of"]


@attrs.frozen(eq=False)
class Open:
    """How far figures of rows are left open.

    Parameters
    ----------
    by : array of float
        What stands behind the ± of each.
    is_unknown : array of bool
        Whether some tolerance lets no such figure be at either of its ends.
    """

    by: Any
    is_unknown: Flags


@attrs.frozen(eq=False, slots=False)
class ColumnEnds:
    """A column of corners at both ends of every tolerance.

    Parameters
    ----------
    corner : ColumnCorner
        The corners as they are.
    pairs : tuple of (ColumnCorner, ColumnCorner), each optional
        The same with one figure at its lower and at its upper end; none where no such corner
        can be.
    is_whole : array of bool
        Which rows have a corner at each end at which another row has one.
    height : float or array
        Wanted height, hub to arch [m].
    """

    corner: ColumnCorner
    pairs: tuple[tuple[ColumnCorner | None, ColumnCorner | None], ...]
    is_whole: Flags
    height: Any

    def open_by(self, figure: Callable[[ColumnCorner], Any]) -> Open:
        """Find how far a figure is left open."""
        middle = figure(self.corner)
        shape = np.broadcast_shapes(np.shape(middle), (self.corner.of_rows.numbers.size,))
        changes = np.zeros((len(self.pairs), *shape))
        for place, pair in enumerate(self.pairs):
            low, high = (np.nan if end is None else figure(end) for end in pair)
            low, high, own = np.broadcast_arrays(low, high, middle)
            changes[place] = half_change(low, high, middle=own)
        return Open(uncertainty(changes), np.asarray(np.isnan(changes).any(axis=0)))

    # -- Figures -----------------------------------------------------------------------

    @cached_property
    def free_angle(self) -> Open:
        """The free angle [rad] for the wanted height, left open."""
        return self.open_by(self._needed)

    @cached_property
    def lever_angle(self) -> Open:
        """The lever's angle [rad] for the wanted height, left open."""
        return self.open_by(lambda end: self._needed(end) - end.keyed_angle - _lever(end, 0.0))

    def at_rest(self, *, turns: Any, clocked: Any) -> Open:  # noqa: ANN401 - a number or a column
        """Leave open the height [m] at turns of the nut, and an angle [rad] beyond the lever's."""
        keyed = self.corner.keyed_angle

        def height(end: ColumnCorner) -> Any:  # noqa: ANN401 - as above
            free = np.ravel(_lever(end, turns) + clocked + end.keyed_angle - keyed)
            known = np.isfinite(free)
            angle = end.rests(np.where(known, free, 0.0))
            return np.where(known, end.height(cast("float", angle)), np.nan)

        return self.open_by(height)

    def is_unheld(self, turns: Any) -> Flags:  # noqa: ANN401 - as above
        """Tell where the thread holds turns of the nut at neither end of some tolerance."""
        found = np.asarray(False)
        for pair in self.pairs:
            held = (end.holds_turns(turns) for end in pair if end is not None)
            found = found | ~any_of(held)
        return found

    def reserve(self, clocked: Any, *, damper_on: bool) -> Open:  # noqa: ANN401 - as above
        """Leave open the unloading reserve [rad] of clockings [rad]."""
        beyond = clocked - self.corner.keyed_angle
        return self.open_by(
            lambda end: unloading_reserve(
                end, clocked_angle=end.keyed_angle + beyond, damper_on=damper_on
            )
        )

    def _needed(self, end: ColumnCorner) -> Any:  # noqa: ANN401 - as above
        """Find the free angles for the height, once for all ends that share what counts."""
        on = (end.linkage, end.springs, end.load, end.spring, end.travel, end.arch_height)
        key = tuple(map(id, on))
        if key not in self._free:
            self._free[key] = on, _group(end).free_angle_at(self.height)
        return self._free[key][1]

    @cached_property
    def _free(self) -> dict[tuple[int, ...], tuple[Any, NDArray[np.float64]]]:
        return {}


def ends_of(corner: ColumnCorner, setup: Setup, *, height: Any) -> ColumnEnds:  # noqa: ANN401
    """Return corners at both ends of every tolerance.

    Parameters
    ----------
    corner : ColumnCorner
        The corners.
    setup : Setup
        One of them, which has the same figures with a tolerance as all others.
    height : float or array
        Wanted height, hub to arch [m].

    Returns
    -------
    ColumnEnds
    """
    places = read_places(setup)
    _know(corner)
    is_whole, pairs = np.ones(corner.of_rows.numbers.size, dtype=bool), []
    for way in toleranced_figures_among(places, {}):
        pair = []
        for side in (-1.0, 1.0):
            end, is_there = _end(corner, [p for p in places if p.key == way.key], way.at(side))
            pair.append(end)
            is_whole &= is_there | (end is None)
        pairs.append((pair[0], pair[1]))
    return ColumnEnds(corner, tuple(pairs), is_whole, height)


def _end(
    corner: ColumnCorner, places: Sequence[HeldFigure], figure: Quantity
) -> tuple[ColumnCorner | None, Flags]:
    """Move a figure, and tell where a corner can have it; none where no row's can."""
    if not all(_is_allowed(place, figure) for place in places):
        return None, np.asarray(False)
    end = corner.beside(moved(corner.setup, [place.path for place in places], figure))
    is_there = np.asarray(possible(end.setup, (), corner.of_rows.numbers) & end.has_place)
    return (end if is_there.any() else None), is_there


def _is_allowed(place: HeldFigure, figure: Quantity) -> bool:
    _, allowed = figure_fields(type(place.holder))[place.field]
    try:
        check_range(figure, key=place.path, allowed=allowed)
    except BarwrightError:
        return False
    return True


def _know(corner: ColumnCorner) -> None:
    """Compute what shifted corners share."""
    _ = corner.spring, corner.setting_middle, corner.lever_span, corner.linkage
    _ = corner.arch_height, corner.springs, corner.travel, corner.load, corner.keyed_angle


def _lever(end: ColumnCorner, turns: Any) -> Any:  # noqa: ANN401 - as above
    """Angle of the lever [rad]; not a number where the thread does not hold the turns."""
    held = end.holds_turns(turns)
    return np.where(held, end.lever_at_turns(np.where(held, turns, 0.0)), np.nan)


def _group(end: ColumnCorner) -> CornerGroup:
    """Return the corners as they are solved for a plan's ±."""
    droop, bump = end.travel
    return CornerGroup(
        members=slice(None),
        linkage=end.linkage,
        springs=end.springs,
        holds_both_ways=end.anchorage.holds_both_ways,
        fits=np.asarray(end.damper_fits),
        **{
            name: cast("Any", number)
            for name, number in (
                ("load", end.load),
                ("rate", end.spring.system),
                ("arch", end.arch_height),
                ("droop", droop),
                ("bump", bump),
            )
        },
    )
