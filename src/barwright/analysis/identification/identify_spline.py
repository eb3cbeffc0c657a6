"""Say to which standard a spline may be made."""

from __future__ import annotations

from collections.abc import Iterator

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.identification.identification import (
    LEAST_LIKELY,
    AssumedError,
    NextReading,
)
from barwright.analysis.identification.spline_evidence import SIZES, SplineEvidence
from barwright.analysis.identification.spline_identification import (
    SplineForm,
    SplineIdentification,
)
from barwright.analysis.identification.standard_forms import SplineStandard, StandardForm
from barwright.errors import SchemaError
from barwright.mechanics.common.types import Real
from barwright.mechanics.spline import involute
from barwright.mechanics.uncertainty.hypotheses import expected_certainty
from barwright.mechanics.uncertainty.propagation import rectangular_uncertainty
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.source import Figure
from barwright.parts.measurements.measured_spline import MeasuredSpline
from barwright.registry.usual.catalogue import usual_error_of
from barwright.units import ANGLE, LENGTH, Quantity, quantity, shown, si

__all__ = ["SURE_OF_A_FORM", "identify_spline"]

SURE_OF_A_FORM = 0.9
"""Probability from which a form counts as known.  Common practice, no source."""

# A pin touches the flanks near the pitch circle if it is so many modules thick.
_PIN_IN_MODULES = 1.8
_PIN_STEP = 1e-4
_LEAST_GAIN = 0.01


@checks_arguments
def identify_spline(measured: MeasuredSpline) -> SplineIdentification:
    """Answer to which standard a spline may be made, of which module or pitch.

    Sizes of the tooth count to three standards, a serration, and teeth of any other form are
    weighed by what was measured; a reading that disagrees may be a blunder, and the teeth may
    be miscounted by one.

    Parameters
    ----------
    measured : MeasuredSpline
        What was measured of it.

    Returns
    -------
    SplineIdentification

    Raises
    ------
    SchemaError
        S203 if nothing but the teeth was given.

    References
    ----------
    Sizes as in the kernels of splines; which sizes the standards list, how far shafts fall
    short of them and how often each is met: from memory and common practice, no source.

    Examples
    --------
    >>> answer = identify_spline(
    ...     MeasuredSpline(teeth=39, major_diameter="29.92 mm", root_diameter="27.8 mm")
    ... )
    >>> answer.possible_forms[0].named
    'ISO 4156, module 0.75, fillet root, pressure angle 30.0°'
    """
    if all(getattr(measured, name) is None for name in SIZES):
        raise SchemaError(
            "S203",
            value="a spline of which only the teeth were counted",
            expected="at least one size of it",
            remedy="measure the diameter over the teeth",
        )
    evidence = SplineEvidence.of(measured, pin_diameter=_pin_of(measured))
    return _Identifying(evidence, evidence.probabilities).answer()


def _pin_of(measured: MeasuredSpline) -> float:
    """Return the diameter of the pins to count on [m]: as measured, or as suits the teeth."""
    if measured.pin_diameter is not None:
        return si(measured.pin_diameter.value, LENGTH)
    size = measured.major_diameter or measured.root_diameter
    across = si(size.value, LENGTH) if isinstance(size, Figure) else 0.0
    steps = round(_PIN_IN_MODULES * across / measured.teeth / _PIN_STEP)
    return max(steps, 1) * _PIN_STEP


@attrs.frozen(eq=False)
class _Identifying:
    """Makes the answer of what is known."""

    evidence: SplineEvidence
    probabilities: NDArray[np.float64]

    def answer(self) -> SplineIdentification:
        forms = tuple(self._possible())
        unlisted = float(self.probabilities[-1])
        likeliest = forms[0].probability
        verdict = Verdict.IDENTIFIED if likeliest >= SURE_OF_A_FORM else Verdict.NEEDS_FIGURES
        if unlisted >= SURE_OF_A_FORM:
            verdict = Verdict.NOT_LISTED
        return SplineIdentification(
            verdict=verdict,
            findings=tuple(self._recount(forms[0])),
            possible_forms=forms,
            unlisted=unlisted,
            pin_diameter=quantity(self.evidence.pin_diameter, LENGTH),
            next_readings=tuple(self._next_readings()),
            assumed=tuple(self._assumed()),
        )

    @property
    def _groups(self) -> NDArray[np.intp]:
        """Number of each hypothesis' form; forms that differ in their roots alone share one."""
        numbers: dict[tuple[object, ...], int] = {}
        found = [
            numbers.setdefault(
                (form.standard, form.designation, form.pressure_angle, form.teeth), len(numbers)
            )
            for form in self.evidence.forms
        ]
        return np.array([*found, len(numbers), len(numbers) + 1], dtype=np.intp)

    def _possible(self) -> Iterator[SplineForm]:
        """List the likely forms, or the nearest one if none is likely."""
        groups = self._groups
        summed = np.bincount(groups, weights=self.probabilities)[:-1]
        order = np.argsort(-summed, kind="stable")
        likely = order[summed[order] >= LEAST_LIKELY]
        for group in likely if likely.size else order[:1]:
            members = np.flatnonzero(groups == group)
            first = int(members[np.argmax(self.probabilities[members])])
            yield self._form(first, float(summed[group]))

    def _form(self, number: int, probability: float) -> SplineForm:
        """Give a form its sizes, and the form of its roots where that is told too."""
        if number == len(self.evidence.forms):
            return SplineForm(
                standard=SplineStandard.SERRATION,
                designation="",
                probability=probability,
                teeth=self.evidence.measured.teeth,
            )
        form = self.evidence.forms[number]
        if float(self.probabilities[number]) < SURE_OF_A_FORM * probability:
            form = attrs.evolve(form, root_form="")
        return _described(form, self.evidence.pin_diameter, probability)

    def _recount(self, first: SplineForm) -> Iterator[Finding]:
        counted = self.evidence.measured.teeth
        if first.teeth != counted and first.probability >= LEAST_LIKELY:
            text = f"count the teeth again: this form has {first.teeth}, not {counted}"
            yield Finding(topic=Topic.ODD_FIGURE, text=text)
        elif not _FEWEST_TEETH <= counted <= _MOST_TEETH:
            text = f"count the teeth again: {counted} are {_odd(counted)} for the end of a bar"
            yield Finding(topic=Topic.ODD_FIGURE, text=text)

    def _next_readings(self) -> Iterator[NextReading]:
        certain = float(np.max(np.bincount(self._groups, weights=self.probabilities)))
        asked = [name for name in SIZES if getattr(self.evidence.measured, name) is None]
        gains = [(self._certainty(name), name) for name in asked]
        for certainty, name in sorted(gains, reverse=True):
            if certainty >= certain + _LEAST_GAIN:
                size = SIZES[name]
                pins = ""
                if name == "over_pins":
                    pins = f" of {shown(quantity(self.evidence.pin_diameter, LENGTH), 1)}"
                yield NextReading(
                    asked=f"measure the {size.words}{pins}",
                    tool=size.tool,
                    where=size.where,
                    is_repeated=False,
                    certainty=certainty,
                )

    def _certainty(self, name: str) -> float:
        """Return how surely the form is known after a size has been measured."""
        usual = usual_error_of(SIZES[name].tool).within
        error = float(rectangular_uncertainty(si(usual, LENGTH)))
        likely = self.probabilities >= _NEGLIGIBLE
        expected = self.evidence.expected(name, error=error)
        there = likely[:-1] & np.isfinite(expected.values)
        if not np.any(there):
            return 0.0
        outcomes, widths = SIZES[name].outcomes(expected.at(there))
        joint = self.probabilities[:, np.newaxis] * self.evidence.density(
            name, outcomes, error=error
        )
        groups = self._groups
        summed = np.zeros((int(groups[-1]) + 1, len(outcomes)))
        np.add.at(summed, groups, joint)
        before = np.bincount(groups, weights=self.probabilities).astype(float)
        return expected_certainty(summed, widths=widths, probabilities=before)

    def _assumed(self) -> Iterator[AssumedError]:
        without = [
            size.words
            for name, size in SIZES.items()
            if (figure := getattr(self.evidence.measured, name)) and figure.tolerance is None
        ]
        if without:
            within = usual_error_of("calliper").within
            yield AssumedError(tool="calliper", within=within, named_figures=tuple(without))


# Teeth that the ends of bars have.  Common practice, no source.
_FEWEST_TEETH, _MOST_TEETH = 12, 99


def _odd(teeth: int) -> str:
    return "few" if teeth < _FEWEST_TEETH else "many"


# Likelier forms decide what is measured next.
_NEGLIGIBLE = 1e-3


def _described(form: StandardForm, pin_diameter: float, probability: float) -> SplineForm:
    """Give a form with all its sizes."""
    teeth = {"teeth": form.teeth, "module": form.module}
    flanks = teeth | {"pressure_angle": form.pressure_angle}
    tip = involute.tooth_thickness_at(
        form.major_diameter, **flanks, tooth_thickness=form.tooth_thickness
    )
    clearance = involute.radial_clearance(
        inner_diameter=form.major_diameter, outer_diameter=form.socket_major_diameter
    )
    depth = None
    if form.socket_minor_diameter is not None:
        depth = involute.contact_depth(
            major_diameter=form.major_diameter, minor_diameter=form.socket_minor_diameter
        )
    return SplineForm(
        standard=form.standard,
        designation=", ".join(filter(None, (form.designation, form.root_form))),
        probability=probability,
        teeth=form.teeth,
        module=_length(form.module),
        pressure_angle=quantity(form.pressure_angle, ANGLE),
        pitch_diameter=_length(involute.pitch_diameter(**teeth)),
        base_diameter=_length(involute.base_diameter(**flanks)),
        tooth_thickness=_length(form.tooth_thickness),
        tip_thickness=_length(tip),
        major_diameter=_length(form.major_diameter),
        root_diameter=_length(form.root_diameter),
        over_pins=_length(form.over_pins(pin_diameter)),
        socket_major_diameter=_length(form.socket_major_diameter),
        socket_minor_diameter=_length(form.socket_minor_diameter),
        tip_clearance=_length(clearance),
        contact_depth=_length(depth),
    )


def _length(value: Real | None) -> Quantity | None:
    """Give a length its unit; none of what is not known, or not a number."""
    return None if value is None or np.isnan(value) else quantity(float(value), LENGTH)
