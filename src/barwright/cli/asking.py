"""What the commands share: a job, a question for each corner, text or JSON."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any, TypeVar

import click

from barwright.analysis.finding import Outcome, Verdict
from barwright.errors import DocumentError, UnknownNameError
from barwright.registry.index import Registry
from barwright.registry.job import Job, JobCorner, load_job
from barwright.report.json import plain
from barwright.report.system import in_units
from barwright.units import System

__all__ = [
    "ask",
    "installed",
    "job_argument",
    "json_option",
    "load",
    "show",
    "units_option",
    "worst",
]

T = TypeVar("T")

_WIDTH_OF_A_PIPE = 110

job_argument = click.argument("job", metavar="JOB.toml", type=click.Path())
units_option = click.option(
    "--units",
    "system",
    type=click.Choice(["metric", "inch"]),
    default="metric",
    show_default=True,
    help="Units of the output; input may be in either at any time.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON for a program.")


def installed() -> Registry:
    """Load the registry, and say which packs were left out."""
    registry = Registry.discover()
    for problem in registry.problems:
        for line in str(problem).splitlines():
            click.echo(f"warning: pack {problem.file!r} is left out: {line}", err=True)
    return registry


def load(path: str) -> Job:
    """Read a job file; where a pack is broken, an unknown name is the pack's fault."""
    registry = installed()
    try:
        return load_job(path, registry)
    except DocumentError as error:
        unknown = any(isinstance(p, UnknownNameError) for p in error.problems)
        if registry.problems and unknown:
            error.exit_code = 3
        raise


def ask(
    path: str,
    question: Callable[[JobCorner], T],
    render: Callable[[T], Any],
    verdict: Callable[[T], Outcome | Verdict],
    *,
    as_json: bool,
    system: System,
) -> int:
    """Put a question to each corner of a job, print the answers, return the exit code."""
    job = load(path)
    answers = {c.setup.corner: in_units(question(c), system) for c in job.corners}
    if as_json:
        corners = {name: plain(answer) for name, answer in answers.items()}
        click.echo(json.dumps({"job": job.title, "corners": corners}, ensure_ascii=False))
    else:
        for name, answer in answers.items():
            click.echo(f"{job.corners[0].setup.chassis.title}, {name}")
            show(render(answer))
            click.echo()
    return worst([verdict(answer) for answer in answers.values()])


def show(renderable: Any) -> None:  # noqa: ANN401 - anything that rich shows
    """Print a renderable to the terminal, or at a fixed width into a pipe."""
    from rich.console import Console  # noqa: PLC0415 - costs 45 ms, and JSON needs none of it

    plain_text: dict[str, Any] = {"highlight": False, "markup": False, "emoji": False}
    console = Console(**plain_text)
    if console.is_terminal:
        console.print(renderable)
        return
    console = Console(**plain_text, width=_WIDTH_OF_A_PIPE, color_system=None)
    with console.capture() as captured:
        console.print(renderable)
    click.echo("\n".join(line.rstrip() for line in captured.get().splitlines()))


def worst(verdicts: list[Outcome | Verdict]) -> int:
    """Return exit code 1 if any answer is no, else 0."""
    good = (Outcome.REACHED, Verdict.FITS, Verdict.FITS_WITH_CHANGES)
    return 0 if all(verdict in good for verdict in verdicts) else 1
