"""The seat of a bar against a linear programme and a dense search over positions."""

from __future__ import annotations

import math

import attrs
import numpy as np
import pytest
import scipy.optimize
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from barwright.mechanics.common.types import Real
from barwright.mechanics.spline.seating import AxialLayout, Seating, seat
from draws import draws

TOLERANCE = 1e-9


def millimetres(low: int, high: int) -> st.SearchStrategy[float]:
    """Lengths in quarters of a millimetre."""
    return st.integers(4 * low, 4 * high).map(lambda n: n / 4000.0)


@st.composite
def layouts(draw: st.DrawFn) -> AxialLayout:
    """Draw a bar in its sockets: short, long, with noses and stops or without."""
    bar, spread = draw(millimetres(600, 700)), draw(millimetres(-60, 60))
    anchor_socket = draw(millimetres(20, 60))
    layout = AxialLayout(
        bar_length=bar,
        arm_spline=draw(millimetres(15, 60)),
        anchor_spline=draw(millimetres(15, 60)),
        arm_socket=draw(millimetres(20, 60)),
        anchor_socket=anchor_socket,
        anchor_position=bar + spread - anchor_socket,
        arm_required=draw(millimetres(10, 50)),
        anchor_required=draw(millimetres(10, 50)),
        arm_nose=draw(millimetres(0, 15)),
        anchor_nose=draw(millimetres(0, 15)),
    )
    least = draw(millimetres(-80, 40)) - layout.arm_nose
    most = least + draw(millimetres(0, 80)) + layout.arm_nose + bar + layout.anchor_nose
    return attrs.evolve(
        layout,
        arm_stop=least if draw(st.booleans()) else -math.inf,
        anchor_stop=most if draw(st.booleans()) else math.inf,
    )


def _stops(layout: AxialLayout) -> tuple[float, float]:
    """Least and greatest position that the stops leave."""
    return (
        float(layout.arm_stop + layout.arm_nose),
        float(layout.anchor_stop - layout.bar_length - layout.anchor_nose),
    )


def _overlap(begin: Real, length: Real, socket: Real, width: Real) -> NDArray[np.float64]:
    """Length that two intervals share."""
    shared = np.minimum(begin + length, socket + width) - np.maximum(begin, socket)
    return np.asarray(np.maximum(0.0, shared))


def _engagements(
    layout: AxialLayout, position: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Overlap at the arm end and at the anchor end."""
    x = layout
    far = position + x.bar_length - x.anchor_spline
    return (
        _overlap(position, x.arm_spline, 0.0, x.arm_socket),
        _overlap(far, x.anchor_spline, x.anchor_position, x.anchor_socket),
    )


def _quality(layout: AxialLayout, position: NDArray[np.float64]) -> NDArray[np.float64]:
    """Smaller ratio of engaged to required, capped at one."""
    arm, anchor = _engagements(layout, position)
    ratio = np.minimum(arm / layout.arm_required, anchor / layout.anchor_required)
    return np.minimum(1.0, ratio)


def _protrusion(layout: AxialLayout, position: NDArray[np.float64]) -> NDArray[np.float64]:
    """Sum of what sticks out beyond both sockets."""
    x = layout
    anchor_face = x.anchor_position + x.anchor_socket
    beyond = position + x.bar_length + x.anchor_nose - anchor_face
    return np.maximum(0.0, x.arm_nose - position) + np.maximum(0.0, beyond)


def _grid(layout: AxialLayout) -> NDArray[np.float64]:
    """Positions an eighth of a millimetre apart, which hits every corner of the layout."""
    least, most = _stops(layout)
    grid = np.arange(-1600, 1601) / 8000.0
    inside = grid[(grid >= least - TOLERANCE) & (grid <= most + TOLERANCE)]
    edges = [edge for edge in (least, most) if math.isfinite(edge)]
    return np.sort(np.concatenate([inside, edges]))


@settings(max_examples=draws(150))
@given(layout=layouts())
def test_no_position_of_a_dense_search_engages_better(layout: AxialLayout) -> None:
    where = seat(layout)
    position = np.array([where.position])

    assert np.max(_quality(layout, _grid(layout))) <= max(0.0, where.ratio) + TOLERANCE
    assert _quality(layout, position) == pytest.approx(max(0.0, where.ratio), abs=TOLERANCE)


@settings(max_examples=draws(40))
@given(layout=layouts())
def test_ratio_is_the_optimum_of_a_linear_programme(layout: AxialLayout) -> None:
    x, (least, most) = layout, _stops(layout)
    # Unknown position p and ratio h; every limit of an overlap is a line in p.
    lines = [
        (-1.0, x.arm_required, x.arm_spline),
        (1.0, x.arm_required, x.arm_socket),
        (-1.0, x.anchor_required, x.bar_length - x.anchor_position),
        (
            1.0,
            x.anchor_required,
            x.anchor_position + x.anchor_socket - x.bar_length + x.anchor_spline,
        ),
        (0.0, x.arm_required, min(x.arm_spline, x.arm_socket)),
        (0.0, x.anchor_required, min(x.anchor_spline, x.anchor_socket)),
    ]
    optimum = scipy.optimize.linprog(
        [0.0, -1.0],
        A_ub=[line[:2] for line in lines],
        b_ub=[line[2] for line in lines],
        bounds=[(least, most), (None, 1.0)],
    )
    assert seat(layout).ratio == pytest.approx(-optimum.fun, abs=1e-8)


@settings(max_examples=draws(150))
@given(layout=layouts())
def test_interval_holds_all_positions_that_are_as_good_and_no_other(layout: AxialLayout) -> None:
    where, grid = seat(layout), _grid(layout)
    quality = _quality(layout, grid)
    inside = (grid >= where.low - TOLERANCE) & (grid <= where.high + TOLERANCE)

    assert where.low <= where.position <= where.high
    assert np.all(quality[inside] >= where.ratio - 1e-6)
    if where.ratio > 1e-6:
        outside = (grid < where.low - 1e-7) | (grid > where.high + 1e-7)
        assert np.all(quality[outside] < where.ratio - TOLERANCE)


def _rank(layout: AxialLayout, position: NDArray[np.float64]) -> NDArray[np.float64]:
    """Protrusion, and far less weighty the distance from zero."""
    return _protrusion(layout, position) + 1e-3 * np.abs(position)


@settings(max_examples=draws(150))
@given(layout=layouts())
def test_among_equal_positions_stop_then_protrusion_then_zero_decide(layout: AxialLayout) -> None:
    where, (least, most) = seat(layout), _stops(layout)
    position, low, high = float(where.position), float(where.low), float(where.high)
    # Closer than rounding, a stop counts as reached.
    if low - least < 1e-12:
        assert abs(position - low) < 1e-12
    elif most - high < 1e-12:
        assert abs(position - high) < 1e-12
    else:
        grid = _grid(layout)
        equal = grid[(grid >= low) & (grid <= high)]
        best = np.min(_rank(layout, np.append(equal, [low, high])))
        assert _rank(layout, np.array([position])) <= best + TOLERANCE


@settings(max_examples=draws(100))
@given(layout=layouts())
def test_report_of_the_seat_is_that_of_the_intervals(layout: AxialLayout) -> None:
    where, x = seat(layout), layout
    arm, anchor = _engagements(layout, np.array([where.position]))
    far_edge = where.position + x.bar_length

    assert where.arm_engagement == pytest.approx(arm.item(), abs=1e-12)
    assert where.anchor_engagement == pytest.approx(anchor.item(), abs=1e-12)
    protrusion = where.arm_protrusion + where.anchor_protrusion
    assert protrusion == pytest.approx(
        _protrusion(layout, np.array([where.position])).item(), abs=1e-12
    )
    # From edge to edge: both splines' inner edges, less the bare lengths beyond the sockets.
    body = far_edge - x.anchor_spline - (where.position + x.arm_spline)
    free = where.inner_edges[1] - where.inner_edges[0]
    assert free == pytest.approx(body + where.bare_arm_head + where.bare_anchor_head, abs=1e-12)
    assert where.inner_edges[0] <= x.arm_socket
    assert where.inner_edges[1] >= x.anchor_position


LONG_SOCKETS = AxialLayout(
    bar_length=0.60,
    arm_spline=0.02,
    anchor_spline=0.02,
    arm_socket=0.06,
    anchor_socket=0.06,
    anchor_position=0.54,
    arm_required=0.02,
    anchor_required=0.02,
)


def _at(**change: float) -> Seating:
    """Seat of a bar with 40 mm of play: from 0 mm to 40 mm but for its changes."""
    return seat(attrs.evolve(LONG_SOCKETS, anchor_position=0.58, **change))


def test_bar_without_stop_lies_nearest_to_zero() -> None:
    where = _at()

    assert (where.low, where.high) == pytest.approx((0.0, 0.04), abs=1e-15)
    assert where.position == pytest.approx(0.0, abs=1e-15)


def test_bar_with_a_stop_within_its_play_lies_at_it() -> None:
    assert _at(arm_stop=0.011).position == pytest.approx(0.011, abs=1e-15)
    assert _at(anchor_stop=0.631).position == pytest.approx(0.031, abs=1e-15)


def test_bar_with_a_nose_draws_it_in() -> None:
    assert _at(arm_nose=0.007).position == pytest.approx(0.007, abs=1e-15)


def test_bar_too_short_for_both_sockets_has_no_ratio() -> None:
    where = seat(attrs.evolve(LONG_SOCKETS, anchor_position=0.80))

    assert where.ratio < 0.0
    assert min(where.arm_engagement, where.anchor_engagement) == 0.0
