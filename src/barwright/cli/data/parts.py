"""``barwright parts``: the parts of all installed packs."""

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
from barwright.parts.record import Part
from barwright.registry.packs.pack import KINDS
from barwright.registry.search.parts import why_none
from barwright.report.forms.json import plain
from barwright.report.safe_text import one_line
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("parts")
@click.argument("words", nargs=-1)
@registry_options
@click.option(
    "--kind", type=click.Choice([k for k in KINDS if k != "chassis"]), help="List only this kind."
)
@units_option
@json_option
def command(words: tuple[str, ...], *, kind: str | None, as_json: bool, system: System) -> int:
    """List parts with all WORDS: pieces of id, title or paint mark, or a part number."""
    from barwright.report.text.lists import parts_text  # noqa: PLC0415 - rich is slow to load

    cls = KINDS[kind] if kind else Part
    registry = installed()
    text = " ".join(words)
    found = [in_units(part, system) for part in registry.parts(text) if isinstance(part, cls)]
    if as_json:
        say_json(json.dumps({"parts": [plain(part) for part in found]}, ensure_ascii=False))
    elif found:
        show(parts_text(found).of(invented_packs(registry, found)))
    if words and not found:
        kept = [part for part in registry.parts() if isinstance(part, cls)]
        say(one_line(f"nothing found: {why_none(text, kept)}"), err=True)
    return listing_code(registry, found)
