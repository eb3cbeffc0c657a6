"""How many pairs there are, and what became of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable
from typing import Self, TypeAlias

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.finding import Topic
from barwright.family.pruning import REQUIREMENTS
from barwright.family.row import PlainRow
from barwright.parts.common.in_short import Summarised

__all__ = ["Counted", "FamilyCount", "Tally", "count_pruned", "count_row"]

Counted: TypeAlias = Counter[tuple[str, str]]
"""Pairs by a group and a word of it: what prunes them, or their verdicts."""

_PRUNED, _FIT, _STRENGTH, _ERRORS = "pruned", "fit", "strength", "errors"
_FITTING = {Verdict.FITS.value, Verdict.FITS_WITH_CHANGES.value}
_LIVING = {Verdict.HOLDS.value, Verdict.BELOW_YIELD.value}


@attrs.frozen(kw_only=True, repr=False)
class Tally(Summarised):
    """How many pairs have something in common.

    Parameters
    ----------
    what : str
        What it is: a requirement or a verdict.
    pairs : int
        Their number.
    """

    what: str
    pairs: int


@attrs.frozen(kw_only=True, repr=False)
class FamilyCount(Summarised):
    """How many pairs there are, and what became of them.

    Parameters
    ----------
    vehicles, bars : int
        What was looked at.
    pairs : int
        Each bar with each corner of each vehicle.
    pruned : tuple of Tally
        Pairs that spline keys and lengths exclude, by the first requirement that is not met.
    fits : tuple of Tally
        The others by the verdict of their fit.
    strengths : tuple of Tally
        Those that fit, by the verdict of their strength.
    errors : int
        Pairs of which a question ended with an error.
    """

    vehicles: int
    bars: int
    pairs: int
    pruned: tuple[Tally, ...]
    fits: tuple[Tally, ...]
    strengths: tuple[Tally, ...]
    errors: int

    @classmethod
    def of(cls, counted: Counted, *, vehicles: int, bars: int) -> Self:
        """Sum up what was counted.

        Parameters
        ----------
        counted : Counter
            Pairs by group and word.
        vehicles, bars : int
            What was looked at.

        Returns
        -------
        FamilyCount
        """
        verdicts = [verdict.value for verdict in Verdict]
        pruned = _tallies(counted, _PRUNED, (topic.value for topic in REQUIREMENTS))
        fits = _tallies(counted, _FIT, ["", *verdicts])
        return cls(
            vehicles=vehicles,
            bars=bars,
            pairs=sum(tally.pairs for tally in (*pruned, *fits)),
            pruned=pruned,
            fits=tuple(tally for tally in fits if tally.what),
            strengths=_tallies(counted, _STRENGTH, verdicts),
            errors=counted[_ERRORS, ""],
        )

    @property
    def excluded(self) -> int:
        """Pairs that spline keys and lengths exclude."""
        return sum(tally.pairs for tally in self.pruned)

    @property
    def fitting(self) -> int:
        """Pairs that fit, with or without changes."""
        return _sum_of(self.fits, _FITTING)

    @property
    def offered(self) -> int:
        """Pairs that fit and whose stress at full bump stays below every known limit."""
        return _sum_of(self.strengths, _LIVING)

    @property
    def verdict(self) -> Verdict:
        """Whether any pair fits."""
        if self.fitting:
            return Verdict.LISTED
        unknown = _sum_of(self.fits, {Verdict.NEEDS_FIGURES.value})
        return Verdict.NEEDS_FIGURES if unknown else Verdict.DOES_NOT_FIT

    @property
    def headline(self) -> str:
        """How many pairs there are, and how many of them fit and live."""
        things = ((self.bars, "bar"), (self.vehicles, "vehicle"), (self.pairs, "pair"))
        bars, vehicles, pairs = (f"{n:,} {thing}{'s' * (n != 1)}" for n, thing in things)
        asked = f"{bars} on {vehicles}, {pairs}"
        if not self.fitting:
            return f"{asked}: none is known to fit."
        changes = _sum_of(self.fits, {Verdict.FITS_WITH_CHANGES.value})
        fit = f"{self.fitting:,} fit" + (f", {changes:,} of them with changes" if changes else "")
        lives = f"{self.offered:,} of these stay below every known limit of their stress"
        return f"{asked}: {fit}; {lives}."

    def _in_short(self) -> str:
        """Say how many pairs there are, and how many of them fit."""
        return self.headline


def count_pruned(counted: Counted, topic: Topic, *, pairs: int) -> None:
    """Count pairs that a requirement excludes.

    Parameters
    ----------
    counted : Counter
        Where it is counted.
    topic : Topic
        The requirement.
    pairs : int
        How many.
    """
    counted[_PRUNED, topic.value] += pairs


def count_row(counted: Counted, row: PlainRow) -> None:
    """Count a pair that was looked at.

    Parameters
    ----------
    counted : Counter
        Where it is counted.
    row : dict
        Its plain row.
    """
    counted[_FIT, row["fit"] or ""] += 1
    if row["fit"] in _FITTING and row["strength"]:
        counted[_STRENGTH, row["strength"]] += 1
    if row["error_code"]:
        counted[_ERRORS, ""] += 1


def _tallies(counted: Counted, group: str, words: Iterable[str]) -> tuple[Tally, ...]:
    found = ((word, counted[group, word]) for word in words)
    return tuple(Tally(what=word, pairs=pairs) for word, pairs in found if pairs)


def _sum_of(tallies: Iterable[Tally], words: Collection[str]) -> int:
    return sum(tally.pairs for tally in tallies if tally.what in words)
