"""``barwright balance``: corner weights, and the turns of the nuts that put them right."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from barwright.analysis.balancing.balance import balance
from barwright.analysis.balancing.balance_answer import Balance, BalanceAim
from barwright.cli.jobs import (
    installed,
    invented_packs,
    job_argument,
    json_option,
    load_one,
    locating_errors,
    registry_options,
    units_option,
)
from barwright.cli.output import say_json, show, shown_text
from barwright.cli.printing import chosen_form, form_option, output_option, paper_option, put_out
from barwright.parts.measurements.whole_vehicle import WholeVehicle
from barwright.report.forms.json import plain
from barwright.report.page.balance import balance_html, balance_pdf
from barwright.report.page.paper import Paper
from barwright.report.safe_text import escaped_json
from barwright.report.unit_system import in_units
from barwright.units import System

if TYPE_CHECKING:
    from barwright.report.text.layout.page import Page

__all__ = ["command"]

_AIMS = {"heights": BalanceAim.HEIGHTS, "cross-weight": BalanceAim.CROSS_WEIGHT}
_AIMS["both"] = BalanceAim.BOTH


@click.command("balance")
@job_argument
@click.option(
    "--aim",
    type=click.Choice(list(_AIMS)),
    help="What the nuts are set for. Default: heights with two nuts, both with four.",
)
@units_option
@form_option
@paper_option
@output_option
@json_option
@registry_options
def command(
    job: str,
    *,
    aim: str | None,
    system: System,
    form: str | None,
    paper: Paper,
    output: Path | None,
    as_json: bool,
) -> int:
    """Say which turns of the nuts balance a vehicle, by its four scales and its heights.

    The job says what is on the car, the wanted height, and under [balance.front.left] and the
    like what was read at each wheel: scale_reading, height and pin_distance.
    """
    form = chosen_form(form, as_json=as_json, output=output)
    registry = installed()
    loaded = load_one(job, registry)
    setups = [corner.present for corner in loaded.corners]
    with locating_errors(job):
        answer = balance(
            setups,
            vehicle=loaded.vehicle or WholeVehicle(),
            wanted=[corner.wanted for corner in loaded.corners],
            aim=None if aim is None else _AIMS[aim],
        )
    answer = in_units(answer, system)
    named = [part for setup in setups for part in setup.parts.values()]
    places = (setups[0].chassis.title, invented_packs(registry, named))
    if form in _PAGES:
        page = _PAGES[form](
            answer, vehicle=places[0], order=loaded.order, rests_on=places[1], paper=paper
        )
        put_out(page, output=output, job=job, title="sheet")
    elif form == "text" and output is None:
        show(_text(answer, *places))
    elif form == "json" and output is None:
        say_json(_json(answer))
    else:
        put_out(_TEXTS[form](answer, *places), output=output, job=job, title="sheet")
    return answer.outcome.exit_code


_PAGES: dict[str, Callable[..., str | bytes]] = {"html": balance_html, "pdf": balance_pdf}


def _text(answer: Balance, *places: str) -> Page:
    from barwright.report.text.measurements.balance import balance_text  # noqa: PLC0415 - rich is slow

    return balance_text(answer).of(*places)


def _json(answer: Balance, *_: str) -> str:
    return json.dumps({"answers": [{"answer": plain(answer)}]}, ensure_ascii=False)


def _markdown(answer: Balance, *places: str) -> str:
    from barwright.report.text.layout.markdown import markdown_of  # noqa: PLC0415 - slow to load

    return markdown_of(_text(answer, *places))


# What is written to a file, or needs no terminal.
_TEXTS: dict[str, Callable[..., str]] = {
    "text": lambda answer, *places: f"{shown_text(_text(answer, *places))}\n",
    "markdown": _markdown,
    "json": lambda answer, *_: f"{escaped_json(_json(answer))}\n",
}
