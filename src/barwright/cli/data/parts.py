"""``barwright parts``: the parts of all installed packs."""

from __future__ import annotations

import json
import re
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
from barwright.parts.record import Part
from barwright.registry.nearest_name import closest
from barwright.registry.packs.pack import KINDS
from barwright.registry.search.distinguish import listed
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
    """List parts whose id or title contains all WORDS."""
    from barwright.report.text.lists import parts_text  # noqa: PLC0415 - rich is slow to load

    cls = KINDS[kind] if kind else Part
    registry = installed()
    kept = [part for part in registry.parts() if isinstance(part, cls)]
    found = [in_units(part, system) for part in kept if _has_all(words, part)]
    if as_json:
        say_json(json.dumps({"parts": [plain(part) for part in found]}, ensure_ascii=False))
    elif found:
        show(parts_text(found).of(invented_packs(registry, found)))
    if words and not found:
        say(one_line(f"nothing found: {_why(words, kept)}"), err=True)
    return listing_code(registry, found)


def _has_all(words: Sequence[str], part: Part) -> bool:
    return all(word.lower() in _text(part) for word in words)


def _text(part: Part) -> str:
    return f"{part.id} {part.title}".lower()


def _why(words: Sequence[str], parts: Sequence[Part]) -> str:
    """Say which of the words is in the way."""
    for word in words:
        if not any(_has_all([word], part) for part in parts):
            near = closest(word.lower(), _known(parts))
            return f"did you mean {listed(map(repr, near))}?" if near else f"leave {word!r} out"
    rests = [(word, [other for other in words if other != word]) for word in words]
    in_the_way = [repr(word) for word, rest in rests if any(_has_all(rest, part) for part in parts)]
    return f"leave out {listed(in_the_way)}" if in_the_way else "use fewer words"


def _known(parts: Sequence[Part]) -> list[str]:
    """Words of all ids and titles."""
    return sorted({word for part in parts for word in re.findall(r"\w+", _text(part))})
