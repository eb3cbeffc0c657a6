"""``barwright diagnose``: why a car stands too low or too high."""

from __future__ import annotations

import json

import click

from barwright.analysis.diagnosis.diagnose import diagnose
from barwright.cli.jobs import (
    installed,
    invented_packs,
    job_argument,
    json_option,
    load_one,
    locating_errors,
    registry_options,
    units_option,
)
from barwright.cli.output import say_json, show
from barwright.report.forms.json import plain
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("diagnose")
@job_argument
@units_option
@json_option
@registry_options
def command(job: str, *, as_json: bool, system: System) -> int:
    """Say why a car stands too low or too high, by the heights that a job has measured.

    The job says what should be on the car, and under [measured.left] and [measured.right]
    what was measured: height, pin_distance and, if it was weighed, scale_reading. It
    is set to the height under [wanted], or with same_height to the one that it should
    have with that nut.
    """
    from barwright.report.text.measurements.diagnosis import diagnosis_text  # noqa: PLC0415 - rich is slow

    registry = installed()
    loaded = load_one(job, registry)
    setups = [corner.present for corner in loaded.corners]
    with locating_errors(job):
        wanted = [corner.wanted for corner in loaded.corners]
        answer = in_units(diagnose(setups, registry=registry, wanted=wanted), system)
    if as_json:
        say_json(json.dumps({"answers": [{"answer": plain(answer)}]}, ensure_ascii=False))
    else:
        named = [part for setup in setups for part in setup.parts.values()]
        show(diagnosis_text(answer).of(setups[0].chassis.title, invented_packs(registry, named)))
    return answer.outcome.exit_code
