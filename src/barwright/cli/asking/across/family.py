"""``barwright family``: all bars by all wheelbases of a family, for a counter."""

from __future__ import annotations

import contextlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from barwright.cli.jobs import (
    installed,
    invented_packs_of,
    json_option,
    locating_errors,
    registry_options,
    units_option,
)
from barwright.cli.output import show, shown_text
from barwright.cli.packs import ProgressBar
from barwright.cli.printing import chosen_form, output_option, paper_option, put_out
from barwright.errors import ExitCode
from barwright.family.chart import FamilyChart, family_chart
from barwright.family.chart_wish import ChartGrouping, ChartOrder
from barwright.parts.chassis import AxlePlace
from barwright.report.family.picture import family_svg
from barwright.report.family.spreadsheet import family_csv
from barwright.report.forms.json import plain
from barwright.report.page.family import family_html, family_pdf
from barwright.report.page.paper import Paper
from barwright.report.safe_text import escaped_json
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]

_OPTIONS = {"height": "--height", "least_change": "--stiffer"}


@click.command("family")
@click.argument("vehicles", nargs=-1, metavar="[VEHICLE]")
@click.option("--bars", default="", metavar="WORDS", help="Only bars that these words describe.")
@click.option(
    "--height",
    metavar="LENGTH",
    help="Rate all at this height, hub to arch; at each axle's standard height if left out.",
)
@click.option("--axle", type=click.Choice(["front", "rear"]), help="Only this axle.")
@click.option("--unchanged", is_flag=True, help="Only bars that go in without any change.")
@click.option(
    "--stiffer", type=float, metavar="PER_CENT", help="Only bars that are stiffer by so much."
)
@click.option(
    "--softer", type=float, metavar="PER_CENT", help="Only bars that are softer by so much."
)
@click.option(
    "--sort",
    type=click.Choice(["rate", "change", "frequency", "stress", "bar"]),
    default="rate",
    show_default=True,
    help="What the lines are sorted by.",
)
@click.option("--descending", is_flag=True, help="The greatest first.")
@click.option(
    "--group",
    type=click.Choice(["wheelbase", "bar", "none"]),
    default="wheelbase",
    show_default=True,
    help="What the lines are grouped by.",
)
@units_option
@click.option(
    "--form",
    type=click.Choice(["text", "html", "pdf", "svg", "markdown", "csv", "json"]),
    help="Default: text for the terminal. html and pdf are pages to print, svg their picture.",
)
@paper_option
@output_option
@click.option(
    "--processes",
    type=click.IntRange(min=1),
    metavar="NUMBER",
    help="The most processes to share the work; on Linux all processors if left out.",
)
@json_option
@registry_options
def command(
    vehicles: tuple[str, ...],
    *,
    bars: str,
    height: str | None,
    axle: str | None,
    unchanged: bool,
    stiffer: float | None,
    softer: float | None,
    sort: ChartOrder,
    descending: bool,
    group: ChartGrouping,
    system: System,
    form: str | None,
    paper: Paper,
    output: Path | None,
    processes: int | None,
    as_json: bool,
) -> int:
    """Chart all bars by all wheelbases of a vehicle family: what goes in, and how stiff it is.

    Only bars that go in and survive are offered; what is not offered is listed with the reason.

    For example: barwright family fells --stiffer 20
    """
    form = chosen_form(form, as_json=as_json, output=output)
    registry = installed()
    with contextlib.ExitStack() as stack, locating_errors("", _OPTIONS):
        answer = family_chart(
            registry,
            " ".join(vehicles),
            bars=bars,
            height=height,
            axle=None if axle is None else AxlePlace(axle),
            unchanged=unchanged,
            least_change=stiffer,
            most_change=None if softer is None else -softer,
            sort=sort,
            descending=descending,
            group=group,
            processes=processes,
            progress=ProgressBar(stack, label="vehicles"),
        )
    chart = in_units(answer, system)
    ids = (id_ for one in chart.lines for id_ in (one.pair.vehicle_id, one.pair.bar_id))
    rests_on = invented_packs_of(registry, ids)
    if form == "text" and output is None:
        show(_text(chart, rests_on))
    else:
        put_out(_content(chart, form, rests_on, paper), output=output, title="chart")
    if registry.problems and not registry.packs:
        return ExitCode.FAULT
    return answer.outcome.exit_code


def _text(chart: FamilyChart, rests_on: str) -> Any:  # noqa: ANN401 - rich is slow to load
    from barwright.report.text.across.family_chart import chart_text  # noqa: PLC0415 - as above

    return chart_text(chart).of(rests_on)


def _content(chart: FamilyChart, form: str, rests_on: str, paper: Paper) -> str | bytes:
    """Write the chart in a form, whole."""
    if form == "json":
        document = {"answers": [plain(chart)]}
        return f"{escaped_json(json.dumps(document, ensure_ascii=False))}\n"
    if form == "markdown":
        from barwright.report.text.layout.markdown import markdown_of  # noqa: PLC0415 - as above

        return markdown_of(_text(chart, rests_on))
    if form == "text":
        return f"{shown_text(_text(chart, rests_on))}\n"
    return _PAGES[form](chart, rests_on=rests_on, paper=paper)


_PAGES: dict[str, Callable[..., str | bytes]] = {
    "html": lambda chart, rests_on, **_: family_html(chart, rests_on=rests_on),
    "pdf": family_pdf,
    "svg": lambda chart, **_: family_svg(chart),
    "csv": lambda chart, **_: family_csv(chart),
}
