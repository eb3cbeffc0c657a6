"""Uncertainty of any answer, from the tolerances of a setup's figures.

The tolerance of a figure is the half width of the interval that it lies in, taken as
rectangular: within it no value is likelier than another.  What stands behind the ± of an
answer is its expanded uncertainty, here as on plans and sheets: :data:`COVERAGE_FACTOR`
standard uncertainties, which cover about 95 %.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TypeAlias

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.tolerance.draws import FEWEST_DRAWS, refuse_unless_sensible
from barwright.analysis.tolerance.figures import TolerancedFigure, toleranced_figures
from barwright.analysis.tolerance.shifted_answers import (
    COVERAGE_FACTOR,
    COVERAGE_TEXT,
    AskedQuestion,
    Progress,
    Question,
    ToleranceGap,
    at_both_ends,
    at_draws,
    uncertainty,
)
from barwright.mechanics.common.types import Real
from barwright.mechanics.uncertainty.coverage import expanded_uncertainty, symmetric_interval
from barwright.mechanics.uncertainty.propagation import variance_shares
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.units import Quantity, quantity_of_unit, shown, unit_spelling

__all__ = [
    "COVERAGE",
    "Tolerance",
    "ToleranceInput",
    "ToleranceRow",
    "ToleranceShare",
    "tolerance",
]

Array: TypeAlias = NDArray[np.float64]

_Spread: TypeAlias = tuple[float, float, float]
"""Uncertainty of a figure and ends of its interval; NaN for what is not known."""

COVERAGE = 0.95
"""Share of the draws that lies from ``low`` to ``high`` of a row."""


@attrs.frozen(kw_only=True, repr=False)
class ToleranceInput(Summarised):
    """A figure of the setup that has a tolerance.

    Parameters
    ----------
    figure : str
        Its name, by the fields of the setup that lead to it first, like
        ``bar.material.shear_modulus``.
    value : Quantity
        Nominal value.
    half_width : Quantity
        Half width of the interval that it lies in, anywhere.
    """

    figure: str
    value: Quantity
    half_width: Quantity


@attrs.frozen(kw_only=True, repr=False)
class ToleranceShare(Summarised):
    """Share of one setup figure in the uncertainty of one answer figure.

    Parameters
    ----------
    figure : str
        Of the setup.
    change : Quantity
        Of the answer's figure when the setup's goes from its nominal value to the
        upper end of its tolerance.
    percent : float
        Of the variance of the answer's figure.
    """

    figure: str
    change: Quantity
    percent: float


@attrs.frozen(kw_only=True, repr=False)
class ToleranceRow(Summarised):
    """One figure of the answer, and its uncertainty.

    Parameters
    ----------
    figure : str
        Its name, by the fields of the answer that lead to it, like
        ``ride.wheel_rate``.
    nominal : Quantity
        Its value with all figures of the setup at their nominal values.
    uncertainty : Quantity, optional
        What stands behind its ±: expanded uncertainty, about 95 %; none where no variation
        could be asked.
    low, high : Quantity, optional
        Ends of the interval that contains 95 % of the draws; none without draws.
    shares : tuple of ToleranceShare
        Figures of the setup that move it, the largest share first.
    """

    figure: str
    nominal: Quantity
    uncertainty: Quantity | None
    low: Quantity | None
    high: Quantity | None
    shares: tuple[ToleranceShare, ...]


@attrs.frozen(kw_only=True, repr=False)
class Tolerance(Answer):
    """Answer to :func:`tolerance`.

    Parameters
    ----------
    verdict : Verdict
        Of the question with all figures at their nominal values; *listed* if it has none.
    findings : tuple of Finding
        Why it came to that, and what else a reader must know.
    cautions : tuple of Caution
        None: to ask is no work.
    coverage_factor : float
        Factor between standard and expanded uncertainty.
    draws : int
        Draws of a Monte Carlo run; 0 for first order.
    inputs : tuple of ToleranceInput
        Figures of the setup that have a tolerance.
    rows : tuple of ToleranceRow
        Every figure of the answer.
    gaps : tuple of ToleranceGap
        Where within the tolerances figures were missing: what is said of them
        leaves these places out.
    """

    coverage_factor: float
    draws: int
    inputs: tuple[ToleranceInput, ...]
    rows: tuple[ToleranceRow, ...]
    gaps: tuple[ToleranceGap, ...]

    @property
    def reported(self) -> ToleranceRow | None:
        """Row of the figure that the headline gives; none if no figure has a ±."""
        rows = [row for row in self.rows if row.uncertainty is not None and row.shares]
        return next((row for row in rows if row.figure in _HEADLINE), next(iter(rows), None))

    @property
    def headline(self) -> str:
        """The figure with the largest relative ±, and what causes it."""
        if self.verdict.is_refusal:
            return self.refused()
        reported = self.reported
        if reported is None:
            return "The tolerances change no figure of the answer."
        largest = reported.shares[0]
        covers = COVERAGE_TEXT
        if self.coverage_factor != COVERAGE_FACTOR:
            covers = f"{self.coverage_factor:g} standard uncertainties"
        return (
            f"{_named(reported.figure).capitalize()} is {shown(reported.nominal, 1)}, "
            f"± {_half(reported)} from tolerances ({covers}). Most of that comes from "
            f"{_named(largest.figure)} ({largest.percent:.0f} %)."
        )


# Figures that the headline prefers.
_HEADLINE = ("ride.wheel_rate", "state.height", "answer")

_NAMES = {
    "ride.wheel_rate": "the rate at the wheel",
    "state.height": "the height hub to arch",
    "answer": "the figure",
}


def _named(figure: str) -> str:
    """Name a figure in a sentence.

    Examples
    --------
    >>> _named("bar.material.shear_modulus")
    'the shear modulus of the bar material'
    """
    if figure in _NAMES:
        return _NAMES[figure]
    *owner, name = figure.replace("_", " ").split(".")
    return f"the {name} of the {' '.join(owner)}" if owner else f"the {name}"


def _half(row: ToleranceRow) -> str:
    return "unknown" if row.uncertainty is None else shown(row.uncertainty, 1)


@checks_arguments
def tolerance(
    question: Question,
    setup: Setup,
    *,
    half_widths: Mapping[str, FigureLike] | None = None,
    coverage_factor: float = COVERAGE_FACTOR,
    draws: int = 0,
    seed: int = 0,
    progress: Progress | None = None,
) -> Tolerance:
    r"""Answer how certain an answer is: its figures with ±, and what causes it.

    .. math:: U = k \sqrt{\sum_i \left(\frac{\Delta_i}{\sqrt 3}\right)^2}, \qquad
              \Delta_i = \frac{y(x_i + a_i) - y(x_i - a_i)}{2}

    Parameters
    ----------
    question : callable
        From a setup to an answer: ``rates``, ``ride``, or any function of your own.
    setup : Setup
        The corner.
    half_widths : mapping of str to str or Quantity, optional
        Tolerances that no record has, like ``{"nut_turns": "0.1 turn"}``, or that
        replace a record's; with zero a figure is exact.
    coverage_factor : float
        :math:`k`; 2, that of every plan and sheet, covers about 95 %, and more where one
        figure outweighs the others.
    draws : int
        Ask at so many drawn sets of figures too, 100 to 100 000, and take the uncertainty
        from them (Monte Carlo); 0 leaves it at first order.
    seed : int
        Where the draws start; not negative.
    progress : callable, optional
        Function called with the number of draws done and the number in all.

    Returns
    -------
    Tolerance

    Raises
    ------
    QuantityError
        Q302 for a coverage factor that is not above zero, too few or too many draws, or a
        negative seed; Q303 for a tolerance as wide as a figure that must be above zero.
    SchemaError
        S201 for a half width of a figure that the setup does not have; S203 for an argument
        of another type, like draws that are no whole number.
    BarwrightError
        Whatever the question raises for the setup as it is.

    Notes
    -----
    Each figure is moved to both ends of its tolerance, the others staying; where only
    one end can be asked, the change toward that one counts.  Records of one id vary
    together, and all else independently.  Curves, findings, verdicts and lists of
    plans are passed over.

    References
    ----------
    JCGM 100:2008 (GUM), 4.3.7, 5.1.2 and 6.2.1, and JCGM 101:2008 (from memory).

    Examples
    --------
    >>> from barwright.analysis.rates.rates import rates
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> figures = {row.figure: row for row in tolerance(rates, setup).rows}
    >>> rate = figures["bar_rate"]
    >>> print(f"{rate.nominal:.1f} ± {rate.uncertainty.magnitude:.1f}")
    48.0 meter * newton / degree ± 2.7
    >>> print(f"{rate.shares[0].figure}: {rate.shares[0].percent:.0f} %")
    bar.material.shear_modulus: 97 %
    """
    refuse_unless_sensible(coverage_factor=coverage_factor, draws=draws, seed=seed)
    ways = toleranced_figures(setup, half_widths or {})
    asked = AskedQuestion.of(question, setup)
    changes, gaps = at_both_ends(asked, ways)
    drawn: Array | None = None
    if draws and ways:
        drawn, more = at_draws(asked, ways, draws=draws, seed=seed, progress=progress)
        gaps += more
    return Tolerance(
        verdict=asked.verdict or Verdict.LISTED,
        coverage_factor=float(coverage_factor),
        draws=draws,
        inputs=tuple(
            ToleranceInput(figure=way.figure, value=way.value, half_width=way.half_width)
            for way in ways
        ),
        rows=_rows(asked, ways, changes, drawn, coverage_factor),
        gaps=gaps,
        findings=asked.findings,
    )


# -- Summing up ----------------------------------------------------------------


def _rows(
    asked: AskedQuestion[Setup],
    ways: Sequence[TolerancedFigure],
    changes: Array,
    drawn: Array | None,
    factor: float,
) -> tuple[ToleranceRow, ...]:
    """Each figure of the answer with its uncertainty, from the draws if there are any."""
    percents = 100.0 * variance_shares(np.nan_to_num(changes, nan=0.0))
    spreads = (
        ((u, math.nan, math.nan) for u in uncertainty(changes, coverage_factor=factor).tolist())
        if drawn is None
        else (_of_draws(one, factor) for one in drawn)
    )
    return tuple(
        ToleranceRow(
            figure=name,
            nominal=nominal,
            uncertainty=_like(nominal, expanded),
            low=_like(nominal, low),
            high=_like(nominal, high),
            shares=_shares(ways, nominal, changes[:, place], percents[:, place]),
        )
        for place, ((name, nominal), (expanded, low, high)) in enumerate(
            zip(asked.nominal.items(), spreads, strict=True)
        )
    )


def _of_draws(numbers: Array, factor: float) -> _Spread:
    """Sum one figure up, from the draws at which it is there."""
    there = numbers[~np.isnan(numbers)]
    if len(there) < FEWEST_DRAWS // 2:
        return math.nan, math.nan, math.nan
    low, high = symmetric_interval(there, coverage=COVERAGE)
    # From the first of them, so that what never moves has no spread by rounding.
    spread = float(np.std(there - there[0], ddof=1))
    return float(expanded_uncertainty(spread, coverage_factor=factor)), float(low), float(high)


def _shares(
    ways: Sequence[TolerancedFigure], nominal: Quantity, changes: Array, percents: Array
) -> tuple[ToleranceShare, ...]:
    """Figures of the setup that move one of the answer, the largest share first."""
    order = sorted(range(len(ways)), key=lambda place: -float(percents[place]))
    return tuple(
        ToleranceShare(
            figure=ways[place].figure,
            change=quantity_of_unit(float(changes[place]), unit_spelling(nominal)),
            percent=float(percents[place]),
        )
        for place in order
        if percents[place] > 0.0
    )


def _like(nominal: Quantity, number: Real) -> Quantity | None:
    """Give a number the unit of a figure; none if it is not a number."""
    if math.isnan(number):
        return None
    return quantity_of_unit(float(number), unit_spelling(nominal))
