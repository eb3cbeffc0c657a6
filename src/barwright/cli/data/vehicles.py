"""``barwright vehicles``: the vehicles of all installed packs."""

from __future__ import annotations

import json

import click

from barwright.cli.jobs import (
    installed,
    invented_packs,
    json_option,
    listing_code,
    registry_options,
    units_option,
)
from barwright.cli.output import say, say_json, show
from barwright.cli.packs import say_limits
from barwright.errors import UnknownNameError
from barwright.registry.registry import Registry
from barwright.report.forms.json import plain
from barwright.report.safe_text import one_line
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("vehicles")
@click.argument("words", nargs=-1)
@click.option(
    "--one", is_flag=True, help="Require exactly one match; else say what tells them apart."
)
@units_option
@json_option
@registry_options
def command(words: tuple[str, ...], *, one: bool, as_json: bool, system: System) -> int:
    """List vehicles that match all WORDS: words of id, title or attributes, or dates."""
    from barwright.report.text.across.lists import vehicles_text  # noqa: PLC0415 - rich is slow to load

    registry = installed()
    text = " ".join(words)
    vehicles = (registry.resolve(text),) if one else registry.vehicles(text)
    found = [in_units(chassis, system) for chassis in vehicles]
    if as_json:
        say_json(json.dumps({"vehicles": [plain(c) for c in found]}, ensure_ascii=False))
    elif found:
        show(vehicles_text(found).of(invented_packs(registry, found)))
    if not found and registry.packs:
        _say_why(registry, text)
        say_limits()
    return listing_code(registry, found)


def _say_why(registry: Registry, text: str) -> None:
    """Say which of the words is in the way, or that there is no vehicle at all."""
    if not registry.ids("chassis"):
        say("no pack has a vehicle; to list the parts: barwright parts", err=True)
        return
    try:
        registry.resolve(text)
    except UnknownNameError as error:
        say(one_line(f"nothing found: {error.remedy}"), err=True)
