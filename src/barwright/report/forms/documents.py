"""What a document in JSON may hold: the words that it says of itself, and their classes."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from barwright.first_use import imported

__all__ = [
    "ANSWER_SCHEMA",
    "OF_SETUPS",
    "class_of",
    "documents",
    "field_of_key",
    "key_of_field",
    "word_of",
]

ANSWER_SCHEMA = 4
"""Version of this form of answers."""

_HOMES: Mapping[str, tuple[str, ...]] = {
    "parts.adjuster": (
        "Adjuster",
        "FixedLineMounting",
        "KeyBoltMounting",
        "SwivellingMounting",
    ),
    "parts.anchor": (
        "FixedSocket",
        "KeyLever",
    ),
    "parts.arm": ("Arm",),
    "parts.bar": ("Bar",),
    "parts.chassis": (
        "Axle",
        "Chassis",
        "StandardParts",
    ),
    "parts.claim": ("Claim",),
    "parts.common.identity": ("PartNumber",),
    "parts.common.source": (
        "Fact",
        "Figure",
        "Source",
    ),
    "parts.damper": (
        "Damper",
        "GasCharge",
    ),
    "parts.load": ("Load",),
    "parts.material": ("Material",),
    "parts.measurements.measured_bar": (
        "MeasuredBar",
        "MeasuredEnd",
    ),
    "parts.measurements.measured_spline": ("MeasuredSpline",),
    "parts.measurements.whole_vehicle": (
        "AxleAntiRollBar",
        "WeighedAxle",
        "WeighedWheel",
        "WholeVehicle",
    ),
    "parts.setup": (
        "Reading",
        "Setup",
    ),
    "parts.spline": (
        "BarEnd",
        "Socket",
    ),
    "parts.suspension": (
        "ArmBushing",
        "BumpRubber",
        "BumpRubberForce",
        "DoubleWishboneMounting",
        "HelperCoil",
        "StrutMounting",
        "SwingArmMounting",
    ),
    "parts.tube": ("Tube",),
    "parts.wanted": (
        "Goal",
        "Wanted",
    ),
    "analysis.across.check": (
        "CornerCheck",
        "FileProblem",
        "JobCheck",
    ),
    "analysis.across.compare": (
        "Comparison",
        "ComparisonRow",
    ),
    "analysis.across.donors": (
        "Donor",
        "Donors",
    ),
    "analysis.across.needs": (
        "Needs",
        "NeedsRow",
    ),
    "analysis.adjusting.nut_rows": (
        "NutCurve",
        "NutRow",
    ),
    "analysis.adjusting.nut_table": ("NutTable",),
    "analysis.adjusting.turn_for_height": ("NutCorrection",),
    "analysis.adjusting.unsafe_stretches": ("UnsafeStretch",),
    "analysis.assembly.assembly": ("Assembly",),
    "analysis.assembly.unloading": (
        "JointParting",
        "Unloading",
    ),
    "analysis.balancing.balance_answer": (
        "Balance",
        "NutMove",
        "NutSettings",
        "RideAndRoll",
        "WheelOnScale",
    ),
    "analysis.bar_rate": ("BarRate",),
    "analysis.calibration.calibrated_corner": (
        "CalibratedCorner",
        "CalibratedReading",
    ),
    "analysis.diagnosis.diagnosis": (
        "Cause",
        "CornerDeviation",
        "Diagnosis",
    ),
    "analysis.finding": ("Finding",),
    "analysis.fit.head_load": ("HeadLoad",),
    "analysis.fit.length_fit": (
        "EndFit",
        "LengthFit",
    ),
    "analysis.identification.identification": (
        "AssumedError",
        "Identification",
        "NextReading",
        "OddFigure",
        "PossibleBar",
    ),
    "analysis.identification.spline_identification": (
        "SplineForm",
        "SplineIdentification",
    ),
    "analysis.rates.bolt_load": ("BoltLoad",),
    "analysis.rates.corner_state": ("CornerState",),
    "analysis.rates.curve": ("RateCurve",),
    "analysis.rates.rate_figures": (
        "PartRates",
        "RateFigures",
    ),
    "analysis.rates.rates": ("Rates",),
    "analysis.rates.ride": ("Ride",),
    "analysis.reindex.clocking": (
        "Clocking",
        "EndClocking",
    ),
    "analysis.reindex.plan.plan": (
        "EndWork",
        "Plan",
        "PlanCost",
        "PlannedCorner",
    ),
    "analysis.reindex.reindex": ("Reindex",),
    "analysis.reindex.plan.uncut_trial": ("UncutTrial",),
    "analysis.selection.selection": (
        "BarOption",
        "Selection",
        "Sieve",
        "SizeForGoal",
    ),
    "analysis.strength.fillet_stress": ("FilletStress",),
    "analysis.strength.life": (
        "FatigueLife",
        "LifeBand",
    ),
    "analysis.strength.life_lines": (
        "WoehlerBand",
        "WoehlerLine",
    ),
    "analysis.strength.overstress": (
        "Overstress",
        "StressCheck",
    ),
    "analysis.strength.strength": ("Strength",),
    "analysis.strength.strength_limits": (
        "EnduranceFactors",
        "StrengthLimits",
        "StressLimit",
    ),
    "analysis.strength.stresses": (
        "HaighLine",
        "StrengthFigures",
        "StressSwing",
    ),
    "analysis.strength.thread_grip": ("ThreadGrip",),
    "analysis.strength.travel_history": ("TravelSpectrum",),
    "analysis.tolerance.shifted_answers": ("ToleranceGap",),
    "analysis.tolerance.tolerance": (
        "Tolerance",
        "ToleranceInput",
        "ToleranceRow",
        "ToleranceShare",
    ),
    "analysis.tolerance.unmeasured": (
        "EstimatedFigure",
        "UnmeasuredSource",
    ),
    "analysis.trail": (
        "Trail",
        "TrailPart",
    ),
    "analysis.trail_facts": ("TrailFact",),
    "analysis.trail_lines": ("TrailLine",),
    "analysis.working.line": (
        "GivenConstant",
        "GivenFigure",
        "SolvedFigure",
        "WorkingBalance",
        "WorkingSection",
        "WorkingStep",
    ),
    "analysis.working.working": ("Working",),
    "family.chart": ("FamilyChart",),
    "family.chart_line": (
        "ChartGroup",
        "ChartLine",
        "ChartWheelbase",
        "NotOffered",
    ),
    "family.count": (
        "FamilyCount",
        "Tally",
    ),
    "family.family_file": ("FamilyFile",),
    "family.matrix": ("FamilyMatrix",),
    "family.row": ("FamilyRow",),
    "lint.finding": (
        "LintFinding",
        "PackLint",
    ),
    "parted.batch_in_parts": ("BatchFile",),
    "registry.jobs.job": (
        "Job",
        "JobCorner",
        "WorkOrder",
    ),
    "registry.lock": (
        "Lock",
        "LockedPack",
    ),
    "report.drawing.adjuster": ("AdjusterView",),
    "report.drawing.bar_axis_view": (
        "AxialHead",
        "BarAxisView",
    ),
    "report.drawing.bar_end_view": ("BarEndView",),
    "report.drawing.load_curve": ("LoadCurveView",),
    "report.drawing.template": ("TemplateView",),
    "report.sheet.rows": (
        "SheetMeasurement",
        "SheetRow",
    ),
    "report.sheet.sheet": (
        "BenchSheet",
        "CornerSheet",
        "SheetPart",
    ),
    "report.sheet.steps.step": (
        "SheetStage",
        "SheetStep",
    ),
    "report.sheet.views": ("CornerViews",),
    "tables.files.summary": (
        "BatchSummary",
        "RowError",
    ),
}
"""Classes of which there are documents, by their modules.  Few of these are loaded when a document
is written: one that is not loaded has no answer."""

_HOME_OF = {word: module for module, words in _HOMES.items() for word in words}
"""By the word that a document says of itself, which is the name of its class."""

OF_SETUPS = ("Setup", "Reading", "JobCorner", "Job")
"""Documents that have the same records in many places, and write each of them once."""

_WORDS = {(f"barwright.{home}", word): word for word, home in _HOME_OF.items()}


def documents() -> Collection[str]:
    """Return the words that a document may say of itself."""
    return _HOME_OF.keys()


def class_of(word: str) -> type[Any]:
    """Return the class that a document names."""
    found: type[Any] = getattr(imported(_HOME_OF[word]), word)
    return found


_DOCUMENT_KEYS = ("answer", "schema")
"""What a document says of itself, before its fields."""


def key_of_field(field: str) -> str:
    """Return the key of a field: another one than what the document says of itself."""
    return f"{field}_" if field in _DOCUMENT_KEYS else field


def field_of_key(key: str) -> str:
    """Return the field of a key of a document."""
    field = key.removesuffix("_")
    return field if field in _DOCUMENT_KEYS else key


def word_of(answer: object) -> str | None:
    """Return the word of the document of an answer or a record; none if it has none."""
    return _WORDS.get((type(answer).__module__, type(answer).__name__))
