"""What a document in JSON may hold: the words that it says of itself, and their classes."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from barwright.first_use import imported

__all__ = ["ANSWER_SCHEMA", "OF_SETUPS", "class_of", "documents", "word_of"]

ANSWER_SCHEMA = 4
"""Version of this form of answers."""

_HOMES: Mapping[str, str] = {
    "LengthFit": "analysis.fit.length_fit",
    "BarRate": "analysis.bar_rate",
    "Rates": "analysis.rates.rates",
    "Reindex": "analysis.reindex.reindex",
    "Plan": "analysis.reindex.plan",
    "Assembly": "analysis.assembly.assembly",
    "Ride": "analysis.rates.ride",
    "NutTable": "analysis.adjusting.nut_table",
    "CalibratedCorner": "analysis.calibration.calibrated_corner",
    "Identification": "analysis.identification.identification",
    "SplineIdentification": "analysis.identification.spline_identification",
    "Selection": "analysis.selection.selection",
    "Balance": "analysis.balancing.balance_answer",
    "Diagnosis": "analysis.diagnosis.diagnosis",
    "Donors": "analysis.across.donors",
    "Comparison": "analysis.across.compare",
    "FamilyChart": "family.chart",
    "FamilyFile": "family.family_file",
    "FamilyMatrix": "family.matrix",
    "JobCheck": "analysis.across.check",
    "BenchSheet": "report.sheet.sheet",
    "BarEndView": "report.drawing.bar_end_view",
    "AdjusterView": "report.drawing.adjuster",
    "BarAxisView": "report.drawing.bar_axis_view",
    "LoadCurveView": "report.drawing.load_curve",
    "TemplateView": "report.drawing.template",
    "Job": "registry.jobs.job",
    "Strength": "analysis.strength.strength",
    "Tolerance": "analysis.tolerance.tolerance",
    "Needs": "analysis.across.needs",
    "Trail": "analysis.trail",
    "PackLint": "lint.finding",
    "CornerState": "analysis.rates.corner_state",
    "Overstress": "analysis.strength.overstress",
    "StressLimit": "analysis.strength.strength_limits",
    "StrengthLimits": "analysis.strength.strength_limits",
    "TravelSpectrum": "analysis.strength.travel_history",
    "Goal": "parts.wanted",
    "MeasuredBar": "parts.measurements.measured_bar",
    "Reading": "parts.setup",
    "Setup": "parts.setup",
    "Wanted": "parts.wanted",
    "WholeVehicle": "parts.measurements.whole_vehicle",
    "JobCorner": "registry.jobs.job",
    "WorkOrder": "registry.jobs.job",
    "Material": "parts.material",
    "Arm": "parts.arm",
    "Bar": "parts.bar",
    "Tube": "parts.tube",
    "KeyLever": "parts.anchor",
    "FixedSocket": "parts.anchor",
    "Adjuster": "parts.adjuster",
    "Damper": "parts.damper",
    "Chassis": "parts.chassis",
}
"""What a document may hold: the word that it says of itself, which is the name of a class, and
the module of that class.  Few are there when a document is written: one that is not loaded has
no answer."""

OF_SETUPS = ("Setup", "Reading", "JobCorner", "Job")
"""Documents that have the same records in many places, and write each of them once."""

_WORDS = {(f"barwright.{home}", word): word for word, home in _HOMES.items()}


def documents() -> Collection[str]:
    """Return the words that a document may say of itself."""
    return _HOMES.keys()


def class_of(word: str) -> type[Any]:
    """Return the class that a document names."""
    found: type[Any] = getattr(imported(_HOMES[word]), word)
    return found


def word_of(answer: object) -> str | None:
    """Return the word of the document of an answer or a record; none if it has none."""
    return _WORDS.get((type(answer).__module__, type(answer).__name__))
