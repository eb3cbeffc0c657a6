"""``barwright identify``: which listed bar a loose one is."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import click

from barwright.analysis.identification.identify import identify
from barwright.cli.jobs import (
    installed,
    invented_packs,
    json_option,
    registry_options,
    units_option,
)
from barwright.cli.output import say_json, show
from barwright.cli.packs import naming_options
from barwright.errors import SchemaError
from barwright.parts.common.source import Figure
from barwright.parts.measurements.measured_bar import MeasuredBar, MeasuredEnd
from barwright.report.forms.json import plain
from barwright.report.unit_system import in_units
from barwright.units import LENGTH, System, read_figure

__all__ = ["command"]

_OF_BOTH_ENDS = "Give it twice for both ends, always in one order."


@click.command("identify")
@click.option("--diameter", metavar="FIGURE", help="Of the body, like '24.2 mm ± 0.1 mm'.")
@click.option("--bore", metavar="FIGURE", help="Of a hollow bar; '0 mm' of a solid one.")
@click.option("--length", metavar="FIGURE", help="Over both splines, noses left out.")
@click.option(
    "--blank-angle",
    metavar="FIGURE",
    help="From the nearer end's blank to the farther one's, clockwise as seen along the bar.",
)
@click.option(
    "--teeth", type=int, multiple=True, help=f"Round the whole circle, blanks too. {_OF_BOTH_ENDS}"
)
@click.option(
    "--blanks",
    multiple=True,
    metavar="PLACES",
    help="Missing teeth, counted on from one of them, like 0,3; none for no blank. Twice for both.",
)
@click.option("--major-diameter", multiple=True, metavar="FIGURE", help="Over the teeth. As above.")
@click.option("--root-diameter", multiple=True, metavar="FIGURE", help="Of the roots. As above.")
@click.option("--spline-length", multiple=True, metavar="FIGURE", help="Of a spline. As above.")
@click.option("--taper", multiple=True, metavar="FIGURE", help="Of a cone; '0 mm' for none.")
@click.option("--nose", multiple=True, metavar="FIGURE", help="Of a nose; '0 mm' for none.")
@units_option
@json_option
@registry_options
def command(
    *,
    diameter: str | None,
    bore: str | None,
    length: str | None,
    blank_angle: str | None,
    as_json: bool,
    system: System,
    **of_ends: Sequence[Any],
) -> int:
    """Find the listed bars that a loose bar may be, by what was measured of it.

    Give what you know; one wrong figure does not hide the right bar. A ± may be left out: the
    usual one of the tool is taken. For example:

    barwright identify --diameter "25.0 mm" --length "904 mm" --teeth 39 --teeth 42
    """
    from barwright.report.text.measurements.identification import (  # noqa: PLC0415 - rich is slow to load
        identification_text,
    )

    registry = installed()
    body = {"diameter": diameter, "bore": bore, "length": length, "blank_angle": blank_angle}
    with naming_options():
        measured = MeasuredBar(**_given(body), ends=list(_ends(of_ends)))
    answer = in_units(identify(measured, registry=registry), system)
    if as_json:
        say_json(json.dumps({"answers": [{"answer": plain(answer)}]}, ensure_ascii=False))
    else:
        named = [registry.bar(one) for bar in answer.possible_bars for one in bar.bar_ids]
        show(identification_text(answer).of(invented_packs(registry, named)))
    return answer.outcome.exit_code


def _given(figures: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in figures.items() if value is not None}


def _ends(of_ends: Mapping[str, Sequence[Any]]) -> Iterator[MeasuredEnd]:
    """Put what each option says of the first end together, and then of the second."""
    for number in range(max(map(len, of_ends.values()))):
        figures = {name: texts[number] for name, texts in of_ends.items() if number < len(texts)}
        if "blanks" in figures:
            figures["blanks"] = _places(figures["blanks"])
        if "spline_length" in figures:
            figures["length"] = _spline_length(figures.pop("spline_length"))
        yield MeasuredEnd(**figures)


def _places(text: str) -> tuple[int, ...]:
    """Read the places of blanks."""
    if text.strip() == "none":
        return ()
    if not re.fullmatch(r"[0-9]{1,4}( ?, ?[0-9]{1,4}){0,99}", text):
        raise SchemaError(
            "S203",
            value=text,
            expected="teeth counted on from one of the blanks, like 0 or 0,3, or none",
            remedy="count on from one blank, which is 0, and list the places with commas",
            key="blanks",
        )
    return tuple(map(int, text.split(",")))


def _spline_length(text: str) -> Figure:
    """Read the length of a spline: the bar has a length too."""
    read = read_figure(text, LENGTH, key="spline_length", allowed="positive")
    return Figure(value=read.value, tolerance=read.tolerance, written=read.written)
