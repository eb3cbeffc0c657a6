"""Every question put to a corner, and its answer in every form; what is wrong with a form."""

from __future__ import annotations

import functools
import json
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree as ET

import barwright as bw
from barwright.cli.output import shown_text
from barwright.errors import BarwrightError
from barwright.report.chart import terminal_chart
from barwright.report.text.across.lists import parts_text, vehicles_text
from barwright.report.text.fit import fit_text
from barwright.report.text.grounds.tolerance import tolerances_text
from barwright.report.text.grounds.trail import trail_text
from barwright.report.text.rates import rates_text
from barwright.report.text.reindex import reindex_text
from barwright.report.text.sheet import sheet_text
from barwright.report.text.strength import strength_text
from terminal_characters import unprintable

__all__ = ["rendered"]


def rendered(registry: bw.Registry, number: int) -> str:
    """Put every question to one corner of a vehicle."""
    _check_text(shown_text(parts_text(registry.parts())))
    vehicles = registry.vehicles()
    _check_text(shown_text(vehicles_text(vehicles)))
    corners = [
        (chassis.id, f"{axle.place.value} {side.value}")
        for chassis in vehicles
        for axle in chassis.axles
        for side in bw.parts.Side
    ]
    if not corners:
        return "no vehicle"
    vehicle, corner = corners[number % len(corners)]
    setup = registry.setup(vehicle, corner=corner)
    reported = [_asked(setup, question, text) for question, text in _QUESTIONS]
    return "\n".join([reported[0], *reported, _sheet(setup), _chart(setup)])


_QUESTIONS: tuple[tuple[Callable[[bw.Setup], Any], Callable[[Any], Any]], ...] = (
    (bw.reindex, reindex_text),
    (bw.length_fit, fit_text),
    (bw.rates, rates_text),
    (bw.strength, strength_text),
    (functools.partial(bw.tolerance, bw.rates), tolerances_text),
    (bw.trail, trail_text),
)


def _asked(setup: bw.Setup, question: Callable[[bw.Setup], Any], text: Callable[[Any], Any]) -> str:
    try:
        answer = question(setup)
    except BarwrightError as error:
        return error.code
    _check_json(answer)
    _check_text(shown_text(text(answer)))
    return type(answer).__name__


def _sheet(setup: bw.Setup) -> str:
    corner = bw.JobCorner(setup=setup, present=setup, wanted=bw.Wanted())
    try:
        sheet = bw.bench_sheet(bw.Job(title=setup.bar.title, corners=(corner,)))
    except BarwrightError as error:
        return error.code
    _check_json(sheet)
    _check_text(shown_text(sheet_text(sheet)))
    return "sheet"


def _chart(setup: bw.Setup) -> str:
    try:
        figures = bw.rates(setup).figures
    except BarwrightError as error:
        return error.code
    if figures is None:
        return "no chart"
    _check_text(terminal_chart(figures))
    for element in ET.fromstring(bw.svg_chart(figures, title=setup.bar.title)).iter():  # noqa: S314
        assert element.tag.rpartition("}")[2] in _DRAWN, element.tag
        assert not [name for name in element.attrib if "href" in name or name.startswith("on")]
    return "chart"


_DRAWN = {"svg", "title", "rect", "text", "line", "polyline", "circle"}


def _check_json(answer: object) -> None:
    text = bw.to_json(answer)
    json.loads(text, parse_constant=_refused)
    assert bw.to_json(bw.from_json(text)) == text


def _refused(constant: str) -> None:
    message = f"{constant} is not JSON"
    raise AssertionError(message)


def _check_text(text: str) -> None:
    assert not unprintable(text), unprintable(text)
