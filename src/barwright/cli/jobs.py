"""What the commands share: jobs, a question for each corner, text or JSON."""

from __future__ import annotations

import contextlib
import json
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import attrs
import click

from barwright.analysis.answer import Answer, Outcome
from barwright.analysis.tolerance.unmeasured import UnmeasuredSource, rests_on
from barwright.cli.output import say_json, show, shown_text
from barwright.cli.packs import installed, registry_options
from barwright.cli.printing import put_out
from barwright.cli.standard_input import SENDER, STANDARD_INPUT, sent
from barwright.errors import (
    BarwrightError,
    DocumentError,
    ExitCode,
    UnknownNameError,
)
from barwright.parts.common.record import Part
from barwright.parts.common.source import SourceKind
from barwright.parts.setup import Setup
from barwright.registry.files.key_lines import located
from barwright.registry.jobs.job import Job, JobCorner
from barwright.registry.jobs.load import job_of, jobs_of, load_job, load_jobs
from barwright.registry.packs.format.pack import PackHeader
from barwright.registry.registry import Registry
from barwright.report.forms.json import plain, plain_part
from barwright.report.safe_text import escaped_json
from barwright.report.unit_system import in_units
from barwright.units import System

if TYPE_CHECKING:
    from barwright.analysis.reindex.axle import PlanNumbers
    from barwright.report.text.layout.page import Page

__all__ = [
    "CornerAnswer",
    "ask",
    "ask_job",
    "by_side",
    "installed",
    "invented_packs",
    "invented_packs_of",
    "job_argument",
    "json_option",
    "listing_code",
    "load",
    "load_one",
    "locating_errors",
    "no_cut_option",
    "plan_numbers",
    "plan_option",
    "put_json",
    "registry_options",
    "units_option",
    "with_present_height",
    "without_cuts",
    "worst_exit_code",
]

T = TypeVar("T")
A = TypeVar("A", bound=Answer)

job_argument = click.argument("job", metavar="JOB.toml", type=click.Path())
units_option = click.option(
    "--units",
    "system",
    type=click.Choice(["metric", "inch"]),
    default="metric",
    show_default=True,
    help="Units of the output; input may use either system.",
)
no_cut_option = click.option(
    "--no-cut", is_flag=True, help="Only plans that remove no tooth and no key."
)
plan_option = click.option(
    "--plan",
    "plans",
    multiple=True,
    metavar="[SIDE=]NUMBER",
    help="Plan to follow on all corners or on one: 2, left=2, 'front left=2'; may be repeated.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON for a program.")


@attrs.frozen(eq=False)
class CornerAnswer:
    """An answer with what it was asked of."""

    job: Job
    corner: JobCorner
    answer: Any
    unmeasured: tuple[UnmeasuredSource, ...]

    @property
    def vehicle(self) -> str:
        """Title of the vehicle."""
        return self.corner.setup.chassis.title

    @property
    def short_place(self) -> str:
        """Variant and corner."""
        return f"{self.job.variant}, {self.corner.setup.corner}"


def plan_numbers(given: Sequence[str]) -> PlanNumbers:
    """Read the numbers of plans: one for all corners, or one for each that is named."""
    found = by_side(given, option="--plan", of="number", read=_plan_number)
    return found.get("", found)


def _plan_number(text: str) -> int | None:
    return int(text) if re.fullmatch(r"[0-9]{1,4}", text) else None


def by_side(
    given: Sequence[str], *, option: str, of: str, read: Callable[[str], T | None]
) -> dict[str, T]:
    """Read what an option says of all corners, or of each that is named.

    Parameters
    ----------
    given : sequence of str
        The texts of the option, each with a side or corner before it or without.
    option : str
        Its name.
    of : str
        What it takes, in a word.
    read : callable
        From a text to what it says, or to nothing if it is no such text.

    Returns
    -------
    dict of str to object
        By side or corner, or by no name for all of them.

    Raises
    ------
    click.UsageError
        For a text that cannot be read, and for a side that is named twice.
    """
    found: dict[str, T] = {}
    for text in given:
        name, mark, value = (piece.strip() for piece in text.rpartition("="))
        one = read(value)
        if one is None or (mark and not name) or name in found:
            word = of.upper()
            message = f"{option} takes {word} or SIDE={word}, each side once, and not {text!r}"
            raise click.UsageError(message)
        found[name] = one
    if "" in found and len(found) > 1:
        message = f"{option} takes one {of} for all corners, or one for each that is named"
        raise click.UsageError(message)
    return found


def load(path: str, registry: Registry) -> tuple[Job, ...]:
    """Read a job file that may name several vehicles and parts."""
    if path == STANDARD_INPUT:
        return _read(lambda: jobs_of(sent(), registry, name=SENDER), registry)
    return _read(lambda: load_jobs(path, registry), registry)


def without_cuts(job: Job) -> Job:
    """Ask of all corners of a job that no tooth is removed."""
    corners = (attrs.evolve(c, wanted=attrs.evolve(c.wanted, cuts=0)) for c in job.corners)
    return attrs.evolve(job, corners=tuple(corners))


def with_present_height(corner: JobCorner) -> JobCorner:
    """Say which height is wanted, where that is the present one and parts change.

    Of a corner that keeps its parts, a question finds that out by itself.
    """
    if corner.setup is corner.present or not corner.wanted.same_height:
        return corner
    from barwright.analysis.corner.corner import Corner  # noqa: PLC0415 - few jobs need these
    from barwright.analysis.rates.ride_height import with_height  # noqa: PLC0415

    wanted = with_height(corner.wanted, now=Corner(corner.present))
    return attrs.evolve(corner, wanted=wanted)


def load_one(path: str, registry: Registry) -> Job:
    """Read a job file that names one vehicle and one of each part."""
    if path == STANDARD_INPUT:
        return _read(lambda: job_of(sent(), registry, name=SENDER), registry)
    return _read(lambda: load_job(path, registry), registry)


def _read(reader: Callable[[], T], registry: Registry) -> T:
    """Call a reader; where a pack is broken, an unknown name is the pack's fault."""
    try:
        return reader()
    except DocumentError as error:
        unknown = any(isinstance(p, UnknownNameError) for p in error.problems)
        if registry.problems and unknown:
            error.exit_code = ExitCode.FAULT
        raise


# Keys of a job file, by what a question calls the same.
_JOB_KEYS = {
    "reading.height": "measured.height",
    "reading.arm_angle": "measured.arm_angle",
    "nut_turns": "present.nut_turns",
    "pin_distance": "present.pin_distance",
}


@contextlib.contextmanager
def locating_errors(path: str, options: Mapping[str, str] | None = None) -> Iterator[None]:
    """Say of an error that a question ends with where it lies: in a job file, or an option.

    Of an argument that an option of the command gives, the error tells the option.
    """
    try:
        yield
    except BarwrightError as error:
        if options and error.key in options:
            error.key = options[error.key]
            raise
        error.key = _JOB_KEYS.get(error.key, error.key)
        raise located([error.within(file=path)])[0] from None


def ask(
    path: str,
    question: Callable[[JobCorner], A],
    render: Callable[[A], Page],
    row: Callable[[A], dict[str, str]],
    *,
    as_json: bool,
    system: System,
    registry: Registry | None = None,
    options: Mapping[str, str] | None = None,
    unmeasured: Callable[[JobCorner, A], tuple[UnmeasuredSource, ...]] | None = None,
    output: Path | None = None,
) -> int:
    """Put a question to each corner of a job, print the answers, return the exit code.

    The corners of one variant are shown side by side; of several, each is a row of a table.
    ``options`` says of arguments of the question which option of the command gives them;
    ``unmeasured`` says what an answer rests on, if asking again with figures moved does not
    tell it. ``output`` is the file to write to instead.
    """
    rests = unmeasured or (lambda corner, answer: _unmeasured(question, corner, answer))
    return ask_job(
        path,
        lambda job: [question(with_present_height(corner)) for corner in job.corners],
        render,
        row,
        as_json=as_json,
        system=system,
        registry=registry,
        options=options,
        unmeasured=lambda corner, answer: rests(with_present_height(corner), answer),
        output=output,
    )


def ask_job(
    path: str,
    question: Callable[[Job], Sequence[A]],
    render: Callable[[A], Page],
    row: Callable[[A], dict[str, str]],
    *,
    as_json: bool,
    system: System,
    unmeasured: Callable[[JobCorner, A], tuple[UnmeasuredSource, ...]],
    registry: Registry | None = None,
    options: Mapping[str, str] | None = None,
    output: Path | None = None,
) -> int:
    """Put a question to all corners of a job at once, else as :func:`ask`."""
    jobs = load(path, registry or installed())
    with locating_errors(path, options):
        asked = [
            CornerAnswer(
                job, corner, in_units(answer, system), in_units(unmeasured(corner, answer), system)
            )
            for job in jobs
            for corner, answer in zip(job.corners, question(job), strict=True)
        ]
    if as_json:
        put_json(asked, output, job=path)
    else:
        _show(_page(asked, render, row), output, job=path)
    return worst_exit_code(one.answer.outcome for one in asked)


def put_json(asked: Sequence[CornerAnswer], output: Path | None, *, job: str) -> None:
    """Print the answers of a job as JSON, or write them to a file."""
    document = json.dumps({"answers": [_plain(one) for one in asked]}, ensure_ascii=False)
    if output is None:
        say_json(document)
    else:
        put_out(f"{escaped_json(document)}\n", output=output, job=job, title="answer")


def _show(page: Page, output: Path | None, *, job: str) -> None:
    if output is None:
        show(page)
    else:
        put_out(f"{shown_text(page)}\n", output=output, job=job, title="answer")


def _page(
    asked: Sequence[CornerAnswer], render: Callable[[A], Page], row: Callable[[A], dict[str, str]]
) -> Page:
    """Put the answers of one variant side by side, or sum several up in a table."""
    from barwright.report.sheet.notes import superseded  # noqa: PLC0415 - no JSON needs these
    from barwright.report.text.across.lists import rows_text  # noqa: PLC0415
    from barwright.report.text.grounds.trail import rests_on_text  # noqa: PLC0415
    from barwright.report.text.layout.corners import side_by_side  # noqa: PLC0415

    old = [f"{line}." for line in superseded(one.corner.setup for one in asked)]
    unmeasured = rests_on_text(found for one in asked for found in one.unmeasured)
    if len({id(one.job) for one in asked}) > 1:
        rows = [{"": one.short_place} | row(one.answer) for one in asked]
        return rows_text(rows, [one.answer.outcome for one in asked]).of(*old, unmeasured)
    pages = {one.corner.setup.corner: render(one.answer) for one in asked}
    return side_by_side(pages).of(asked[0].vehicle, *old, unmeasured)


def _unmeasured(
    question: Callable[[JobCorner], A], corner: JobCorner, answer: A
) -> tuple[UnmeasuredSource, ...]:
    """Find what an answer rests on, by asking again with figures of the corner moved."""

    def again(setup: Setup) -> A:
        is_known = setup is corner.setup
        return answer if is_known else question(attrs.evolve(corner, setup=setup))

    return rests_on(corner.setup, questions=[again])


def invented_packs(registry: Registry, found: Iterable[Part]) -> str:
    """Say which packs of what is listed hold invented figures; nothing if none does."""
    return invented_packs_of(registry, (part.id for part in found))


def invented_packs_of(registry: Registry, ids: Iterable[str]) -> str:
    """Say which packs of records hold invented figures; nothing if none does."""
    packs = dict.fromkeys(id_.partition(":")[0] for id_ in ids)
    invented = [pack for pack in packs if _is_invented(registry.store.header(pack))]
    return f"Packs with invented figures: {', '.join(invented)}" if invented else ""


def _is_invented(header: PackHeader | None) -> bool:
    sources = header.source if header else ()
    return any(source.kind is SourceKind.INVENTED for source in sources)


def listing_code(registry: Registry, found: Sequence[object]) -> int:
    """Return the exit code of a listing: 1 if it is empty, 3 if all packs are broken."""
    if registry.problems and not registry.packs:
        return ExitCode.FAULT
    return ExitCode.FINE if found else ExitCode.NO


def worst_exit_code(outcomes: Iterable[Outcome]) -> int:
    """Return the exit code of the worst outcome."""
    return max((outcome.exit_code for outcome in outcomes), default=0)


def _plain(one: CornerAnswer) -> dict[str, Any]:
    setup = one.corner.setup
    asked_of = {
        "job": one.job.title,
        "variant": one.job.variant,
        "vehicle": setup.chassis.id,
        "corner": setup.corner,
    }
    unmeasured = [plain_part(found) for found in one.unmeasured]
    return asked_of | {"rests_on": unmeasured, "answer": plain(one.answer)}
