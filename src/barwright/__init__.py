"""Torsion-bar suspensions: what fits, its rate, and how to re-index the bar.

>>> import barwright as bw
>>> setup = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
>>> bw.length_fit(setup).verdict.value
'fits'

Here are the questions, and what is put to them.  Records of parts are in
:mod:`barwright.parts`, the classes of answers in :mod:`barwright.answers`, all errors in
:mod:`barwright.errors`.

Names are loaded on first use: importing the package loads nothing heavy.
"""

from __future__ import annotations

from barwright.first_use import imported, name_loader

TYPE_CHECKING = False  # typing's own takes longer to load than all else here
if TYPE_CHECKING:
    from barwright import answers as answers
    from barwright import errors as errors
    from barwright import parts as parts
    from barwright.analysis.across.check import check_job as check_job
    from barwright.analysis.across.check_many import check_jobs as check_jobs
    from barwright.analysis.across.compare import compare as compare
    from barwright.analysis.across.donors import donors as donors
    from barwright.analysis.across.needs import needs as needs
    from barwright.analysis.adjusting.nut_table import nut_table as nut_table
    from barwright.analysis.answer import Outcome as Outcome
    from barwright.analysis.answer import Verdict as Verdict
    from barwright.analysis.balancing.balance import balance as balance
    from barwright.analysis.bar_rate import bar_rate as bar_rate
    from barwright.analysis.calibration.calibrate import calibrate as calibrate
    from barwright.analysis.diagnosis.diagnose import diagnose as diagnose
    from barwright.analysis.fit.length_fit import length_fit as length_fit
    from barwright.analysis.identification.identify import identify as identify
    from barwright.analysis.identification.identify_spline import identify_spline as identify_spline
    from barwright.analysis.rates.rates import rates as rates
    from barwright.analysis.rates.ride import ride as ride
    from barwright.analysis.reindex.axle import reindex_job as reindex_job
    from barwright.analysis.reindex.plan.setup_after import carry_out as carry_out
    from barwright.analysis.reindex.reindex import reindex as reindex
    from barwright.analysis.selection.choose import choose as choose
    from barwright.analysis.strength.life_lines import BarSurface as BarSurface
    from barwright.analysis.strength.life_lines import WoehlerBand as WoehlerBand
    from barwright.analysis.strength.life_lines import WoehlerLine as WoehlerLine
    from barwright.analysis.strength.overstress import overstress as overstress
    from barwright.analysis.strength.strength import strength as strength
    from barwright.analysis.strength.strength_limits import EnduranceFactors as EnduranceFactors
    from barwright.analysis.strength.strength_limits import StrengthLimits as StrengthLimits
    from barwright.analysis.strength.strength_limits import din_2091 as din_2091
    from barwright.analysis.strength.travel_history import TravelSpectrum as TravelSpectrum
    from barwright.analysis.strength.travel_history import usual_travel as usual_travel
    from barwright.analysis.tolerance.tolerance import tolerance as tolerance
    from barwright.analysis.tolerance.unmeasured import rests_on as rests_on
    from barwright.analysis.trail import trail as trail
    from barwright.analysis.working.working import working as working
    from barwright.columns.batch import batch as batch
    from barwright.errors import BarwrightError as BarwrightError
    from barwright.errors import ClusterError as ClusterError
    from barwright.errors import DocumentError as DocumentError
    from barwright.errors import FileError as FileError
    from barwright.errors import GeometryError as GeometryError
    from barwright.errors import JobError as JobError
    from barwright.errors import LockError as LockError
    from barwright.errors import MissingExtraError as MissingExtraError
    from barwright.errors import NeedsError as NeedsError
    from barwright.errors import NoFigureError as NoFigureError
    from barwright.errors import NotConvergedError as NotConvergedError
    from barwright.errors import PackError as PackError
    from barwright.errors import QuantityError as QuantityError
    from barwright.errors import SchemaError as SchemaError
    from barwright.errors import TableError as TableError
    from barwright.errors import UnknownNameError as UnknownNameError
    from barwright.family.chart import family_chart as family_chart
    from barwright.family.family_file import write_family_matrix as write_family_matrix
    from barwright.family.matrix import family_matrix as family_matrix
    from barwright.lint.linting import lint_pack as lint_pack
    from barwright.parted.batch_in_parts import write_batch as write_batch
    from barwright.parts.setup import Setup as Setup
    from barwright.parts.wanted import Goal as Goal
    from barwright.parts.wanted import Wanted as Wanted
    from barwright.registry.authoring.job_schema import job_schema as job_schema
    from barwright.registry.jobs.history import load_history as load_history
    from barwright.registry.jobs.job import Job as Job
    from barwright.registry.jobs.job import JobCorner as JobCorner
    from barwright.registry.jobs.job import WorkOrder as WorkOrder
    from barwright.registry.jobs.load import job_of as job_of
    from barwright.registry.jobs.load import jobs_of as jobs_of
    from barwright.registry.jobs.load import load_job as load_job
    from barwright.registry.jobs.load import load_jobs as load_jobs
    from barwright.registry.lock import check_lock as check_lock
    from barwright.registry.lock import lock_of as lock_of
    from barwright.registry.lock import lock_text as lock_text
    from barwright.registry.lock import read_lock as read_lock
    from barwright.registry.registry import Registry as Registry
    from barwright.registry.usual.fill import with_usual as with_usual
    from barwright.report.chart import svg_chart as svg_chart
    from barwright.report.family.picture import family_svg as family_svg
    from barwright.report.family.spreadsheet import family_csv as family_csv
    from barwright.report.forms.answer_schema import answer_schema as answer_schema
    from barwright.report.forms.json import from_json as from_json
    from barwright.report.forms.json import to_json as to_json
    from barwright.report.page.balance import balance_html as balance_html
    from barwright.report.page.balance import balance_pdf as balance_pdf
    from barwright.report.page.family import family_html as family_html
    from barwright.report.page.family import family_pdf as family_pdf
    from barwright.report.page.needs import needs_html as needs_html
    from barwright.report.page.needs import needs_markdown as needs_markdown
    from barwright.report.page.needs import needs_pdf as needs_pdf
    from barwright.report.page.sheet import sheet_html as sheet_html
    from barwright.report.page.sheet import sheet_markdown as sheet_markdown
    from barwright.report.page.sheet import sheet_pdf as sheet_pdf
    from barwright.report.page.working import working_html as working_html
    from barwright.report.page.working import working_pdf as working_pdf
    from barwright.report.sheet.sheet import bench_sheet as bench_sheet
    from barwright.report.text.printed import html as html
    from barwright.report.text.printed import markdown as markdown
    from barwright.report.text.printed import text as text
    from barwright.report.unit_system import in_units as in_units
    from barwright.tables.batch_corners import batch_jobs as batch_jobs
    from barwright.tables.batch_corners import batch_vehicles as batch_vehicles
    from barwright.tables.batch_file import batch_file as batch_file
    from barwright.tables.batch_table import batch_table as batch_table
    from barwright.units import Quantity as Quantity
    from barwright.units import QuantityArray as QuantityArray

_ROOMS = ("answers", "errors", "parts")

# Where each other public name lives; a test holds this against the imports above.
_HOMES = {
    "analysis.across.check": ("check_job",),
    "analysis.across.check_many": ("check_jobs",),
    "analysis.across.compare": ("compare",),
    "analysis.across.donors": ("donors",),
    "analysis.adjusting.nut_table": ("nut_table",),
    "analysis.answer": ("Outcome", "Verdict"),
    "analysis.bar_rate": ("bar_rate",),
    "analysis.calibration.calibrate": ("calibrate",),
    "analysis.balancing.balance": ("balance",),
    "analysis.diagnosis.diagnose": ("diagnose",),
    "analysis.fit.length_fit": ("length_fit",),
    "analysis.identification.identify": ("identify",),
    "analysis.identification.identify_spline": ("identify_spline",),
    "analysis.rates.rates": ("rates",),
    "analysis.rates.ride": ("ride",),
    "analysis.reindex.axle": ("reindex_job",),
    "analysis.reindex.reindex": ("reindex",),
    "analysis.reindex.plan.setup_after": ("carry_out",),
    "analysis.selection.choose": ("choose",),
    "analysis.strength.life_lines": ("BarSurface", "WoehlerBand", "WoehlerLine"),
    "analysis.strength.overstress": ("overstress",),
    "analysis.strength.strength": ("strength",),
    "analysis.strength.strength_limits": (
        "EnduranceFactors",
        "StrengthLimits",
        "din_2091",
    ),
    "analysis.strength.travel_history": ("TravelSpectrum", "usual_travel"),
    "analysis.tolerance.tolerance": ("tolerance",),
    "analysis.tolerance.unmeasured": ("rests_on",),
    "analysis.across.needs": ("needs",),
    "analysis.trail": ("trail",),
    "analysis.working.working": ("working",),
    "columns.batch": ("batch",),
    "errors": (
        "BarwrightError",
        "ClusterError",
        "DocumentError",
        "FileError",
        "GeometryError",
        "JobError",
        "LockError",
        "MissingExtraError",
        "NeedsError",
        "NoFigureError",
        "NotConvergedError",
        "PackError",
        "QuantityError",
        "SchemaError",
        "TableError",
        "UnknownNameError",
    ),
    "family.chart": ("family_chart",),
    "family.family_file": ("write_family_matrix",),
    "family.matrix": ("family_matrix",),
    "lint.linting": ("lint_pack",),
    "parted.batch_in_parts": ("write_batch",),
    "parts.setup": ("Setup",),
    "parts.wanted": ("Goal", "Wanted"),
    "registry.authoring.job_schema": ("job_schema",),
    "registry.jobs.history": ("load_history",),
    "registry.jobs.job": ("Job", "JobCorner", "WorkOrder"),
    "registry.jobs.load": ("job_of", "jobs_of", "load_job", "load_jobs"),
    "registry.lock": ("check_lock", "lock_of", "lock_text", "read_lock"),
    "registry.registry": ("Registry",),
    "registry.usual.fill": ("with_usual",),
    "report.chart": ("svg_chart",),
    "report.family.picture": ("family_svg",),
    "report.family.spreadsheet": ("family_csv",),
    "report.forms.answer_schema": ("answer_schema",),
    "report.forms.json": ("from_json", "to_json"),
    "report.page.balance": ("balance_html", "balance_pdf"),
    "report.page.family": ("family_html", "family_pdf"),
    "report.page.needs": ("needs_html", "needs_markdown", "needs_pdf"),
    "report.page.sheet": ("sheet_html", "sheet_markdown", "sheet_pdf"),
    "report.page.working": ("working_html", "working_pdf"),
    "report.sheet.sheet": ("bench_sheet",),
    "report.text.printed": ("html", "markdown", "text"),
    "report.unit_system": ("in_units",),
    "tables.batch_corners": ("batch_jobs", "batch_vehicles"),
    "tables.batch_file": ("batch_file",),
    "tables.batch_table": ("batch_table",),
    "units": ("Quantity", "QuantityArray"),
}
_HOME_OF = {name: module for module, names in _HOMES.items() for name in names}

__all__ = sorted([*_HOME_OF, *_ROOMS])  # noqa: PLE0605 - ruff wants a literal; the homes are the one list

_load = name_loader(__name__, _HOME_OF)


def _name(name: str) -> object:
    """Load a public name. For a name of a sub-package, say which one has it."""
    if name in _ROOMS:
        return imported(name)
    for room in _ROOMS:
        if name not in _HOME_OF and name in imported(room).__all__:
            message = (
                f"module {__name__!r} has no attribute {name!r}: it is {__name__}.{room}.{name}"
            )
            raise AttributeError(message)
    return _load(name)


if not TYPE_CHECKING:  # or a type checker would take any name for one of these
    __getattr__ = _name


def __dir__() -> list[str]:
    """List the public names, loaded or not."""
    return __all__
