"""``barwright vehicles``: the vehicles of all installed packs."""

from __future__ import annotations

import json

import click

from barwright.cli.asking import installed, json_option, listing_code, show, units_option
from barwright.report.json import plain
from barwright.report.system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("vehicles")
@click.argument("words", nargs=-1)
@units_option
@json_option
def command(words: tuple[str, ...], *, as_json: bool, system: System) -> int:
    """List vehicles whose id or title holds all WORDS."""
    from barwright.report.text import vehicles_text  # noqa: PLC0415 - rich is slow to load

    registry = installed()
    found = [
        in_units(chassis, system)
        for chassis in registry.vehicles()
        if all(word.lower() in f"{chassis.id} {chassis.title}".lower() for word in words)
    ]
    if as_json:
        click.echo(json.dumps({"vehicles": [plain(c) for c in found]}, ensure_ascii=False))
    else:
        show(vehicles_text(found))
    return listing_code(registry, found)
