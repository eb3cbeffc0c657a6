"""``barwright parts``: the parts of all installed packs."""

from __future__ import annotations

import json

import click

from barwright.cli.asking import (
    installed,
    json_option,
    listing_code,
    registry_options,
    units_option,
)
from barwright.cli.output import say_json, show
from barwright.parts.source import Part
from barwright.registry.pack import KINDS
from barwright.report.json import plain
from barwright.report.system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("parts")
@click.argument("words", nargs=-1)
@registry_options
@click.option("--kind", type=click.Choice([k for k in KINDS if k != "chassis"]), help="Only these.")
@units_option
@json_option
def command(words: tuple[str, ...], *, kind: str | None, as_json: bool, system: System) -> int:
    """List parts whose id or title holds all WORDS."""
    from barwright.report.text import parts_text  # noqa: PLC0415 - rich is slow to load

    cls = KINDS[kind] if kind else Part
    registry = installed()
    found = [
        in_units(part, system)
        for part in registry.parts()
        if isinstance(part, cls)
        and all(word.lower() in f"{part.id} {part.title}".lower() for word in words)
    ]
    if as_json:
        say_json(json.dumps({"parts": [plain(part) for part in found]}, ensure_ascii=False))
    else:
        show(parts_text(found))
    return listing_code(registry, found)
