"""The chart: what is drawn is what was computed."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from itertools import zip_longest
from typing import Literal
from xml.etree import ElementTree as ET

import attrs
import pytest

import barwright as bw
from anchored_corners import on_key_lever
from barwright.report.chart import nut_chart, svg_chart, terminal_chart
from barwright.report.drawing.nut_curve import nut_curve_view
from sample_records import known, make_setup

SVG = "{http://www.w3.org/2000/svg}"


def figures() -> bw.answers.RateFigures:
    found = bw.rates(make_setup(), wanted=bw.Wanted(height="380 mm")).figures
    assert found is not None
    return found


def test_the_terminal_chart_marks_droop_ride_and_bump() -> None:
    drawn = terminal_chart(figures())
    for panel in drawn.split("\n\n"):
        title, legend, *canvas = panel.splitlines()
        assert title.endswith(" over hub to arch [mm]")
        assert legend.startswith("D full droop ")
        assert marks_of(canvas) == ["B", "D", "R"], panel
    assert "N/mm" in drawn


def marks_of(canvas: Sequence[str]) -> list[str]:
    """Letters that stand in a drawing."""
    return sorted(re.findall("[DRB]", "".join(line.partition("|")[2] for line in canvas)))


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_terminal_chart_begins_near_its_figures_with_round_steps(
    width: int, system: Literal["metric", "inch"]
) -> None:
    found = bw.in_units(figures(), system)
    panels = terminal_chart(found, width=width).split("\n\n")
    for panel, name in zip(panels, ("wheel_load", "wheel_rate"), strict=True):
        lines = panel.splitlines()
        assert max(map(len, lines)) <= width
        drawn = [line for line in lines if " |" in line]
        levels = [float(label) for line in drawn if (label := line.partition("|")[0].strip())]
        places = [float(label) for label in lines[-1].split()]
        values, heights = getattr(found.curve, name).magnitude, found.curve.height.magnitude
        for ticks, data in ((levels, values), (places, heights)):
            steps = {round(a - b, 9) for a, b in itertools.pairwise(ticks)}
            (step,) = steps
            assert f"{step:e}"[:8] in {"1.000000", "2.000000", "5.000000"}
            assert min(data) - step < ticks[-1] <= min(data)
            assert max(data) <= ticks[0] < max(data) + step


def test_the_terminal_chart_tells_each_mark_above_its_curve() -> None:
    found = figures()
    states = (found.droop, found.ride, found.bump)
    for panel, name in zip(terminal_chart(found).split("\n\n"), ("load", "rate"), strict=True):
        unit = {"load": "N", "rate": "N/mm"}[name]
        droop, ride, bump = (getattr(state, f"wheel_{name}").m_as(unit) for state in states)
        assert panel.splitlines()[:2] == [
            f"{name} at the wheel [{unit}] over hub to arch [mm]",
            ", ".join(
                f"{mark} {value:.1f} {unit}"
                for mark, value in (
                    ("D full droop", droop),
                    ("R ride", ride),
                    ("B full bump", bump),
                )
            ),
        ]


def test_the_terminal_curve_runs_from_droop_to_bump_without_a_gap() -> None:
    for panel in terminal_chart(figures()).split("\n\n"):
        rows = [line.partition(" |")[2] for line in panel.splitlines() if " |" in line]
        columns = ["".join(column).strip() for column in zip_longest(*rows, fillvalue=" ")]
        drawn = [index for index, column in enumerate(columns) if column]
        ends = [next(n for n, column in enumerate(columns) if mark in column) for mark in "DB"]
        assert drawn == list(range(ends[0], ends[1] + 1))


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


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("panel", [0, 1])
def test_every_mark_and_label_stands_where_its_figure_says(
    panel: int, system: Literal["metric", "inch"]
) -> None:
    found = bw.in_units(figures(), system)
    root = ET.fromstring(svg_chart(found, title="t"))  # noqa: S314 - our own
    states = (found.droop, found.ride, found.bump)
    heights = [float(state.height.magnitude) for state in states]
    name = ("wheel_load", "wheel_rate")[panel]
    values = [float(getattr(state, name).magnitude) for state in states]
    marks = root.findall(f"{SVG}circle")[3 * panel : 3 * panel + 3]
    places = [(float(mark.get("cx", "")), float(mark.get("cy", ""))) for mark in marks]
    # The wheel rises to the right, over the whole panel.
    assert (places[0][0], places[2][0]) == (80.0, 640.0 - 24.0)
    across = (places[2][0] - places[0][0]) / (heights[2] - heights[0])
    up = (places[2][1] - places[0][1]) / (values[2] - values[0])
    assert up < 0.0
    assert places[1][0] == pytest.approx(80.0 + across * (heights[1] - heights[0]), abs=0.06)
    assert places[1][1] == pytest.approx(places[0][1] + up * (values[1] - values[0]), abs=0.15)
    texts = root.findall(f"{SVG}text")
    start = [n for n, text in enumerate(texts) if (text.text or "").startswith(f"{WORDS[panel]} [")]
    labels = [text for text in texts[start[0] + 1 :] if text.get("fill") == "#222222"]
    upright = list(itertools.takewhile(lambda text: text.get("text-anchor") == "end", labels))
    level = list(
        itertools.takewhile(
            lambda text: text.get("text-anchor") == "middle", labels[len(upright) :]
        )
    )
    lines = [
        tuple(float(line.get(key, "")) for key in ("x1", "y1", "x2", "y2"))
        for line in root.findall(f"{SVG}line")
    ]
    for label in upright:
        y = places[0][1] + up * (float(label.text or "") - values[0])
        # A letter's middle lies above its foot.
        assert float(label.get("y", "")) == pytest.approx(y + 4.0, abs=0.25)
        assert float(label.get("x", "")) < 80.0
        assert any(line[:3:2] == (80.0, 616.0) and abs(line[1] - y) < 0.25 for line in lines)
    for label in level:
        x = 80.0 + across * (float(label.text or "") - heights[0])
        assert float(label.get("x", "")) == pytest.approx(x, abs=0.06)
        assert any(line[0] == line[2] and abs(line[0] - x) < 0.06 for line in lines)
    for row in (upright, level):
        steps = {round(b - a, 9) for a, b in itertools.pairwise(float(t.text or "") for t in row)}
        assert 3 <= len(row) <= 8
        (step,) = steps
        assert f"{step:e}"[:8] in {"1.000000", "2.000000", "5.000000"}


WORDS = ("load at the wheel", "rate at the wheel")


def test_a_mark_is_told_in_words_beside_it() -> None:
    found = figures()
    root = ET.fromstring(svg_chart(found, title="t"))  # noqa: S314 - our own
    said = [t for t in root.findall(f"{SVG}text") if t.get("fill") == "#b3401f"]
    states = (found.droop, found.ride, found.bump)
    words = ("full droop", "ride", "full bump")
    assert [text.text for text in said] == [
        *(f"{word} {state.wheel_load:.1f~P}" for word, state in zip(words, states, strict=True)),
        *(f"{w} {s.wheel_rate.m_as('N/mm'):.1f} N/mm" for w, s in zip(words, states, strict=True)),
    ]
    for text, mark in zip(said, root.findall(f"{SVG}circle"), strict=True):
        right = float(text.get("x", "")) - float(mark.get("cx", ""))
        down = float(text.get("y", "")) - float(mark.get("cy", ""))
        # At full bump the words end above their mark, or they would leave the drawing.
        at_end = (text.text or "").startswith("full bump")
        assert text.get("text-anchor") == ("end" if at_end else "start")
        assert (right, down < 0.0) == ((0.0, True) if at_end else (pytest.approx(6.0), False))


def test_the_drawing_covers_its_own_size_in_white() -> None:
    root = ET.fromstring(svg_chart(figures(), title="t"))  # noqa: S314 - our own
    width, height = root.get("width", ""), root.get("height", "")
    assert root.get("viewBox") == f"0 0 {width} {height}"
    ground = root.find(f"{SVG}rect")
    assert ground is not None
    assert [ground.get(key) for key in ("width", "height", "fill")] == ["100%", "100%", "white"]
    for element in root.findall(f"{SVG}text"):
        assert 0.0 < float(element.get("x", "")) < float(width)
        assert 0.0 < float(element.get("y", "")) < float(height)


def test_the_second_panel_stands_below_the_first() -> None:
    root = ET.fromstring(svg_chart(figures(), title="t"))  # noqa: S314 - our own
    texts = [(text.text or "", float(text.get("y", ""))) for text in root.findall(f"{SVG}text")]
    first, second = (i for i, (text, _) in enumerate(texts) if " at the wheel [" in text)
    assert max(y for _, y in texts[first:second]) < texts[second][1]
    assert {text.get("font-size") for text in root.findall(f"{SVG}text")} == {"13", "16"}
    assert root.get("font-size") == "13"


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


def test_every_panel_and_its_heights_stand_with_their_units() -> None:
    root = ET.fromstring(svg_chart(figures(), title="t"))  # noqa: S314 - our own
    texts = [text.text or "" for text in root.findall(f"{SVG}text")]
    heads = [text for text in texts if "[" in text]
    assert heads == [
        *("load at the wheel [N]", "hub to arch [mm]"),
        *("rate at the wheel [N/mm]", "hub to arch [mm]"),
    ]


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
        assert marks_of(panel.splitlines()) in (["B", "D", "R"], ["B", "R"], ["B"])


def test_values_below_zero_are_labelled_so() -> None:
    load, _ = terminal_chart(scaled(-1.0)).split("\n\n")
    drawn = [line.partition(" |")[0] for line in load.splitlines() if " |" in line]
    labels = [float(label) for label in drawn if label.strip()]
    assert labels == sorted(labels, reverse=True)
    assert labels[-1] < 0.0


# -- Over the thread -----------------------------------------------------------------------

LOOSE = on_key_lever(
    damper={"open_length": "700 mm", "closed_length": "450 mm"}, axle={"droop_stop": "-34 deg"}
)


def thread_chart(setup: bw.Setup, width: int) -> tuple[list[str], list[str], list[str]]:
    """Numbers at the left, columns of the curve, numbers at the right; places below come last."""
    view = known(nut_curve_view(bw.nut_table(setup)))
    *rows, axis, places = nut_chart(view, width=width)
    assert max(map(len, (*rows, axis, places))) <= width
    cut = [re.fullmatch(r"( *-?[\d.]*) \|(.*)\| *(\d*)", row) for row in rows]
    lefts, curve, rights = zip(*(known(found).groups() for found in cut), strict=True)
    return [*lefts, places], list(curve), list(rights)


@pytest.mark.parametrize("width", [50, 60, 80])
@pytest.mark.parametrize("setup", [make_setup(), make_setup(nut_turns="-6 turn"), LOOSE])
def test_the_chart_over_the_thread_is_true_to_its_table(setup: bw.Setup, width: int) -> None:
    table = bw.nut_table(setup)
    (*lefts, places), curve, rights = thread_chart(setup, width)
    levels = {row: float(label) for row, label in enumerate(lefts) if label.strip()}
    (top, high), *_, (bottom, low) = levels.items()
    left, *_, right = map(float, places.split())
    wide = len(curve[0])
    for row in table.table_rows:
        across = (row.pin_distance.m_as("mm") - left) / (right - left) * (wide - 1)
        column = [line[round(across)] for line in curve]
        (found,) = (number for number, sign in enumerate(column) if sign != " ")
        height = high + (found - top) / (bottom - top) * (low - high)
        # A row, and what the curve rises within a column.
        assert height == pytest.approx(row.height.m_as("mm"), abs=(high - low) / 12 * 0.51 + 2.0)
        if row.is_set:
            assert column[found] == "S"
        elif abs(across - round(across)) < 0.2:
            assert column[found] == ("*" if row.is_safe else "x")
    here = table.set_row
    droop = (here.height + here.droop_left).m_as("mm")
    for line, level in levels.items():
        assert rights[line] == (f"{droop - level:.0f}" if droop >= level else "")


def test_the_chart_of_a_corner_on_a_stop_all_over_is_level() -> None:
    _, curve, _ = thread_chart(make_setup(mass="4000 kg"), 60)
    assert [bool(line.strip()) for line in curve].count(True) == 1


def test_the_letters_of_a_chart_are_of_a_family_that_every_reader_has() -> None:
    root = ET.fromstring(svg_chart(figures(), title="t"))  # noqa: S314 - our own
    assert root.get("font-family") == "sans-serif"
