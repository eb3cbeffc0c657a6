"""Rows of `barwright.mechanics.spline.seating`: a linear programme over position and ratio."""

from __future__ import annotations

import numpy as np
import scipy.optimize

from barwright.mechanics.spline.seating import AxialLayout, seat
from validation import Kind, Row

# Sockets too far apart for what both ends ask for; lengths in metres.
LAYOUT = AxialLayout(
    bar_length=0.620,
    arm_spline=0.040,
    anchor_spline=0.035,
    arm_socket=0.045,
    anchor_socket=0.040,
    anchor_position=0.630,
    arm_required=0.030,
    anchor_required=0.025,
)
GIVEN = (
    "bar 620 mm, splines 40 and 35 mm, sockets 45 and 40 mm at 0 and 630 mm, 30 and 25 mm required"
)


def optimum() -> tuple[float, float]:
    """Position [m] and ratio of a linear programme; each edge of an overlap is a line."""
    x = LAYOUT
    edges = [
        # Lowest and highest position of an overlap of at least h times the requirement.
        ((-1.0, x.arm_required), x.arm_spline),
        ((1.0, x.arm_required), x.arm_socket),
        ((-1.0, x.anchor_required), x.bar_length - x.anchor_position),
        (
            (1.0, x.anchor_required),
            x.anchor_position + x.anchor_socket + x.anchor_spline - x.bar_length,
        ),
    ]
    found = scipy.optimize.linprog(
        [0.0, -1.0],
        A_ub=np.array([line for line, _ in edges]),
        b_ub=np.array([end for _, end in edges]),
        bounds=[(None, None), (None, 1.0)],
    )
    position, ratio = found.x
    return float(position), float(ratio)


ROWS = [
    Row(
        of="seating.seat",
        source="scipy, linear programme over position and ratio: the worse end's ratio",
        given=GIVEN,
        unit="",
        expected=lambda: optimum()[1],
        got=lambda: float(seat(LAYOUT).ratio),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="seating.seat",
        source="scipy, linear programme over position and ratio: the position",
        given=GIVEN,
        unit="mm",
        expected=lambda: optimum()[0] * 1e3,
        got=lambda: float(seat(LAYOUT).position) * 1e3,
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
]
