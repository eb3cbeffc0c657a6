"""Tests of `barwright.report.drawing.load_curve`: marks and scales are where they belong."""

from __future__ import annotations

import math

import attrs
import pytest

import barwright as bw
from barwright.report.drawing.load_curve import (
    LoadCurveView,
    load_curve_svg,
    load_curve_view,
)
from drawn import Drawn, points_of
from sample_records import make_bar, make_setup


def view_of(setup: bw.Setup) -> LoadCurveView:
    view = load_curve_view(bw.rates(setup), corner=setup.corner)
    assert view is not None
    return view


USUAL = view_of(make_setup())


def test_marks_lie_on_the_curve_and_the_curve_falls() -> None:
    drawn = Drawn(load_curve_svg(USUAL))
    (curve,) = drawn.named("curve")
    points = points_of(curve)

    for name in ("bump", "ride", "droop"):
        (at,) = drawn.middles(name)
        # The curve is drawn in steps of less than two millimetres.
        assert min(math.dist(at, point) for point in points) < 1.2
    assert drawn.middles("bump")[0][0] < drawn.middles("ride")[0][0] < drawn.middles("droop")[0][0]


def test_a_mark_is_where_the_scale_has_its_height() -> None:
    drawn = Drawn(load_curve_svg(USUAL))
    (ride,) = drawn.middles("ride")
    ticks = [(float(w), x) for w, (x, y), _ in drawn.texts if w.isdigit() and y == 35.0]
    (low, left), *_, (high, right) = sorted(ticks)
    height = low + (ride[0] - left) / (right - left) * (high - low)

    assert height == pytest.approx(float(USUAL.ride.height.m_as("mm")), abs=0.1)


def test_a_mark_is_where_the_scale_has_its_load() -> None:
    drawn = Drawn(load_curve_svg(USUAL))
    (ride,) = drawn.middles("ride")
    ticks = [
        (float(w), y - 1.0)
        for w, (x, y), e in drawn.texts
        if w.isdigit() and e.get("text-anchor") == "end"
    ]
    (low, bottom), *_, (high, top) = sorted(ticks)
    load = low + (ride[1] - bottom) / (top - bottom) * (high - low)

    assert top < bottom
    assert load == pytest.approx(float(USUAL.ride.wheel_load.m_as("N")), rel=0.005)


def test_each_state_is_written_with_its_height_and_load() -> None:
    words = Drawn(load_curve_svg(USUAL)).words

    for name, state in (
        ("full droop", USUAL.droop),
        ("ride", USUAL.ride),
        ("full bump", USUAL.bump),
    ):
        text = f"{bw.units.shown(state.height, 0)}, {bw.units.shown(state.wheel_load, 0)}"
        assert f"{name}: {text}" in words


def test_a_bar_that_fits_nowhere_has_no_curve() -> None:
    nothing = make_setup(bar=make_bar(length="1500 mm"))

    assert load_curve_view(bw.rates(nothing), corner="front left") is None


def test_a_corner_without_any_load_has_a_curve() -> None:
    drawn = Drawn(load_curve_svg(attrs.evolve(USUAL, wheel_load=USUAL.wheel_load * 0.0)))

    assert drawn.named("curve")
