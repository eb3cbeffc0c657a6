"""A question asked elsewhere within the tolerances of a setup's figures."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from typing import Any, Self, TypeAlias

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.analysis.finding import Finding
from barwright.analysis.leeway import Leeway, moved
from barwright.analysis.scalars import scalars
from barwright.errors import BarwrightError
from barwright.mechanics.propagation import rectangular_uncertainty
from barwright.mechanics.sampling import draw_inputs
from barwright.parts.setup import Setup
from barwright.units import Quantity, is_quantity

__all__ = ["Asked", "Question", "ToleranceGap", "at_both_ends", "at_draws"]

Question: TypeAlias = Callable[[Setup], Any]
Array: TypeAlias = NDArray[np.float64]

# A figure that changes by less, of its size or in its unit, has not moved but been rounded.
_ROUNDING = 1e-12


@attrs.frozen(kw_only=True)
class ToleranceGap:
    """A place within the tolerances at which figures of the answer are missing.

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


@attrs.frozen(eq=False)
class Asked:
    """A question, and its answer for a setup as it is.

    Parameters
    ----------
    question : callable
        From a setup to an answer.
    setup : Setup
        The corner.
    verdict : Verdict, optional
        The answer in the words of its question, if it has one.
    findings : tuple of Finding
        Why it came to that, if the answer says so.
    nominal : dict of str to Quantity
        Figures of the answer by name.
    """

    question: Question
    setup: Setup
    verdict: Verdict | None
    findings: tuple[Finding, ...]
    nominal: dict[str, Quantity]

    @classmethod
    def of(cls, question: Question, setup: Setup) -> Self:
        """Ask, and keep what is answered."""
        answer = question(setup)
        verdict = getattr(answer, "verdict", None)
        known = verdict if isinstance(verdict, Verdict) else None
        findings = getattr(answer, "findings", ()) if known else ()
        return cls(question, setup, known, findings, _figures(answer))

    @property
    def numbers(self) -> Array:
        """Figures of the answer, each in its own unit."""
        return np.array([float(value.magnitude) for value in self.nominal.values()])

    def at(self, shares: Mapping[Leeway, float]) -> tuple[Array, str]:
        """Figures of the answer elsewhere, NaN where one is missing; why there are none at all."""
        try:
            found = _figures(self.question(moved(self.setup, shares)))
        except BarwrightError as error:
            return np.full(len(self.nominal), math.nan), str(error)
        return np.array([_number(found.get(n), v) for n, v in self.nominal.items()]), ""

    def missing(self, numbers: Array) -> tuple[str, ...]:
        """Names of the figures that are missing."""
        pairs = zip(self.nominal, numbers, strict=True)
        return tuple(name for name, number in pairs if math.isnan(number))


def _figures(answer: Any) -> dict[str, Quantity]:  # noqa: ANN401 - of any question
    """All quantities of an answer by their names; one that is itself the answer is `answer`."""
    found = scalars(answer, "answer" if is_quantity(answer) else "")
    # What an answer calls its figures says nothing of any one of them.
    return {name.removeprefix("figures."): value for name, value in found if is_quantity(value)}


def _number(value: Quantity | None, nominal: Quantity) -> float:
    """Take a figure in the unit that it has nominally; NaN if it is missing or not finite."""
    if value is None:
        return math.nan
    number = float((value if value.units == nominal.units else value.to(nominal.units)).magnitude)
    return number if math.isfinite(number) else math.nan


def at_both_ends(asked: Asked, ways: Sequence[Leeway]) -> tuple[Array, tuple[ToleranceGap, ...]]:
    """Change of every figure with each leeway, one after the other, and what could not be asked."""
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
        changes[index] = _change(*ends, middle=asked.numbers)
    return changes, tuple(gaps)


def _change(low: Array, high: Array, *, middle: Array) -> Array:
    """Change over half a tolerance: of both ends, of one if the other is missing, else NaN."""
    change = (high - low) / 2.0
    change = np.where(np.isnan(low), high - middle, change)
    change = np.where(np.isnan(high), middle - low, change)
    return np.where(_is_rounding(change, middle), 0.0, change)


def _is_rounding(change: Array, middle: Array) -> NDArray[np.bool_]:
    """Tell which figures have not moved; one that is missing has."""
    return np.abs(change) <= _ROUNDING * np.maximum(1.0, np.abs(middle))


def at_draws(
    asked: Asked, ways: Sequence[Leeway], *, draws: int, seed: int
) -> tuple[Array, tuple[ToleranceGap, ...]]:
    """Every figure of the answer at drawn places of all leeways, and what could not be asked."""
    shares = draw_inputs(
        values=np.zeros(len(ways)),
        uncertainties=rectangular_uncertainty(1.0),
        draws=draws,
        seed=seed,
    )
    numbers, texts = zip(
        *(asked.at(dict(zip(ways, one.tolist(), strict=True))) for one in shares.T), strict=True
    )
    why = Counter(
        (() if text else asked.missing(found), text)
        for found, text in zip(numbers, texts, strict=True)
    )
    gaps = tuple(
        ToleranceGap(figure="", value=None, draws=count, missing=missing, text=text)
        for (missing, text), count in why.items()
        if missing or text
    )
    found, middle = np.stack(numbers, axis=-1), asked.numbers[:, None]
    return np.where(_is_rounding(found - middle, middle), middle, found), gaps
