"""Linkages and wheel carriers against a multibody engine and many digits; see `linkages`."""

from __future__ import annotations

from typing import Any

import attrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.linkage.arm_and_strut import Linkage
from draws import draws
from linkages import (
    ANGLES,
    EACH,
    STRUT,
    STRUTS,
    SWING_ARMS,
    WISHBONE,
    WISHBONES,
    Engine,
    exactly,
    roll_centre_by_lines,
)

STATES = st.one_of(
    st.tuples(STRUTS, ANGLES),
    st.tuples(SWING_ARMS, ANGLES),
    st.tuples(WISHBONES, st.floats(-0.25, 0.25)),
)


@settings(max_examples=draws(60))
@given(state=STATES)
def test_the_engine_puts_every_point_where_we_do(state: tuple[Any, float]) -> None:
    linkage, angle = state
    engine, motion = Engine(linkage, angle), linkage.motion(angle)

    for site, path in (("load", motion.load), ("hub", motion.hub)):
        assert (path.outboard, path.height) == pytest.approx(tuple(engine.place(site)), abs=1e-13)
    assert motion.tilt == pytest.approx(engine.tilt, abs=1e-13)
    assert motion.damper_length == pytest.approx(engine.damper_length, rel=1e-13)


@settings(max_examples=draws(60))
@given(state=STATES)
def test_the_engines_jacobians_are_our_slopes(state: tuple[Any, float]) -> None:
    linkage, angle = state
    engine, motion, carrier = Engine(linkage, angle), linkage.motion(angle), linkage.carrier(angle)

    for site, path in (("load", motion.load), ("hub", motion.hub)):
        sideways = carrier.outboard_slope(getattr(linkage, f"{site}_point"))
        assert (sideways, path.slope) == pytest.approx(tuple(engine.velocity(site)), abs=1e-12)
    assert carrier.tilt_slope == pytest.approx(engine.tilt_slope, abs=1e-12)
    assert motion.damper_slope == pytest.approx(engine.damper_slope, abs=1e-12)
    work = -engine.damper_slope / engine.velocity("load")[1]
    assert motion.motion_ratio == pytest.approx(work, abs=1e-12)


OTHER_ARM = {
    "strut, other arm": attrs.evolve(STRUT, arm_radius=0.375, reference_radius=0.36),
    "wishbone, other arm": attrs.evolve(WISHBONE, arm_radius=0.355, reference_radius=0.34),
}
EVERY: dict[str, Linkage] = {**EACH, **OTHER_ARM}


@pytest.mark.parametrize("angle", [-0.25, 0.0, 0.3])
@pytest.mark.parametrize("linkage", EVERY.values(), ids=EVERY)
def test_values_and_derivatives_are_those_of_many_digits(linkage: Any, angle: float) -> None:
    motion, carrier = linkage.motion(angle), linkage.carrier(angle)
    ours = {
        ("load.outboard", 0): motion.load.outboard,
        ("load.outboard", 1): carrier.outboard_slope(linkage.load_point),
        ("load.height", 0): motion.load.height,
        ("load.height", 1): motion.load.slope,
        ("load.height", 2): motion.load.curvature,
        ("hub.outboard", 0): motion.hub.outboard,
        ("hub.height", 0): motion.hub.height,
        ("hub.height", 1): motion.hub.slope,
        ("hub.height", 2): motion.hub.curvature,
        ("damper", 0): motion.damper_length,
        ("damper", 1): motion.damper_slope,
        ("damper", 2): motion.damper_curvature,
        ("tilt", 0): motion.tilt,
        ("tilt", 1): carrier.tilt_slope,
        ("tilt", 2): carrier.tilt_curvature,
    }
    for (quantity, derivative), value in ours.items():
        expected = exactly(linkage, angle, quantity, derivative)
        assert value == pytest.approx(expected, abs=1e-13), (quantity, derivative)


@pytest.mark.parametrize("angle", [-0.2, 0.05, 0.25])
@pytest.mark.parametrize("linkage", EACH.values(), ids=EACH)
def test_roll_centre_lies_on_the_line_from_contact_to_instant_centre(
    linkage: Any, angle: float
) -> None:
    height = roll_centre_by_lines(linkage, angle, half_track=0.72)
    ours = linkage.carrier(angle).roll_centre_height(linkage.load_point, half_track=0.72)

    assert ours == pytest.approx(height, rel=1e-10)
