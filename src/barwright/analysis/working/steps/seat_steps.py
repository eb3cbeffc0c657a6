"""Steps from the lengths along the bar axis to where the bar lies, and what it engages."""

from __future__ import annotations

from barwright.analysis.working.expression import Expression, Symbol, larger, smaller
from barwright.analysis.working.working_unit import LENGTH_UNIT, NO_UNIT
from barwright.analysis.working.worksheet import Worksheet
from barwright.units import LENGTH

__all__ = [
    "ENDS",
    "OVERLAP",
    "anchor_edge_step",
    "arm_edge_step",
    "bar_length_step",
    "position_step",
    "seat_steps",
]

OVERLAP = "overlap of two intervals"
"""Where the equations of engagement come from."""

ENDS = (("a", "arm", "arm end"), ("c", "anchor", "anchor end"))
"""Both ends of the bar: index of their symbols, name of their fields, and in words."""


def seat_steps(sheet: Worksheet) -> None:
    """Find where the bar lies in its sockets, and what each end engages."""
    sheet.begin("Where the bar lies")
    position_step(sheet)
    bar_length_step(sheet)
    _noses(sheet)
    _anchor_socket(sheet)
    _engagements(sheet)
    _shares_of_what_is_required(sheet)
    _protrusions(sheet)
    if sheet.corner.seated_length is not None:
        _engaged_span(sheet)


def _engagements(sheet: Worksheet) -> None:
    seat, p, length = sheet.corner.seat, position_step(sheet), bar_length_step(sheet)
    x_c, w_c = _anchor_socket(sheet)
    _length_step(
        sheet,
        "e_a",
        "engagement at the arm end",
        larger(arm_edge_step(sheet) - larger(p, 0.0), 0.0),
        found=seat.arm_engagement,
        figure="ends.arm end.engagement",
    )
    _length_step(
        sheet,
        "e_c",
        "engagement at the anchor end",
        larger(smaller(p + length, x_c + w_c) - anchor_edge_step(sheet), 0.0),
        found=seat.anchor_engagement,
        figure="ends.anchor end.engagement",
    )


def _shares_of_what_is_required(sheet: Worksheet) -> None:
    for name, _, end in ENDS:
        socket = "arm" if name == "a" else "anchor"
        needed = sheet.given(
            f"e_{name}0",
            f"engagement that the socket at the {end} requires",
            f"{socket}.socket.required_engagement",
        )
        sheet.step(
            f"j_{name}",
            f"engagement at the {end} over what is required; 1 or more is enough",
            Symbol(f"e_{name}") / needed,
            NO_UNIT,
            "definition",
        )


def _protrusions(sheet: Worksheet) -> None:
    seat, p, length = sheet.corner.seat, position_step(sheet), bar_length_step(sheet)
    nose_a, nose_c = _noses(sheet)
    x_c, w_c = _anchor_socket(sheet)
    _length_step(
        sheet,
        "o_a",
        "what sticks out beyond the arm's socket",
        larger(nose_a - p, 0.0),
        found=seat.arm_protrusion,
        figure="ends.arm end.protrusion",
    )
    _length_step(
        sheet,
        "o_c",
        "what sticks out beyond the anchor's socket",
        larger(p + length + nose_c - x_c - w_c, 0.0),
        found=seat.anchor_protrusion,
        figure="ends.anchor end.protrusion",
    )


def _engaged_span(sheet: Worksheet) -> None:
    edges = sheet.corner.seat.inner_edges
    _length_step(
        sheet,
        "L_e",
        "length between the engaged edges",
        anchor_edge_step(sheet) - arm_edge_step(sheet),
        found=edges[1] - edges[0],
        figure="engaged_span",
    )


def _length_step(
    sheet: Worksheet, name: str, meaning: str, equation: Expression, *, found: object, figure: str
) -> None:
    """Put down a length along the bar, as the fit has it too."""
    sheet.step(
        name,
        meaning,
        equation,
        LENGTH_UNIT,
        OVERLAP,
        found=found,
        figure=sheet.of_fit(figure),
        kind=LENGTH,
    )


def position_step(sheet: Worksheet) -> Symbol:
    """Outer edge of the arm-end spline."""
    return sheet.solved(
        "p",
        "outer edge of the arm-end spline, from the arm socket's outer face toward the anchor",
        float(sheet.corner.seat.position),
        LENGTH_UNIT,
        "of all positions the one at which the worse end engages best; j_a and j_c show it",
        shown_by=("j_a", "j_c"),
        figure=sheet.of_fit("position"),
        kind=LENGTH,
    )


def bar_length_step(sheet: Worksheet) -> Symbol:
    """Length of the bar over both splines."""
    return sheet.given("L", "length of the bar over both splines", "bar.length")


def _noses(sheet: Worksheet) -> tuple[Symbol, Symbol]:
    """Put down what the bar has beyond its splines, at the arm end and at the anchor end."""
    return (
        sheet.given("n_a", "nose beyond the spline at the arm end", "bar.arm_end.nose"),
        sheet.given("n_c", "nose beyond the spline at the anchor end", "bar.anchor_end.nose"),
    )


def _anchor_socket(sheet: Worksheet) -> tuple[Symbol, Symbol]:
    """Where the anchor's socket begins, and its length."""
    x_t = sheet.given(
        "x_t", "end of the anchor next to the arm, from the arm's socket", "axle.tube_position"
    )
    s_S = sheet.given(  # noqa: N806 - a symbol of the page
        "s_S", "socket on the anchor, from that end", "anchor.socket_position"
    )
    w_c = sheet.given("w_c", "length of the anchor's socket", "anchor.socket.length")
    begins = sheet.step(
        "x_c", "where the anchor's socket begins", x_t + s_S, LENGTH_UNIT, "definition"
    )
    return begins, w_c


def arm_edge_step(sheet: Worksheet) -> Symbol:
    """Inner edge of what engages at the arm end."""
    w_a = sheet.given("w_a", "length of the arm's socket", "arm.socket.length")
    l_a = sheet.given("l_a", "length of the spline at the arm end", "bar.arm_end.length")
    return sheet.step(
        "i_a",
        "inner edge of what engages at the arm end",
        smaller(position_step(sheet) + l_a, w_a),
        LENGTH_UNIT,
        OVERLAP,
        found=sheet.corner.seat.inner_edges[0],
    )


def anchor_edge_step(sheet: Worksheet) -> Symbol:
    """Inner edge of what engages at the anchor end."""
    x_c, _ = _anchor_socket(sheet)
    l_c = sheet.given("l_c", "length of the spline at the anchor end", "bar.anchor_end.length")
    return sheet.step(
        "i_c",
        "inner edge of what engages at the anchor end",
        larger(position_step(sheet) + bar_length_step(sheet) - l_c, x_c),
        LENGTH_UNIT,
        OVERLAP,
        found=sheet.corner.seat.inner_edges[1],
    )
