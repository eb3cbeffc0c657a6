"""`inclined`: what is vertical of a linkage in an inclined plane."""

from __future__ import annotations

import pytest

from barwright.mechanics.linkage.inclined import InclinedLinkage
from linkages import EACH


@pytest.mark.parametrize("name", EACH)
def test_heights_are_a_share_and_the_damper_is_as_it_was(name: str) -> None:
    plane, vertical = EACH[name].motion(0.1), InclinedLinkage(EACH[name], 0.9).motion(0.1)

    for one, other in ((plane.load, vertical.load), (plane.hub, vertical.hub)):
        assert other.outboard == one.outboard
        assert (other.height, other.slope, other.curvature) == pytest.approx(
            (0.9 * one.height, 0.9 * one.slope, 0.9 * one.curvature)
        )
    assert vertical.damper_length == plane.damper_length
    back = InclinedLinkage(EACH[name], 0.9).angle_at_damper_length(plane.damper_length)
    assert back == pytest.approx(0.1)
