"""Bars that may reach a goal, through one requirement after the other."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TypeVar

import attrs

from barwright.analysis.across.donors import combined, mating
from barwright.analysis.assembly.unloading import swapped
from barwright.analysis.corner.corner import Corner
from barwright.analysis.fit.length_fit import LengthFit, fit_of
from barwright.analysis.rates.rates import RatedCorner, rated_corner
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.analysis.selection.against import (
    Against,
    against_fit,
    against_goal,
    against_plan,
    against_rates,
    against_strength,
)
from barwright.analysis.selection.selection import Sieve
from barwright.analysis.selection.target import Target
from barwright.analysis.strength.strength import Strength, strength_as_rated
from barwright.errors import BarwrightError, NoFigureError
from barwright.parts.bar import Bar
from barwright.parts.common.record import Part
from barwright.parts.damper import Damper
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd
from barwright.parts.wanted import Wanted

__all__ = ["Candidate", "Search"]

C = TypeVar("C", "Bar", "Setup", "Candidate")

# Corners with other parts beside the bar that are looked at: those with the fewest, first.
_MOST_SWAPPED = 1000


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
        By how much it misses the goal, as a share; 0 of an extreme, not a number where it has no
        such figure.
    """

    setup: Setup
    fit: LengthFit
    rated: RatedCorner
    strength: Strength
    miss: float = 0.0


@attrs.define(eq=False)
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
    untried : int
        Corners with several other parts that were too many to look at.
    """

    present: Setup
    wanted: Wanted
    parts: Sequence[Part]
    with_dampers: bool
    sieves: list[Sieve] = attrs.field(factory=list)
    untried: int = 0

    def fitting(self) -> list[Candidate]:
        """List the corners whose bar goes in, can be rated at the height, and survives."""
        bars = [part for part in self.parts if isinstance(part, Bar)]
        kept = self.sieved("splines that an arm and an anchor take", bars, self._against_splines)
        lying = self.sieved("a bar that goes in", self._corners(kept), against_fit)
        there = self._rated(lying)
        return self.sieved(
            "a stress below every known limit", there, lambda one: against_strength(one.strength)
        )

    def near(
        self, target: Target, candidates: Iterable[Candidate], *, most_miss: float
    ) -> list[Candidate]:
        """Keep what comes near enough to a target."""
        rated = [attrs.evolve(one, miss=_miss(one, target)) for one in candidates]
        return self.sieved(
            f"a rate within {100.0 * most_miss:.0f} % of the goal",
            rated,
            lambda one: against_goal(one.miss, most=most_miss),
        )

    def plan(self, candidate: Candidate) -> Reindex:
        """Plan the clocking of a candidate."""
        return reindex(candidate.setup, wanted=self.wanted, present=self.present)

    def against_plan(self, candidate: Candidate, answer: Reindex) -> Against | None:
        """Say why a candidate has no safe plan."""
        return against_plan(answer, candidate.setup, present=self.present, wanted=self.wanted)

    def sieved(
        self, requirement: str, candidates: Sequence[C], against: Callable[[C], Against | None]
    ) -> list[C]:
        """Keep what passes a requirement, and note what does not."""
        reasons = [(one, against(one)) for one in candidates]
        kept = [one for one, reason in reasons if reason is None]
        out = [(one, reason) for one, reason in reasons if reason is not None]
        name, reason = "", None
        if out:
            nearest, reason = min(out, key=lambda pair: pair[1].by)
            name = _named(nearest)
        self.sieves.append(
            Sieve(
                requirement=requirement,
                removed=len(out),
                kept=len(kept),
                nearest=f"{name}: {reason.text.rstrip('.')}" if reason else "",
                remedy=reason.remedy if reason else "",
            )
        )
        return kept

    def _against_splines(self, bar: Bar) -> Against | None:
        """Say which end of a bar no part here takes."""
        found = zip(mating(_with_bar(self.present, bar), self.parts), _ends(bar), strict=True)
        missing = [name_and_end for parts, name_and_end in found if not parts]
        if not missing:
            return None
        ends = ", ".join(
            f"no {part} takes {end.teeth} teeth of the form {end.form}" for part, end in missing
        )
        parts = " and ".join(part for part, _ in missing)
        return Against(ends, f"give a pack that has such an {parts}", float(len(missing)))

    def _corners(self, bars: Iterable[Bar]) -> list[Setup]:
        """Put bars on the corner: with its own parts, with other ones, with each damper."""
        tried = [one for bar in bars for lying in self._lying(bar) for one in self._damped(lying)]
        tried.sort(key=self.count_swapped)
        most = sum(not self.count_swapped(one) for one in tried) + _MOST_SWAPPED
        self.untried = max(len(tried) - most, 0)
        return tried[:most]

    def count_swapped(self, setup: Setup) -> int:
        """Count the parts beside the bar that are not on the corner now."""
        return sum(kind != "bar" for kind in swapped(setup, present=self.present))

    def _lying(self, bar: Bar) -> Iterator[Setup]:
        """Put a bar into the arms and anchors that take it; where none holds it, into the first."""
        own = _with_bar(self.present, bar)
        found = False
        for setup in combined(own, self.parts):
            found = True
            yield setup
        if not found:
            arms, anchors = mating(own, self.parts)
            yield own.with_parts(arm=arms[0], anchor=anchors[0])

    def _damped(self, setup: Setup) -> Iterator[Setup]:
        yield setup
        for part in self.parts if self.with_dampers else ():
            if isinstance(part, Damper) and part.id != setup.damper.id:
                yield setup.with_parts(damper=part)

    def _rated(self, setups: Sequence[Setup]) -> list[Candidate]:
        """Rate corners; those whose figures cannot be true are taken out too."""
        found: dict[int, Candidate] = {}

        def against(setup: Setup) -> Against | None:
            try:
                corner = Corner(setup)
                rated = rated_corner(corner, self.wanted)
                one = Candidate(setup, fit_of(corner), rated, strength_as_rated(rated))
            except BarwrightError as error:
                return Against(str(error).splitlines()[0], "check the figures of its parts", 1e9)
            found[id(setup)] = one
            return against_rates(rated.answer)

        kept = self.sieved("a height within the travel", setups, against)
        return [found[id(setup)] for setup in kept]


def _with_bar(present: Setup, bar: Bar) -> Setup:
    """Put a bar on a corner, in the teeth of the present one where it has as many."""
    now = present.bar
    return attrs.evolve(
        present,
        bar=bar,
        arm_tooth=_kept_tooth(present.arm_tooth, now=now.arm_end, end=bar.arm_end),
        anchor_tooth=_kept_tooth(present.anchor_tooth, now=now.anchor_end, end=bar.anchor_end),
    )


def _kept_tooth(tooth: int, *, now: BarEnd, end: BarEnd) -> int:
    return tooth if end.teeth == now.teeth else 0


def _miss(candidate: Candidate, target: Target) -> float:
    """By which share a candidate misses a target; not a number if it has no such figure."""
    try:
        return target.reached(candidate.rated.answer) - 1.0
    except NoFigureError:
        return math.nan


def _ends(bar: Bar) -> tuple[tuple[str, BarEnd], tuple[str, BarEnd]]:
    """Name what takes each end of a bar."""
    return ("arm", bar.arm_end), ("anchor", bar.anchor_end)


def _named(candidate: Bar | Setup | Candidate) -> str:
    """Name the bar of a candidate of any stage."""
    if isinstance(candidate, Candidate):
        return _named(candidate.setup)
    return candidate.bar.title if isinstance(candidate, Setup) else candidate.title
