"""Bars that may reach a goal, through one requirement after the other."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TypeVar

import attrs

from barwright.analysis.across.donors import donors
from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.corner import Corner
from barwright.analysis.fit.length_fit import LengthFit, fit_of
from barwright.analysis.rates.rates import RatedCorner, rated_corner
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.analysis.selection.selection import Sieve
from barwright.analysis.selection.target import Target
from barwright.analysis.strength.strength import Strength, strength_as_rated
from barwright.errors import BarwrightError
from barwright.parts.bar import Bar
from barwright.parts.chassis import BarEndName
from barwright.parts.damper import Damper
from barwright.parts.record import Part
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted

__all__ = ["Candidate", "Planned", "Search"]

C = TypeVar("C", "Bar", "Setup", "Candidate", "Planned")

_LIVING = frozenset({Verdict.HOLDS, Verdict.BELOW_YIELD})
# Plans take longest; of more candidates than these only the best are planned.
_MOST_PLANNED = 16
# Of the pairs of other arm and anchor that make a bar fit, the first ones are tried.
_MOST_DONORS = 2


@attrs.frozen(eq=False)
class Candidate:
    """A corner with another bar, and what it comes to.

    Parameters
    ----------
    setup : Setup
        The corner with it.
    fit : LengthFit
        How the bar lies.
    rated : RatedCorner
        Its rates.
    strength : Strength
        Its stress.
    miss : float
        By how much it misses the goal, as a share; 0 of an extreme.
    """

    setup: Setup
    fit: LengthFit
    rated: RatedCorner
    strength: Strength
    miss: float = 0.0


@attrs.frozen(eq=False)
class Planned:
    """A candidate with its plan."""

    candidate: Candidate
    answer: Reindex


@attrs.frozen(eq=False)
class Search:
    """A search over parts, which notes what takes candidates out.

    Parameters
    ----------
    present : Setup
        The corner as it is now.
    wanted : Wanted
        The height.
    parts : sequence of Part
        Bars, arms, anchors and dampers to choose from.
    with_dampers : bool
        Whether other dampers are tried too.
    sieves : list of Sieve
        What took candidates out.
    """

    present: Setup
    wanted: Wanted
    parts: Sequence[Part]
    with_dampers: bool
    sieves: list[Sieve] = attrs.field(factory=list)

    def fitting(self) -> list[Candidate]:
        """List the corners whose bar goes in, can be rated at the height, and survives."""
        bars = [part for part in self.parts if isinstance(part, Bar)]
        kept = self._sieved("splines that match", bars, self._against_splines)
        tried = [setup for bar in kept for setup in self._setups(bar)]
        lying = self._sieved("a bar that goes in", tried, lambda one: _against(fit_of(Corner(one))))
        rated = [found for one in lying for found in self._rated(one)]
        there = self._sieved("a height within the travel", rated, _against_rates)
        return self._sieved("a stress below every known limit", there, _against_strength)

    def near(
        self, target: Target, candidates: Iterable[Candidate], most_miss: float
    ) -> list[Candidate]:
        """Keep what comes near enough to a target."""
        measured = [
            attrs.evolve(one, miss=target.reached(one.rated.answer) - 1.0) for one in candidates
        ]

        def against(one: Candidate) -> str:
            return "" if abs(one.miss) <= most_miss else f"{_percent(one.miss)} off the goal"

        measured.sort(key=lambda one: abs(one.miss))
        return self._sieved(f"a rate within {_percent(most_miss)} of the goal", measured, against)

    def planned(self, candidates: Sequence[Candidate]) -> list[Planned]:
        """Plan the clocking of the first candidates."""
        asked = [
            Planned(one, reindex(one.setup, wanted=self.wanted, present=self.present))
            for one in candidates[:_MOST_PLANNED]
        ]
        return self._sieved("a safe plan for the height", asked, _against_plan)

    def _sieved(
        self, requirement: str, candidates: Sequence[C], against: Callable[[C], str]
    ) -> list[C]:
        """Keep what passes a requirement, and note what does not."""
        reasons = [(one, against(one)) for one in candidates]
        kept = [one for one, reason in reasons if not reason]
        out = [(one, reason) for one, reason in reasons if reason]
        nearest = f"{_named(out[0][0])}: {out[0][1]}" if out else ""
        self.sieves.append(
            Sieve(requirement=requirement, removed=len(out), kept=len(kept), nearest=nearest)
        )
        return kept

    def _against_splines(self, bar: Bar) -> str:
        """Say which end of a bar no socket of this corner takes."""
        pairs = (
            (BarEndName.ARM, bar.arm_end, self.present.arm.socket),
            (BarEndName.ANCHOR, bar.anchor_end, self.present.anchor.socket),
        )
        for name, end, socket in pairs:
            if (end.teeth, end.form) != (socket.teeth, socket.form):
                return f"{end.teeth} teeth at the {name.value}, not {socket.teeth}"
        return ""

    def _setups(self, bar: Bar) -> Iterator[Setup]:
        """Put a bar on the corner: with its own parts, or with donors; with each damper."""
        own = self.present.with_parts(bar=bar)
        for setup in self._lying(own):
            yield setup
            if self.with_dampers:
                yield from self._with_other_dampers(setup)

    def _lying(self, own: Setup) -> Iterator[Setup]:
        if fit_of(Corner(own)).outcome.is_good:
            yield own
            return
        combinations = donors(own, parts=self.parts).combinations[:_MOST_DONORS]
        if not combinations:
            yield own  # which says what stands against it
        by_id = {part.id: part for part in self.parts}
        for one in combinations:
            swaps = {"arm": by_id.get(one.arm_id), "anchor": by_id.get(one.anchor_id)}
            yield own.with_parts(**{kind: swaps[kind] for kind in one.swapped})  # type: ignore[arg-type]

    def _with_other_dampers(self, setup: Setup) -> Iterator[Setup]:
        for part in self.parts:
            if isinstance(part, Damper) and part.id != setup.damper.id:
                yield setup.with_parts(damper=part)

    def _rated(self, setup: Setup) -> Iterator[Candidate]:
        """Rate a corner; what cannot be is passed over, since its figures cannot be true."""
        try:
            corner = Corner(setup)
            rated = rated_corner(corner, self.wanted)
            yield Candidate(setup, fit_of(corner), rated, strength_as_rated(rated))
        except BarwrightError:
            return


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"


def _against(answer: Answer) -> str:
    return "" if answer.outcome.is_good else answer.headline


def _against_rates(candidate: Candidate) -> str:
    answer = candidate.rated.answer
    return "" if answer.figures is not None else answer.headline


def _against_strength(candidate: Candidate) -> str:
    answer = candidate.strength
    return "" if answer.verdict in _LIVING else answer.headline


def _against_plan(planned: Planned) -> str:
    return "" if planned.answer.plans else planned.answer.headline


def _named(candidate: Bar | Setup | Candidate | Planned) -> str:
    """Name the bar of a candidate of any stage."""
    if isinstance(candidate, Planned):
        return _named(candidate.candidate)
    if isinstance(candidate, Candidate):
        return _named(candidate.setup)
    return candidate.bar.title if isinstance(candidate, Setup) else candidate.title
