"""Laws and refusals of `barwright.mechanics.adjuster`."""

from __future__ import annotations

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.adjuster import SwivellingBolt

BOLT = SwivellingBolt(pivot_distance=0.15, pivot_angle=-0.4, lever_radius=0.10, side=1)
DISTANCES = st.floats(0.06, 0.24)


@given(distance=DISTANCES, side=st.sampled_from([-1, 1]))
def test_distance_leads_to_an_angle_and_back(distance: float, side: int) -> None:
    bolt = attrs.evolve(BOLT, side=side)

    assert bolt.pin_distance(bolt.lever_angle(distance)) == pytest.approx(distance, rel=1e-12)


@given(distance=DISTANCES)
def test_two_sides_are_mirror_images_about_the_pivot(distance: float) -> None:
    other = attrs.evolve(BOLT, side=-1)
    one, two = BOLT.lever_angle(distance), other.lever_angle(distance)

    assert (one + two) / 2.0 == pytest.approx(BOLT.pivot_angle, abs=1e-13)
    assert BOLT.slope(one) == pytest.approx(-other.slope(two), rel=1e-10)


@given(distance=DISTANCES, turn=st.floats(-3.0, 3.0))
def test_turning_the_pivot_turns_the_lever_with_it(distance: float, turn: float) -> None:
    turned = attrs.evolve(BOLT, pivot_angle=BOLT.pivot_angle + turn)
    angle = BOLT.lever_angle(distance) + turn

    assert turned.lever_angle(distance) == pytest.approx(angle, abs=1e-13)


@given(distance=DISTANCES, torque=st.floats(1.0, 3000.0))
def test_work_at_the_bolt_is_work_at_the_lever(distance: float, torque: float) -> None:
    angle, step = float(BOLT.lever_angle(distance)), 1e-6
    travel = BOLT.pin_distance(angle + step) - BOLT.pin_distance(angle - step)

    assert BOLT.bolt_force(torque, lever_angle=angle) * travel == pytest.approx(
        torque * 2.0 * step, rel=1e-6
    )


@pytest.mark.parametrize(("side", "sign"), [(1, 1.0), (-1, -1.0)])
def test_lever_beyond_its_pivot_pulls_and_short_of_it_pushes(side: int, sign: float) -> None:
    bolt = attrs.evolve(BOLT, side=side)
    force = bolt.bolt_force(800.0, lever_angle=bolt.lever_angle(0.15))

    assert np.sign(force) == sign


def test_arrays_give_what_their_elements_give() -> None:
    distances = np.array([0.08, 0.15, 0.22])
    angles = np.asarray(BOLT.lever_angle(distances))

    assert angles == pytest.approx([BOLT.lever_angle(float(d)) for d in distances], abs=1e-14)


def test_refusal_names_the_adjuster_and_its_range() -> None:
    with pytest.raises(GeometryError) as caught:
        BOLT.lever_angle(0.3)

    assert caught.value.key == "adjuster"
    assert caught.value.value == "300.0 mm along the bolt"
    assert caught.value.expected == "50.0 mm to 250.0 mm"


def test_angle_of_the_force_is_keyword_only() -> None:
    with pytest.raises(TypeError):
        BOLT.bolt_force(800.0, 0.3)  # type: ignore[call-arg]
