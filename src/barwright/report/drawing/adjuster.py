"""The adjuster's bolt to scale: where the nut, or the bolt's end, goes, and what is left."""

from __future__ import annotations

import enum

import attrs

from barwright.analysis.corner.anchorage import (
    BoltDatum,
    TurnedPart,
    bolt_datum,
    change_per_turn,
    measured_to,
    setting_span,
    turned,
)
from barwright.analysis.reindex.plan.plan import Plan, TurningSense
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.report.drawing.svg import (
    BOLD,
    HAIR,
    INK,
    PALE,
    SHEET_BODY,
    SHEET_SMALL,
    SHEET_TITLE,
    WHITE,
    XY,
    Drawing,
    text_width,
)
from barwright.units import LENGTH, Quantity, quantity, shown, si

__all__ = ["AdjusterDatum", "AdjusterView", "adjuster_svg", "adjuster_view"]


class AdjusterDatum(enum.Enum):
    """Where distances along an adjuster's bolt are measured from."""

    PIVOT = BoltDatum.PIVOT.value
    HEAD = BoltDatum.HEAD.value
    CROSS_MEMBER = BoltDatum.CROSS_MEMBER.value


@attrs.frozen(kw_only=True, repr=False)
class AdjusterView(Summarised):
    """An adjuster as a plan sets it, to be drawn.

    Parameters
    ----------
    corner : str
        Axle and side.
    turned_part : TurnedPart
        What is turned.
    datum : AdjusterDatum
        Where distances are measured from.
    thread_diameter, thread_pitch : Quantity
        Of the thread.
    thread_start, thread_end : Quantity
        First and last full thread; of a bolt that is itself turned, least and greatest
        place of its end.
    nut_start, nut_height : Quantity, optional
        Where the nut begins, and its height; none where the bolt itself is turned.
    pin_distance : Quantity
        From the datum to the lever's pin, or to the bolt's end.
    turns_left_clockwise, turns_left_counter_clockwise : Quantity
        What the thread leaves either way.
    clockwise_is_inward : bool
        Whether a clockwise turn leads toward the datum.
    raising_sense : TurningSense
        Sense that raises the vehicle.
    height_per_turn : Quantity
        By how much a turn does.
    """

    corner: str
    turned_part: TurnedPart
    datum: AdjusterDatum
    thread_diameter: Quantity
    thread_pitch: Quantity
    thread_start: Quantity
    thread_end: Quantity
    nut_start: Quantity | None
    nut_height: Quantity | None
    pin_distance: Quantity
    turns_left_clockwise: Quantity
    turns_left_counter_clockwise: Quantity
    clockwise_is_inward: bool
    raising_sense: TurningSense
    height_per_turn: Quantity


def adjuster_view(setup: Setup, plan: Plan) -> AdjusterView | None:
    """Describe the adjuster of a corner as a plan sets it.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    plan : Plan
        The plan that is followed.

    Returns
    -------
    AdjusterView, optional
        None with a fixed socket, which has nothing to turn.
    """
    adjuster, what = setup.adjuster, turned(setup.adjuster)
    pin, raising, rise = plan.pin_distance, plan.raising_sense, plan.height_per_turn
    right, left = plan.turns_left_clockwise, plan.turns_left_counter_clockwise
    if (
        (adjuster is None or what is None)
        or (pin is None or raising is None or rise is None)
        or (right is None or left is None)
    ):
        return None
    # At its least setting the nut, or the bolt's end, is at the first full thread.
    past_pin = si(adjuster.thread_start, LENGTH) - setting_span(adjuster)[0]
    return AdjusterView(
        corner=setup.corner,
        turned_part=what,
        datum=AdjusterDatum(bolt_datum(adjuster).value),
        thread_diameter=adjuster.thread_diameter,
        thread_pitch=adjuster.thread_pitch,
        thread_start=adjuster.thread_start,
        thread_end=adjuster.thread_end,
        nut_start=(None if adjuster.is_screwed else quantity(si(pin, LENGTH) + past_pin, LENGTH)),
        nut_height=adjuster.nut_height,
        pin_distance=pin,
        turns_left_clockwise=right,
        turns_left_counter_clockwise=left,
        clockwise_is_inward=change_per_turn(adjuster) < 0.0,
        raising_sense=raising,
        height_per_turn=rise,
    )


def adjuster_svg(view: AdjusterView) -> str:
    """Draw an adjuster as a plan sets it, to scale along the bolt, 88 mm wide.

    Parameters
    ----------
    view : AdjusterView
        The adjuster.

    Returns
    -------
    str
        An SVG document.
    """
    title = f"{view.corner.capitalize()}, adjuster"
    out = Drawing(_SIZE, title=title, description=_described(view), small=SHEET_SMALL)
    out.text((_SIZE[0] / 2, 5.0), title, size=SHEET_TITLE, bold=True)
    out.text((_SIZE[0] / 2, 9.8), f"turns as seen from {view.turned_part.seen_from}")
    scale = _Scale.of(view)
    if view.nut_start is None or view.nut_height is None:
        _draw_bolt(out, view, scale)
        faces = (scale.x(view.pin_distance), scale.x(view.pin_distance))
    else:
        faces = _draw_nut(out, view, scale, view.nut_start, view.nut_height)
    _draw_distance(out, view, scale)
    _draw_thread_left(out, view, scale, faces)
    if view.turned_part is TurnedPart.NUT:
        _name_lever(out, view, scale)
    return str(out)


_SIZE = (88.0, 53.0)
_AXIS, _DISTANCE_LINE, _INWARD_LINE, _OUTWARD_LINE = 31.5, 21.0, 44.0, 49.5


@attrs.frozen(kw_only=True)
class _Scale:
    """From places along a bolt to millimetres on paper.

    Parameters
    ----------
    origin : float
        Where the datum lies on paper [mm].
    ratio : float
        Millimetres on paper for one of the bolt.
    """

    origin: float
    ratio: float

    @classmethod
    def of(cls, view: AdjusterView) -> _Scale:
        """Fit a bolt onto the paper, room for a lever beyond one that pushes with its end."""
        is_nut = view.turned_part is TurnedPart.NUT
        origin, right = (10.0, 84.0) if is_nut else (46.0, 76.0)
        return cls(origin=origin, ratio=(right - origin) / _mm(view.thread_end))

    def x(self, place: Quantity) -> float:
        """Where a place along the bolt lies on paper."""
        return self.origin + self.ratio * _mm(place)

    def long(self, length: Quantity) -> float:
        """How long a length is on paper."""
        return self.ratio * _mm(length)


def _mm(length: Quantity) -> float:
    return si(length, LENGTH) * 1000.0


# -- The bolt ----------------------------------------------------------------------------


def _draw_nut(
    out: Drawing, view: AdjusterView, scale: _Scale, start: Quantity, height: Quantity
) -> tuple[float, float]:
    """Draw a bolt with a nut on it, and return where the nut's two faces are."""
    half = scale.long(view.thread_diameter) / 2.0
    left, right = scale.x(start), scale.x(start) + scale.long(height)
    pin = scale.x(view.pin_distance)
    out.box((scale.origin, _AXIS - half), (scale.x(view.thread_start), _AXIS + half))
    _draw_thread(out, view, scale, scale.x(view.thread_end))
    _draw_datum(out, view, scale, half)
    out.box((pin - half, _AXIS), (pin + half, _AXIS + 8.5), fill=WHITE)
    out.circle((pin, _AXIS), 1.5 * half, fill=WHITE, width=BOLD)
    near, far = (pin, left) if left > pin else (right, pin)
    out.box((near, _AXIS - 1.3 * half), (far, _AXIS + 1.3 * half), fill=PALE)
    corners = [(left, _AXIS - 1.8 * half), (right, _AXIS - 1.8 * half)]
    corners += [(x, 2.0 * _AXIS - y) for x, y in reversed(corners)]
    out.path(corners, closed=True, fill=WHITE, width=BOLD, name="nut")
    for share in (-0.9, 0.9):
        out.line((left, _AXIS + share * half), (right, _AXIS + share * half), width=HAIR)
    out.circle((pin, _AXIS), 0.6, fill=INK, name="pin")
    _name_nut(out, (left, right), pin, half)
    return left, right


def _name_nut(out: Drawing, faces: XY, pin: float, half: float) -> None:
    """Name a nut beside it, away from the lever, or above it at the paper's edge."""
    left, right = faces
    if left < pin:
        out.text((left - 0.8, _AXIS - half - 1.0), "nut", anchor="end")
    elif right + 0.8 + text_width("nut", SHEET_SMALL) < _SIZE[0]:
        out.text((right + 0.8, _AXIS - half - 1.0), "nut", anchor="start")
    else:
        out.text((_SIZE[0] - 0.5, _AXIS - 1.8 * half - 1.0), "nut", anchor="end")


def _name_lever(out: Drawing, view: AdjusterView, scale: _Scale) -> None:
    """Name the lever of a nut beside it, over the lines that lead down from the thread."""
    half = scale.long(view.thread_diameter) / 2.0
    right, base = scale.x(view.pin_distance) - half - 0.8, _AXIS + 8.0
    left, top = right - text_width("lever", SHEET_SMALL), base - 0.7 * SHEET_SMALL
    out.gap((left, top), (right, base + 0.5))
    out.text((right, base), "lever", anchor="end")


def _draw_bolt(out: Drawing, view: AdjusterView, scale: _Scale) -> None:
    """Draw a bolt that is screwed through a cross-member, with the lever at its end."""
    half = scale.long(view.thread_diameter) / 2.0
    head, end = 4.0, scale.x(view.pin_distance)
    out.box((end, _AXIS - 7.0), (end + 6.0, _AXIS + 9.0), fill=PALE)
    out.text((end + 4.0, _AXIS + 1.0), "lever", turned=-90.0)
    out.box((head, _AXIS - 1.6 * half), (head + 1.3 * half, _AXIS + 1.6 * half), fill=WHITE)
    _draw_thread(out, view, scale, end, start=head + 1.3 * half)
    _draw_datum(out, view, scale, half)
    # What lies between head and cross-member is in no record.
    for x in (16.0, 17.5):
        points = [(x + 0.7 * (-1.0) ** n, _AXIS + half * (n / 2.0 - 1.0) * 1.3) for n in range(5)]
        out.path(points)
    for place in (view.thread_start, view.thread_end):
        x = scale.x(place)
        out.path([(x, _AXIS - 5.5), (x, _AXIS + 5.5)], width=HAIR, dash="1 0.8")


def _draw_thread(
    out: Drawing, view: AdjusterView, scale: _Scale, end: float, start: float | None = None
) -> None:
    """Draw a thread up to its end, with a line for each of its turns."""
    half = scale.long(view.thread_diameter) / 2.0
    left = scale.x(view.thread_start) if start is None else start
    out.path(
        [(left, _AXIS - half), (end, _AXIS - half), (end, _AXIS + half), (left, _AXIS + half)],
        closed=True,
        fill=WHITE,
        name="thread",
    )
    pitch = max(scale.long(view.thread_pitch), _FINEST)
    for turn in range(1, int((end - left) / pitch)):
        x = end - turn * pitch
        out.line((x, _AXIS - half), (x - pitch / 2.0, _AXIS + half), width=HAIR)


# Closer lines than these run together on paper [mm].
_FINEST = 0.5


def _draw_datum(out: Drawing, view: AdjusterView, scale: _Scale, half: float) -> None:
    """Draw what distances are measured from."""
    x = scale.origin
    if view.datum is AdjusterDatum.PIVOT:
        out.circle((x, _AXIS), 1.6 * half, fill=PALE)
        out.circle((x, _AXIS), 0.5, fill=WHITE)
    elif view.datum is AdjusterDatum.HEAD:
        out.box((x - 1.3 * half, _AXIS - 1.7 * half), (x, _AXIS + 1.7 * half), fill=PALE)
    else:
        out.hatched_box((x - 7.0, _AXIS - 9.0), (x, _AXIS - half))
        out.hatched_box((x - 7.0, _AXIS + half), (x, _AXIS + 9.0))


# -- Distances ---------------------------------------------------------------------------


def _draw_distance(out: Drawing, view: AdjusterView, scale: _Scale) -> None:
    """Draw the distance that is measured."""
    left, right = scale.origin, scale.x(view.pin_distance)
    for x in (left, right):
        out.line((x, _DISTANCE_LINE - 1.5), (x, _AXIS), width=HAIR)
    at = (left, _DISTANCE_LINE), (right, _DISTANCE_LINE)
    out.dimension(*at, shown(view.pin_distance, 1), size=SHEET_BODY)
    words = f"from the {view.datum.value} to the {measured_to(view.turned_part)}"
    out.text((_SIZE[0] / 2, _DISTANCE_LINE - 6.4), words)


def _draw_thread_left(
    out: Drawing, view: AdjusterView, scale: _Scale, faces: tuple[float, float]
) -> None:
    """Draw what the thread leaves either way, each with the sense that leads there."""
    inward = (faces[0], scale.x(view.thread_start), _INWARD_LINE)
    outward = (faces[1], scale.x(view.thread_end), _OUTWARD_LINE)
    for start, end, y in (inward, outward):
        out.line((start, _AXIS), (start, y + 1.5), width=HAIR)
        out.line((end, _AXIS), (end, y + 1.5), width=HAIR)
        out.arrow((start, y), (end, y))
    for (start, end, y), words in zip((inward, outward), _left_either_way(view), strict=True):
        left, right = sorted((start, end))
        width = text_width(words, SHEET_SMALL) + 1.0
        if left > width:
            out.text((left - 1.0, y + 1.3), words, anchor="end")
        elif right + width < _SIZE[0]:
            out.text((right + 1.0, y + 1.3), words, anchor="start")
        else:
            middle = (left + right) / 2.0
            out.gap((middle - width / 2.0, y - 1.9), (middle + width / 2.0, y + 1.9))
            out.text((middle, y + 1.3), words)


def _left_either_way(view: AdjusterView) -> tuple[str, str]:
    """Say how many turns are left toward the datum, and away from it."""
    words = [
        f"{_turns(left)} {sense.value}"
        for left, sense in (
            (view.turns_left_clockwise, TurningSense.CLOCKWISE),
            (view.turns_left_counter_clockwise, TurningSense.COUNTER_CLOCKWISE),
        )
    ]
    return (words[0], words[1]) if view.clockwise_is_inward else (words[1], words[0])


def _turns(turns: Quantity) -> str:
    return f"{float(turns.magnitude):.1f} turns"


def _raised(view: AdjusterView) -> str:
    rise, _, unit = shown(view.height_per_turn, 1).partition(" ")
    length = unit.partition("/")[0]
    return f"One turn {view.raising_sense.value}: {rise} {length} higher."


def _described(view: AdjusterView) -> str:
    """Say what the drawing shows, for who cannot see it."""
    inward, outward = _left_either_way(view)
    return (
        f"{view.corner.capitalize()}, adjuster, to scale along its bolt: "
        f"{shown(view.pin_distance, 1)} from the {view.datum.value} to the "
        f"{measured_to(view.turned_part)}. Turns as seen from {view.turned_part.seen_from}, "
        f"{inward}, {outward}. {_raised(view)}"
    )
