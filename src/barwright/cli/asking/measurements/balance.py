"""``barwright balance``: corner weights, and the turns of the nuts that put them right."""

from __future__ import annotations

import json

import click

from barwright.analysis.balancing.balance import balance
from barwright.analysis.balancing.balance_answer import BalanceAim
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
from barwright.parts.measurements.whole_vehicle import WholeVehicle
from barwright.report.forms.json import plain
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]

_AIMS = {"heights": BalanceAim.HEIGHTS, "cross-weight": BalanceAim.CROSS_WEIGHT}
_AIMS["both"] = BalanceAim.BOTH


@click.command("balance")
@job_argument
@click.option(
    "--aim",
    type=click.Choice(list(_AIMS)),
    help="What the nuts are set for. Default: heights with two nuts, both with four.",
)
@units_option
@json_option
@registry_options
def command(job: str, *, aim: str | None, as_json: bool, system: System) -> int:
    """Say which turns of the nuts balance a vehicle, by its four scales and its heights.

    The job says what is on the car, the wanted height, and under [balance.front.left] and the
    like what was read at each wheel: scale_reading, height and pin_distance.
    """
    from barwright.report.text.measurements.balance import balance_text  # noqa: PLC0415 - rich is slow

    registry = installed()
    loaded = load_one(job, registry)
    setups = [corner.present for corner in loaded.corners]
    with locating_errors(job):
        answer = balance(
            setups,
            vehicle=loaded.vehicle or WholeVehicle(),
            wanted=[corner.wanted for corner in loaded.corners],
            aim=None if aim is None else _AIMS[aim],
        )
    answer = in_units(answer, system)
    if as_json:
        say_json(json.dumps({"answers": [{"answer": plain(answer)}]}, ensure_ascii=False))
    else:
        named = [part for setup in setups for part in setup.parts.values()]
        show(balance_text(answer).of(setups[0].chassis.title, invented_packs(registry, named)))
    return answer.outcome.exit_code
