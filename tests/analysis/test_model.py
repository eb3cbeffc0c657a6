"""Tests of `barwright.analysis.model`: what a corner's geometry must be for an answer."""

from __future__ import annotations

import math

import attrs
import pytest

import barwright as bw
from packing import discovered_once


def inclined(degrees: float) -> bw.Setup:
    """The demo van's front left corner, its bar rising toward the arm end."""
    setup = discovered_once().setup("fells:chassis/short", corner="front left")
    axis = (1.0, 0.0, math.tan(math.radians(degrees)))
    return attrs.evolve(setup, axle=attrs.evolve(setup.axle, bar_axis=axis))


def test_a_bar_that_is_level_within_the_tolerance_has_the_rates_of_a_level_one() -> None:
    assert bw.rates(inclined(2.4)) == bw.rates(inclined(0.0))


def test_a_bar_that_is_not_level_is_refused_with_the_reason() -> None:
    with pytest.raises(bw.GeometryError) as caught:
        bw.rates(inclined(2.6))

    assert (caught.value.code, caught.value.key) == ("G105", "bar_axis")
    assert caught.value.expected == "a bar that is level within 2.5°"
