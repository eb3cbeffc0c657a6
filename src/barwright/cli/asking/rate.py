"""``barwright rate``: the rate of a bar by itself, and with a torque tube."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import TypeVar

import click

from barwright.analysis.bar_rate import bar_rate, bar_rests_on
from barwright.cli.jobs import installed, json_option, registry_options, units_option
from barwright.cli.output import say_json, show
from barwright.errors import ExitCode, UnknownNameError
from barwright.parts.common.record import Part
from barwright.registry.registry import Registry
from barwright.registry.usual.fill import UsualFigures
from barwright.report.forms.json import plain, plain_part
from barwright.report.unit_system import in_units
from barwright.units import TORQUE, System, to_kind

__all__ = ["command"]

P = TypeVar("P", bound=Part)


@click.command("rate")
@click.argument("bar", metavar="BAR")
@click.option("--tube", metavar="TUBE", help="Torque tube that the bar lies in, by its id.")
@click.option(
    "--torque", default="1000 N*m", show_default=True, help="Torque for twist and stress."
)
@click.option(
    "--assume",
    type=click.Choice(["usual"]),
    help="Use usual ranges for unknown figures.",
)
@units_option
@json_option
@registry_options
def command(
    bar: str, *, tube: str | None, torque: str, assume: str | None, as_json: bool, system: System
) -> int:
    """Give the rate of a bar by its id, alone and with a torque tube; it needs no vehicle.

    To list the bars: barwright parts --kind bar
    """
    from barwright.report.text.bar_rate import bar_rate_text  # noqa: PLC0415 - rich is slow
    from barwright.report.text.grounds.trail import rests_on_text  # noqa: PLC0415 - no JSON needs it

    load = to_kind(torque, TORQUE, key="--torque", allowed="positive")
    registry = installed()
    the_bar = _found(registry, registry.bar, bar, key="BAR")
    the_tube = None if tube is None else _found(registry, registry.tube, tube, key="--tube")
    if assume:
        the_bar, the_tube = UsualFigures().put_into((the_bar, the_tube))
    answer = in_units(bar_rate(the_bar, tube=the_tube, torque=load), system)
    unmeasured = in_units(bar_rests_on(the_bar, tube=the_tube), system)
    if as_json:
        rests_on = [plain_part(source) for source in unmeasured]
        asked = {"bar": answer.bar_id, "tube": answer.tube_id, "rests_on": rests_on}
        document = {"answers": [asked | {"answer": plain(answer)}]}
        say_json(json.dumps(document, ensure_ascii=False))
    else:
        show(bar_rate_text(answer).of(rests_on_text(unmeasured)))
    return answer.outcome.exit_code


def _found(registry: Registry, look_up: Callable[[str], P], name: str, *, key: str) -> P:
    """Look a part up; where a pack is broken, an unknown name is the pack's fault."""
    try:
        return look_up(name)
    except UnknownNameError as error:
        error.key = key
        if registry.problems:
            error.exit_code = ExitCode.FAULT
        raise
