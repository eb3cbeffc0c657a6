"""Tests of `barwright.report.drawing.measuring.corner`: parts lie between their own points."""

from __future__ import annotations

import pytest
from shapely import LineString, Point

from barwright.report.drawing.measuring.corner import DOUBLE_WISHBONE, STRUT, SWING_ARM
from barwright.report.drawing.measuring.marks import Scheme, scheme_svg
from drawn import XY, Drawn
from drawn_layout import Painted, painted

SCHEMES = [STRUT, DOUBLE_WISHBONE, SWING_ARM]


def parts_of(scheme: Scheme) -> list[Painted]:
    return [one for one in painted(Drawn(scheme_svg(scheme, {}, number=1))) if not one.is_text]


def ends_of(scheme: Scheme, figure: str) -> tuple[Point, Point]:
    """Points of the corner between which a length is taken."""
    (one, _), (other, _) = scheme.marks[figure].edges
    return Point(one), Point(other)


def towards(start: Point, end: Point, share: float) -> Point:
    return Point(start.x + share * (end.x - start.x), start.y + share * (end.y - start.y))


def is_near(found: Point, wanted: Point) -> bool:
    return bool(found.distance(wanted) < 0.05)


@pytest.mark.parametrize("scheme", SCHEMES, ids=lambda one: one.title)
def test_the_arm_reaches_from_the_bar_to_its_joint(scheme: Scheme) -> None:
    axis, joint = ends_of(scheme, "arm.radius")
    middle = towards(axis, joint, 0.5)
    (arm,) = (one.area for one in parts_of(scheme) if is_near(one.area.centroid, middle))
    assert arm.buffer(0.01).covers(LineString([axis, joint]))
    assert arm.length == pytest.approx(2.0 * (axis.distance(joint) + 4.4), abs=0.02)


@pytest.mark.parametrize("scheme", SCHEMES, ids=lambda one: one.title)
def test_the_damper_is_a_rod_from_its_mount_and_a_body_on_its_foot(scheme: Scheme) -> None:
    mount, foot = ends_of(scheme, "damper.open_length")
    parts = parts_of(scheme)
    rod = [one for one in parts if one.ink.covers(towards(mount, foot, 0.3))]
    bodies = [one.area for one in parts if one.area.covers(towards(mount, foot, 0.9))]
    body = min(bodies, key=lambda one: float(one.area))

    assert [one.area.is_empty for one in rod] == [True]
    assert rod[0].ink.distance(mount) == 0.0
    assert rod[0].ink.distance(body) == 0.0
    assert body.distance(foot) < 0.05
    assert not body.covers(towards(mount, foot, 1.05))
    assert LineString([mount, foot]).distance(body.centroid) < 0.05
    # The rubber sits round the rod, above the body.
    rubber = [one.area for one in parts if one.area.covers(towards(mount, foot, 0.1))]
    assert len(rubber) == 1
    assert rubber[0].disjoint(body)


@pytest.mark.parametrize("scheme", SCHEMES, ids=lambda one: one.title)
def test_the_upper_mount_is_in_the_middle_of_a_level_line(scheme: Scheme) -> None:
    mount, _ = ends_of(scheme, "damper.open_length")
    spans = [one.ink.bounds for one in parts_of(scheme) if is_near(one.ink.centroid, mount)]
    assert [right - left > 8.0 > 8.0 * (bottom - top) for left, top, right, bottom in spans] == [
        True
    ]


@pytest.mark.parametrize("scheme", SCHEMES, ids=lambda one: one.title)
def test_the_wheel_is_as_far_above_its_hub_as_below(scheme: Scheme) -> None:
    _, hub = ends_of(scheme, "axle.hub_outboard")
    areas = [one.area for one in parts_of(scheme) if one.area.bounds]
    wheel = max(areas, key=lambda one: float(one.bounds[3] - one.bounds[1]))
    assert wheel.centroid.y == pytest.approx(hub.y, abs=0.01)
    assert wheel.bounds[2] > hub.x


@pytest.mark.parametrize("scheme", SCHEMES, ids=lambda one: one.title)
@pytest.mark.parametrize("stop", ["droop", "bump"])
def test_the_angle_of_a_stop_ends_on_the_arm_as_it_lies_there(scheme: Scheme, stop: str) -> None:
    tip: XY = scheme.marks[f"axle.{stop}_stop"].way[-1]
    axis, _ = ends_of(scheme, "arm.radius")
    lines = [one.ink for one in parts_of(scheme) if one.ink.distance(Point(tip)) < 0.01]
    assert any(one.distance(axis) < 0.2 for one in lines)
    assert (tip[1] > axis.y) == (stop == "droop")


@pytest.mark.parametrize("scheme", SCHEMES, ids=lambda one: one.title)
def test_the_level_that_angles_are_measured_from_reaches_past_the_joint(scheme: Scheme) -> None:
    axis, joint = ends_of(scheme, "arm.radius")
    levels = [one.ink.bounds for one in parts_of(scheme) if abs(one.ink.centroid.y - axis.y) < 0.01]
    assert max(right for _, top, right, bottom in levels if bottom - top < 0.5) > joint.x
