"""Torsion-bar suspensions: what fits, what rate it gives, how to re-index the bar.

>>> import barwright as bw
>>> setup = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
>>> bw.length_fit(setup).verdict.value
'fits'

Names are loaded on first use: importing the package loads nothing heavy.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

from barwright.first_use import FIRST_USE

if TYPE_CHECKING:
    from barwright.analysis.across.check import Checked as Checked
    from barwright.analysis.across.check import CheckedCorner as CheckedCorner
    from barwright.analysis.across.check import Problem as Problem
    from barwright.analysis.across.check import check_job as check_job
    from barwright.analysis.across.compare import Comparison as Comparison
    from barwright.analysis.across.compare import ComparisonRow as ComparisonRow
    from barwright.analysis.across.compare import compare as compare
    from barwright.analysis.across.donors import Donor as Donor
    from barwright.analysis.across.donors import Donors as Donors
    from barwright.analysis.across.donors import donors as donors
    from barwright.analysis.answer import Answer as Answer
    from barwright.analysis.answer import Outcome as Outcome
    from barwright.analysis.answer import Verdict as Verdict
    from barwright.analysis.corner.anchorage import Turned as Turned
    from barwright.analysis.finding import Caution as Caution
    from barwright.analysis.finding import Finding as Finding
    from barwright.analysis.finding import Topic as Topic
    from barwright.analysis.fit.head_load import HeadLoad as HeadLoad
    from barwright.analysis.fit.length_fit import EndFit as EndFit
    from barwright.analysis.fit.length_fit import LengthFit as LengthFit
    from barwright.analysis.fit.length_fit import length_fit as length_fit
    from barwright.analysis.rates.curve import RateCurve as RateCurve
    from barwright.analysis.rates.rates import BoltLoad as BoltLoad
    from barwright.analysis.rates.rates import RateFigures as RateFigures
    from barwright.analysis.rates.rates import Rates as Rates
    from barwright.analysis.rates.rates import rates as rates
    from barwright.analysis.rates.ride_height import CornerState as CornerState
    from barwright.analysis.rates.ride_height import Ride as Ride
    from barwright.analysis.rates.ride_height import ride as ride
    from barwright.analysis.reindex.assembly import Assembly as Assembly
    from barwright.analysis.reindex.axle import reindex_job as reindex_job
    from barwright.analysis.reindex.plan import Blank as Blank
    from barwright.analysis.reindex.plan import EndAction as EndAction
    from barwright.analysis.reindex.plan import EndWork as EndWork
    from barwright.analysis.reindex.plan import Plan as Plan
    from barwright.analysis.reindex.plan import PlanCost as PlanCost
    from barwright.analysis.reindex.plan import PlannedCorner as PlannedCorner
    from barwright.analysis.reindex.plan import fitted as fitted
    from barwright.analysis.reindex.reindex import Reindex as Reindex
    from barwright.analysis.reindex.reindex import reindex as reindex
    from barwright.analysis.reindex.unloading import Parting as Parting
    from barwright.analysis.reindex.unloading import Unloading as Unloading
    from barwright.analysis.reindex.unloading import WayOut as WayOut
    from barwright.analysis.strength.overstress import Overstress as Overstress
    from barwright.analysis.strength.overstress import StressCheck as StressCheck
    from barwright.analysis.strength.overstress import overstress as overstress
    from barwright.analysis.strength.strength import Strength as Strength
    from barwright.analysis.strength.strength import strength as strength
    from barwright.analysis.strength.strength_limits import EnduranceFactors as EnduranceFactors
    from barwright.analysis.strength.strength_limits import StrengthLimits as StrengthLimits
    from barwright.analysis.strength.strength_limits import StressLimit as StressLimit
    from barwright.analysis.strength.strength_limits import WoehlerLine as WoehlerLine
    from barwright.analysis.strength.strength_limits import din_2091 as din_2091
    from barwright.analysis.strength.stresses import HaighLine as HaighLine
    from barwright.analysis.strength.stresses import Life as Life
    from barwright.analysis.strength.stresses import StrengthFigures as StrengthFigures
    from barwright.analysis.strength.stresses import Swing as Swing
    from barwright.analysis.tolerance.shifted_answers import ToleranceGap as ToleranceGap
    from barwright.analysis.tolerance.tolerance import ToleranceInput as ToleranceInput
    from barwright.analysis.tolerance.tolerance import ToleranceRow as ToleranceRow
    from barwright.analysis.tolerance.tolerance import Tolerances as Tolerances
    from barwright.analysis.tolerance.tolerance import ToleranceShare as ToleranceShare
    from barwright.analysis.tolerance.tolerance import tolerance as tolerance
    from barwright.analysis.tolerance.unmeasured import Footing as Footing
    from barwright.analysis.tolerance.unmeasured import rests_on as rests_on
    from barwright.analysis.trail import Trail as Trail
    from barwright.analysis.trail import TrailLine as TrailLine
    from barwright.analysis.trail import trail as trail
    from barwright.errors import BarwrightError as BarwrightError
    from barwright.errors import DocumentError as DocumentError
    from barwright.errors import FileError as FileError
    from barwright.errors import GeometryError as GeometryError
    from barwright.errors import JobError as JobError
    from barwright.errors import LockError as LockError
    from barwright.errors import MissingExtraError as MissingExtraError
    from barwright.errors import NotConvergedError as NotConvergedError
    from barwright.errors import PackError as PackError
    from barwright.errors import QuantityError as QuantityError
    from barwright.errors import SchemaError as SchemaError
    from barwright.errors import UnknownNameError as UnknownNameError
    from barwright.lint.finding import Linted as Linted
    from barwright.lint.finding import LintFinding as LintFinding
    from barwright.lint.finding import Severity as Severity
    from barwright.lint.linting import lint_pack as lint_pack
    from barwright.mechanics.spline.clocking import TurningSense as TurningSense
    from barwright.parts.adjuster import Adjuster as Adjuster
    from barwright.parts.adjuster import FixedLineMounting as FixedLineMounting
    from barwright.parts.adjuster import KeyBoltMounting as KeyBoltMounting
    from barwright.parts.adjuster import LeverSide as LeverSide
    from barwright.parts.adjuster import Stretch as Stretch
    from barwright.parts.adjuster import SwivellingMounting as SwivellingMounting
    from barwright.parts.anchor import FixedSocket as FixedSocket
    from barwright.parts.anchor import KeyLever as KeyLever
    from barwright.parts.arm import Arm as Arm
    from barwright.parts.bar import Bar as Bar
    from barwright.parts.bar import Side as Side
    from barwright.parts.chassis import Axle as Axle
    from barwright.parts.chassis import BarEndName as BarEndName
    from barwright.parts.chassis import Chassis as Chassis
    from barwright.parts.chassis import LoadPoint as LoadPoint
    from barwright.parts.chassis import Place as Place
    from barwright.parts.chassis import StandardParts as StandardParts
    from barwright.parts.damper import Damper as Damper
    from barwright.parts.damper import GasCharge as GasCharge
    from barwright.parts.identity import Month as Month
    from barwright.parts.material import Material as Material
    from barwright.parts.record import Part as Part
    from barwright.parts.setup import Load as Load
    from barwright.parts.setup import LoadKind as LoadKind
    from barwright.parts.setup import Setup as Setup
    from barwright.parts.setup import Wanted as Wanted
    from barwright.parts.source import About as About
    from barwright.parts.source import Figure as Figure
    from barwright.parts.source import Source as Source
    from barwright.parts.source import SourceKind as SourceKind
    from barwright.parts.spline import BarEnd as BarEnd
    from barwright.parts.spline import Socket as Socket
    from barwright.parts.suspension import ArmBushing as ArmBushing
    from barwright.parts.suspension import BumpRubber as BumpRubber
    from barwright.parts.suspension import BumpRubberForce as BumpRubberForce
    from barwright.parts.suspension import DoubleWishboneMounting as DoubleWishboneMounting
    from barwright.parts.suspension import HelperCoil as HelperCoil
    from barwright.parts.suspension import JointSide as JointSide
    from barwright.parts.suspension import StrutMounting as StrutMounting
    from barwright.parts.suspension import SwingArmMounting as SwingArmMounting
    from barwright.parts.tube import Tube as Tube
    from barwright.registry.jobs.history import load_history as load_history
    from barwright.registry.jobs.job import Job as Job
    from barwright.registry.jobs.job import JobCorner as JobCorner
    from barwright.registry.jobs.load import load_job as load_job
    from barwright.registry.jobs.load import load_jobs as load_jobs
    from barwright.registry.lock import Lock as Lock
    from barwright.registry.lock import LockedPack as LockedPack
    from barwright.registry.lock import lock_of as lock_of
    from barwright.registry.lock import lock_text as lock_text
    from barwright.registry.lock import read_lock as read_lock
    from barwright.registry.lock import refuse_drift as refuse_drift
    from barwright.registry.registry import Registry as Registry
    from barwright.report.chart import svg_chart as svg_chart
    from barwright.report.forms.json import from_json as from_json
    from barwright.report.forms.json import to_json as to_json
    from barwright.report.sheet.settings import Measurement as Measurement
    from barwright.report.sheet.settings import Setting as Setting
    from barwright.report.sheet.sheet import BenchSheet as BenchSheet
    from barwright.report.sheet.sheet import CornerSheet as CornerSheet
    from barwright.report.sheet.sheet import PartLine as PartLine
    from barwright.report.sheet.sheet import bench_sheet as bench_sheet
    from barwright.report.sheet.step import Step as Step
    from barwright.report.unit_system import in_units as in_units
    from barwright.units import Quantity as Quantity

# Where each public name lives; a test holds this against the imports above.
_HOMES = {
    "analysis.corner.anchorage": ("Turned",),
    "analysis.answer": ("Answer", "Outcome", "Verdict"),
    "analysis.reindex.axle": ("reindex_job",),
    "analysis.reindex.assembly": ("Assembly",),
    "analysis.across.check": ("Checked", "CheckedCorner", "Problem", "check_job"),
    "analysis.across.compare": ("Comparison", "ComparisonRow", "compare"),
    "analysis.rates.curve": ("RateCurve",),
    "analysis.across.donors": ("Donor", "Donors", "donors"),
    "analysis.finding": ("Caution", "Finding", "Topic"),
    "analysis.fit.length_fit": ("EndFit", "LengthFit", "length_fit"),
    "analysis.tolerance.unmeasured": ("Footing", "rests_on"),
    "analysis.fit.head_load": ("HeadLoad",),
    "analysis.strength.strength_limits": (
        "EnduranceFactors",
        "StrengthLimits",
        "StressLimit",
        "WoehlerLine",
        "din_2091",
    ),
    "analysis.strength.overstress": ("Overstress", "StressCheck", "overstress"),
    "analysis.reindex.plan": (
        "Blank",
        "EndAction",
        "EndWork",
        "Plan",
        "PlanCost",
        "PlannedCorner",
        "fitted",
    ),
    "analysis.rates.rates": ("BoltLoad", "RateFigures", "Rates", "rates"),
    "analysis.reindex.reindex": ("Reindex", "reindex"),
    "analysis.rates.ride_height": ("CornerState", "Ride", "ride"),
    "analysis.strength.strength": ("Strength", "strength"),
    "analysis.strength.stresses": ("HaighLine", "Life", "StrengthFigures", "Swing"),
    "analysis.tolerance.tolerance": (
        "ToleranceInput",
        "ToleranceRow",
        "ToleranceShare",
        "Tolerances",
        "tolerance",
    ),
    "analysis.trail": ("Trail", "TrailLine", "trail"),
    "analysis.reindex.unloading": ("Parting", "Unloading", "WayOut"),
    "analysis.tolerance.shifted_answers": ("ToleranceGap",),
    "errors": (
        "BarwrightError",
        "DocumentError",
        "FileError",
        "GeometryError",
        "JobError",
        "LockError",
        "MissingExtraError",
        "NotConvergedError",
        "PackError",
        "QuantityError",
        "SchemaError",
        "UnknownNameError",
    ),
    "lint.finding": ("LintFinding", "Linted", "Severity"),
    "lint.linting": ("lint_pack",),
    "mechanics.spline.clocking": ("TurningSense",),
    "parts.adjuster": (
        "Adjuster",
        "FixedLineMounting",
        "KeyBoltMounting",
        "LeverSide",
        "Stretch",
        "SwivellingMounting",
    ),
    "parts.anchor": ("FixedSocket", "KeyLever"),
    "parts.arm": ("Arm",),
    "parts.bar": ("Bar", "Side"),
    "parts.chassis": (
        "Axle",
        "BarEndName",
        "Chassis",
        "LoadPoint",
        "Place",
        "StandardParts",
    ),
    "parts.damper": ("Damper", "GasCharge"),
    "parts.identity": ("Month",),
    "parts.material": ("Material",),
    "parts.record": ("Part",),
    "parts.setup": ("Load", "LoadKind", "Setup", "Wanted"),
    "parts.source": ("About", "Figure", "Source", "SourceKind"),
    "parts.spline": ("BarEnd", "Socket"),
    "parts.suspension": (
        "ArmBushing",
        "BumpRubber",
        "BumpRubberForce",
        "DoubleWishboneMounting",
        "HelperCoil",
        "JointSide",
        "StrutMounting",
        "SwingArmMounting",
    ),
    "parts.tube": ("Tube",),
    "registry.jobs.history": ("load_history",),
    "registry.registry": ("Registry",),
    "registry.jobs.job": ("Job", "JobCorner"),
    "registry.jobs.load": ("load_job", "load_jobs"),
    "registry.lock": ("Lock", "LockedPack", "lock_of", "lock_text", "read_lock", "refuse_drift"),
    "report.chart": ("svg_chart",),
    "report.forms.json": ("from_json", "to_json"),
    "report.sheet.sheet": ("BenchSheet", "CornerSheet", "PartLine", "bench_sheet"),
    "report.sheet.settings": ("Measurement", "Setting"),
    "report.sheet.step": ("Step",),
    "report.unit_system": ("in_units",),
    "units": ("Quantity",),
}
_HOME_OF = {name: module for module, names in _HOMES.items() for name in names}

__all__ = sorted(_HOME_OF)  # noqa: PLE0605 - ruff wants a literal; the homes are the one list


def __getattr__(name: str) -> object:
    """Import the module of a public name when it is first asked for."""
    if name not in _HOME_OF:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    # A child of a fork would wait for ever for a module that another thread was importing.
    with FIRST_USE:
        value = getattr(importlib.import_module(f"{__name__}.{_HOME_OF[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    """Public names, loaded or not."""
    return __all__
