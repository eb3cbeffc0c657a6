"""How to re-index the bar so that the adjuster keeps its range."""

from __future__ import annotations

from functools import partial

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.assembly.assembly import Assembly
from barwright.analysis.assembly.unloading import Unloading
from barwright.analysis.corner.assumed import names_assumed
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.corner.out_of_range import unusual_load
from barwright.analysis.finding import Finding
from barwright.analysis.fit.length_fit import LengthFit, fit_of
from barwright.analysis.rates.ride_height import (
    free_angle_for,
    no_torque,
    out_of_travel,
    reachable,
    wanted_angle,
    wanted_height,
    with_height,
)
from barwright.analysis.reindex.clocking import Clocking
from barwright.analysis.reindex.fixed_anchor import FixedPlanner
from barwright.analysis.reindex.known_clockings import clockings_as_known
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.plan.uncut_trial import UncutTrial
from barwright.analysis.reindex.planner import Planner
from barwright.analysis.reindex.preference import ThreadLeft
from barwright.analysis.reindex.present_bar import impossible, on_its_stop, unloading_now
from barwright.analysis.reindex.reading_check import (
    disagreement,
    doubt_of,
    odd_readings,
    off_its_figures,
    unstated_error,
    unstated_place,
)
from barwright.analysis.reindex.refused import refuse_more_than_the_thread, refuse_other_corner
from barwright.computed_once import cached_property
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.registry.jobs.job import JobCorner
from barwright.registry.measuring.catalogue import AskedFor
from barwright.units import LENGTH, Quantity, quantity, unknown

__all__ = ["CornerTask", "Reindex", "reindex"]


@attrs.frozen(kw_only=True, repr=False)
class Reindex(Answer):
    """Answer to :func:`reindex`.

    Parameters
    ----------
    verdict : Verdict
        Can be reached, needs more figures, cannot be reached, does not fit, cannot be
        assembled, no safe way known, overstressed, or not safe.
    findings : tuple of Finding
        Why it is refused, or what else must be known.
    cautions : tuple of Caution
        For the work of the first plan.
    fit : LengthFit
        How the bar lies.
    wanted_height : Quantity, optional
        Wanted height, hub to arch; none if the present height is wanted and the parts do not
        fit together.
    reachable_from, reachable_to : Quantity
        Heights that the travel allows.
    free_angle : Quantity, optional
        Arm angle without torque that the wanted height needs.
    free_angle_uncertainty : Quantity, optional
        What stands behind its ±: expanded uncertainty, about 95 %, by the tolerances of
        the parts' figures.
    lever_angle_uncertainty : Quantity, optional
        The same of the lever's angle, or of the fixed socket's: with the free angle's own,
        how far keys, blanks and lever may stand from where their figures say.
    enough_thread_reserve : Quantity, optional
        Turns of thread on either side of the nut that count as enough to correct the
        height; none with a fixed socket.
    uncut_height : Quantity, optional
        Height nearest the wanted one that needs no tooth removed; none where the first plan
        cuts none anyway.
    plans : tuple of Plan
        Those that no other beats, the one to prefer first.
    trial : UncutTrial, optional
        What is tried before the first plan removes a tooth; none where that plan removes
        none, or no uncut bar can bring the wanted height.
    clockings : tuple of Clocking
        Where a plan needs more figures: the clockings and places of the nut that tooth
        counts, lever and thread give, the one to prefer first.  How the bar comes out
        safely is then not known.
    rejected : tuple of Plan
        Those that must not be carried out, with their reasons.
    unloading : Unloading, optional
        How the bar comes out as it is now; none where what is said to be on the car
        cannot be.
    pin_now : Quantity, optional
        Distance of the lever's pin along the bolt as the nut is now set, or of a
        pushing bolt's end from the cross-member; none with a fixed socket.
    """

    fit: LengthFit
    wanted_height: Quantity | None
    reachable_from: Quantity
    reachable_to: Quantity
    free_angle: Quantity | None
    free_angle_uncertainty: Quantity | None
    lever_angle_uncertainty: Quantity | None
    enough_thread_reserve: Quantity | None
    uncut_height: Quantity | None
    plans: tuple[Plan, ...]
    rejected: tuple[Plan, ...]
    unloading: Unloading | None
    pin_now: Quantity | None
    clockings: tuple[Clocking, ...] = ()
    trial: UncutTrial | None = None

    @property
    def preferred(self) -> Plan:
        """The first plan; raises N201 if there is none."""
        return self._figure(next(iter(self.plans), None), "a plan")

    @property
    def removal(self) -> tuple[Assembly, ...]:
        """How the bar comes out with the damper on and off; none if it cannot be fitted now."""
        found = self.unloading
        return () if found is None else (found.damper_on, found.damper_off)

    @property
    def has_conditions(self) -> bool:
        """Whether parts or teeth must be changed, or something must be known."""
        first = self.plans[0]
        return bool(self.findings or self.fit.changes or first.findings or first.disturbed)

    @property
    def headline(self) -> str:
        """The preferred plan in short, or why there is none."""
        if self.clockings:
            return f"{self.clockings[0].summary} The safe way out is not known."
        if not self.plans:
            return self.refused()
        first = self.plans[0]
        return f"{self.doubt}{self.after_trial(first.briefly if self.trial else first.summary)}"

    def after_trial(self, text: str) -> str:
        """Put what is tried first before what a plan says; the same where nothing is tried."""
        return text if self.trial is None else f"{self.trial.lead} {text[0].lower()}{text[1:]}"

    @property
    def doubt(self) -> str:
        """What to check before anything of a plan is done, as a sentence; empty if nothing."""
        if not self.plans:
            return ""
        return doubt_of((*self.findings, *self.fit.changes), cuts=self.plans[0].cuts)

    @property
    def further_findings(self) -> tuple[Finding, ...]:
        """Findings that the headline does not give."""
        return self.findings if self.clockings else super().further_findings


@checks_arguments
@names_assumed()
def reindex(setup: Setup, *, wanted: Wanted | None = None, present: Setup | None = None) -> Reindex:
    """Plan how to clock the bar for a wanted height.

    Plans that cannot be carried out, or not safely, are shown apart.  The others are
    compared on the teeth to remove, the ends disturbed, the thread left to correct the
    height, and the nut's distance from its middle, in whole flats: one beats another if it
    is no worse in any of them and better in one.  Of those that no other beats, the first
    keeps enough thread, then removes the fewest teeth, then leaves the bar in.

    A fixed socket has nothing to turn: there the clocking alone must bring the
    height, to within that uncertainty or half a millimetre.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    wanted : Wanted, optional
        The wanted height; the standard height if left out.
    present : Setup, optional
        The corner as it is now, which the old bar is drawn from; ``setup`` if
        left out.

    Returns
    -------
    Reindex

    Raises
    ------
    SchemaError
        S207 if ``present`` is another corner or another vehicle.
    QuantityError
        Q302 for a load that no bar on this corner could carry at that height.

    References
    ----------
    See :mod:`barwright.mechanics.spline.clocking`; the choice of plans is checked
    against an independent enumeration, each plan by solving it forward.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> answer = reindex(setup)
    >>> answer.verdict.value, answer.plans[0].cuts
    ('can be reached', 0)
    """
    refuse_other_corner(setup, present or setup)
    return CornerTask(setup, present or setup, wanted or Wanted()).answer


@attrs.frozen(eq=False, slots=False)
class CornerTask:
    """A corner as it is now and as it is to be, its wanted height, and the plans.

    Parameters
    ----------
    setup : Setup
        As it is to be.
    present : Setup
        As it is now.
    wanted : Wanted
        The wanted height.
    """

    setup: Setup
    present: Setup
    wanted: Wanted

    @classmethod
    def of(cls, job_corner: JobCorner) -> CornerTask:
        """Return the task of a corner of a job."""
        return cls(job_corner.setup, job_corner.present, job_corner.wanted)

    @cached_property
    def corner(self) -> Corner:
        """The corner as it is to be."""
        return corner_of(self.setup)

    @cached_property
    def now(self) -> Corner:
        """The corner as it is now."""
        if self.present is self.setup:
            return self.corner
        _ = self.corner.plane  # both have it, and the first to be asked hands it on
        return corner_of(self.present)

    @cached_property
    def wish(self) -> Wanted:
        """Where it is to stand, with the height itself where the present one is meant."""
        is_read = self.setup.reading is not None
        return with_height(self.wanted, now=self.corner if is_read else self.now)

    @cached_property
    def answer(self) -> Reindex:
        """Answer of :func:`reindex`."""
        missing = MissingFigures(self.setup, self.present)
        found = missing.tried(lambda: self._without_load)
        if found is None:
            return _needing(self, missing)
        answer, _ = found
        # Where the bar does not lie in its sockets, no load is asked about yet.
        if answer.verdict is Verdict.DOES_NOT_FIT:
            return answer
        checks = (odd_readings, unstated_place, unstated_error, off_its_figures)
        # A load that is not what it says is the likeliest cause of all else.
        findings = (
            *missing.each([partial(unusual_load, self.corner), partial(on_its_stop, self.now)]),
            *answer.findings,
            *missing.each(partial(check, self.corner) for check in checks),
            *(one for one in answer.fit.open_findings if one not in answer.findings),
        )
        torn = missing.tried(lambda: tuple(disagreement(self.corner)))
        if not torn:
            return attrs.evolve(answer, findings=findings)
        return attrs.evolve(
            answer,
            verdict=Verdict.NEEDS_FIGURES,
            findings=(*torn, *findings),
            plans=(),
            rejected=(),
            trial=None,
            cautions=(),
        )

    @property
    def thread_left(self) -> ThreadLeft:
        """Thread that the plans of the answer leave."""
        return self._without_load[1] if self.answer.plans else ThreadLeft()

    @cached_property
    def _without_load(self) -> tuple[Reindex, ThreadLeft]:
        """Answer without findings on the load, and the thread that its plans leave."""
        answer, planner = _prepared(self)
        if planner is None:
            return answer, ThreadLeft()
        planned = attrs.asdict(planner.planned(), recurse=False)
        thread_left: ThreadLeft = planned.pop("thread_left")
        return _with_cautions(attrs.evolve(answer, **planned)), thread_left


def _needing(task: CornerTask, missing: MissingFigures) -> Reindex:
    """Answer what can be answered where a plan needs more figures."""
    corner, fit = task.corner, fit_of(task.corner)
    clockings, findings = clockings_as_known(corner, now=task.now, wanted=task.wanted)
    low, high = missing.tried(lambda: reachable(corner)) or (unknown(), unknown())
    return attrs.evolve(
        _without_plans(fit, low=low, high=high),
        verdict=Verdict.NEEDS_FIGURES,
        wanted_height=missing.tried(lambda: wanted_height(corner, task.wish)),
        clockings=clockings,
        findings=(*missing.findings("needed for a plan", AskedFor.PLAN), *findings),
    )


def _without_plans(fit: LengthFit, *, low: Quantity, high: Quantity) -> Reindex:
    """Answer no, with the heights that the travel allows."""
    return Reindex(
        verdict=Verdict.DOES_NOT_FIT,
        fit=fit,
        wanted_height=None,
        reachable_from=low,
        reachable_to=high,
        free_angle=None,
        free_angle_uncertainty=None,
        lever_angle_uncertainty=None,
        enough_thread_reserve=None,
        uncut_height=None,
        plans=(),
        rejected=(),
        unloading=None,
        pin_now=None,
        findings=fit.reasons,
    )


def _prepared(task: CornerTask) -> tuple[Reindex, Planner | None]:
    """Answer what needs no plan, with the planner; without one where no plan can be made."""
    corner, wanted = task.corner, task.wanted
    refuse_more_than_the_thread(corner, wanted)
    fit, spring = fit_of(corner), corner.torsional_rates
    low, high = reachable(corner)
    height = None if wanted.same_height else wanted_height(corner, wanted)
    answer = attrs.evolve(_without_plans(fit, low=low, high=high), wanted_height=height)
    if spring is None or fit.verdict is Verdict.DOES_NOT_FIT:
        return answer, None
    now = task.now
    if fit.verdict is Verdict.NEEDS_FIGURES and corner.setup.parts != now.setup.parts:
        return attrs.evolve(answer, verdict=fit.verdict, findings=fit.findings), None
    way = unloading_now(now)
    if way is None:
        return _refused(answer, Verdict.CANNOT_BE_ASSEMBLED, impossible(now.setup))
    pin = None if now.setup.adjuster is None else quantity(now.setting_now, LENGTH)
    wanted = task.wish
    height = wanted_height(corner, wanted)
    answer = attrs.evolve(answer, wanted_height=height, unloading=way, pin_now=pin)
    angle = wanted_angle(corner, wanted)
    if angle is None:
        return _refused(answer, Verdict.OUT_OF_REACH, out_of_travel(corner, wanted))
    free = free_angle_for(corner, spring, angle)
    if corner.is_slack(angle - free):
        return _refused(answer, Verdict.OUT_OF_REACH, no_torque(angle, free_angle=free))
    planner = FixedPlanner if corner.setup.adjuster is None else Planner
    return answer, planner(
        corner,
        spring,
        angle=angle,
        present=now.setup,
        unloading=way,
        wanted=task.wanted,
    )


def _refused(answer: Reindex, verdict: Verdict, finding: Finding) -> tuple[Reindex, None]:
    return attrs.evolve(answer, verdict=verdict, findings=(finding,)), None


def _with_cautions(answer: Reindex) -> Reindex:
    """Add the cautions of the preferred plan."""
    return attrs.evolve(answer, cautions=answer.plans[0].cautions) if answer.plans else answer
