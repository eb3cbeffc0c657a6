"""``barwright matrix``: every bar on every vehicle."""

from __future__ import annotations

import contextlib
import json
from pathlib import Path
from typing import Any

import click

from barwright.cli.jobs import (
    installed,
    invented_packs_of,
    json_option,
    locating_errors,
    registry_options,
    units_option,
)
from barwright.cli.output import say_json, show
from barwright.cli.packs import ProgressBar
from barwright.errors import ExitCode
from barwright.family.family_file import FamilyFile, write_family_matrix
from barwright.family.matrix import FamilyMatrix, family_matrix
from barwright.report.forms.json import plain
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]

_OPTIONS = {"height": "--height"}


@click.command("matrix")
@click.option("--bars", default="", metavar="WORDS", help="Only bars that these words describe.")
@click.option(
    "--vehicles", default="", metavar="WORDS", help="Only vehicles that these words describe."
)
@click.option(
    "--height",
    metavar="LENGTH",
    help="Rate all at this height, hub to arch; at each axle's standard height if left out.",
)
@click.option("--clocking", is_flag=True, help="Also look for the teeth that bring the height.")
@click.option("--pruned", is_flag=True, help="Also list pairs that splines or lengths exclude.")
@click.option(
    "--processes",
    type=click.IntRange(min=1),
    metavar="NUMBER",
    help="The most processes to share the work; on Linux all processors if left out.",
)
@click.option(
    "--output",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write the rows to this Parquet file; what was interrupted goes on where it was.",
)
@units_option
@json_option
@registry_options
def command(
    *,
    bars: str,
    vehicles: str,
    height: str | None,
    clocking: bool,
    pruned: bool,
    processes: int | None,
    output: Path | None,
    as_json: bool,
    system: System,
) -> int:
    """Put every bar on every vehicle: rows for a program, or a file of them.

    Each corner keeps its other standard parts and its standard load.  To read the rows as a
    chart: barwright family
    """
    from barwright.report.text.across.family import file_text, matrix_text  # noqa: PLC0415 - rich is slow

    registry = installed()
    asked: dict[str, Any] = {"bars": bars, "vehicles": vehicles, "height": height}
    asked |= {"clocking": clocking, "pruned": pruned, "processes": processes}
    with contextlib.ExitStack() as stack, locating_errors("", _OPTIONS):
        bar = ProgressBar(stack, label="vehicles" if output is None else "parts")
        answer: FamilyMatrix | FamilyFile
        if output is None:
            answer = family_matrix(registry, **asked, progress=bar)
        else:
            answer = write_family_matrix(registry, output, **asked, progress=bar)
    shown = in_units(answer, system)
    if as_json:
        say_json(json.dumps({"answers": [plain(shown)]}, ensure_ascii=False))
    elif isinstance(shown, FamilyFile):
        show(file_text(shown))
    else:
        ids = (id_ for row in shown.rows for id_ in (row.vehicle_id, row.bar_id))
        show(matrix_text(shown).of(invented_packs_of(registry, ids)))
    if registry.problems and not registry.packs:
        return ExitCode.FAULT
    return answer.outcome.exit_code
