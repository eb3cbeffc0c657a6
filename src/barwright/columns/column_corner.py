"""A column of corners that differ in figures: one corner whose numbers are arrays."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.anchorage import Span
from barwright.analysis.corner.bar.active_length import active_length
from barwright.analysis.corner.bar.seating import (
    layout_of,
    overlaps,
    stops_leave_room,
)
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import TURNS_ROUNDING, Corner, metres
from barwright.analysis.corner.geometry import HEIGHT_ROUNDING
from barwright.analysis.corner.out_of_range import is_unbearable
from barwright.analysis.fit.changes import changes_for
from barwright.analysis.fit.obstacles import checks_beside, checks_of
from barwright.analysis.rates.corner_state import SolvedStates, solved_states
from barwright.columns.given import Column
from barwright.columns.possible import any_of
from barwright.computed_once import cached_property
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import statics
from barwright.mechanics.corner.settle_many import LoadedCorners, settle_many
from barwright.mechanics.linkage.algebraic import algebraic, shortens
from barwright.mechanics.linkage.arm_and_strut import Linkage
from barwright.mechanics.linkage.kept_motions import KeptMotions
from barwright.mechanics.spline.seating import Seating, seat
from barwright.parts.arm import Arm
from barwright.parts.setup import Setup

__all__ = ["ColumnCorner", "CornerRows", "Flags", "RatedColumn", "Wished"]

Flags = NDArray[np.bool_]


@attrs.frozen(kw_only=True, eq=False)
class Wished:
    """Where a column of corners is to rest.

    Parameters
    ----------
    angle : array of float
        Arm angles [rad]; those of droop where the height is out of travel.
    free : array of float
        Arm angles without torque that let them rest there [rad].
    in_travel, is_slack, is_unbearable : array of bool
        Whether the travel has the height, the bar carries nothing there, or no steel bears the
        load.
    """

    angle: float
    free: float
    in_travel: Flags
    is_slack: Flags
    is_unbearable: Flags


@attrs.frozen(kw_only=True, eq=False)
class RatedColumn:
    """A column of corners as they are rated.

    Parameters
    ----------
    states : SolvedStates
        At the stops and at rest.
    free : array of float
        Arm angles without torque [rad].
    is_there, is_reached : array of bool
        Whether bar and lever have a place, and whether the wanted height can be reached.
    is_refused : array of bool
        Whether its corner alone ends with an error.
    """

    states: SolvedStates
    free: float
    is_there: Flags
    is_reached: Flags
    is_refused: Flags

    @property
    def has_figures(self) -> Flags:
        """Whether a row has rates."""
        return self.is_there & self.is_reached


@attrs.frozen(kw_only=True, eq=False)
class CornerRows:
    """Rows of a table of which a column of corners is made.

    Parameters
    ----------
    setup : Setup
        The corner whose figures they take the place of.
    columns : sequence of Column
        Figures that differ from row to row.
    numbers : array of int
        Numbers of the rows.
    setup_at : callable
        From a place among them to the setup of its corner alone.
    part_at : callable
        From places among them to the column of the corners there.
    """

    setup: Setup
    columns: Sequence[Column]
    numbers: NDArray[np.intp]
    setup_at: Callable[[int], Setup]
    part_at: Callable[[NDArray[np.intp]], ColumnCorner]


@attrs.frozen(eq=False, slots=False)
class ColumnCorner(Corner):
    """Many corners at once: what a corner decides for itself is decided here for each row.

    A row of which something cannot be computed makes the whole fail, and is then asked
    about by itself: see :mod:`barwright.columns.rows`.

    Parameters
    ----------
    setup : Setup
        The corners' records, with columns of figures in them.
    heights : array of float, optional
        Heights, hub to arch, at which they are asked about [m].
    rows : CornerRows, optional
        Where they come from; none of corners with shifted figures.
    """

    heights: Real | None = None
    rows: CornerRows | None = None

    @property
    def of_rows(self) -> CornerRows:
        """Rows that they come from."""
        return cast("CornerRows", self.rows)

    # -- The bar where it lies ------------------------------------------------

    @cached_property
    def seat(self) -> Seating:
        """Position of the bar in its sockets."""
        layout, free = (layout_of(self.setup, with_stops=stops) for stops in (True, False))
        leaves_room = stops_leave_room(self.setup)
        return seat(
            attrs.evolve(
                layout,
                arm_stop=np.where(leaves_room, layout.arm_stop, free.arm_stop),
                anchor_stop=np.where(leaves_room, layout.anchor_stop, free.anchor_stop),
            )
        )

    @cached_property
    def lies_in_both(self) -> Flags:
        """Whether the bar lies in both sockets."""
        return np.asarray(overlaps(self.seat))

    @cached_property
    def seated_length(self) -> float | None:
        """Active length of the bar [m]; of one that does not lie in both sockets, meaningless."""
        bare = {
            name: np.where(self.lies_in_both, getattr(self.seat, name), 0.0)
            for name in ("bare_arm_head", "bare_anchor_head")
        }
        return active_length(self.setup.bar, **bare)

    def is_slack(self, twist: Real) -> bool:
        """Whether the bar carries no torque at a twist [rad]."""
        _, stiffness = self.hold(twist, rate=1.0)
        return cast("bool", np.equal(stiffness, 0.0))

    # -- Travel ---------------------------------------------------------------

    def _linkage_of(self, arm: Arm) -> Linkage:
        return KeptMotions(algebraic(super()._linkage_of(arm)))

    def _keep(self, *angles: Real) -> None:
        """Have the linkage remember how it stands at angles that are asked for often."""
        for angle in angles:
            cast("KeptMotions", self.linkage).keep(angle)

    def _check_damper(self, linkage: Linkage) -> None:
        low, high = self.stops
        for angle in (low, high):
            cast("KeptMotions", linkage).keep(angle)
        if not shortens(linkage, low=low, high=high):
            super()._check_damper(linkage)

    @cached_property
    def damper_fits(self) -> bool:
        """Whether the damper works somewhere between the arm's stops."""
        shortest, longest = self.damper_span
        damper = self.setup.damper
        is_short = shortest < metres(damper.open_length)
        return is_short & (metres(damper.closed_length) < longest)

    @cached_property
    def travel(self) -> Span:
        """Arm angles of droop and bump with the damper on [rad]."""
        low, high = self.stops
        shortest, longest = self.damper_span
        damper, fits = self.setup.damper, self.damper_fits
        opened, closed = metres(damper.open_length), metres(damper.closed_length)
        droop = self._limit(low, opened, where=fits & np.less(opened, longest), else_at=longest)
        bump = self._limit(
            high, closed, where=fits & np.greater(closed, shortest), else_at=shortest
        )
        self._keep(droop, bump)
        return droop, bump

    def _limit(self, stop: float, length: float, *, where: Any, else_at: float) -> float:  # noqa: ANN401
        """Angle at a damper's length [m] where that comes before the stop, else the stop's."""
        if not np.any(where):
            return stop
        angle = self.linkage.angle_at_damper_length(np.where(where, length, else_at))
        return cast("float", np.where(where, angle, stop)[()])

    def compute_geometry(self) -> None:
        """Compute what most errors come from, so that they come now."""
        _ = self.linkage, self.springs, self.travel, self.lever_span

    def angle_at_height(self, height: float) -> float | None:
        """Arm angle [rad] at a hub-to-arch height [m]; not a number where it is out of travel."""
        angle = self.nearest_angle(height)
        missed = np.abs(height - self.height(angle)) > HEIGHT_ROUNDING
        return cast("float", np.where(missed, np.nan, angle))

    @property
    def height_span(self) -> Span:
        """Least and greatest hub-to-arch heights [m] that the travel allows."""
        one, other = (self.height(angle) for angle in self.travel)
        return cast("float", np.minimum(one, other)), cast("float", np.maximum(one, other))

    # -- Adjuster -------------------------------------------------------------

    @cached_property
    def lever_span(self) -> Span:
        """Least and greatest angle of the lever [rad]."""
        one, other = (self.anchorage.lever_angle(end) for end in self.setting_span)
        return cast("float", np.minimum(one, other)), cast("float", np.maximum(one, other))

    def holds_turns(self, turns: float) -> bool:
        """Whether the thread holds so many turns from its middle."""
        low, high = self.turns_span
        is_held = np.greater_equal(turns, low - TURNS_ROUNDING) & np.less_equal(
            turns, high + TURNS_ROUNDING
        )
        return cast("bool", is_held)

    @cached_property
    def lever_closes(self) -> bool:
        """Whether the lever reaches its pin, or its bolt's end, over the whole thread."""
        if self.setup.adjuster is None:
            return True
        low, high = self.anchorage.reach
        return (low < self.setting_span[0]) & (self.setting_span[1] < high)

    @cached_property
    def holds_nut(self) -> Flags:
        """Whether the thread holds the nut as it is now set."""
        return np.asarray(self.holds_turns(self.turns_now))

    @cached_property
    def nut_lever(self) -> float:
        """Lever angle as the nut is now set [rad]; off its thread, meaningless."""
        turns = cast("float", np.where(self.holds_nut, self.turns_now, 0.0))
        return cast("float", self.lever_at_turns(turns))

    # -- Fit ------------------------------------------------------------------

    @cached_property
    def does_not_fit(self) -> Flags:
        """Whether anything keeps the bar from its position."""
        checks = (*checks_of(self), *checks_beside(self))
        return any_of(obstacle.is_there for check in checks for obstacle in check())

    @cached_property
    def needs_changes(self) -> Flags:
        """Whether something must be changed so that it fits."""
        return any_of(change.is_there for change in changes_for(self.setup))

    # -- Rates ----------------------------------------------------------------

    @cached_property
    def has_place(self) -> Flags:
        """Whether the bar lies in both sockets, and the lever reaches its bolt."""
        return np.asarray(self.lies_in_both & self.lever_closes)

    @cached_property
    def spring(self) -> TorsionalRates:
        """Rates of bar and tube; of a bar that does not lie in both sockets, meaningless."""
        return cast("TorsionalRates", self.torsional_rates)

    @cached_property
    def rest(self) -> float:
        """Arm angle at rest, as clocked and set now [rad]."""
        angle = self.rests(np.atleast_1d(self.free_angle))
        self._keep(angle)
        return cast("float", angle)

    def rests(self, free: NDArray[np.float64]) -> NDArray[np.float64]:
        """Find where the corners rest with free angles [rad], one each or the same of all."""
        low, high = self.travel
        corners = LoadedCorners(
            linkage=self.linkage,
            free_angle=free,
            rate=self.spring.system,
            load=self.load,
            droop=low,
            bump=high,
            springs=self.springs,
            holds_both_ways=self.anchorage.holds_both_ways,
        )
        return settle_many(corners)

    def wished(self, heights: Real) -> Wished:
        """Find where the corners rest at hub-to-arch heights [m]."""
        angle = cast("float", self.angle_at_height(cast("float", heights)))
        in_travel = np.isfinite(angle)
        angle = cast("float", np.where(in_travel, angle, self.travel[0]))
        motion = self.linkage.motion(angle)
        torque = statics.bar_torque(motion, load=self.load, springs=self.springs)
        free = cast("float", angle - torque / self.spring.system)
        return Wished(
            angle=angle,
            free=free,
            in_travel=in_travel,
            is_slack=np.asarray(self.is_slack(angle - free)),
            is_unbearable=np.asarray(is_unbearable(self, torque)),
        )

    @cached_property
    def rated(self) -> RatedColumn:
        """The corners as they are set now or, where heights are asked for, at these."""
        if self.heights is None:
            angle, free = self.rest, self.free_angle
            is_reached, is_refused = np.asarray(True), self.has_place & ~self.holds_nut
        else:
            wished = self.wished(self.heights)
            angle, free = wished.angle, wished.free
            is_reached = wished.in_travel & ~wished.is_slack
            is_refused = self.has_place & wished.in_travel & wished.is_unbearable
        return RatedColumn(
            states=solved_states(self, self.spring, ride=angle, free_angle=free),
            free=free,
            is_there=self.has_place,
            is_reached=is_reached,
            is_refused=is_refused,
        )
