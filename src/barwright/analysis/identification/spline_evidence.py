"""How likely the standard forms of teeth are, by what was measured of a spline.

What standards allow a shaft's sizes to fall short of, how often each standard is met, and how
much of a serration's sharp edges is missing is common practice, without a source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.identification.standard_forms import (
    SplineStandard,
    StandardForm,
    standard_forms,
)
from barwright.analysis.identification.traits import BLUNDERS, Expected, Size
from barwright.mechanics.spline.serrations import Serration
from barwright.mechanics.uncertainty.hypotheses import count_probability, posterior
from barwright.mechanics.uncertainty.propagation import rectangular_uncertainty
from barwright.parts.common.source import Figure
from barwright.parts.measurements.measured_spline import MeasuredSpline
from barwright.registry.usual.catalogue import usual_error_of
from barwright.units import LENGTH, si

__all__ = ["SIZES", "SplineEvidence", "error_of"]

SIZES: Mapping[str, Size] = {
    one.field: one
    for one in (
        Size("major_diameter", "diameter over the teeth", "calliper", LENGTH, "over two teeth"),
        Size("root_diameter", "root diameter", "calliper", LENGTH, "with knife edges"),
        Size("over_pins", "size over two pins", "calliper", LENGTH, "in opposite spaces"),
    )
}
"""What is measured of a spline, beside its teeth."""

_SHARES = {
    SplineStandard.METRIC: 0.30,
    SplineStandard.REFERENCE: 0.25,
    SplineStandard.INCH: 0.25,
    SplineStandard.SERRATION: 0.10,
}
_UNLISTED = 0.10

# Sizes are smaller than the greatest ones by up to so much, of a module of 1 mm [m].
_SHORT = {"major_diameter": 0.2e-3, "root_diameter": 0.3e-3, "over_pins": 0.12e-3}
# With the power of the module that this grows by.
_GROWS = {"major_diameter": 2.0 / 3.0, "root_diameter": 1.0, "over_pins": 1.0 / 3.0}

# Pitch diameters of other teeth are up to this many times each other, for one tooth count.
_RANGE = math.log(40.0)
# Roots and pins lie within this share of the diameter over the teeth.
_NEAR = 0.2
# Of a serration, how much of the sharp edges is there: its mean and its standard uncertainty.
_SHARP, _SHARP_ERROR = 0.72, 0.06
# Fewer teeth than these have flanks that no space of 60° leaves room for.
_FEWEST_SERRATIONS = 8
# A miscount that is looked at.
_MISCOUNTS = (0, 1, -1)
_COUNTS = 60.0


def error_of(figure: Figure) -> float:
    """Return the standard uncertainty of a measured length [m], the usual one without a ±.

    Parameters
    ----------
    figure : Figure
        The length.

    Returns
    -------
    float
    """
    half = figure.tolerance or usual_error_of("calliper").within
    return max(float(rectangular_uncertainty(si(half, LENGTH))), 1e-6)


@attrs.frozen(eq=False)
class SplineEvidence:
    """Forms that a measured spline may have, and how likely each is.

    Parameters
    ----------
    measured : MeasuredSpline
        The spline.
    forms : tuple of StandardForm
        All involute forms of the standards with as many teeth as were counted, or one more
        or one less.
    pin_diameter : float
        Diameter of pins [m] that a size over pins counts on.
    """

    measured: MeasuredSpline
    forms: tuple[StandardForm, ...]
    pin_diameter: float

    @classmethod
    def of(cls, measured: MeasuredSpline, *, pin_diameter: float) -> SplineEvidence:
        """Take all forms that a spline may have.

        Parameters
        ----------
        measured : MeasuredSpline
            The spline.
        pin_diameter : float
            Diameter of the pins [m].

        Returns
        -------
        SplineEvidence
        """
        counts = [measured.teeth + off for off in _MISCOUNTS]
        forms = [form for teeth in counts for form in standard_forms(teeth)]
        return cls(measured, tuple(one for one in forms if one.root_diameter > 0.0), pin_diameter)

    @property
    def probabilities(self) -> NDArray[np.float64]:
        """Probability of each form, of a serration, and of any other teeth."""
        logs = np.zeros(len(self.forms) + 2)
        for name, figure in self._readings():
            reading = np.array([si(figure.value, LENGTH)])
            logs += np.log(self.density(name, reading, error=error_of(figure))[:, 0])
        return posterior(logs, prior=self._prior)

    def _readings(self) -> Iterator[tuple[str, Figure]]:
        for name in SIZES:
            figure = getattr(self.measured, name)
            if figure is not None:
                yield name, figure

    @property
    def _prior(self) -> NDArray[np.float64]:
        sizes: dict[SplineStandard, int] = {}
        for form in self.forms:
            sizes[form.standard] = sizes.get(form.standard, 0) + 1
        counted = [
            float(
                count_probability(
                    self.measured.teeth,
                    expected=form.teeth,
                    blunder_share=BLUNDERS,
                    span=_COUNTS,
                )
            )
            for form in self.forms
        ]
        of_forms = [
            len(_MISCOUNTS) * share * _SHARES[form.standard] / sizes[form.standard]
            for form, share in zip(self.forms, counted, strict=True)
        ]
        return np.array([*of_forms, _SHARES[SplineStandard.SERRATION], _UNLISTED])

    def density(
        self, name: str, readings: NDArray[np.float64], *, error: float
    ) -> NDArray[np.float64]:
        """Return how likely readings of a size are, a row for each hypothesis.

        Parameters
        ----------
        name : str
            Field of the measured spline.
        readings : array
            The readings [m].
        error : float
            Their standard uncertainty [m].

        Returns
        -------
        array
            A row for each form, one for a serration, and one for any other teeth.
        """
        expected = self.expected(name, error=error)
        there = np.isfinite(expected.values)
        known = Expected(
            np.where(there, expected.values, 1.0)[:, np.newaxis],
            np.where(there, expected.errors, 1.0)[:, np.newaxis],
            expected.span,
        )
        of_any = SIZES[name].of_any_bar(readings, expected.span)
        on_each = SIZES[name].density(readings, known)
        return np.vstack([np.where(there[:, np.newaxis], on_each, of_any), of_any])

    def expected(self, name: str, *, error: float) -> Expected:
        """Return what a size should read on each form and on a serration.

        Parameters
        ----------
        name : str
            Field of the measured spline.
        error : float
            Standard uncertainty of the reading [m].

        Returns
        -------
        Expected
            Not a number where anything may be read.
        """
        modules = np.array([form.module for form in self.forms]) * 1e3
        short = _SHORT[name] * modules ** _GROWS[name]
        greatest = np.array([self._size(form, name) for form in self.forms])
        spread = rectangular_uncertainty(short / 2.0)
        serration, its_spread = self._of_serration(name)
        values = np.append(greatest - short / 2.0, serration)
        errors = np.hypot(np.append(spread, its_spread), error)
        return Expected(values, errors, self._span(name))

    def _size(self, form: StandardForm, name: str) -> float:
        if name == "over_pins":
            return form.over_pins(self.pin_diameter)
        return form.major_diameter if name == "major_diameter" else form.root_diameter

    def _of_serration(self, name: str) -> tuple[float, float]:
        """Return the root diameter of a serration, by that over its teeth, and its uncertainty."""
        tips = self.measured.major_diameter
        is_round = self.measured.teeth >= _FEWEST_SERRATIONS
        if name != "root_diameter" or tips is None or not is_round:
            return math.nan, 0.0
        unit = Serration(teeth=self.measured.teeth, pitch_diameter=1.0)
        beyond = float(unit.sharp_major_diameter) - 1.0
        within = 1.0 - float(unit.sharp_minor_diameter)
        pitch = si(tips.value, LENGTH) / (1.0 + beyond * _SHARP)
        return pitch * (1.0 - within * _SHARP), pitch * (beyond + within) * _SHARP_ERROR

    def _span(self, name: str) -> float:
        """Return how far apart readings of teeth lie of which nothing is known [m]."""
        tips = self.measured.major_diameter
        if name != "major_diameter" and tips is not None:
            return _NEAR * si(tips.value, LENGTH)
        figure: Figure | None = getattr(self.measured, name)
        usual = self.measured.teeth * 1e-3 if figure is None else si(figure.value, LENGTH)
        return _RANGE * usual
