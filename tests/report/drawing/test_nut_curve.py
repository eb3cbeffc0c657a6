"""Tests of `barwright.report.drawing.nut_curve`: what is drawn is what the table says."""

from __future__ import annotations

import itertools
import math

import attrs
import pytest
from hypothesis import HealthCheck, assume, given, settings

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.answers import NutTable
from barwright.report.drawing.nut_curve import NutCurveView, nut_curve_svg, nut_curve_view
from drawn import XY, Drawn, points_of
from draws import draws
from sample_records import known, make_bar, make_setup
from setup_strategies import corners

ROOMY = {"open_length": "700 mm", "closed_length": "450 mm"}
LOOSE = bw.nut_table(on_key_lever(damper=ROOMY, axle={"droop_stop": "-34 deg"}))
WEAK = {
    "property_class": bw.parts.PropertyClass.CLASS_8_8,
    "thread_diameter": "6 mm",
    "thread_pitch": "1 mm",
}
USUAL = bw.nut_table(make_setup())


def view_of(table: NutTable) -> NutCurveView:
    return known(nut_curve_view(table, corner="front left"))


def drawn(table: NutTable) -> Drawn:
    return Drawn(nut_curve_svg(view_of(table)))


class Scales:
    """The scales of a drawing, read back from their numbers."""

    def __init__(self, found: Drawn) -> None:
        texts = [(w.replace("−", "-"), at, e.get("text-anchor")) for w, at, e in found.texts]
        numbers = [(float(w), at, anchor) for w, at, anchor in texts if w.lstrip("-").isdigit()]
        self._heights = [(n, y - 1.0) for n, (_, y), anchor in numbers if anchor == "end"]
        self._droops = [(n, y - 1.0) for n, (_, y), anchor in numbers if anchor == "start"]
        self._places = [(n, x) for n, (x, _), anchor in numbers if anchor == "middle"]

    def place(self, x: float) -> float:
        return _read(self._places, x)

    def height(self, y: float) -> float:
        return _read(self._heights, y)

    def droop(self, y: float) -> float:
        return _read(self._droops, y)


def _read(scale: list[XY], at: float) -> float:
    (low, start), *_, (high, end) = scale
    return low + (at - start) / (end - start) * (high - low)


def mm(length: bw.Quantity) -> float:
    return float(length.m_as("mm"))


@settings(max_examples=draws(20), suppress_health_check=[HealthCheck.too_slow])
@given(corners())
def test_every_row_of_the_table_is_read_back_from_the_drawing(case: tuple[bw.Setup, str]) -> None:
    plans = bw.reindex(case[0], wanted=bw.Wanted(height=case[1])).plans
    assume(plans)
    table = bw.nut_table(bw.carry_out(case[0], plans[0]))
    found = drawn(table)
    scales = Scales(found)
    (curve,) = found.named("curve")
    points = [(scales.place(x), scales.height(y)) for x, y in points_of(curve)]
    rising = sorted(points)
    span = max(h for _, h in points) - min(h for _, h in points)
    for row in table.table_rows:
        height = _interpolated(rising, mm(row.pin_distance))
        assert height == pytest.approx(mm(row.height), abs=0.01 * span + 0.1)
    (x, y) = found.middles("set")[0]
    here = table.set_row
    assert scales.place(x) == pytest.approx(mm(here.pin_distance), abs=0.05)
    assert scales.height(y) == pytest.approx(mm(here.height), abs=0.005 * span + 0.01)
    assert scales.droop(y) == pytest.approx(mm(here.droop_left), abs=0.005 * span + 0.01)
    # Whatever raises the vehicle leads to the right.
    assert points_of(curve)[0][0] < points_of(curve)[-1][0]


def _interpolated(points: list[XY], place: float) -> float:
    for (low, one), (high, other) in itertools.pairwise(points):
        if low - 1e-3 <= place <= high + 1e-3:
            return one + (place - low) / (high - low) * (other - one)
    message = f"{place} is not on the curve"
    raise AssertionError(message)


@pytest.mark.parametrize(
    ("table", "name", "words"),
    [
        (LOOSE, "lever-unheld", "lever loose at droop"),
        (bw.nut_table(make_setup(adjuster=WEAK)), "bolt-takes-set", "bolt too weak at bump"),
    ],
)
def test_what_is_hatched_is_what_is_not_safe(table: NutTable, name: str, words: str) -> None:
    found = drawn(table)
    scales = Scales(found)
    ((left, right),) = found.spans(name)
    low, high = sorted(map(scales.place, (left, right)))
    for row in table.table_rows:
        assert row.is_safe is not (low - 0.05 <= mm(row.pin_distance) <= high + 0.05)
    assert {row.is_safe for row in table.table_rows} <= {True, False}
    assert f"hatched: not safe, {words}" in found.words
    (description,) = [e.text for e in found.root if e.tag.endswith("desc")]
    assert f": {words}." in str(description)


def test_a_thread_that_is_safe_all_over_has_no_hatching() -> None:
    found = drawn(USUAL)
    assert not found.named("lever-unheld") + found.named("bolt-takes-set")
    assert not [words for words in found.words if "hatched" in words]


def test_the_set_place_is_written_with_its_figures() -> None:
    words, here = drawn(LOOSE).words, LOOSE.set_row
    assert f"ring: set at {mm(here.pin_distance):.1f} mm" in words
    assert f"hub to arch {mm(here.height):.0f} mm" in words
    assert f"droop to spare {mm(here.droop_left):.0f} mm" in words
    assert "bolt at [mm], from the cross-member" in words
    assert f"to the right: {known(LOOSE.raising_sense).value}, which raises" in words


def test_words_stand_where_they_hide_nothing_of_the_curve() -> None:
    # The lighter the vehicle, the sooner its curve meets the droop stop.
    steep = bw.nut_table(make_setup(mass="100 kg"))
    places = set()
    for table in (USUAL, LOOSE, steep, bw.nut_table(make_setup(mass="900 kg"))):
        found = drawn(table)
        words = next(at for said, at, _ in found.texts if said.startswith("ring: set"))
        (curve,) = found.named("curve")
        left, top = words[0] - 0.5, words[1] - 3.2
        for x, y in points_of(curve):
            assert not (left < x < left + 34.0 and top < y < top + 11.6)
        places.add(words[1] < 30.0)
    assert places == {True, False}


def test_a_corner_on_a_stop_all_over_its_thread_is_drawn_level() -> None:
    (curve,) = drawn(bw.nut_table(make_setup(mass="4000 kg"))).named("curve")
    assert len({y for _, y in points_of(curve)}) == 1


def test_no_corner_is_named_where_none_is_known() -> None:
    view = known(nut_curve_view(USUAL))
    assert "Height over the thread" in Drawn(nut_curve_svg(view)).words
    named = attrs.evolve(view, corner="rear left")
    assert "Rear left, height over the thread" in Drawn(nut_curve_svg(named)).words


def test_without_a_table_there_is_no_curve() -> None:
    assert nut_curve_view(bw.nut_table(on_fixed())) is None
    assert nut_curve_view(bw.nut_table(make_setup(bar=make_bar(length="1200 mm")))) is None


def test_the_curve_is_drawn_in_the_units_of_its_table() -> None:
    inch = bw.in_units(USUAL, "inch")
    assert any("[in]" in words for words in drawn(inch).words)
    (metric,), (inches,) = (drawn(table).middles("set") for table in (USUAL, inch))
    assert math.dist(metric, inches) < 1e-2


@pytest.mark.parametrize("table", [USUAL, LOOSE])
def test_who_cannot_see_it_is_told_of_both_ends_and_of_the_set_place(table: NutTable) -> None:
    view = view_of(table)
    curve, here = view.nut_curve, view.set_row
    said = drawn(table).root.findtext("{http://www.w3.org/2000/svg}desc", "")
    for pin, height in (
        (curve.pin_distance[0], curve.height[0]),
        (curve.pin_distance[-1], curve.height[-1]),
        (here.pin_distance, here.height),
    ):
        assert f"{pin.m_as('mm'):.1f} mm, {height.m_as('mm'):.0f} mm" in said
