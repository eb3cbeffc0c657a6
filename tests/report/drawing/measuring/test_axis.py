"""Tests of `barwright.report.drawing.measuring.axis`: round parts lie evenly about the axis."""

from __future__ import annotations

import pytest

from barwright.report.drawing.measuring.axis import (
    AXIS_OF_FIXED_SOCKET,
    AXIS_OF_KEY_LEVER,
    AXIS_OF_TUBE,
)
from barwright.report.drawing.measuring.marks import Scheme, scheme_svg
from drawn import Drawn
from drawn_layout import one_sided, painted

AXIS = 34.0


@pytest.mark.parametrize(
    ("scheme", "hanging"),
    [(AXIS_OF_TUBE, 2), (AXIS_OF_KEY_LEVER, 2), (AXIS_OF_FIXED_SOCKET, 1)],
    ids=["tube", "key lever", "fixed socket"],
)
def test_all_but_arm_and_lever_lies_evenly_about_the_axis(scheme: Scheme, hanging: int) -> None:
    drawn = Drawn(scheme_svg(scheme, {}, number=1))
    assert len(one_sided(drawn, axis=AXIS)) == hanging
    assert all(one.area.area > 1.0 for one in painted(drawn) if one.hides)


@pytest.mark.parametrize("scheme", [AXIS_OF_TUBE, AXIS_OF_KEY_LEVER, AXIS_OF_FIXED_SOCKET])
def test_a_thin_line_stays_on_its_side_of_the_bar(scheme: Scheme) -> None:
    for figure, mark in scheme.marks.items():
        for (_, start), (_, end) in mark.edges:
            assert (start - AXIS) * (end - AXIS) > 0.0, figure
