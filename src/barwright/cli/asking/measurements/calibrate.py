"""``barwright calibrate``: the spring that a corner really has, from several readings."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

import click

from barwright.analysis.calibration.calibrate import calibrate
from barwright.analysis.calibration.calibrated_corner import CalibratedCorner
from barwright.analysis.calibration.measured_rates import MeasuredRate, measured_rates
from barwright.analysis.tolerance.unmeasured import rests_on
from barwright.cli.jobs import (
    ask_job,
    job_argument,
    json_option,
    registry_options,
    units_option,
)
from barwright.cli.output import say
from barwright.parts.common.source import Source, SourceKind
from barwright.registry.authoring.scaffold import new_corrections
from barwright.registry.jobs.job import Job
from barwright.registry.overlays.correction import Correction
from barwright.units import System, shown

__all__ = ["command"]

_SOURCE = "readings"


@click.command("calibrate")
@job_argument
@click.option(
    "--output",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Write the measured rates into a new folder: an overlay for this vehicle.",
)
@units_option
@json_option
@registry_options
def command(job: str, *, output: Path | None, as_json: bool, system: System) -> int:
    """Find torsional rate and free angle from several readings of each corner.

    Write each reading into the job as [[measured.left]] or [[measured.right]].
    """
    from barwright.report.text.measurements.calibration import (  # noqa: PLC0415 - rich is slow to load
        calibration_row,
        calibration_text,
    )

    written: list[Path] = []

    def question(loaded: Job) -> Sequence[CalibratedCorner]:
        answers = [calibrate(corner.present) for corner in loaded.corners]
        if output is not None and not written:
            written.extend(_write(output, loaded, answers))
        return answers

    code = ask_job(
        job,
        question,
        calibration_text,
        calibration_row,
        as_json=as_json,
        system=system,
        unmeasured=lambda corner, _: rests_on(corner.present, questions=[calibrate]),
    )
    for path in written:
        say(str(path), err=as_json)
    return code


def _write(folder: Path, job: Job, answers: Sequence[CalibratedCorner]) -> tuple[Path, ...]:
    """Write what was measured as an overlay: the rate of each bar."""
    now = dt.datetime.now(tz=dt.UTC)
    vehicle = job.corners[0].present.chassis.id
    source = Source(
        id=_SOURCE,
        kind=SourceKind.MEASURED,
        note=f"measured on this vehicle, {vehicle}; calibrated {now:%Y-%m-%d}",
    )
    rates = measured_rates([corner.present for corner in job.corners], answers)
    return new_corrections(folder, [_correction(rate) for rate in rates], source)


def _correction(found: MeasuredRate) -> Correction:
    """Correct the rate of a bar."""
    return Correction(
        of=found.bar,
        figure="measured_rate",
        is_=f"{shown(found.rate, 3)} ± {shown(found.tolerance, 3)}",
        source=_SOURCE,
        at=found.place,
        why="measured on this vehicle",
    )
