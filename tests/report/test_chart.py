"""The chart: what is drawn is what was computed."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import attrs
import pytest

import barwright as bw
from barwright.report.chart import svg_chart, terminal_chart
from sample_records import make_setup

SVG = "{http://www.w3.org/2000/svg}"


def figures() -> bw.answers.RateFigures:
    found = bw.rates(make_setup(), wanted=bw.Wanted(height="380 mm")).figures
    assert found is not None
    return found


def test_the_terminal_chart_marks_droop_ride_and_bump() -> None:
    drawn = terminal_chart(figures())
    for panel in drawn.split("\n\n"):
        title, *canvas = panel.splitlines()
        marks = re.findall(r"[DRB]", "".join(line.split("|", 1)[-1] for line in canvas[1:-2]))
        assert sorted(marks) == ["B", "D", "R"], panel
        assert "full droop" in title
    assert "N/mm" in drawn


def test_the_svg_has_both_curves_and_three_marks_each() -> None:
    root = ET.fromstring(svg_chart(figures(), title="<van> & bar"))  # noqa: S314 - our own
    assert len(root.findall(f"{SVG}polyline")) == 2
    assert len(root.findall(f"{SVG}circle")) == 6
    texts = [element.text for element in root.findall(f"{SVG}text")]
    assert "<van> & bar" in texts


def test_the_curve_is_drawn_to_scale() -> None:
    found = figures()
    root = ET.fromstring(svg_chart(found, title="t"))  # noqa: S314 - our own
    line = root.findall(f"{SVG}polyline")[0].get("points")
    assert line is not None
    points = [tuple(map(float, point.split(","))) for point in line.split()]
    loads = found.curve.wheel_load.magnitude
    # Height on the page is linear in load.
    share = (points[10][1] - points[0][1]) / (points[-1][1] - points[0][1])
    assert share == pytest.approx((loads[10] - loads[0]) / (loads[-1] - loads[0]), abs=2e-3)


def test_a_note_stands_below_the_panels_however_long_it_is() -> None:
    plain = ET.fromstring(svg_chart(figures(), title="t"))  # noqa: S314 - our own
    note = "Rests on " + ", ".join(f"pack-{n}:drawing-board" for n in range(9))
    noted = ET.fromstring(svg_chart(figures(), title="t", note=note))  # noqa: S314 - our own

    assert plain.find(f"{SVG}desc") is None
    assert noted.findtext(f"{SVG}desc") == note
    added = noted.findall(f"{SVG}text")[len(plain.findall(f"{SVG}text")) :]
    assert len(added) > 1
    assert " ".join(element.text or "" for element in added) == note
    places = [float(element.get("y", "0")) for element in added]
    assert float(plain.get("height", "0")) <= places[0] < places[1]
    assert places[-1] < float(noted.get("height", "0"))


def test_the_same_figures_give_the_same_bytes() -> None:
    assert svg_chart(figures(), title="t") == svg_chart(figures(), title="t")


def test_inches_are_drawn_in_inches() -> None:
    drawn = svg_chart(bw.in_units(figures(), "inch"), title="t")
    assert "hub to arch [in]" in drawn
    assert "rate at the wheel [lbf/in]" in drawn


def scaled(factor: float) -> bw.answers.RateFigures:
    """Figures with every load and rate multiplied."""
    found = figures()

    def times(states: object) -> object:
        load, rate = (getattr(states, name) * factor for name in ("wheel_load", "wheel_rate"))
        return attrs.evolve(states, wheel_load=load, wheel_rate=rate)  # type: ignore[misc]

    names = ("curve", "droop", "ride", "bump")
    return attrs.evolve(found, **{name: times(getattr(found, name)) for name in names})  # type: ignore[arg-type]


@pytest.mark.parametrize("factor", [0.0, -1.0])
def test_what_is_never_above_zero_is_drawn_too(factor: float) -> None:
    """Without torque over the whole travel, or with the wheel pulled up all the way."""
    svg = ET.fromstring(svg_chart(scaled(factor), title="t"))  # noqa: S314 - our own
    lines = svg.findall(f"{SVG}polyline")
    assert len(lines) == 2
    for line in lines:
        heights = [float(point.split(",")[1]) for point in line.get("points", "").split()]
        assert 50.0 < min(heights) <= max(heights) < 580.0
    for panel in terminal_chart(scaled(factor)).split("\n\n"):
        canvas = "".join(line.split("|", 1)[-1] for line in panel.splitlines()[1:-2])
        assert sorted(re.findall(r"[DRB]", canvas)) == ["B", "D", "R"]


def test_values_below_zero_are_labelled_so() -> None:
    load, _ = terminal_chart(scaled(-1.0)).split("\n\n")
    labels = [float(line.split("|")[0]) for line in load.splitlines()[2:-2]]
    assert labels == sorted(labels, reverse=True)
    assert labels[-1] < 0.0
