"""Classes of answers and of their parts.

An answer is named after its question: :func:`barwright.length_fit` gives a
:class:`LengthFit`, :func:`barwright.compare` a :class:`Comparison`.

>>> import barwright as bw
>>> setup = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
>>> isinstance(bw.length_fit(setup), bw.answers.LengthFit)
True

Names are loaded on first use.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from barwright.first_use import name_loader

if TYPE_CHECKING:
    from barwright.analysis.across.check import CornerCheck as CornerCheck
    from barwright.analysis.across.check import FileProblem as FileProblem
    from barwright.analysis.across.check import JobCheck as JobCheck
    from barwright.analysis.across.compare import Comparison as Comparison
    from barwright.analysis.across.compare import ComparisonRow as ComparisonRow
    from barwright.analysis.across.donors import Donor as Donor
    from barwright.analysis.across.donors import Donors as Donors
    from barwright.analysis.across.needs import FigureState as FigureState
    from barwright.analysis.across.needs import Needs as Needs
    from barwright.analysis.across.needs import NeedsRow as NeedsRow
    from barwright.analysis.adjusting.nut_rows import NutCurve as NutCurve
    from barwright.analysis.adjusting.nut_rows import NutRow as NutRow
    from barwright.analysis.adjusting.nut_table import NutTable as NutTable
    from barwright.analysis.adjusting.turn_for_height import NutCorrection as NutCorrection
    from barwright.analysis.adjusting.unsafe_stretches import UnsafeStretch as UnsafeStretch
    from barwright.analysis.answer import Answer as Answer
    from barwright.analysis.assembly.assembly import Assembly as Assembly
    from barwright.analysis.assembly.unloading import JointParting as JointParting
    from barwright.analysis.assembly.unloading import Unloading as Unloading
    from barwright.analysis.assembly.unloading import UnloadingMethod as UnloadingMethod
    from barwright.analysis.balancing.balance_answer import Balance as Balance
    from barwright.analysis.balancing.balance_answer import BalanceAim as BalanceAim
    from barwright.analysis.balancing.balance_answer import NutMove as NutMove
    from barwright.analysis.balancing.balance_answer import NutSettings as NutSettings
    from barwright.analysis.balancing.balance_answer import RideAndRoll as RideAndRoll
    from barwright.analysis.balancing.balance_answer import WheelOnScale as WheelOnScale
    from barwright.analysis.bar_rate import BarRate as BarRate
    from barwright.analysis.calibration.calibrated_corner import (
        CalibratedCorner as CalibratedCorner,
    )
    from barwright.analysis.calibration.calibrated_corner import (
        CalibratedReading as CalibratedReading,
    )
    from barwright.analysis.corner.anchorage import BoltDatum as BoltDatum
    from barwright.analysis.corner.anchorage import TurnedPart as TurnedPart
    from barwright.analysis.diagnosis.diagnosis import Cause as Cause
    from barwright.analysis.diagnosis.diagnosis import CauseKind as CauseKind
    from barwright.analysis.diagnosis.diagnosis import CornerDeviation as CornerDeviation
    from barwright.analysis.diagnosis.diagnosis import Diagnosis as Diagnosis
    from barwright.analysis.finding import Caution as Caution
    from barwright.analysis.finding import Finding as Finding
    from barwright.analysis.finding import Topic as Topic
    from barwright.analysis.fit.head_load import HeadLoad as HeadLoad
    from barwright.analysis.fit.length_fit import EndFit as EndFit
    from barwright.analysis.fit.length_fit import LengthFit as LengthFit
    from barwright.analysis.identification.identification import AssumedError as AssumedError
    from barwright.analysis.identification.identification import Identification as Identification
    from barwright.analysis.identification.identification import NextReading as NextReading
    from barwright.analysis.identification.identification import OddFigure as OddFigure
    from barwright.analysis.identification.identification import PossibleBar as PossibleBar
    from barwright.analysis.identification.spline_identification import SplineForm as SplineForm
    from barwright.analysis.identification.spline_identification import (
        SplineIdentification as SplineIdentification,
    )
    from barwright.analysis.identification.standard_forms import SplineStandard as SplineStandard
    from barwright.analysis.rates.bolt_load import BoltLoad as BoltLoad
    from barwright.analysis.rates.corner_state import CornerState as CornerState
    from barwright.analysis.rates.curve import RateCurve as RateCurve
    from barwright.analysis.rates.rate_figures import PartRates as PartRates
    from barwright.analysis.rates.rate_figures import RateFigures as RateFigures
    from barwright.analysis.rates.rates import Rates as Rates
    from barwright.analysis.rates.ride import Ride as Ride
    from barwright.analysis.reindex.clocking import Clocking as Clocking
    from barwright.analysis.reindex.clocking import EndClocking as EndClocking
    from barwright.analysis.reindex.plan.plan import BlankTooth as BlankTooth
    from barwright.analysis.reindex.plan.plan import EndAction as EndAction
    from barwright.analysis.reindex.plan.plan import EndWork as EndWork
    from barwright.analysis.reindex.plan.plan import Plan as Plan
    from barwright.analysis.reindex.plan.plan import PlanCost as PlanCost
    from barwright.analysis.reindex.plan.plan import PlannedCorner as PlannedCorner
    from barwright.analysis.reindex.plan.plan import ToothDatum as ToothDatum
    from barwright.analysis.reindex.plan.uncut_trial import UncutTrial as UncutTrial
    from barwright.analysis.reindex.reindex import Reindex as Reindex
    from barwright.analysis.selection.selection import BarOption as BarOption
    from barwright.analysis.selection.selection import Selection as Selection
    from barwright.analysis.selection.selection import Sieve as Sieve
    from barwright.analysis.selection.selection import SizeForGoal as SizeForGoal
    from barwright.analysis.strength.fillet_stress import FilletStress as FilletStress
    from barwright.analysis.strength.life import FatigueLife as FatigueLife
    from barwright.analysis.strength.life import LifeBand as LifeBand
    from barwright.analysis.strength.life import LifeBasis as LifeBasis
    from barwright.analysis.strength.overstress import Overstress as Overstress
    from barwright.analysis.strength.overstress import StressCheck as StressCheck
    from barwright.analysis.strength.strength import Strength as Strength
    from barwright.analysis.strength.strength_limits import StressLimit as StressLimit
    from barwright.analysis.strength.stresses import HaighLine as HaighLine
    from barwright.analysis.strength.stresses import StrengthFigures as StrengthFigures
    from barwright.analysis.strength.stresses import StressSwing as StressSwing
    from barwright.analysis.strength.thread_grip import ThreadGrip as ThreadGrip
    from barwright.analysis.tolerance.shifted_answers import ToleranceGap as ToleranceGap
    from barwright.analysis.tolerance.tolerance import Tolerance as Tolerance
    from barwright.analysis.tolerance.tolerance import ToleranceInput as ToleranceInput
    from barwright.analysis.tolerance.tolerance import ToleranceRow as ToleranceRow
    from barwright.analysis.tolerance.tolerance import ToleranceShare as ToleranceShare
    from barwright.analysis.tolerance.unmeasured import EstimatedFigure as EstimatedFigure
    from barwright.analysis.tolerance.unmeasured import UnmeasuredSource as UnmeasuredSource
    from barwright.analysis.trail import Trail as Trail
    from barwright.analysis.trail import TrailPart as TrailPart
    from barwright.analysis.trail_facts import TrailFact as TrailFact
    from barwright.analysis.trail_lines import TrailLine as TrailLine
    from barwright.analysis.working.line import GivenConstant as GivenConstant
    from barwright.analysis.working.line import GivenFigure as GivenFigure
    from barwright.analysis.working.line import SolvedFigure as SolvedFigure
    from barwright.analysis.working.line import WorkingBalance as WorkingBalance
    from barwright.analysis.working.line import WorkingSection as WorkingSection
    from barwright.analysis.working.line import WorkingStep as WorkingStep
    from barwright.analysis.working.working import Working as Working
    from barwright.columns.batch import Batch as Batch
    from barwright.family.chart import FamilyChart as FamilyChart
    from barwright.family.chart_line import ChartGroup as ChartGroup
    from barwright.family.chart_line import ChartLine as ChartLine
    from barwright.family.chart_line import ChartWheelbase as ChartWheelbase
    from barwright.family.chart_line import NotOffered as NotOffered
    from barwright.family.count import FamilyCount as FamilyCount
    from barwright.family.count import Tally as Tally
    from barwright.family.family_file import FamilyFile as FamilyFile
    from barwright.family.matrix import FamilyMatrix as FamilyMatrix
    from barwright.family.row import FamilyRow as FamilyRow
    from barwright.lint.finding import LintFinding as LintFinding
    from barwright.lint.finding import PackLint as PackLint
    from barwright.lint.finding import Severity as Severity
    from barwright.mechanics.corner.statics import Support as Support
    from barwright.mechanics.spline.clocking import TurningSense as TurningSense
    from barwright.parted.batch_in_parts import BatchFile as BatchFile
    from barwright.registry.lock import Lock as Lock
    from barwright.registry.lock import LockedPack as LockedPack
    from barwright.report.drawing.adjuster import AdjusterDatum as AdjusterDatum
    from barwright.report.drawing.adjuster import AdjusterView as AdjusterView
    from barwright.report.drawing.bar_axis_view import AxialHead as AxialHead
    from barwright.report.drawing.bar_axis_view import BarAxisView as BarAxisView
    from barwright.report.drawing.bar_end_view import BarEndView as BarEndView
    from barwright.report.drawing.load_curve import LoadCurveView as LoadCurveView
    from barwright.report.drawing.template import Paper as Paper
    from barwright.report.drawing.template import TemplateView as TemplateView
    from barwright.report.sheet.rows import SheetMeasurement as SheetMeasurement
    from barwright.report.sheet.rows import SheetRow as SheetRow
    from barwright.report.sheet.sheet import BenchSheet as BenchSheet
    from barwright.report.sheet.sheet import CornerSheet as CornerSheet
    from barwright.report.sheet.sheet import SheetPart as SheetPart
    from barwright.report.sheet.steps.step import SheetStage as SheetStage
    from barwright.report.sheet.steps.step import SheetStep as SheetStep
    from barwright.report.sheet.views import CornerViews as CornerViews
    from barwright.tables.files.summary import BatchSummary as BatchSummary
    from barwright.tables.files.summary import RowError as RowError

# Where each name lives; a test holds this against the imports above.
_HOMES = {
    "analysis.across.check": ("CornerCheck", "FileProblem", "JobCheck"),
    "analysis.across.compare": ("Comparison", "ComparisonRow"),
    "analysis.across.donors": ("Donor", "Donors"),
    "analysis.adjusting.turn_for_height": ("NutCorrection",),
    "analysis.adjusting.nut_rows": ("NutCurve", "NutRow"),
    "analysis.adjusting.nut_table": ("NutTable",),
    "analysis.adjusting.unsafe_stretches": ("UnsafeStretch",),
    "analysis.answer": ("Answer",),
    "analysis.bar_rate": ("BarRate",),
    "analysis.calibration.calibrated_corner": ("CalibratedCorner", "CalibratedReading"),
    "analysis.corner.anchorage": ("BoltDatum", "TurnedPart"),
    "analysis.finding": ("Caution", "Finding", "Topic"),
    "analysis.fit.head_load": ("HeadLoad",),
    "analysis.fit.length_fit": ("EndFit", "LengthFit"),
    "analysis.rates.bolt_load": ("BoltLoad",),
    "analysis.rates.curve": ("RateCurve",),
    "analysis.rates.rate_figures": ("PartRates", "RateFigures"),
    "analysis.rates.rates": ("Rates",),
    "analysis.rates.corner_state": ("CornerState",),
    "analysis.rates.ride": ("Ride",),
    "analysis.assembly.assembly": ("Assembly",),
    "analysis.reindex.clocking": ("Clocking", "EndClocking"),
    "analysis.reindex.plan.plan": (
        "BlankTooth",
        "EndAction",
        "EndWork",
        "Plan",
        "PlanCost",
        "PlannedCorner",
        "ToothDatum",
    ),
    "analysis.reindex.reindex": ("Reindex",),
    "analysis.reindex.plan.uncut_trial": ("UncutTrial",),
    "analysis.assembly.unloading": ("JointParting", "Unloading", "UnloadingMethod"),
    "analysis.strength.fillet_stress": ("FilletStress",),
    "analysis.strength.life": ("FatigueLife", "LifeBand", "LifeBasis"),
    "analysis.strength.overstress": ("Overstress", "StressCheck"),
    "analysis.strength.strength": ("Strength",),
    "analysis.strength.strength_limits": ("StressLimit",),
    "analysis.strength.stresses": ("HaighLine", "StrengthFigures", "StressSwing"),
    "analysis.strength.thread_grip": ("ThreadGrip",),
    "analysis.tolerance.shifted_answers": ("ToleranceGap",),
    "analysis.tolerance.tolerance": (
        "Tolerance",
        "ToleranceInput",
        "ToleranceRow",
        "ToleranceShare",
    ),
    "analysis.tolerance.unmeasured": ("EstimatedFigure", "UnmeasuredSource"),
    "analysis.identification.identification": (
        "AssumedError",
        "Identification",
        "NextReading",
        "OddFigure",
        "PossibleBar",
    ),
    "analysis.identification.spline_identification": ("SplineForm", "SplineIdentification"),
    "analysis.identification.standard_forms": ("SplineStandard",),
    "analysis.selection.selection": ("BarOption", "Selection", "Sieve", "SizeForGoal"),
    "analysis.balancing.balance_answer": (
        "Balance",
        "BalanceAim",
        "NutMove",
        "NutSettings",
        "RideAndRoll",
        "WheelOnScale",
    ),
    "analysis.diagnosis.diagnosis": ("Cause", "CauseKind", "CornerDeviation", "Diagnosis"),
    "analysis.across.needs": ("FigureState", "Needs", "NeedsRow"),
    "analysis.trail": ("Trail", "TrailPart"),
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
    "columns.batch": ("Batch",),
    "family.chart": ("FamilyChart",),
    "family.chart_line": ("ChartGroup", "ChartLine", "ChartWheelbase", "NotOffered"),
    "family.count": ("FamilyCount", "Tally"),
    "family.family_file": ("FamilyFile",),
    "family.matrix": ("FamilyMatrix",),
    "family.row": ("FamilyRow",),
    "lint.finding": ("LintFinding", "PackLint", "Severity"),
    "mechanics.corner.statics": ("Support",),
    "mechanics.spline.clocking": ("TurningSense",),
    "parted.batch_in_parts": ("BatchFile",),
    "registry.lock": ("Lock", "LockedPack"),
    "report.drawing.adjuster": ("AdjusterDatum", "AdjusterView"),
    "report.drawing.bar_axis_view": ("AxialHead", "BarAxisView"),
    "report.drawing.bar_end_view": ("BarEndView",),
    "report.drawing.load_curve": ("LoadCurveView",),
    "report.drawing.template": ("Paper", "TemplateView"),
    "report.sheet.rows": ("SheetMeasurement", "SheetRow"),
    "report.sheet.sheet": ("BenchSheet", "CornerSheet", "SheetPart"),
    "report.sheet.steps.step": ("SheetStage", "SheetStep"),
    "report.sheet.views": ("CornerViews",),
    "tables.files.summary": ("BatchSummary", "RowError"),
}
_HOME_OF = {name: module for module, names in _HOMES.items() for name in names}

__all__ = sorted(_HOME_OF)  # noqa: PLE0605 - ruff wants a literal; the homes are the one list

if not TYPE_CHECKING:  # or a type checker would take any name for one of these
    __getattr__ = name_loader(__name__, _HOME_OF)


def __dir__() -> list[str]:
    """List the public names, loaded or not."""
    return __all__
