"""Laws of `barwright.mechanics.spline.seating`."""

from __future__ import annotations

import math

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.spline.seating import AxialLayout, seat

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


def test_arrays_are_seated_element_by_element() -> None:
    shifts = np.linspace(-0.06, 0.06, 25)
    stops = np.where(np.arange(25) % 3 == 0, 0.002, -np.inf)
    column = seat(attrs.evolve(LAYOUT, anchor_position=0.578 + shifts, arm_stop=stops))

    for index, (shift, stop) in enumerate(zip(shifts, stops, strict=True)):
        one = seat(attrs.evolve(LAYOUT, anchor_position=0.578 + shift, arm_stop=stop))
        for field in attrs.fields(type(one)):
            wanted, got = getattr(one, field.name), np.asarray(getattr(column, field.name))
            np.testing.assert_array_equal(got[..., index], wanted, err_msg=field.name)


def test_seat_without_stops_or_noses_is_worked_by_hand() -> None:
    # Splines of 40 and 35 mm on a bar of 620 mm, sockets of 45 and 40 mm, 613 mm over both.
    layout = attrs.evolve(LAYOUT, anchor_position=0.573, arm_nose=0.0, anchor_nose=0.0)
    where = seat(layout)

    # All that is asked for: from 30 - 40 = -10 mm at the arm end up to 45 - 30 = 15 mm, and
    # from 573 - 620 + 25 = -22 mm at the anchor end up to 613 - 620 + 35 - 25 = 3 mm.
    assert (where.low, where.high) == pytest.approx((-0.010, 0.003), abs=1e-15)
    # Flush with the outer faces at 0 and at -7 mm, and no better between: nearest to zero.
    assert where.position == pytest.approx(0.0, abs=1e-15)
    assert where.ratio == 1.0
    assert where.arm_engagement == pytest.approx(0.040, abs=1e-15)
    assert where.anchor_engagement == pytest.approx(0.028, abs=1e-15)
    assert where.arm_protrusion == 0.0
    assert where.anchor_protrusion == pytest.approx(0.007, abs=1e-15)
    assert where.inner_edges == pytest.approx((0.040, 0.585), abs=1e-15)
    assert where.bare_arm_head == pytest.approx(0.0, abs=1e-15)
    assert where.bare_anchor_head == pytest.approx(0.0, abs=1e-15)


def test_noses_stop_and_stick_out() -> None:
    layout = attrs.evolve(LAYOUT, anchor_position=0.573, arm_stop=0.0, anchor_stop=0.700)
    where = seat(layout)

    # The arm nose of 4 mm touches the stop at 0 where the spline begins at 4 mm, beyond
    # the 3 mm up to which the anchor end has its 25 mm: 24 mm are left.
    assert where.position == pytest.approx(0.004, abs=1e-15)
    assert where.ratio == pytest.approx(24.0 / 25.0, rel=1e-12)
    assert where.arm_protrusion == 0.0
    assert where.anchor_protrusion == pytest.approx(0.620 + 0.004 + 0.006 - 0.613, abs=1e-15)


def test_anchor_stop_holds_the_nose_of_the_anchor_end() -> None:
    layout = attrs.evolve(LAYOUT, anchor_position=0.573, anchor_stop=0.615)
    where = seat(layout)

    # 615 - 620 - 6 = -11 mm is less than any position that would engage both in full.
    assert (where.low, where.high) == pytest.approx((-0.011, -0.011), abs=1e-15)
    assert where.ratio == pytest.approx(29.0 / 30.0, rel=1e-12)
    assert where.arm_protrusion == pytest.approx(0.015, abs=1e-15)


def test_layout_without_noses_and_stops_has_none() -> None:
    layout = AxialLayout(0.62, 0.04, 0.035, 0.045, 0.04, 0.573, 0.03, 0.025)

    assert (layout.arm_nose, layout.anchor_nose) == (0.0, 0.0)
    assert (layout.arm_stop, layout.anchor_stop) == (-math.inf, math.inf)


def test_figure_that_is_missing_is_not_hidden() -> None:
    where = seat(attrs.evolve(LAYOUT, arm_socket=math.nan))

    assert math.isnan(float(where.ratio))
    assert math.isnan(float(where.position))
