"""Finds the preferred plan of each corner of a column."""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.slack_at_droop import only_bar_holds_lever
from barwright.analysis.corner.suspension import metres
from barwright.analysis.rates.bolt_load import proof_load
from barwright.analysis.rates.corner_state import SolvedStates, solved_states
from barwright.analysis.rates.ride_height import TIGHTENED_THERE
from barwright.analysis.reindex.preference import FLATS
from barwright.analysis.strength.strength_limits import StrengthLimits
from barwright.columns.bar_stresses import BarStresses
from barwright.columns.column_corner import ColumnCorner, Flags, Wished
from barwright.columns.planning.candidates import Candidates, not_beaten_by, unbeaten
from barwright.columns.planning.clockings import ColumnClockings
from barwright.columns.planning.fitting import Fitting
from barwright.columns.possible import any_of
from barwright.columns.verdicts import LONGEST, Verdicts
from barwright.computed_once import cached_property
from barwright.mechanics.anchorage import threads
from barwright.mechanics.common.types import Real
from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import FixedSocket

__all__ = ["ColumnPlanner", "MadePlans"]


@attrs.frozen(kw_only=True, eq=False, slots=False)
class MadePlans:
    """Plans of candidates.

    Parameters
    ----------
    candidates : Candidates
        What they are made of.
    free : array of float
        Free angles that they set [rad].
    states : SolvedStates
        Their corners.
    fitting : Fitting
        How their bars go in.
    """

    candidates: Candidates
    free: Any
    states: SolvedStates
    fitting: Fitting


@attrs.frozen(kw_only=True, eq=False, slots=False)
class ColumnPlanner:
    """Makes the plans of a column of corners.

    Parameters
    ----------
    wished : Wished
        Where the corners are to rest.
    clockings : ColumnClockings
        What their clockings give.
    can_be_unloaded : array of bool
        Whether the bars that are in come out safely.
    """

    wished: Wished
    clockings: ColumnClockings
    can_be_unloaded: Flags

    @property
    def corner(self) -> ColumnCorner:
        """The corners."""
        return self.clockings.corner

    @cached_property
    def plans(self) -> MadePlans:
        """Plans that no other beats, with those that must not be carried out."""
        found, enough = self.clockings.found().used, self.clockings.enough
        is_ready = ~_unloads(found) | (self.can_be_unloaded & self.clockings.goes_in(found))
        ready = unbeaten(found.only(is_ready), enough=enough)
        barred = not_beaten_by(unbeaten(found.only(~is_ready), enough=enough), ready, enough=enough)
        return self.made(
            Candidates.joined([*ready, *barred] or [found.at(found.first(())).only(flags=False)])
        )

    def made(self, candidates: Candidates) -> MadePlans:
        """Make the plans of candidates."""
        corner, clockings = self.corner, self.clockings
        free = clockings.set_free(candidates)
        return MadePlans(
            candidates=candidates,
            free=free,
            states=solved_states(corner, corner.spring, ride=self.wished.angle, free_angle=free),
            fitting=Fitting(clockings.ends, clockings.clocked(candidates)),
        )

    @cached_property
    def forbidden(self) -> list[tuple[Verdict, Any]]:
        """What forbids the plans, with the verdict that it leads to, the first one first."""
        plans, setup = self.plans, self.corner.setup
        droop, bump = plans.states.droop, plans.states.bump
        unloads = _unloads(plans.candidates)
        can_drop = only_bar_holds_lever(setup) and not isinstance(setup.anchor, FixedSocket)
        stressed = BarStresses(setup.bar, StrengthLimits()).exceeded(
            droop=droop.shear_stress, bump=bump.shear_stress
        )
        return [
            (Verdict.CANNOT_BE_ASSEMBLED, unloads & ~plans.fitting.slides),
            (Verdict.NO_SAFE_WAY, unloads & ~self.can_be_unloaded),
            (Verdict.NOT_SAFE, can_drop & np.less_equal(droop.twist, 0.0)),
            (Verdict.OVERSTRESSED, stressed),
            (Verdict.NOT_SAFE, self._is_overloaded(bump.torque, free=plans.free)),
        ]

    def _is_overloaded(self, torque: Any, *, free: Any) -> Any:  # noqa: ANN401 - a table of flags
        """Whether full bump loads the bolts beyond their proof load, if that is known."""
        corner, adjuster = self.corner, self.corner.setup.adjuster
        proof = None if adjuster is None else _proof_load(adjuster)
        if proof is None:
            return np.asarray(False)
        low, high = corner.lever_span
        lever: Any = np.minimum(np.maximum(free - corner.clocked_angle, low), high)
        effort = corner.anchorage.effort(torque, lever_angle=lever)
        return np.greater(threads.utilisation(effort, capacity=proof), 1.0)

    def _has_findings(self) -> Any:  # noqa: ANN401 - as above
        """Whether something must be known of plans that nothing forbids."""
        plans, corner = self.plans, self.corner
        tightened_at = corner.bushing_angle
        wound: Any = False
        if tightened_at is not None:
            wound = np.abs(self.wished.angle - tightened_at) > TIGHTENED_THERE
        return (
            np.asarray(corner.is_slack(plans.states.droop.twist))
            | (plans.candidates.flats_left < self.clockings.enough)
            | (_unloads(plans.candidates) & plans.fitting.is_little)
            | wound
        )

    @property
    def is_unknown(self) -> Flags:
        """Whether some tolerance lets no such plan be at either of its ends."""
        ends, plans = self.clockings.ends, self.plans
        turns = self.clockings.turns(plans.candidates)
        unheld = (plans.fitting.is_unknown | ends.is_unheld(turns)) & plans.candidates.is_there
        return np.asarray(
            ends.free_angle.is_unknown | ends.lever_angle.is_unknown | unheld.any(axis=0)
        )

    # -- Without a cut ---------------------------------------------------------------------

    @cached_property
    def uncut_height(self) -> Any:  # noqa: ANN401 - a column
        """Height nearest the wanted one that needs no tooth removed [m], where that is asked."""
        is_asked = ~self._is_first_uncut
        if not is_asked.any():
            return np.full(is_asked.shape, np.nan)
        uncut, clockings = self._uncut, self.clockings
        heights = clockings.heights(uncut.lever + clockings.clocked(uncut))
        wanted = self.corner.height(self.wished.angle)
        missed = np.where(uncut.is_there, np.abs(heights - wanted), np.inf)
        nearest = np.argmin(missed, axis=0)[np.newaxis]
        height = np.take_along_axis(heights, nearest, axis=0)[0]
        return np.where(is_asked & uncut.is_there.any(axis=0), height, np.nan)

    @cached_property
    def _uncut(self) -> Candidates:
        """Clockings over a whole turn that remove no tooth, and that are there or go in."""
        found, corner = self.clockings.over_a_turn(), self.corner
        slackest = corner.lever_span[1] + self.clockings.clocked(found)
        goes_in = self.can_be_unloaded & np.greater_equal(slackest, corner.stops[0])
        return found.only((found.cuts == 0) & (~_unloads(found) | goes_in)).used

    @cached_property
    def _is_first_uncut(self) -> Flags:
        """Whether the first plan, or the first that is rejected where there is none, cuts none."""
        found = np.zeros(self.count.shape, dtype=bool)
        for candidates, known in ((self._rejected, True), (self._allowed, self._has_findings())):
            cuts = candidates.at(self._first(candidates, known)).cuts[0]
            found = np.where(candidates.is_there.any(axis=0), cuts == 0, found)
        return np.asarray(found)

    # -- The order of preference -----------------------------------------------------------

    @cached_property
    def _allowed(self) -> Candidates:
        candidates = self.plans.candidates
        return candidates.only(~any_of(flags for _, flags in self.forbidden))

    @cached_property
    def _rejected(self) -> Candidates:
        candidates = self.plans.candidates
        return candidates.only(any_of(flags for _, flags in self.forbidden))

    @property
    def count(self) -> Any:  # noqa: ANN401 - a column
        """How many plans each corner has."""
        return self._allowed.is_there.sum(axis=0)

    @cached_property
    def preferred(self) -> MadePlans:
        """Plan that each corner has first; of a corner without any, meaningless."""
        return self.made(self._allowed.at(self._first(self._allowed, self._has_findings())))

    def verdicts(self) -> Verdicts:
        """Say what each corner's plans lead to."""
        first = self._first(self._rejected, has_findings=True)
        found = np.full(first.shape, Verdict.OUT_OF_REACH.value, dtype=LONGEST)
        shape = self._rejected.is_there.shape
        for verdict, flags in reversed(self.forbidden):
            own = np.broadcast_to(flags, shape)[first, np.arange(first.size)]
            found = np.where(own, verdict.value, found)
        found = np.where(self._rejected.is_there.any(axis=0), found, Verdict.OUT_OF_REACH.value)
        return np.where(self.count > 0, Verdict.REACHED.value, found)

    def _first(self, candidates: Candidates, has_findings: Any) -> NDArray[np.intp]:  # noqa: ANN401
        """Place of the candidate that each corner prefers."""
        enough, left = self.clockings.enough, candidates.flats_left
        best = np.where(candidates.is_there, left, 0).max(axis=0, initial=0)
        least = np.where(best >= enough, enough, best - FLATS)
        ends = candidates.arm_moves.astype(int) + candidates.anchor_moves
        return candidates.first(
            (
                left < least,
                candidates.cuts,
                ends > 0,
                ends,
                np.broadcast_to(has_findings, left.shape),
            )
        )


def _unloads(candidates: Candidates) -> Flags:
    """Whether the work needs bars that carry no torque."""
    return np.asarray(candidates.disturbed > 0)


def _proof_load(adjuster: Adjuster) -> Real | None:
    """Proof load of the bolts [N]; none where no class is known of them."""
    sizes = (metres(adjuster.thread_diameter), metres(adjuster.thread_pitch))
    if adjuster.property_class is None or not any(map(np.ndim, sizes)):
        return proof_load(adjuster)
    marked = threads.PropertyClass(adjuster.property_class.value)
    return threads.proof_load(marked, diameter=sizes[0], pitch=sizes[1])
