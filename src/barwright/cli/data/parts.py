"""``barwright parts``: the parts of all installed packs."""

from __future__ import annotations

import json
from collections.abc import Sequence

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
from barwright.parts.claim import Claim
from barwright.parts.common.record import Part
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.search.parts import why_none
from barwright.report.forms.json import plain, plain_part
from barwright.report.safe_text import one_line
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("parts")
@click.argument("words", nargs=-1)
@click.option(
    "--kind", type=click.Choice([k for k in KINDS if k != "chassis"]), help="List only this kind."
)
@click.option(
    "--for", "chassis", metavar="CHASSIS", help="List only parts that packs say fit this vehicle."
)
@units_option
@json_option
@registry_options
def command(
    words: tuple[str, ...], *, kind: str | None, chassis: str | None, as_json: bool, system: System
) -> int:
    """List parts with all WORDS: pieces of id, title or paint mark, or a part number."""
    from barwright.report.text.across.lists import parts_text  # noqa: PLC0415 - rich is slow to load

    cls = KINDS[kind] if kind else Part
    registry = installed()
    text = " ".join(words)
    listed = registry.offered(chassis) if chassis else registry.parts()
    kept = {part.id: part for part in listed if isinstance(part, cls)}
    found = [in_units(part, system) for part in registry.parts(text) if part.id in kept]
    claims = [claim for claim in registry.claims() if _is_of(claim, found)]
    if as_json:
        said = {"claims": list(map(plain_part, claims))} if chassis else {}
        listing = {"parts": list(map(plain, found)), **said}
        say_json(json.dumps(listing, ensure_ascii=False))
    elif found:
        show(parts_text(found, claims).of(invented_packs(registry, found)))
    if chassis and not kept:
        say(one_line(f"no installed pack says that its parts fit {chassis}"), err=True)
    elif words and not found:
        say(one_line(f"nothing found: {why_none(text, list(kept.values()))}"), err=True)
        say_limits()
    return listing_code(registry, found)


def _is_of(claim: Claim, parts: Sequence[Part]) -> bool:
    return not {part.id for part in parts}.isdisjoint(claim.parts)
