"""The bench sheet of a job: the answer, cautions, parts, figures, steps, what to measure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import attrs

from barwright.analysis.across.bench_work import BenchWork, bench_work
from barwright.analysis.adjusting.nut_table import NutTable
from barwright.analysis.answer import Outcome, Verdict
from barwright.analysis.corner.anchorage import anchor_in_words
from barwright.analysis.finding import Finding
from barwright.analysis.fit.length_fit import LengthFit
from barwright.analysis.rates.rates import Rates
from barwright.analysis.reindex.axle import PlanNumbers
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.reindex import Reindex
from barwright.analysis.strength.strength import Strength
from barwright.errors import SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.identity import PartNumber
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.registry.jobs.job import Job, WorkOrder
from barwright.report.sheet.corner_names import names_of
from barwright.report.sheet.corner_work import work_on
from barwright.report.sheet.headline import planned_lines
from barwright.report.sheet.notes import notes, superseded
from barwright.report.sheet.rows import (
    SheetMeasurement,
    SheetRow,
    figures,
    measurements,
    rows_together,
)
from barwright.report.sheet.sheet_cautions import sheet_cautions
from barwright.report.sheet.sources import estimates_noted, packs_of, sources_of
from barwright.report.sheet.steps.stages import stages
from barwright.report.sheet.steps.step import SheetStage, SheetStep, steps_together
from barwright.report.sheet.steps.unloading_steps import refusal
from barwright.report.sheet.views import CornerViews, corner_views
from barwright.report.unit_system import in_units
from barwright.units import Quantity, System, in_system

__all__ = ["BenchSheet", "CornerSheet", "SheetPart", "bench_sheet"]


@attrs.frozen(kw_only=True, repr=False)
class SheetPart(Summarised):
    """A part of a corner.

    Parameters
    ----------
    kind : str
        Arm, bar, tube (or key lever, or fixed socket), adjuster or damper.
    id, title : str
        The part.
    replaces : str
        Title of the part that is on the vehicle now; empty if it stays.
    numbers : tuple of PartNumber
        Numbers that it is ordered by.
    paint : str
        Paint mark that it is told by.
    replaced_by : tuple of str
        Ids of the parts that supersede it.
    """

    kind: str
    id: str
    title: str
    replaces: str
    numbers: tuple[PartNumber, ...] = ()
    paint: str = ""
    replaced_by: tuple[str, ...] = ()

    @property
    def line(self) -> str:
        """Title, and what it replaces."""
        replaced = f", in place of {self.replaces}" if self.replaces else ""
        return f"{self.title}{replaced}"


@attrs.frozen(kw_only=True, repr=False)
class CornerSheet(Summarised):
    """Sheet content of one corner.

    Parameters
    ----------
    corner : str
        Axle and side.
    parts : tuple of SheetPart
        What is to be on it.
    load : Quantity
        Figure that the sheet rests on.
    load_is : str
        Whether that is a scale's reading or the sprung mass.
    rates : Rates
        At the wanted height, with that plan carried out.
    strength : Strength
        Of the bar, with that plan carried out.
    reindex : Reindex
        All plans.
    plan_number : int
        Number of the requested plan.
    plan : Plan, optional
        The plan of that number, which the steps follow; none if there is no such plan.
    nut_table : NutTable, optional
        What each turn of the adjuster gives with that plan carried out; none without it.
    views : CornerViews, optional
        What is drawn of that plan; none without it.
    """

    corner: str
    parts: tuple[SheetPart, ...]
    load: Quantity
    load_is: str
    rates: Rates
    strength: Strength
    reindex: Reindex
    plan_number: int
    plan: Plan | None
    nut_table: NutTable | None
    views: CornerViews | None

    def _in_short(self) -> str:
        """Tell it by its corner and its headline."""
        return f"{self.corner}: {self.headline}"

    @property
    def outcome(self) -> Outcome:
        """Outcome of the corner's answer."""
        return self.reindex.outcome

    @property
    def verdict(self) -> Verdict:
        """Verdict of the corner's answer."""
        return self.reindex.verdict

    @property
    def headline(self) -> str:
        """The plan that the steps follow, in short."""
        if self.plan is None:
            return self.reindex.headline
        return self.plan.summary

    @property
    def fit(self) -> LengthFit:
        """How the bar lies."""
        return self.reindex.fit

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What must be known beside the headline."""
        of_plan = (*self.fit.changes, *self.plan.findings) if self.plan else ()
        return (*self.reindex.further_findings, *of_plan)

    @property
    def other_plans(self) -> tuple[tuple[int, Plan], ...]:
        """Plans that could be followed instead, with their numbers."""
        numbered = enumerate(self.reindex.plans, start=1)
        return tuple((number, plan) for number, plan in numbered if plan is not self.plan)


@attrs.frozen(kw_only=True, repr=False)
class BenchSheet(Summarised):
    """The bench sheet of a job.

    Parameters
    ----------
    title : str
        Of the job.
    vehicle, vehicle_id : str
        What it is done on.
    headlines : tuple of str
        The answer, a line for all corners that share it.
    notes : tuple of str
        What else must be known, a line for all corners that share it.
    cautions : tuple of str
        In words; they come before the work, except those that a step says.
    parts : tuple of SheetRow
        What is to be on each corner.
    figures : tuple of SheetRow
        What is set on each corner, and the results; none if nothing is done.
    stages : tuple of SheetStage
        The steps of all corners, in order; what must not be touched comes first.
    measurements : tuple of SheetMeasurement
        What to measure, with room for it.
    corners : tuple of CornerSheet
        What is worked out, in the order of the job.
    sources : tuple of str
        Sources of the figures, and whether they are measured or invented.
    packs : tuple of str
        Packs of the vehicle and its parts that have a version, each with it.
    order : WorkOrder
        Whose vehicle it is, and what was agreed.
    """

    title: str
    vehicle: str
    vehicle_id: str
    headlines: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    parts: tuple[SheetRow, ...]
    figures: tuple[SheetRow, ...]
    stages: tuple[SheetStage, ...]
    measurements: tuple[SheetMeasurement, ...]
    corners: tuple[CornerSheet, ...]
    sources: tuple[str, ...]
    packs: tuple[str, ...] = ()
    order: WorkOrder = attrs.field(factory=WorkOrder)

    def _in_short(self) -> str:
        """Show its headline."""
        return self.headline

    @property
    def headline(self) -> str:
        """The answer for all corners."""
        return " ".join(self.headlines)

    @property
    def vehicle_with_packs(self) -> str:
        """The vehicle, and the packs that it rests on with their versions."""
        return f"{self.vehicle} ({', '.join(self.packs)})" if self.packs else self.vehicle

    @property
    def outcome(self) -> Outcome:
        """The worst outcome of its corners."""
        return max(self.outcomes, key=list(Outcome).index)

    @property
    def outcomes(self) -> tuple[Outcome, ...]:
        """Outcome of each corner."""
        return tuple(corner.outcome for corner in self.corners)

    @property
    def steps(self) -> tuple[SheetStep, ...]:
        """All steps, in order."""
        return tuple(step for stage in self.stages for step in stage.steps)

    @property
    def planned(self) -> tuple[str, ...]:
        """Names of the corners that have a plan, a column of the figures each."""
        return tuple(corner.corner for corner in self.corners if corner.plan)


@checks_arguments
def bench_sheet(job: Job, *, plan: PlanNumbers = 1, system: System = "metric") -> BenchSheet:
    """Write the bench sheet of a job.

    Parameters
    ----------
    job : Job
        The job.
    plan : int or mapping of str to int
        Number of the plan that the steps follow, of those that can be carried out: one for
        all corners, or by side or corner, like ``{"left": 2}``.
    system : {"metric", "inch"}
        Units of its figures and of its steps.

    Returns
    -------
    BenchSheet

    Raises
    ------
    SchemaError
        S203 for a number below 1, S206 for one that a corner with plans does not have, S207
        for a job without a corner or with one of them twice.

    Notes
    -----
    The first plan is the one to prefer; the others stand below the steps.
    """
    _check_columns(job)
    worked_out = bench_work(job, plan)
    corners = tuple(_corner(found, system) for found in worked_out)
    works = [work for found in worked_out if (work := work_on(found, system))]
    chassis = job.corners[0].setup.chassis
    return BenchSheet(
        title=job.title,
        vehicle=chassis.title,
        vehicle_id=chassis.id,
        headlines=(*planned_lines(works), *_refused(corners)),
        notes=(
            *notes([(corner.corner, corner.findings) for corner in corners]),
            *superseded(corner.setup for corner in job.corners),
            *estimates_noted(
                in_units(one, system) for found in worked_out for one in found.rests_on
            ),
        ),
        cautions=tuple(sheet_cautions(worked_out, works)),
        parts=rows_together([_part_texts(corner) for corner in corners]),
        figures=rows_together([figures(work, system) for work in works]),
        stages=(*_forbidden(worked_out, corners), *stages(works)),
        measurements=measurements(works, system),
        corners=corners,
        sources=sources_of(job),
        packs=packs_of(corner.setup for corner in job.corners),
        order=job.order,
    )


def _check_columns(job: Job) -> None:
    """Refuse a job whose corners would not have a column each."""
    names = [corner.setup.corner for corner in job.corners]
    if len(set(names)) < len(names) or not names:
        raise SchemaError(
            "S207",
            value=", ".join(names) or "no corner",
            expected="at least one corner, and each only once",
            remedy="write a sheet for each job",
            key="corners",
        )


def _corner(found: BenchWork, system: System) -> CornerSheet:
    answer = in_units(found.reindex, system)
    plan = answer.plans[found.number - 1] if found.plan else None
    views = corner_views(found.setup, plan, answer.fit, present=found.present) if plan else None
    return CornerSheet(
        corner=found.setup.corner,
        parts=tuple(_part_lines(found.setup, found.present)),
        load=in_system(found.setup.load.mass, system),
        load_is=found.setup.load.kind.value,
        rates=in_units(found.rates, system),
        strength=in_units(found.strength, system),
        reindex=answer,
        plan_number=found.number,
        plan=plan,
        nut_table=in_units(found.nut_table, system) if found.nut_table else None,
        views=in_units(views, system) if views else None,
    )


def _refused(corners: Iterable[CornerSheet]) -> Iterator[str]:
    """Say why corners have no plan, once where it is the same."""
    alike: dict[str, list[str]] = {}
    for corner in corners:
        if corner.plan is None:
            alike.setdefault(corner.headline, []).append(corner.corner)
    for line, names in alike.items():
        yield f"{names_of(names)}: {line[0].lower()}{line[1:]}"


def _forbidden(
    worked_out: Sequence[BenchWork], corners: Sequence[CornerSheet]
) -> Iterator[SheetStage]:
    """Say what must not be touched, where no safe way is known."""
    for found, corner in zip(worked_out, corners, strict=True):
        steps = refusal(found.present, corner.reindex)
        if steps:
            title = f"{names_of([corner.corner])}: leave it alone"
            yield SheetStage(title=title, steps=steps_together({corner.corner: steps}))


def _part_texts(corner: CornerSheet) -> Iterator[tuple[str, str]]:
    for part in corner.parts:
        yield part.kind, part.line


def _part_lines(setup: Setup, present: Setup) -> list[SheetPart]:
    return [
        SheetPart(
            kind=anchor_in_words(setup.anchor) if part is setup.anchor else kind,
            id=part.id,
            title=part.title,
            numbers=part.numbers,
            paint=part.paint,
            replaced_by=part.replaced_by,
            replaces=old.title if (old := present.parts.get(kind)) and part != old else "",
        )
        for kind, part in setup.parts.items()
    ]
