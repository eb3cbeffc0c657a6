"""Laws of `barwright.mechanics.splines`."""

from __future__ import annotations

import math

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.splines import (
    AxialLayout,
    head_shear_stress,
    seat,
    tooth_bearing_stress,
    tooth_shear_stress,
)

LAYOUT = AxialLayout(
    bar_length=0.620,
    arm_spline=0.040,
    anchor_spline=0.035,
    arm_socket=0.045,
    anchor_socket=0.040,
    anchor_position=0.578,
    arm_required=0.030,
    anchor_required=0.025,
    arm_nose=0.004,
    anchor_nose=0.006,
)
SHIFTS = st.floats(-0.05, 0.05)


def _mirrored(layout: AxialLayout) -> AxialLayout:
    """Exchange the two ends, seen from the anchor's outer face."""
    face = layout.anchor_position + layout.anchor_socket
    return attrs.evolve(
        layout,
        arm_spline=layout.anchor_spline,
        anchor_spline=layout.arm_spline,
        arm_socket=layout.anchor_socket,
        anchor_socket=layout.arm_socket,
        anchor_position=face - layout.arm_socket,
        arm_required=layout.anchor_required,
        anchor_required=layout.arm_required,
        arm_nose=layout.anchor_nose,
        anchor_nose=layout.arm_nose,
        arm_stop=face - layout.anchor_stop,
        anchor_stop=face - layout.arm_stop,
    )


@given(shift=SHIFTS, stop=st.one_of(st.just(-math.inf), st.floats(-0.05, 0.03)))
def test_exchanging_the_ends_changes_neither_ratio_nor_room(shift: float, stop: float) -> None:
    layout = attrs.evolve(LAYOUT, anchor_position=0.578 + shift, arm_stop=stop)
    one, two = seat(layout), seat(_mirrored(layout))

    assert one.ratio == pytest.approx(two.ratio, abs=1e-12)
    assert one.high - one.low == pytest.approx(two.high - two.low, abs=1e-12)


@given(shift=SHIFTS, scale=st.floats(0.2, 5.0))
def test_enlarging_everything_keeps_the_ratio(shift: float, scale: float) -> None:
    layout = attrs.evolve(LAYOUT, anchor_position=0.578 + shift)
    larger = AxialLayout(**{name: scale * size for name, size in attrs.asdict(layout).items()})
    one, two = seat(layout), seat(larger)

    assert two.ratio == pytest.approx(one.ratio, abs=1e-12)
    assert two.position == pytest.approx(scale * one.position, abs=1e-12)


@given(shift=SHIFTS, less=st.floats(0.1, 1.0))
def test_asking_for_less_never_lowers_the_ratio(shift: float, less: float) -> None:
    layout = attrs.evolve(LAYOUT, anchor_position=0.578 + shift)
    modest = attrs.evolve(layout, arm_required=0.030 * less, anchor_required=0.025 * less)

    assert seat(modest).ratio >= min(seat(layout).ratio, 0.0) / less - 1e-12
    if seat(layout).ratio > 0.0:
        assert seat(modest).ratio >= seat(layout).ratio - 1e-12


@given(shift=SHIFTS)
def test_shared_shortage_is_shared_in_proportion(shift: float) -> None:
    where = seat(attrs.evolve(LAYOUT, anchor_position=0.600 + abs(shift)))

    # The sockets are too far apart for both: neither end is better off.
    if 0.0 < where.ratio < 1.0:
        assert where.arm_engagement / 0.030 == pytest.approx(where.ratio, abs=1e-9)
        assert where.anchor_engagement / 0.025 == pytest.approx(where.ratio, abs=1e-9)


def test_bar_of_the_right_length_covers_both_inner_faces() -> None:
    layout = attrs.evolve(LAYOUT, arm_socket=0.040, anchor_socket=0.035, anchor_position=0.585)
    where = seat(attrs.evolve(layout, arm_nose=0.0, anchor_nose=0.0))

    assert where.ratio == 1.0
    assert where.inner_edges == pytest.approx((0.040, 0.585), abs=1e-15)
    assert (where.bare_arm_head, where.bare_anchor_head) == pytest.approx((0.0, 0.0), abs=1e-15)


def test_stop_at_the_very_edge_of_the_play_still_decides() -> None:
    # Full engagement begins at 21 mm - 30 mm = -9 mm, where the stop is.
    layout = AxialLayout(
        bar_length=0.600,
        arm_spline=0.030,
        anchor_spline=0.020,
        arm_socket=0.100,
        anchor_socket=0.060,
        anchor_position=0.580,
        arm_required=0.021,
        anchor_required=0.010,
        arm_stop=-0.009,
    )
    where = seat(layout)

    assert where.position == pytest.approx(where.low, abs=1e-12)


@given(torque=st.floats(-3000.0, 3000.0), scale=st.floats(-3.0, 3.0))
def test_stresses_are_proportional_to_torque(torque: float, scale: float) -> None:
    for one, two in zip(_stresses(torque), _stresses(scale * torque), strict=True):
        assert two == pytest.approx(scale * one, rel=1e-12, abs=1e-3)


def _stresses(torque: float, *, teeth: int = 40, engagement: float = 0.030) -> list[float]:
    """Head shear, tooth shear and bearing pressure of one head."""
    return [
        float(head_shear_stress(torque, root_diameter=0.030)),
        float(
            tooth_shear_stress(
                torque,
                pitch_diameter=0.032,
                teeth=teeth,
                engagement=engagement,
                tooth_thickness=0.00125,
            )
        ),
        float(
            tooth_bearing_stress(
                torque,
                pitch_diameter=0.032,
                teeth=teeth,
                engagement=engagement,
                tooth_depth=0.001,
            )
        ),
    ]


def test_missing_tooth_and_short_engagement_load_the_teeth_and_not_the_head() -> None:
    whole, cut = _stresses(1000.0), _stresses(1000.0, teeth=38, engagement=0.020)

    assert cut[0] == whole[0]
    assert cut[1] == pytest.approx(whole[1] * 40 / 38 * 1.5, rel=1e-13)
    assert cut[2] == pytest.approx(whole[2] * 40 / 38 * 1.5, rel=1e-13)


@given(bore=st.floats(0.001, 0.029))
def test_bore_raises_the_stress_of_a_head(bore: float) -> None:
    solid = head_shear_stress(1000.0, root_diameter=0.030)

    assert head_shear_stress(1000.0, root_diameter=0.030, bore=bore) > solid


def test_sizes_of_a_head_are_keyword_only() -> None:
    with pytest.raises(TypeError):
        head_shear_stress(1000.0, 0.030, 0.010)  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        tooth_shear_stress(1000.0, 0.032, 40, 0.030, 0.00125)  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        tooth_bearing_stress(1000.0, 0.032, 40, 0.030, 0.001)  # type: ignore[call-arg]
