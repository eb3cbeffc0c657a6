"""A question asked again with shifted figures."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from typing import Any, Generic, Self, TypeAlias

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.analysis.finding import Finding
from barwright.analysis.tolerance.answer_figures import answer_figures
from barwright.analysis.tolerance.figure_shifter import FigureShifter, S
from barwright.analysis.tolerance.figures import (
    TolerancedFigure,
    figure_places,
)
from barwright.computed_once import cached_property
from barwright.errors import BarwrightError
from barwright.mechanics.uncertainty.coverage import expanded_uncertainty
from barwright.mechanics.uncertainty.propagation import (
    combined_uncertainty,
    rectangular_uncertainty,
)
from barwright.mechanics.uncertainty.sampling import draw_inputs
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.units import Quantity, is_quantity

__all__ = [
    "COVERAGE_FACTOR",
    "COVERAGE_TEXT",
    "AskedQuestion",
    "Progress",
    "Question",
    "ToleranceGap",
    "at_both_ends",
    "at_draws",
    "half_change",
    "uncertainty",
]

Question: TypeAlias = Callable[[Setup], Any]
Progress: TypeAlias = Callable[[int, int], None]
Array: TypeAlias = NDArray[np.float64]

COVERAGE_FACTOR = 2.0
"""Standard uncertainties behind every ± of an answer: about 95 %, more where one figure
outweighs the others."""

COVERAGE_TEXT = "about 95 %"
"""What such an interval covers, for a reader."""

# A figure that changes by less, of its size or in its unit, has not moved but been rounded.
_ROUNDING = 1e-12


@attrs.frozen(kw_only=True, repr=False)
class ToleranceGap(Summarised):
    """A value within the tolerances at which figures of the answer are missing.

    Parameters
    ----------
    figure : str
        Figure of the setup that was moved; empty if all were drawn.
    value : Quantity, optional
        Where it was moved to.
    draws : int
        How many draws it is, 0 if one figure was moved.
    missing : tuple of str
        Figures that the answer lacks there; empty if there is no answer at all.
    text : str
        Why there is no answer; empty if there is one.
    """

    figure: str
    value: Quantity | None
    draws: int
    missing: tuple[str, ...]
    text: str


@attrs.frozen(eq=False, slots=False)
class AskedQuestion(Generic[S]):
    """A question, and its answer for a setup as it is.

    Parameters
    ----------
    question : callable
        From a setup to an answer.
    setup : Setup or other holder of records
        The corner, or parts of none.
    verdict : Verdict, optional
        The answer in the words of its question, if it has one.
    findings : tuple of Finding
        Why it came to that, if the answer says so.
    nominal : dict of str to Quantity
        Figures of the answer by name.
    """

    question: Callable[[S], Any]
    setup: S
    verdict: Verdict | None
    findings: tuple[Finding, ...]
    nominal: dict[str, Quantity]

    @classmethod
    def of(cls, question: Callable[[S], Any], setup: S) -> Self:
        """Ask, and keep what is answered."""
        answer = question(setup)
        verdict = getattr(answer, "verdict", None)
        known = verdict if isinstance(verdict, Verdict) else None
        findings = getattr(answer, "findings", ()) if known else ()
        return cls(question, setup, known, findings, _figures(answer))

    @cached_property
    def _mover(self) -> FigureShifter[S]:
        return FigureShifter(self.setup, figure_places(self.setup))

    @property
    def numbers(self) -> Array:
        """Figures of the answer, each in its own unit."""
        return np.array([float(value.magnitude) for value in self.nominal.values()])

    def at(self, shares: Mapping[TolerancedFigure, float]) -> tuple[Array, str]:
        """Figures of the answer for a shifted setup, NaN if missing; or why there are none."""
        try:
            found = _figures(self.question(self._mover.moved(shares)))
        except BarwrightError as error:
            return np.full(len(self.nominal), math.nan), str(error)
        return np.array([_number(found.get(n), v) for n, v in self.nominal.items()]), ""

    def missing(self, numbers: Array) -> tuple[str, ...]:
        """Names of the figures that are missing."""
        pairs = zip(self.nominal, numbers, strict=True)
        return tuple(name for name, number in pairs if math.isnan(number))


def _figures(answer: Any) -> dict[str, Quantity]:  # noqa: ANN401 - of any question
    """All quantities of an answer by their names; one that is itself the answer is `answer`."""
    found = answer_figures(answer, "answer" if is_quantity(answer) else "")
    # What an answer calls its figures says nothing of any one of them.
    return {name.removeprefix("figures."): value for name, value in found if is_quantity(value)}


def _number(value: Quantity | None, nominal: Quantity) -> float:
    """Take a figure in the unit that it has nominally; NaN if it is missing or not finite."""
    if value is None:
        return math.nan
    number = float((value if value.units == nominal.units else value.to(nominal.units)).magnitude)
    return number if math.isfinite(number) else math.nan


def at_both_ends(
    asked: AskedQuestion[Any], ways: Sequence[TolerancedFigure]
) -> tuple[Array, tuple[ToleranceGap, ...]]:
    """Change of every figure with each tolerance, and the gaps."""
    gaps: list[ToleranceGap] = []
    changes = np.empty((len(ways), len(asked.nominal)))
    for index, way in enumerate(ways):
        ends = []
        for side in (-1.0, 1.0):
            numbers, text = asked.at({way: side})
            missing = () if text else asked.missing(numbers)
            if text or missing:
                gaps.append(
                    ToleranceGap(
                        figure=way.figure, value=way.at(side), draws=0, missing=missing, text=text
                    )
                )
            ends.append(numbers)
        changes[index] = half_change(*ends, middle=asked.numbers)
    return changes, tuple(gaps)


def half_change(low: Array, high: Array, *, middle: Array) -> Array:
    r"""Change of figures with half a tolerance, from their values at both ends of it.

    .. math:: \Delta = \frac{y(x + a) - y(x - a)}{2}

    Parameters
    ----------
    low, high : array
        Values at the ends; NaN where one is missing.
    middle : array
        Values with the figure at its nominal value.

    Returns
    -------
    array
        From the one end where the other is missing; NaN where both are; 0 for what is rounding.
    """
    change = (high - low) / 2.0
    if np.isnan(change).any():
        change = np.where(np.isnan(low), high - middle, change)
        change = np.where(np.isnan(high), middle - low, change)
    return np.where(_is_rounding(change, middle), 0.0, change)


def _is_rounding(change: Array, middle: Array) -> NDArray[np.bool_]:
    """Find the figures that did not change; a missing one did."""
    return np.abs(change) <= _ROUNDING * np.maximum(1.0, np.abs(middle))


def uncertainty(changes: Array, *, coverage_factor: float = COVERAGE_FACTOR) -> Array:
    r"""Uncertainty of figures, from which every ± of an answer is made.

    .. math:: U = k \sqrt{\sum_i \left(\frac{\Delta_i}{\sqrt 3}\right)^2}

    Parameters
    ----------
    changes : array
        Change :math:`\Delta_i` with half of each tolerance, these along the first axis; NaN
        where none is known, which is left out.
    coverage_factor : float
        :math:`k`.

    Returns
    -------
    array
        Expanded uncertainty; NaN for a figure of which no change is known.

    References
    ----------
    JCGM 100:2008 (GUM), 4.3.7, 5.1.2 and 6.2.1 (from memory).
    """
    missing = np.isnan(changes)
    if not missing.any():
        combined = combined_uncertainty(rectangular_uncertainty(changes))
        return np.asarray(expanded_uncertainty(combined, coverage_factor=coverage_factor))
    combined = combined_uncertainty(rectangular_uncertainty(np.where(missing, 0.0, changes)))
    never = missing.all(axis=0) & (len(changes) > 0)
    expanded = expanded_uncertainty(combined, coverage_factor=coverage_factor)
    return np.where(never, math.nan, expanded)


def at_draws(
    asked: AskedQuestion[Any],
    ways: Sequence[TolerancedFigure],
    *,
    draws: int,
    seed: int,
    progress: Progress | None = None,
) -> tuple[Array, tuple[ToleranceGap, ...]]:
    """Every figure of the answer for drawn inputs, and the gaps."""
    shares = draw_inputs(
        values=np.zeros(len(ways)),
        uncertainties=rectangular_uncertainty(1.0),
        draws=draws,
        seed=seed,
    )
    found = np.empty((len(asked.nominal), draws))
    why: Counter[tuple[tuple[str, ...], str]] = Counter()
    for index, one in enumerate(shares.T):
        found[:, index], text = asked.at(dict(zip(ways, one.tolist(), strict=True)))
        why[() if text else asked.missing(found[:, index]), text] += 1
        if progress is not None:
            progress(index + 1, draws)
    gaps = tuple(
        ToleranceGap(figure="", value=None, draws=count, missing=missing, text=text)
        for (missing, text), count in why.items()
        if missing or text
    )
    middle = asked.numbers[:, None]
    return np.where(_is_rounding(found - middle, middle), middle, found), gaps
