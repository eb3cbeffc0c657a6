"""What a loose bar may be: the answer of the identification."""

from __future__ import annotations

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.parts.common.in_short import Summarised
from barwright.units import Quantity

__all__ = [
    "LEAST_LIKELY",
    "AssumedError",
    "Identification",
    "NextReading",
    "OddFigure",
    "PossibleBar",
    "percent",
]

LEAST_LIKELY = 0.005
"""Probability below which a bar is not named."""

# What disagrees with a less likely bar tells of another bar, and not of a misread scale.
_WORTH_A_LOOK = 0.05


@attrs.frozen(kw_only=True, repr=False)
class OddFigure(Summarised):
    """A figure that was measured otherwise than it is listed.

    Parameters
    ----------
    named : str
        Which one.
    observed, listed : Quantity or int
        What was read, and what is listed.
    """

    named: str
    observed: Quantity | int
    listed: Quantity | int


@attrs.frozen(kw_only=True, repr=False)
class PossibleBar(Summarised):
    """A bar that the loose one may be, with those that no listed figure tells from it.

    Parameters
    ----------
    bar_ids : tuple of str
        Their ids.
    bar_titles : tuple of str
        Their titles.
    probability : float
        That it is one of them, from 0 to 1.
    arm_end : int, optional
        Number of the measured end that is its arm end, from 1; none if that is not known.
    odd_figures : tuple of OddFigure
        What was measured otherwise than it is listed.
    standard_on : tuple of str
        Vehicles that left the works with it, each with its axle.
    claimed_for : tuple of str
        Vehicles that a pack says it fits.
    """

    bar_ids: tuple[str, ...]
    bar_titles: tuple[str, ...]
    probability: float
    arm_end: int | None
    odd_figures: tuple[OddFigure, ...]
    standard_on: tuple[str, ...]
    claimed_for: tuple[str, ...]

    @property
    def named(self) -> str:
        """Its title and id, or those of all that cannot be told apart."""
        pairs = zip(self.bar_titles, self.bar_ids, strict=True)
        return " or ".join(f"{title} ({one})" for title, one in pairs)


@attrs.frozen(kw_only=True, repr=False)
class AssumedError(Summarised):
    """A ± that is taken for readings that state none.

    Parameters
    ----------
    tool : str
        Tool that it is usual for.
    within : Quantity
        How far such a tool is off, either way.
    named_figures : tuple of str
        Which readings.
    """

    tool: str
    within: Quantity
    named_figures: tuple[str, ...]


@attrs.frozen(kw_only=True, repr=False)
class NextReading(Summarised):
    """A figure that is worth measuring.

    Parameters
    ----------
    asked : str
        What to do, such as ``measure the bore``.
    tool, where : str
        What it is measured with, and where.
    is_repeated : bool
        Whether it was measured before, and may have been misread.
    certainty : float
        Probability that the bar is known after it, from 0 to 1.
    """

    asked: str
    tool: str
    where: str
    is_repeated: bool
    certainty: float


@attrs.frozen(kw_only=True, repr=False)
class Identification(Answer):
    """Answer to :func:`~barwright.analysis.identification.identify.identify`.

    Parameters
    ----------
    verdict : Verdict
        Identified, not listed, or needs more figures.
    findings : tuple of Finding
        Figures that disagree with the likeliest bar.
    cautions : tuple of Caution
        What to look for on a bar that comes off a shelf.
    possible_bars : tuple of PossibleBar
        Bars that it may be, the likeliest first.
    unlisted : float
        Probability that no pack lists it, from 0 to 1.
    next_readings : tuple of NextReading
        Figures that are worth measuring, the one that tells most first.
    assumed : tuple of AssumedError
        The ± that are taken where none was stated.
    """

    possible_bars: tuple[PossibleBar, ...]
    unlisted: float
    next_readings: tuple[NextReading, ...]
    assumed: tuple[AssumedError, ...]

    @property
    def disagreeing(self) -> tuple[OddFigure, ...]:
        """What disagrees with the likeliest bar, where it is worth a second look."""
        is_near = self.verdict is Verdict.NOT_LISTED or (
            bool(self.possible_bars) and self.possible_bars[0].probability >= _WORTH_A_LOOK
        )
        return self.possible_bars[0].odd_figures if self.possible_bars and is_near else ()

    @property
    def headline(self) -> str:
        """Which bar it is or may be, and what to measure next."""
        return " ".join(filter(None, (self._found, self._odd, self._next)))

    @property
    def _found(self) -> str:
        if self.verdict is Verdict.NOT_LISTED:
            near = f" The nearest is {self.possible_bars[0].named}." if self.possible_bars else ""
            return f"No listed bar has these figures ({percent(self.unlisted)}).{near}"
        if self.verdict is Verdict.IDENTIFIED:
            best = self.possible_bars[0]
            apart = ", which no figure tells apart" if len(best.bar_ids) > 1 else ""
            return f"{best.named}{apart}: {percent(best.probability)}."
        if self.unlisted > 1.0 - self.unlisted:
            return f"It is probably a bar that no pack lists ({percent(self.unlisted)})."
        named = [f"{one.named}, {percent(one.probability)}" for one in self.possible_bars[:2]]
        if self.unlisted > LEAST_LIKELY or len(self.possible_bars) > len(named):
            named.append("another bar")
        return f"It may be {'; or '.join(named)}."

    @property
    def _odd(self) -> str:
        odd = self.possible_bars[0].odd_figures if self.possible_bars and self.is_answered else ()
        return "".join(f"The {one.named} is not as listed: check it." for one in odd[:1])

    @property
    def _next(self) -> str:
        if self.verdict is not Verdict.NEEDS_FIGURES:
            return ""
        if not self.next_readings:
            return "No further figure tells them apart."
        first = self.next_readings[0]
        return f"{_capital(first.asked)} next: then {percent(first.certainty)} sure."


def percent(probability: float) -> str:
    """Write a probability as a reader takes it: nothing is quite sure, nor quite out of it."""
    if probability >= _NEARLY_ALL:
        return "over 99 %"
    return "under 1 %" if probability < 1.0 - _NEARLY_ALL else f"{100.0 * probability:.0f} %"


_NEARLY_ALL = 0.995


def _capital(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}"
