"""Tests of `barwright.report.drawing.measuring.vehicle`: the wheel stands on its scales."""

from __future__ import annotations

import pytest
from shapely import LineString, Point

from barwright.report.drawing.measuring.marks import scheme_svg
from barwright.report.drawing.measuring.vehicle import VEHICLE
from drawn import Drawn
from drawn_layout import Painted, painted

PARTS = [one for one in painted(Drawn(scheme_svg(VEHICLE, {}, number=1))) if not one.is_text]
HUB = Point(VEHICLE.marks["axle.unsprung_mass"].way[0])
GROUND = VEHICLE.marks["axle.tyre_radius"].way[1][1]


def wheels() -> list[Painted]:
    """Circles about the hub, the largest first."""
    found = [one for one in PARTS if one.area.centroid.distance(HUB) < 0.01]
    return sorted(found, key=lambda one: -float(one.area.area))


def test_the_tyre_stands_on_the_scales_which_lie_evenly_under_it() -> None:
    tyre = wheels()[0].area
    assert tyre.bounds[3] == pytest.approx(GROUND, abs=0.01)
    (scales,) = (one.area for one in PARTS if one.area.bounds and one.area.bounds[1] == GROUND)
    assert scales.centroid.x == pytest.approx(HUB.x)


def test_the_ground_reaches_both_sides_of_the_scales() -> None:
    (scales,) = (one.area for one in PARTS if one.area.bounds and one.area.bounds[1] == GROUND)
    left, _, right, bottom = scales.bounds
    lines = [
        one.ink.bounds
        for one in PARTS
        if one.area.is_empty and abs(one.ink.centroid.y - bottom) < 0.01
    ]
    (west, east) = sorted(lines)
    assert (west[2], east[0]) == pytest.approx((left, right), abs=0.31)
    assert west[0] > 0.0
    assert east[2] < VEHICLE.size[0]


def test_the_arch_goes_round_the_tyre_at_one_distance() -> None:
    body = max((one.area for one in PARTS), key=lambda one: float(one.area))
    arch = VEHICLE.marks["reading.height"].way[1]
    radius = HUB.distance(Point(arch))
    assert radius > HUB.distance(Point(HUB.x, GROUND)) + 2.0
    for x, y in ((HUB.x - radius, HUB.y), (HUB.x + radius, HUB.y), arch):
        assert body.boundary.distance(Point(x, y)) < 0.3
    assert not body.intersects(LineString([HUB, (HUB.x, HUB.y - radius + 0.2)]))
