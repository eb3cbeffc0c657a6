"""``barwright spline``: to which standard a spline may be made."""

from __future__ import annotations

import json

import click

from barwright.analysis.identification.identify_spline import identify_spline
from barwright.cli.jobs import json_option, units_option
from barwright.cli.output import say_json, show
from barwright.cli.packs import naming_options
from barwright.parts.measurements.measured_spline import MeasuredSpline
from barwright.report.forms.json import plain
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("spline")
@click.option("--teeth", type=int, required=True, help="Round the whole circle, blanks too.")
@click.option("--major-diameter", metavar="FIGURE", help="Over the teeth, like '29.9 mm'.")
@click.option("--root-diameter", metavar="FIGURE", help="At the bottom of two opposite spaces.")
@click.option("--over-pins", metavar="FIGURE", help="Over two pins in opposite spaces.")
@click.option("--pin-diameter", metavar="FIGURE", help="Of each of these pins.")
@units_option
@json_option
def command(
    *,
    teeth: int,
    major_diameter: str | None,
    root_diameter: str | None,
    over_pins: str | None,
    pin_diameter: str | None,
    as_json: bool,
    system: System,
) -> int:
    """Find the standard, and its module or pitch, to which a spline may be made.

    Give what you measured; a ± may be left out. For example:

    barwright spline --teeth 39 --major-diameter "29.9 mm" --root-diameter "27.8 mm"
    """
    from barwright.report.text.measurements.spline_identification import (  # noqa: PLC0415 - rich is slow
        spline_identification_text,
    )

    with naming_options():
        measured = MeasuredSpline(
            teeth=teeth,
            major_diameter=major_diameter,
            root_diameter=root_diameter,
            over_pins=over_pins,
            pin_diameter=pin_diameter,
        )
    answer = in_units(identify_spline(measured), system)
    if as_json:
        say_json(json.dumps({"answers": [{"answer": plain(answer)}]}, ensure_ascii=False))
    else:
        show(spline_identification_text(answer))
    return answer.outcome.exit_code
