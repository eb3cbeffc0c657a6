"""Tests of `barwright.report.drawing.measuring.anchor`: levers and sockets lie on their axes."""

from __future__ import annotations

import math

import pytest
from shapely import Point

from barwright.report.drawing.measuring.anchor import (
    FIXED_SOCKET,
    KEY_LEVER,
    TUBE_WITH_FIXED_BOLT,
    TUBE_WITH_SWIVELLING_BOLT,
)
from barwright.report.drawing.measuring.marks import Scheme, scheme_svg
from drawn import Drawn, points_of
from drawn_layout import one_sided, painted


@pytest.mark.parametrize("scheme", [TUBE_WITH_FIXED_BOLT, TUBE_WITH_SWIVELLING_BOLT])
def test_the_lever_of_a_tube_lies_evenly_between_its_pin_and_the_bar(scheme: Scheme) -> None:
    (pin, _), (bar, _) = scheme.marks["anchor.lever_radius"].edges
    found = painted(Drawn(scheme_svg(scheme, {}, number=1)))
    middle = Point((pin[0] + bar[0]) / 2.0, pin[1])
    (lever,) = (one.area for one in found if one.area.covers(middle) and one.area.area < 500.0)
    assert pin[1] == bar[1]
    assert lever.centroid.y == pytest.approx(pin[1])
    assert lever.bounds[0] == pin[0]
    circles = [one.area for one in found if one.area.centroid.distance(Point(bar)) < 0.01]
    assert min(lever.distance(one) for one in circles) == 0.0


@pytest.mark.parametrize(
    ("scheme", "vertex"),
    [
        (FIXED_SOCKET, (40.0, 32.0)),
        (KEY_LEVER, (64.0, 34.0)),
        (TUBE_WITH_FIXED_BOLT, (60.0, 62.0)),
        (TUBE_WITH_SWIVELLING_BOLT, (60.0, 62.0)),
    ],
)
def test_angles_are_measured_about_the_middle_of_the_socket(
    scheme: Scheme, vertex: tuple[float, float]
) -> None:
    found = painted(Drawn(scheme_svg(scheme, {}, number=1)))
    assert sum(one.area.centroid.distance(Point(vertex)) < 0.01 for one in found) >= 2
    arcs = [mark.way for mark in scheme.marks.values() if len(mark.way) > 2]
    assert arcs
    for way in arcs:
        radii = {round(Point(vertex).distance(Point(one)), 6) for one in way}
        assert len(radii) == 1


def test_a_fixed_socket_lies_evenly_in_its_block() -> None:
    assert one_sided(Drawn(scheme_svg(FIXED_SOCKET, {}, number=1)), axis=32.0) == []


@pytest.mark.parametrize(
    "scheme", [FIXED_SOCKET, KEY_LEVER, TUBE_WITH_FIXED_BOLT, TUBE_WITH_SWIVELLING_BOLT]
)
def test_the_angle_of_the_key_ends_at_the_key(scheme: Scheme) -> None:
    drawn = Drawn(scheme_svg(scheme, {}, number=1))
    first, second, third = (scheme.marks["anchor.socket.key_angle"].way[n] for n in (0, 1, -1))
    bold = [
        points_of(e)
        for e in drawn.root
        if e.get("stroke-width") == "0.6" and e.get("d", "Z")[-1] != "Z"
    ]
    sweep = len(scheme.marks["anchor.socket.key_angle"].way) * math.dist(first, second)
    keys = [
        line
        for line in bold
        if len(line) == 2
        and abs(math.dist(*line) - 2.2) < 0.01
        and _is_in_line(line[0], line[1], third)
    ]
    assert len(keys) == 1
    assert sweep < math.pi * 1.2 * 17.0


def _is_in_line(
    one: tuple[float, float], other: tuple[float, float], end: tuple[float, float]
) -> bool:
    along = (other[0] - one[0], other[1] - one[1])
    to_end = (end[0] - one[0], end[1] - one[1])
    aside = along[0] * to_end[1] - along[1] * to_end[0]
    return abs(aside) / math.hypot(*along) < 0.05
