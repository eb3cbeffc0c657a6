"""``barwright vehicles``: the vehicles of all installed packs."""

from __future__ import annotations

import json

import click

from barwright.cli.asking import installed, json_option, show
from barwright.report.json import plain

__all__ = ["command"]


@click.command("vehicles")
@json_option
def command(*, as_json: bool) -> int:
    """List the vehicles of all installed packs by their ids."""
    registry = installed()
    if as_json:
        vehicles = [plain(chassis) for chassis in registry.vehicles()]
        click.echo(json.dumps({"vehicles": vehicles}, ensure_ascii=False))
    else:
        from barwright.report.text import vehicles_text  # noqa: PLC0415 - rich is slow to load

        show(vehicles_text(registry.vehicles()))
    return 3 if registry.problems and not registry.packs else 0
