"""The bench sheet: parts, steps in order, figures to set, what to measure, cautions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import attrs

from barwright.analysis.across.bench_work import BenchWork, bench_work
from barwright.analysis.answer import Outcome, Verdict
from barwright.analysis.fit.length_fit import LengthFit
from barwright.analysis.rates.rates import Rates
from barwright.analysis.reindex.axle import PlanNumbers
from barwright.analysis.reindex.cautions import job_cautions
from barwright.analysis.reindex.plan import Plan
from barwright.analysis.reindex.reindex import Reindex
from barwright.analysis.strength.strength import Strength
from barwright.analysis.tolerance.unmeasured import INVENTED
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arguments import checks_arguments
from barwright.parts.record import Part, Record
from barwright.parts.setup import Setup
from barwright.parts.source import Figure, SourceKind
from barwright.parts.tube import Tube
from barwright.registry.jobs.job import Job
from barwright.report.sheet.common_steps import steps_after, steps_before
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.settings import SheetMeasurement, SheetSetting, measurements, settings
from barwright.report.sheet.step import SheetStep
from barwright.report.sheet.steps import steps
from barwright.report.sheet.unloading_steps import refusal
from barwright.report.unit_system import in_units
from barwright.units import Quantity, System, in_system

__all__ = ["BenchSheet", "CornerSheet", "SheetPart", "bench_sheet"]


@attrs.frozen(kw_only=True)
class SheetPart:
    """A part of a corner.

    Parameters
    ----------
    kind : str
        Arm, bar, tube (or key lever, or fixed socket), adjuster or damper.
    id, title : str
        The part.
    replaces : str
        Title of the part that is on the vehicle now; empty if it stays.
    """

    kind: str
    id: str
    title: str
    replaces: str


@attrs.frozen(kw_only=True)
class CornerSheet:
    """Everything for one corner.

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
        Number of the plan that was asked for.
    plan : Plan, optional
        The plan of that number, which the steps follow; none where there is none.
    steps : tuple of SheetStep
        In order.
    settings : tuple of SheetSetting
        Figures to set.
    measurements : tuple of SheetMeasurement
        What to measure, with room for it.
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
    steps: tuple[SheetStep, ...]
    settings: tuple[SheetSetting, ...]
    measurements: tuple[SheetMeasurement, ...]

    @property
    def outcome(self) -> Outcome:
        """What the answer comes to."""
        return self.reindex.outcome

    @property
    def verdict(self) -> Verdict:
        """Whether the wish can be carried out, in the words of its question."""
        return self.reindex.verdict

    @property
    def headline(self) -> str:
        """The plan that the steps follow, in short."""
        if self.plan is None:
            return self.reindex.headline
        sentence = self.plan.summary
        return sentence[0].upper() + sentence[1:]

    @property
    def fit(self) -> LengthFit:
        """How the bar lies."""
        return self.reindex.fit


@attrs.frozen(kw_only=True)
class BenchSheet:
    """A job on paper.

    Parameters
    ----------
    title : str
        Of the job.
    vehicle, vehicle_id : str
        What it is done on.
    before : tuple of SheetStep
        Steps that all corners share, before their own; none where no corner has any.
    corners : tuple of CornerSheet
        In the order of the job.
    after : tuple of SheetStep
        Steps that all corners share, after their own: height is judged here, with the
        work on every corner done.
    cautions : tuple of str
        In words; they come first.
    sources : tuple of str
        Sources of the figures, and whether they are measured or invented.
    """

    title: str
    vehicle: str
    vehicle_id: str
    before: tuple[SheetStep, ...]
    corners: tuple[CornerSheet, ...]
    after: tuple[SheetStep, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]

    @property
    def headline(self) -> str:
        """The answer for each corner; once where it is the same."""
        return " ".join(self.headlines)

    @property
    def headlines(self) -> tuple[str, ...]:
        """The answer for each corner, a sentence each; once where it is the same."""
        corners: dict[str, list[str]] = {}
        for corner in self.corners:
            corners.setdefault(corner.headline, []).append(corner.corner)
        return tuple(
            f"{' and '.join(names).capitalize()}: {line}" for line, names in corners.items()
        )

    @property
    def outcome(self) -> Outcome:
        """The worst outcome of its corners."""
        return max(self.outcomes, key=list(Outcome).index)

    @property
    def outcomes(self) -> tuple[Outcome, ...]:
        """What became of each corner."""
        return tuple(corner.outcome for corner in self.corners)


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
        S203 for a number below 1, S206 for one that a corner with plans does not have.

    Notes
    -----
    The first plan is the one to prefer; the others stand beside the steps.
    """
    worked_out = bench_work(job, plan)
    written = [_corner(found, system) for found in worked_out]
    corners = tuple(corner for corner, _ in written)
    works = [work for _, work in written if work]
    chassis = job.corners[0].setup.chassis
    return BenchSheet(
        title=job.title,
        vehicle=chassis.title,
        vehicle_id=chassis.id,
        before=steps_before(works),
        corners=corners,
        after=steps_after(works),
        cautions=(*_of_invented(worked_out), *_of_work(works)),
        sources=_sources(job),
    )


def _corner(found: BenchWork, system: System) -> tuple[CornerSheet, CornerWork | None]:
    """Write the sheet of a corner; there is work where there is a plan to follow."""
    setup, present = found.setup, found.present
    answer = in_units(found.reindex, system)
    plan = answer.plans[found.number - 1] if found.plan else None
    sheet = CornerSheet(
        corner=setup.corner,
        parts=tuple(_part_lines(setup, present)),
        load=in_system(setup.load.mass, system),
        load_is=setup.load.kind.value,
        rates=in_units(found.rates, system),
        strength=in_units(found.strength, system),
        reindex=answer,
        plan_number=found.number,
        plan=plan,
        steps=refusal(present, answer),
        settings=(),
        measurements=(),
    )
    if plan is None or found.loose is None or found.loose_now is None:
        return sheet, None
    work = CornerWork(
        setup=setup,
        present=present,
        answer=answer,
        plan=plan,
        loose=in_units(found.loose, system),
        loose_now=in_units(found.loose_now, system),
        system=system,
    )
    return _with_work(sheet, work), work


def _with_work(sheet: CornerSheet, work: CornerWork) -> CornerSheet:
    return attrs.evolve(
        sheet,
        steps=steps(work),
        settings=settings(work.setup, work.plan, system=work.system),
        measurements=measurements(work.setup, work.present, work.answer, work.plan),
    )


def _part_lines(setup: Setup, present: Setup) -> list[SheetPart]:
    return [
        SheetPart(
            kind=_ANCHORS.get(type(part), kind),
            id=part.id,
            title=part.title,
            replaces=old.title if (old := present.parts.get(kind)) and part != old else "",
        )
        for kind, part in setup.parts.items()
    ]


# What a part is called that holds the bar's anchor end.
_ANCHORS: dict[type[Part], str] = {
    Tube: "tube",
    KeyLever: "key lever",
    FixedSocket: "fixed socket",
}


def _sources(job: Job) -> tuple[str, ...]:
    """Name the sources of the parts' figures, each once."""
    return tuple(sorted(f"{source} ({kind.value})" for source, kind in _kinds(job)))


def _of_invented(corners: Iterable[BenchWork]) -> Iterator[str]:
    """Warn where the work rests on invented figures: no vehicle has them."""
    unmeasured = (found for corner in corners for found in corner.rests_on)
    invented = sorted({found.source for found in unmeasured if found.kind == INVENTED})
    if invented:
        yield (
            f"Figures of this sheet are invented ({', '.join(invented)}): it is a demonstration, "
            "and no vehicle may be worked on by it."
        )


def _of_work(works: Sequence[CornerWork]) -> Iterable[str]:
    """Collect the cautions of the job and of its plans, each once."""
    of_job = job_cautions([(work.setup, work.plan.droop) for work in works])
    of_plans = (caution for work in works for caution in work.plan.cautions)
    return dict.fromkeys(caution.text for caution in (*of_job, *of_plans))


def _kinds(job: Job) -> set[tuple[str, SourceKind]]:
    """Collect the sources of the parts' figures, old and new, with how each came to them."""
    records: list[Record] = []
    for corner in job.corners:
        records += [corner.setup.axle, *corner.setup.parts.values()]
        records += corner.present.parts.values()
    figures = [figure for record in records for figure in _figures(record)]
    return {(f.source, f.source_kind) for f in figures if f.source_kind}


def _figures(record: Record) -> Iterator[Figure]:
    """All that is known of a record's figures and of those of the records in it."""
    yield from record.about.values()
    for field in attrs.fields(type(record)):
        inner = getattr(record, field.name)
        if isinstance(inner, Record):
            yield from _figures(inner)
