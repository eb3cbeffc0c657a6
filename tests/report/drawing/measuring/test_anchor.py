"""Tests of `barwright.report.drawing.measuring.anchor`: levers and sockets lie on their axes."""

from __future__ import annotations

import pytest
from shapely import Point

from barwright.report.drawing.measuring.anchor import (
    FIXED_SOCKET,
    KEY_LEVER,
    TUBE_WITH_FIXED_BOLT,
    TUBE_WITH_SWIVELLING_BOLT,
)
from barwright.report.drawing.measuring.marks import Scheme, scheme_svg
from drawn import Drawn
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
