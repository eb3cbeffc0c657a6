"""Check job files: all that is wrong with a file, or the answers for its corners."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from os import PathLike
from pathlib import Path

import attrs

from barwright.analysis.across.house_rules import HouseRules
from barwright.analysis.across.job_files import jobs_in
from barwright.analysis.answer import Answer, Outcome, Verdict
from barwright.analysis.reindex.axle import plans_together
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.reindex import CornerTask
from barwright.analysis.reindex.work_rests_on import task_rests_on
from barwright.analysis.tolerance.unmeasured import UnmeasuredSource
from barwright.errors import (
    BarwrightError,
    DocumentError,
    ExitCode,
    UnknownNameError,
)
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.parts.common.in_short import Summarised
from barwright.registry.files.key_lines import located
from barwright.registry.jobs.job import Job
from barwright.registry.lock import check_lock, read_lock
from barwright.registry.registry import Registry

__all__ = [
    "CornerCheck",
    "FileProblem",
    "JobCheck",
    "check_job",
    "check_packs",
]


@attrs.frozen(kw_only=True, repr=False)
class FileProblem(Summarised):
    """One thing that is wrong with a file.

    Parameters
    ----------
    code : str
        Stable code; ``barwright explain`` explains it.
    value, expected, remedy : str
        What was found, what was expected, and what to do.
    file : str
        The file.
    line : int
        Line in it, 0 if not known.
    key : str
        Path of the key.
    """

    code: str
    value: str
    expected: str
    remedy: str
    file: str
    line: int
    key: str

    @property
    def place(self) -> str:
        """File and, where it is known, line."""
        return f"{self.file}:{self.line}" if self.line else self.file

    @property
    def text(self) -> str:
        """The problem in a sentence, without its place."""
        key = f"{self.key}: " if self.key else ""
        return f"{key}got {self.value!r}, expected {self.expected}; {self.remedy}"


@attrs.frozen(kw_only=True, repr=False)
class CornerCheck(Answer):
    """The answer for one corner of one variant.

    Parameters
    ----------
    verdict : Verdict
        Verdict of the plans, or *strength not known* if the strength was required.
    findings : tuple of Finding
        Why it is refused, or what to know.
    cautions : tuple of Caution
        For the work of the plan.
    vehicle_id, corner, variant : str
        Which one.
    plan : Plan, optional
        The preferred plan, if there is one.
    """

    vehicle_id: str
    corner: str
    variant: str
    plan: Plan | None

    @property
    def place(self) -> str:
        """Corner and variant."""
        return ", ".join(filter(None, (self.corner, self.variant)))

    @property
    def outcome(self) -> Outcome:
        """Outcome of the answer; a required strength that is not known counts as missing."""
        if self.verdict is Verdict.STRENGTH_NOT_KNOWN:
            return Outcome.NEEDS_FIGURES
        return super().outcome

    @property
    def has_conditions(self) -> bool:
        """Whether teeth must be changed or something must be known."""
        plan = self.plan
        return bool(self.findings or (plan and (plan.disturbed or plan.findings)))

    @property
    def headline(self) -> str:
        """The preferred plan in short, or why there is none."""
        if self.plan is None or not self.outcome.is_good:
            return self.refused()
        sentence = self.plan.summary
        return sentence[0].upper() + sentence[1:]


@attrs.frozen(kw_only=True, repr=False)
class JobCheck(Summarised):
    """Result of checking one job file.

    Parameters
    ----------
    file : str
        The file.
    exit_code : int
        Exit code of the command: 0 fine, 1 the answer is no or needs more figures, 2 bad input,
        3 a fault of the program or of a data pack.
    corners : tuple of CornerCheck
        Answers; none if the file has problems.
    problems : tuple of FileProblem
        All problems of the file.
    rests_on : tuple of UnmeasuredSource
        Unmeasured and unpublished sources that the answers depend on.
    """

    file: str
    exit_code: int
    corners: tuple[CornerCheck, ...] = ()
    problems: tuple[FileProblem, ...] = ()
    rests_on: tuple[UnmeasuredSource, ...] = ()

    def _in_short(self) -> str:
        """Summarise it by its file and its headline."""
        return f"{self.file}: {self.headline}"

    @property
    def headline(self) -> str:
        """The answers for its corners, or the first problem."""
        if self.problems:
            more = f" And {len(self.problems) - 1} more." if self.problems[1:] else ""
            return f"Bad input: {self.problems[0].text}.{more}"
        lines = dict.fromkeys(f"{c.corner.capitalize()}: {c.headline}" for c in self.corners)
        return " ".join(lines)

    @property
    def outcome(self) -> Outcome:
        """The worst outcome of its corners; *no* if the file has problems."""
        if self.problems:
            return Outcome.NO
        return max((c.outcome for c in self.corners), key=list(Outcome).index, default=Outcome.FINE)

    @property
    def mark(self) -> str:
        """The exit code in a word."""
        return ("good", "no", "bad", "fault")[self.exit_code]

    @property
    def reasons(self) -> tuple[str, ...]:
        """Why each refused corner is refused, a line each."""
        return tuple(
            f"{c.place}: {c.verdict.value}: "
            + "; ".join(dict.fromkeys(finding.line for finding in c.findings))
            for c in self.refused
        )

    @property
    def remarks(self) -> tuple[str, ...]:
        """What to know about the corners that are not refused, each once."""
        reported: dict[str, list[str]] = {}
        for corner in self.corners:
            for finding in corner.findings if corner.outcome.is_good else ():
                reported.setdefault(finding.line, []).append(corner.place)
        return tuple(f"{' and '.join(places)}: {line}" for line, places in reported.items())

    @property
    def refused(self) -> tuple[CornerCheck, ...]:
        """Corners whose answer is no."""
        return tuple(c for c in self.corners if not c.outcome.is_good)


@checks_arguments
def check_job(
    path: str | PathLike[str],
    registry: Registry,
    *,
    require_strength: bool = False,
    require_no_cuts: bool = False,
    max_stress: FigureLike | None = None,
) -> JobCheck:
    """Answer whether a job file is good, with all its answers.

    Parameters
    ----------
    path : path
        The file.
    registry : Registry
        Where its vehicles and parts are looked up.
    require_strength : bool
        Whether a job whose bars are of unknown strength is refused.
    require_no_cuts : bool
        Whether a job is refused that goes only with a tooth removed or a key cleared.
    max_stress : str or Quantity, optional
        Shear stress that no bar may exceed, where its steel does not permit less.

    Returns
    -------
    JobCheck

    Raises
    ------
    QuantityError
        If ``max_stress`` is not a stress.  What is wrong with the file is in the answer.

    Examples
    --------
    >>> check_job(Path("no-such-job.toml"), Registry.discover()).problems[0].code
    'F101'
    """
    path = Path(path)
    rules = HouseRules(
        strength_known=require_strength, no_cuts=require_no_cuts, max_stress=max_stress
    )
    try:
        jobs = jobs_in(path, registry)
        tasks = [[rules.task(corner) for corner in job.corners] for job in jobs]
        corners = tuple(_answers(jobs, tasks, rules))
        unmeasured = tuple(_unmeasured(tasks))
    except BarwrightError as error:
        return _bad(path, error, code=_code(error, registry))
    except Exception as error:  # noqa: BLE001 - one file's fault must not stop the others
        return JobCheck(
            file=str(path), exit_code=ExitCode.FAULT.value, problems=(_fault(error, str(path)),)
        )
    code = max((corner.outcome.exit_code for corner in corners), default=0)
    return JobCheck(file=str(path), exit_code=int(code), corners=corners, rests_on=unmeasured)


def check_packs(lock: Path, registry: Registry) -> JobCheck | None:
    """Answer whether the packs are those of a lock.

    Parameters
    ----------
    lock : Path
        The file.
    registry : Registry
        The packs.

    Returns
    -------
    JobCheck or None
        What differs, as problems of the lock's file; none if nothing does.
    """
    try:
        check_lock(registry, read_lock(lock), file=str(lock))
    except BarwrightError as error:
        return _bad(lock, error, code=int(error.exit_code))
    return None


def _answers(
    jobs: Sequence[Job], tasks: Sequence[Sequence[CornerTask]], rules: HouseRules
) -> Iterator[CornerCheck]:
    for job, of_job in zip(jobs, tasks, strict=True):
        for corner, answer in zip(job.corners, plans_together(of_job), strict=True):
            lacks = rules.lacks_strength(corner.setup, answer)
            yield CornerCheck(
                verdict=Verdict.STRENGTH_NOT_KNOWN if lacks else answer.verdict,
                findings=answer.findings,
                cautions=answer.cautions,
                vehicle_id=corner.setup.chassis.id,
                corner=corner.setup.corner,
                variant=job.variant,
                plan=answer.plans[0] if answer.plans else None,
            )


def _unmeasured(tasks: Iterable[Iterable[CornerTask]]) -> Iterable[UnmeasuredSource]:
    """List the unmeasured sources of the answers, each once."""
    found: dict[UnmeasuredSource, None] = {}
    for of_job in tasks:
        for task in of_job:
            found |= dict.fromkeys(task_rests_on(task, known=found))
    return found


def _bad(path: Path, error: BarwrightError, *, code: int) -> JobCheck:
    """Return the check of a file that has problems."""
    found = located([p.within(file=str(path)) for p in _all(error)])
    problems = tuple(FileProblem(**problem.fields) for problem in found)
    return JobCheck(file=str(path), exit_code=code, problems=problems)


def _all(error: BarwrightError) -> Sequence[BarwrightError]:
    return error.problems if isinstance(error, DocumentError) else (error,)


def _code(error: BarwrightError, registry: Registry) -> int:
    """Exit code of an error; a name that a broken pack may contain is the pack's fault."""
    unknown = any(isinstance(p, UnknownNameError) for p in _all(error))
    return int(ExitCode.FAULT if registry.problems and unknown else error.exit_code)


def _fault(error: Exception, file: str) -> FileProblem:
    return FileProblem(
        code="U101",
        value=f"{type(error).__name__}: {error}",
        expected="an answer",
        remedy="report it with the job file and the version",
        file=file,
        line=0,
        key="",
    )
