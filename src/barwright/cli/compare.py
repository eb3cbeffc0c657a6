"""``barwright compare``: two jobs side by side, every figure with its change."""

from __future__ import annotations

import json

import click

from barwright.analysis.compare import compare
from barwright.cli.asking import installed, json_option, load_one, show, units_option
from barwright.report.json import plain
from barwright.report.system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("compare")
@click.argument("job", metavar="JOB.toml", type=click.Path())
@click.argument("other", metavar="OTHER.toml", type=click.Path())
@units_option
@json_option
def command(job: str, other: str, *, as_json: bool, system: System) -> int:
    """Put the corners of two jobs side by side, in the order in which they list them."""
    from barwright.report.text import comparison_text  # noqa: PLC0415 - rich is slow to load

    registry = installed()
    pairs = zip(load_one(job, registry).corners, load_one(other, registry).corners, strict=False)
    answers = [
        compare(one.setup, two.setup, wanted=one.wanted, other_wanted=two.wanted)
        for one, two in pairs
    ]
    answers = [in_units(answer, system) for answer in answers]
    if as_json:
        click.echo(json.dumps({"answers": [plain(a) for a in answers]}, ensure_ascii=False))
    else:
        for answer in answers:
            show(comparison_text(answer))
            click.echo()
    return 0
