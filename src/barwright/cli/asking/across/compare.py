"""``barwright compare``: two jobs side by side, every figure with its change."""

from __future__ import annotations

import json

import click

from barwright.analysis.across.compare import Comparison, compare
from barwright.cli.jobs import (
    installed,
    json_option,
    load_one,
    registry_options,
    units_option,
    with_present_height,
)
from barwright.cli.output import say, say_json, show
from barwright.errors import JobError
from barwright.registry.jobs.job import JobCorner
from barwright.report.forms.json import plain
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("compare")
@click.argument("job", metavar="JOB.toml", type=click.Path())
@click.argument("other", metavar="OTHER.toml", type=click.Path())
@click.option("--all", "whole", is_flag=True, help="Show what is the same in both, too.")
@units_option
@json_option
@registry_options
def command(job: str, other: str, *, whole: bool, as_json: bool, system: System) -> int:
    """Compare the corners that two jobs share, side by side: what differs, with its change."""
    from barwright.report.text.across.compare import comparison_text  # noqa: PLC0415 - no JSON needs these
    from barwright.report.text.grounds.trail import rests_on_text  # noqa: PLC0415
    from barwright.report.text.layout.corners import side_by_side  # noqa: PLC0415

    registry = installed()
    ones, others = (
        {corner.setup.corner: corner for corner in load_one(path, registry).corners}
        for path in (job, other)
    )
    shared = [name for name in ones if name in others]
    if not shared:
        raise JobError(
            "J103",
            value=f"{', '.join(ones)} and {', '.join(others)}",
            expected="a corner in both jobs",
            remedy="name the same corners in both jobs",
            file=other,
            key="corners",
        )
    for name in sorted({*ones, *others} - {*shared}):
        say(f"warning: only one of the jobs names the corner {name!r}", err=True)
    pairs = [(ones[name], others[name]) for name in shared]
    answers = [in_units(_compared(one, two), system) for one, two in pairs]
    if as_json:
        say_json(json.dumps({"answers": [plain(a) for a in answers]}, ensure_ascii=False))
    else:
        pages = dict(zip(shared, (comparison_text(a, whole=whole) for a in answers), strict=True))
        rests_on = rests_on_text(found for answer in answers for found in answer.rests_on)
        show(side_by_side(pages).of(rests_on))
    return 0


def _compared(one: JobCorner, two: JobCorner) -> Comparison:
    wanted, other_wanted = (with_present_height(corner).wanted for corner in (one, two))
    return compare(one.setup, two.setup, wanted=wanted, other_wanted=other_wanted)
