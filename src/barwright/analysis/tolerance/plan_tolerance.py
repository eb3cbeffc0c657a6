"""Uncertainty of a corner's plans, from the tolerances of its figures.

Every ± here is the one that :func:`barwright.analysis.tolerance.tolerance.tolerance` gives for the
same figure: each figure with a tolerance is moved to both ends of it, the corner is solved
anew there, and the changes are put together.  What makes it quick enough for a plan is that
all of these corners are solved at once, as arrays.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from typing import Any, TypeAlias, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import of_either_side
from barwright.analysis.tolerance.figures import TolerancedFigure
from barwright.analysis.tolerance.shifted_answers import half_change, uncertainty
from barwright.analysis.tolerance.shifted_corners import ToleranceEnds, tolerance_ends
from barwright.computed_once import cached_property
from barwright.errors import QuantityError
from barwright.mechanics.common import solve
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import statics
from barwright.mechanics.corner.springs import BumpStop, Spring
from barwright.mechanics.linkage.arm_and_strut import Linkage
from barwright.units import shown

__all__ = [
    "CornerGroup",
    "PlanUncertainty",
    "plan_uncertainty",
    "uncertainty_at_ends",
    "widest_at_ends",
]

Array: TypeAlias = NDArray[np.float64]


class PlanUncertainty:
    """The ± of what is planned for one corner and one height.

    Each is an expanded uncertainty: two standard uncertainties, in which every figure may lie
    anywhere within its tolerance; that covers about 95 %.

    Parameters
    ----------
    corner : Corner
        The corner, whose bar lies in both sockets.
    height : float
        Wanted height, hub to arch [m].

    Raises
    ------
    QuantityError
        Q303 for a tolerance so wide that at neither of its ends the height can be reached.

    References
    ----------
    JCGM 100:2008 (GUM), 4.3.7, 5.1.2 and 6.2.1 (from memory); checked against
    :func:`barwright.analysis.tolerance.tolerance.tolerance` on the same figures.
    """

    def __init__(self, corner: Corner, *, height: float) -> None:
        self._ends = tolerance_ends(corner)
        self._there = self._ends.there
        self._groups = tuple(_grouped(self._there))
        self._keyed = np.array([end.keyed_angle for end in self._there])
        self._needed = self._solved(lambda group: group.free_angle_at(height))
        self._rests: dict[tuple[float, float], Array] = {}
        self._heights: dict[tuple[float, float], float] = {}

    def free_angle(self) -> float:
        """Return the ± of the free angle that the wanted height needs.

        Returns
        -------
        float [rad]
            0 if no figure has a tolerance.
        """
        return self._open_free_angle

    @cached_property
    def _open_free_angle(self) -> float:
        return uncertainty_at_ends(self._ends, self._needed)

    def lever_angle(self) -> float:
        """Return the ± of the lever's angle that the wanted height needs.

        That of the free angle, and with it how far sockets, blanks and lever stand from where
        their figures say: what a nut must be able to make up.

        Returns
        -------
        float [rad]
            0 if no figure has a tolerance.
        """
        return self._open_lever_angle

    @cached_property
    def _open_lever_angle(self) -> float:
        return uncertainty_at_ends(self._ends, self._lever_angles())

    def height(self, *, turns: float, clocked_angle: float) -> float:
        """Return the ± of the height at rest with a plan carried out.

        Parameters
        ----------
        turns : float
            Of what is turned, from the middle of its thread.
        clocked_angle : float
            Free angle beyond the lever's [rad].

        Returns
        -------
        float [m]
            0 if no figure has a tolerance.
        """
        return self.heights([(turns, clocked_angle)])[0]

    def heights(self, settings: Sequence[tuple[float, float]]) -> list[float]:
        """Return the ± of the height at rest with each of several plans carried out.

        Parameters
        ----------
        settings : sequence of (float, float)
            Turns and free angle beyond the lever's [rad] of each, as of :meth:`height`.

        Returns
        -------
        list of float [m]
        """
        self.look_ahead(settings)
        return [self._height(one) for one in settings]

    def look_ahead(self, settings: Sequence[tuple[float, float]]) -> None:
        """Solve for settings that :meth:`heights` may be asked for: many take as long as one.

        Parameters
        ----------
        settings : sequence of (float, float)
            As of :meth:`heights`.
        """
        asked = [one for one in dict.fromkeys(settings) if one not in self._rests]
        if asked:
            levers = [_levers(self._there, turns) + clocked for turns, clocked in asked]
            free = np.array(levers) + self._keyed - self._keyed[-1]
            heights = self._solved(lambda group: group.height_at_rest(free))
            self._rests.update(zip(asked, heights, strict=True))

    def _height(self, setting: tuple[float, float]) -> float:
        """Return the ± of the height at rest with one setting that was solved for [m]."""
        if setting not in self._heights:
            self._heights[setting] = uncertainty_at_ends(self._ends, self._rests[setting])
        return self._heights[setting]

    def _solved(self, solve_group: Callable[[CornerGroup], Array]) -> Array:
        """Figures of all ends that there are, the nominal one last."""
        solved = [(group.members, solve_group(group)) for group in self._groups]
        found = np.empty((*solved[0][1].shape[:-1], len(self._there)))
        for members, figures in solved:
            found[..., members] = figures
        return found

    def _lever_angles(self) -> Array:
        """Find what the height asks of the lever, from where its figures have it [rad]."""
        found: Array = self._needed - self._keyed - _levers(self._there, 0.0)
        return found

    def widest_figure(self) -> str:
        """Name the figure that causes most of the lever angle's uncertainty.

        Returns
        -------
        str
            By the fields of the setup that lead to it; one of those has a tolerance.
        """
        return widest_at_ends(self._ends, self._lever_angles())


@once_a_corner(of_either_side)
def plan_uncertainty(corner: Corner, *, height: float) -> PlanUncertainty:
    """Return the ± of what is planned for a corner and a height, found once for both sides.

    Parameters
    ----------
    corner : Corner
        The corner, whose bar lies in both sockets.
    height : float
        Wanted height, hub to arch [m].

    Returns
    -------
    PlanUncertainty

    Raises
    ------
    QuantityError
        Q303 for a tolerance so wide that at neither of its ends the height can be reached.
    """
    return PlanUncertainty(corner, height=height)


def _refuse_unknown(changes: Array, ways: Sequence[TolerancedFigure]) -> None:
    """Refuse a tolerance with no plan at either end."""
    for way, change in zip(ways, changes.tolist(), strict=True):
        if math.isnan(change):
            raise QuantityError(
                "Q303",
                value=f"{shown(way.value)} ± {shown(way.half_width)}",
                expected="a tolerance that lets the wanted height be reached at one of its ends",
                remedy="check the unit; if the figure is so uncertain, measure it",
                key=way.figure,
            )


# -- Ends of the tolerances ------------------------------------------------------------


def uncertainty_at_ends(ends: ToleranceEnds, found: Array) -> float:
    """Return the uncertainty of a figure from its values at the ends.

    Parameters
    ----------
    ends : ToleranceEnds
        A corner at both ends of every tolerance.
    found : array
        The figure at those that can be, the corner as it is last; NaN where it is missing.

    Returns
    -------
    float

    Raises
    ------
    QuantityError
        Q303 for a tolerance at neither of whose ends there is such a figure.
    """
    changes = _changes(ends, found)
    _refuse_unknown(changes, ends.ways)
    return float(uncertainty(changes))


def _changes(ends: ToleranceEnds, found: Array) -> Array:
    """Half of what a figure changes between both ends of each tolerance."""
    numbers = found
    if len(found) < len(ends.corners):
        numbers = np.full(len(ends.corners), math.nan)
        numbers[[end is not None for end in ends.corners]] = found
    return half_change(numbers[:-1:2], numbers[1:-1:2], middle=numbers[-1:])


def widest_at_ends(ends: ToleranceEnds, found: Array) -> str:
    """Name the figure that moves another one most between the ends of its tolerance.

    Parameters
    ----------
    ends : ToleranceEnds
        A corner at both ends of every tolerance, of which there is one at least.
    found : array
        The figure that is moved, as in :func:`uncertainty_at_ends`.

    Returns
    -------
    str
        By the fields of the setup that lead to it.
    """
    return ends.ways[int(np.nanargmax(np.abs(_changes(ends, found))))].figure


def _levers(ends: Sequence[Corner], turns: float) -> Array:
    """Angle of the lever at each end [rad]; NaN where its thread does not hold the turns."""
    found: dict[int, float] = {}
    for end in ends:
        if id(end.anchorage) not in found:
            held = end.holds_turns(turns)
            found[id(end.anchorage)] = float(end.lever_at_turns(turns)) if held else math.nan
    return np.array([found[id(end.anchorage)] for end in ends])


# -- Many corners as arrays --------------------------------------------------------------


@attrs.frozen(eq=False, kw_only=True)
class CornerGroup:
    """Corners that are solved at once.

    Parameters
    ----------
    members : list of int or slice
        Which ones they are.
    linkage, springs
        Theirs, of arrays.
    holds_both_ways : bool
        Whether their anchors do.
    fits : array of bool
        Whether the damper does.
    load, rate, arch, droop, bump : array
        Sprung load [N], rate of bar and tube [N·m/rad], height of the arch [m], limits of
        the travel [rad].
    """

    members: list[int] | slice
    linkage: Linkage
    springs: tuple[Spring, ...]
    holds_both_ways: bool
    fits: NDArray[np.bool_]
    load: Array
    rate: Array
    arch: Array
    droop: Array
    bump: Array

    def height_at_rest(self, free_angles: Array) -> Array:
        """Heights [m] at rest with free angles [rad] of all corners; NaN where those are NaN."""
        free = free_angles[..., self.members]
        known = np.isfinite(free)
        rest = statics.settle(
            self.linkage,
            free_angle=np.where(known, free, 0.0),
            rate=self.rate,
            load=self.load,
            droop=self.droop,
            bump=self.bump,
            springs=self.springs,
            holds_both_ways=self.holds_both_ways,
        )
        height = self.arch - self.linkage.motion(rest.angle).hub.height
        return np.where(known, height, math.nan)

    def free_angle_at(self, height: float) -> Array:
        """Free angle [rad] that lets them rest at a height [m]; NaN where none does."""
        above = self.arch - height

        def missing(angle: Real) -> tuple[Real, Real]:
            hub = self.linkage.motion(angle).hub
            return hub.height - above, hub.slope

        angle = solve.rising_root(missing, low=self.droop, high=self.bump)
        motion = self.linkage.motion(angle)
        torque = statics.bar_torque(motion, load=self.load, springs=self.springs)
        reached = np.abs(motion.hub.height - above) <= _HEIGHT_ROUNDING
        carries = np.greater(torque, 0.0) | self.holds_both_ways
        return np.where(reached & carries & self.fits, angle - torque / self.rate, math.nan)


# Rounding of a height that is found again from its own angle [m].
_HEIGHT_ROUNDING = 1e-9


def _grouped(ends: Sequence[Corner]) -> Iterator[CornerGroup]:
    """Group corners whose bump rubbers have one curve, since a curve cannot be an array."""
    by_curve: dict[tuple[Any, ...], list[int]] = {}
    for index, end in enumerate(ends):
        curves = (s for s in end.springs if isinstance(s, BumpStop))
        by_curve.setdefault(tuple((s.compressions, s.forces) for s in curves), []).append(index)
    for members in by_curve.values():
        yield _group(members, [ends[index] for index in members])


def _group(members: list[int], ends: Sequence[Corner]) -> CornerGroup:
    droop, bump = np.array([end.travel for end in ends]).T
    return CornerGroup(
        members=members,
        linkage=_stacked([end.linkage for end in ends]),
        springs=_stacked([end.springs for end in ends]),
        holds_both_ways=ends[0].anchorage.holds_both_ways,
        fits=np.array([end.damper_fits for end in ends]),
        load=np.array([end.load for end in ends]),
        rate=np.array([_rate(end) for end in ends]),
        arch=np.array([end.arch_height for end in ends]),
        droop=droop,
        bump=bump,
    )


def _rate(end: Corner) -> float:
    """Rate of bar and tube [N·m/rad]; whoever asks has found that the bar lies in both sockets."""
    return cast("TorsionalRates", end.torsional_rates).system


def _stacked(values: Sequence[Any]) -> Any:  # noqa: ANN401 - kernels, tuples and numbers
    """Merge kernels of one kind into one, with arrays of the numbers that differ."""
    first = values[0]
    if all(value is first for value in values):
        return first
    if isinstance(first, tuple):
        return tuple(_stacked(items) for items in zip(*values, strict=True))
    if attrs.has(type(first)):
        names = [field.name for field in attrs.fields(type(first))]
        return type(first)(**{n: _stacked([getattr(value, n) for value in values]) for n in names})
    return first if all(value == first for value in values) else np.array(values)
