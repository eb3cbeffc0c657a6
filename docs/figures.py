"""Draw the figures of these pages: ``python docs/figures.py [FOLDER]``.

The same bytes on every run.  Geometry comes from the invented demo van and from
the library itself: linkages, levers and load curves are computed, not sketched.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import attrs

import barwright as bw
from barwright.answers import BarEndView
from barwright.mechanics.anchorage.bolts_with_pin import SwivellingBolt
from barwright.mechanics.linkage.arm_and_strut import Strut
from barwright.report.drawing.adjuster import adjuster_svg, adjuster_view
from barwright.report.drawing.bar_axis import bar_axis_svg
from barwright.report.drawing.bar_axis_view import bar_axis_view
from barwright.report.drawing.bar_end import bar_end_svg
from barwright.report.drawing.bar_end_view import bar_end_views
from barwright.report.drawing.load_curve import load_curve_svg, load_curve_view
from barwright.report.drawing.nut_curve import nut_curve_svg, nut_curve_view
from barwright.report.drawing.template import template_svg, template_views
from svg import XY, Drawing, between, kept, polar


def mm(value: bw.Quantity) -> float:
    """Millimetres of a length."""
    return float(value.m_as("mm"))


def deg(value: bw.Quantity) -> float:
    """Degrees of an angle."""
    return float(value.m_as("deg"))


# -- The demo van ----------------------------------------------------------------


@attrs.frozen
class Van:
    """The corner that the pages are about: as it left the works, as it is, as it will be."""

    standard: bw.Setup
    present: bw.Setup
    setup: bw.Setup
    plan: bw.answers.Plan

    @property
    def strut(self) -> Strut:
        """Its linkage in millimetres and radians."""
        axle, mounting = self.standard.axle, self.standard.axle.suspension
        if not isinstance(mounting, bw.parts.StrutMounting):
            raise TypeError(mounting)
        hub = (mm(axle.hub_outboard), mm(axle.hub_up))
        return Strut(
            arm_radius=mm(self.standard.arm.radius),
            top_mount=(mm(mounting.top_outboard), mm(mounting.top_up)),
            offset=mm(mounting.offset),
            length_below=mm(mounting.length_below),
            reference_angle=math.radians(deg(axle.reference_angle)),
            load_point=(hub[0], hub[1] - mm(axle.tyre_radius)),
            hub_point=hub,
        )

    @property
    def bolt(self) -> SwivellingBolt:
        """Its adjuster in millimetres and radians."""
        mounting = self.standard.adjuster.mounting
        if not isinstance(mounting, bw.parts.SwivellingMounting):
            raise TypeError(mounting)
        return SwivellingBolt(
            pivot_distance=mm(mounting.pivot_distance),
            pivot_angle=math.radians(deg(mounting.pivot_angle)),
            lever_radius=mm(self.standard.anchor.lever_radius),
            lever_side=1,
        )


def the_van() -> Van:
    """Load the demo job."""
    registry = bw.Registry.discover()
    job = bw.load_job(Path(__file__).parents[1] / "docs/examples/shorter-dampers.toml", registry)
    corner = job.corners[0]
    answer = bw.reindex(corner.setup, wanted=corner.wanted, present=corner.present)
    setup = corner.setup
    standard = setup.with_parts(damper=setup.axle.standard(setup.side).damper)
    return Van(standard, corner.present, setup, answer.plans[0])


# -- The figures -----------------------------------------------------------------


def corner(van: Van) -> Drawing:  # noqa: PLR0915 - a drawing is a list of strokes
    """One corner in space: what the parts are called."""
    out = Drawing(760, 490, "One corner: bar, torque tube, lever, adjuster, arm, strut and wheel")
    axle, tube, bar = van.standard.axle, van.standard.anchor, van.standard.bar
    azimuth, elevation, scale, origin = math.radians(-115), math.radians(24), 0.53, (262.0, 388.0)

    def at(x: float, y: float, z: float) -> XY:
        """See a point of the right-hand corner from within the car."""
        right = x * math.sin(azimuth) - y * math.cos(azimuth)
        away = x * math.cos(azimuth) + y * math.sin(azimuth)
        up = z * math.cos(elevation) + away * math.sin(elevation)
        return origin[0] + scale * right, origin[1] - scale * up

    def plane(point: XY, x: float = 0.0) -> XY:
        """See a point of the plane square to the bar."""
        return at(x, -point[0], point[1])

    angle = math.radians(deg(axle.measured_angle))
    strut = van.strut
    motion = strut.motion(angle)
    joint = (strut.arm_radius * math.cos(angle), strut.arm_radius * math.sin(angle))
    hub = (float(motion.hub.outboard), float(motion.hub.height))
    radius = mm(axle.tyre_radius)
    for share in (1.0, 0.62):
        rim = [math.radians(a) for a in range(0, 360, 5)]
        points = [
            at(radius * share * math.cos(a), -hub[0] - 40, hub[1] + radius * share * math.sin(a))
            for a in rim
        ]
        out.path(points, "thin", closed=True)
    top = plane(strut.top_mount)
    out.line(plane(joint), top, "damper")
    out.line(plane(joint), plane(hub), "arm")
    out.line(plane(hub), at(0, -hub[0] - 40, hub[1]), "line")
    out.circle(plane(joint), 5, "void")

    end = -mm(bar.length)
    tube_from = -mm(axle.tube_position)
    lever_x = -mm(axle.tube_position) - mm(tube.lever_position)
    socket_x = -mm(axle.tube_position) - mm(tube.socket_position)
    bolt = van.bolt
    pin_at = bolt.lever_angle(mm(van.plan.pin_distance))
    pin = (bolt.lever_radius * math.cos(pin_at), bolt.lever_radius * math.sin(pin_at))
    pivot = (
        bolt.pivot_distance * math.cos(bolt.pivot_angle),
        bolt.pivot_distance * math.sin(bolt.pivot_angle),
    )
    half = mm(tube.outside_diameter) / 2.0
    edge = [(x, z) for x in (tube_from, end) for z in (half, -half)]
    out.path([at(x, 0, z) for x, z in (edge[0], edge[2], edge[3], edge[1])], "tube", closed=True)
    out.line(at(40, 0, 0), at(end - 10, 0, 0), "rod")
    for x in (*range(-36, 8, 6), *range(int(end) + 2, int(socket_x), 6)):
        out.line(at(x, 0, 13), at(x, 0, -13), "line")
    out.line(at(0, 0, 0), plane(joint), "arm")
    out.line(at(lever_x, 0, 0), plane(pin, lever_x), "lever")
    beyond = between(pivot, pin, 1.22)
    out.line(plane(pivot, lever_x), plane(beyond, lever_x), "bolt")
    out.circle(plane(pivot, lever_x), 4.5, "void")
    nut = plane(between(pivot, pin, 1.08), lever_x)
    out.box(nut[0] - 7, nut[0] + 7, nut[1] - 5, nut[1] + 5, "key")
    out.circle(top, 5, "void")
    edge_of_tyre = at(radius * math.cos(2.2), -hub[0] - 40, hub[1] + radius * math.sin(2.2))
    out.label("wheel", (330, 96), edge_of_tyre, "start")
    out.label("strut with its damper", (330, 52), between(plane(joint), top, 0.86), "start")
    knuckle = between(plane(joint), plane(hub))
    out.label("arm", (84, 444), between(at(0, 0, 0), plane(joint), 0.55))
    out.label("ball joint", (60, 366), plane(joint))
    out.label("wheel carrier and hub", (330, 180), knuckle, "start")
    out.label("arm end of the bar", (196, 464), at(6, 0, -13))
    out.label("lever", (306, 470), between(at(lever_x, 0, 0), plane(pin, lever_x), 0.75))
    out.label("nut", (382, 448), (nut[0] + 6, nut[1] + 4))
    out.label(
        "adjuster bolt; its pivot is on the chassis", (392, 226), plane(pivot, lever_x), "start"
    )
    out.label("torque tube; the bar runs inside it", (540, 418), at(-460, 0, -half))
    out.label("anchor end of the bar, in the tube's socket", (606, 262), at(end + 14, 0, 13))
    step = (at(90, 0, 0)[0] - at(0, 0, 0)[0], at(90, 0, 0)[1] - at(0, 0, 0)[1])
    out.arrow((720, 448), (720 + step[0], 448 + step[1]))
    out.text((720 + step[0] - 6, 444 + step[1]), "front", "small", "end")
    return out


def teeth(
    out: Drawing, centre: XY, radii: XY, count: int, *, missing: Sequence[int] = (), start: float
) -> None:
    """Draw the outline of a splined end; tooth 0 stands at an angle, counted counter-clockwise."""
    inner, outer = radii
    pitch = 360.0 / count
    points = []
    for tooth in range(count):
        middle = start + tooth * pitch
        for shift, radius in ((-0.34, inner), (-0.16, outer), (0.16, outer), (0.34, inner)):
            high = radius if tooth not in missing else inner
            points.append(polar(centre, high, middle + shift * pitch))
    out.path(points, "bar", closed=True)


def socket(out: Drawing, centre: XY, radii: XY, count: int, *, key: float) -> None:
    """Draw a splined socket around an end, with one groove filled."""
    inner, outer, rim = radii[0] + 2.5, radii[1] + 2.5, radii[1] + 22
    pitch = 360.0 / count
    out.circle(centre, rim, "part")
    points = []
    for groove in range(count):
        middle = key + groove * pitch
        for shift, radius in ((-0.38, inner), (-0.2, outer), (0.2, outer), (0.38, inner)):
            points.append(polar(centre, radius, middle + shift * pitch))
    out.path(points, "void", closed=True)
    filled = [(-0.38, inner), (-0.2, outer), (0.2, outer), (0.38, inner)]
    out.path([polar(centre, r, key + s * pitch) for s, r in filled], "key", closed=True)


def blank_and_key(_: Van) -> Drawing:
    """Show a bar end, a socket, and both together."""
    out = Drawing(760, 290, "A bar end with its blank, a socket with its key, and both together")
    radii, count = (66.0, 78.0), 24
    places = [(125.0, 150.0), (380.0, 150.0), (635.0, 150.0)]
    teeth(out, places[0], radii, count, missing=(0,), start=90)
    out.label("blank: the missing tooth", (125, 24), polar(places[0], 68, 90))
    socket(out, places[1], radii, count, key=90)
    out.label("key: the filled groove", (380, 24), polar(places[1], 74, 90))
    socket(out, places[2], radii, count, key=90)
    teeth(out, places[2], radii, count, missing=(0,), start=90)
    out.label("the blank passes over the key", (635, 24), polar(places[2], 74, 90))
    for place, words in zip(places, ("end of the bar", "socket", "fitted"), strict=True):
        out.text((place[0], 278), words, "bold")
    return out


def linkage(out: Drawing, at: Callable[[XY], XY], strut: Strut, angle: float, style: str) -> XY:
    """Draw arm, strut and wheel at an arm angle (degrees); return the hub."""
    a = math.radians(angle)
    joint = (strut.arm_radius * math.cos(a), strut.arm_radius * math.sin(a))
    motion = strut.motion(a)
    hub = (float(motion.hub.outboard), float(motion.hub.height))
    tilt = math.degrees(float(motion.tilt))
    centre = at((hub[0] + 40, hub[1]))
    corners = [(s * 62.0, t * 186.0) for s, t in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    scale = abs(at((1.0, 0.0))[0] - at((0.0, 0.0))[0])
    turned = [
        polar(centre, scale * math.hypot(x, y) * 1.0, math.degrees(math.atan2(y, x)) + tilt)
        for x, y in corners
    ]
    out.path(turned, f"thin {style}", closed=True)
    out.line(at(joint), at(strut.top_mount), f"damper {style}")
    out.line(at(joint), at(hub), f"arm {style}")
    out.line(at((0, 0)), at(joint), f"arm {style}")
    out.circle(at(joint), 4.5, "void")
    return hub


def droop(van: Van) -> Drawing:
    """Show how far the wheel hangs with the standard and with a shorter damper."""
    out = Drawing(760, 450, "Full droop with the standard damper and with a shorter one")
    strut, scale = van.strut, 0.36
    short = bw.rates(van.present).figures
    standard = bw.rates(van.standard).figures
    if short is None or standard is None:
        raise TypeError(short)
    cases = (
        ("standard damper", standard, 105.0, "green"),
        ("shorter damper, bar not touched", short, 480.0, "blue"),
    )
    for title, figures, left, colour in cases:
        origin = (left, 268.0)

        def at(p: XY, origin: XY = origin) -> XY:
            return origin[0] + scale * p[0], origin[1] - scale * p[1]

        linkage(out, at, strut, deg(figures.ride.arm_angle), "pale")
        linkage(out, at, strut, deg(figures.droop.arm_angle), "")
        out.circle(at((0, 0)), 8, "bar")
        out.circle(at(strut.top_mount), 5, "void")
        out.line(at((-90, 0)), at((480, 0)), "dash")
        out.text((left + 80, 24), title, f"bold {colour}")
        out.arc(origin, scale * 225, (0, deg(figures.droop.arm_angle)), "line")
        arm = polar(origin, scale * 130, deg(figures.droop.arm_angle))
        words = f"full droop: arm {-deg(figures.droop.arm_angle):.1f}° below the horizontal"
        out.label(words, (left - 60, 378), (arm[0], arm[1] + 3), "start")
        torque = float(figures.droop.torque.m_as("N*m"))
        out.text((left - 60, 408), f"torque left in the bar: {torque:.0f} N·m", "", "start")
        room = mm(figures.droop.height) - mm(figures.ride.height)
        out.text(
            (left - 60, 428), f"from ride to full droop: {room:.0f} mm at the hub", "", "start"
        )
    out.text((84, 296), "bar", "small")
    out.text((222, 96), "pale: at ride", "small grey", "start")
    return out


def two_clockings(van: Van) -> Drawing:
    """Show load at the wheel over height, for the old clocking and for the new one."""
    out = Drawing(760, 420, "Load at the wheel over height: old clocking and new clocking")
    loose = attrs.evolve(
        van.setup, nut_turns=van.plan.nut_turns - van.plan.turns_left_counter_clockwise
    )
    cases = (
        ("old clocking, nut mid-thread", van.setup, "old", "red", (400.0, 4700.0)),
        ("old clocking, nut at the end of its thread", loose, "end", "red", (352.0, 800.0)),
        (
            "re-indexed, nut near mid-thread",
            bw.carry_out(van.setup, van.plan),
            "new",
            "blue",
            (304.0, 1700.0),
        ),
    )
    left, right, bottom, top = 90.0, 720.0, 350.0, 40.0

    def at(height: float, load: float) -> XY:
        return (
            left + (height - 275) / (430 - 275) * (right - left),
            bottom - (load / 6500) * (bottom - top),
        )

    for load in range(0, 6001, 1000):
        out.line(at(275, load), at(430, load), "thin pale")
        out.text((left - 8, at(275, load)[1] + 4), f"{load}", "small", "end")
    for height in range(280, 431, 20):
        out.line(at(height, 0), (at(height, 0)[0], bottom + 5), "thin")
        out.text((at(height, 0)[0], bottom + 20), f"{height}", "small")
    out.line((left, bottom), (right, bottom))
    out.line((left, bottom), (left, top - 10))
    out.text(
        ((left + right) / 2, bottom + 42), "hub to arch, mm (to the right the car stands higher)"
    )
    out.text((left, 20), "load at the wheel, N", "", "middle")
    sprung = 0.0
    for words, setup, style, colour, place in cases:
        figures = bw.rates(setup).figures
        if figures is None:
            raise TypeError(setup)
        curve = figures.curve
        heights = [float(h) for h in curve.height.m_as("mm")]
        loads = [float(f) for f in curve.wheel_load.m_as("N")]
        out.path([at(h, f) for h, f in zip(heights, loads, strict=True)], style)
        sprung = float(figures.ride.wheel_load.m_as("N"))
        x, y = at(*place)
        rest = at(mm(figures.ride.height), sprung)
        out.line((x, y + 5 if rest[1] > y else y - 28), rest, "thin")
        out.circle(rest, 4, "solid")
        out.text((x, y - 15), words, f"small {colour}")
        out.text((x, y), f"stands at {mm(figures.ride.height):.0f} mm", "small bold")
    out.line(at(275, sprung), at(430, sprung), "dash")
    out.text(
        (left + 8, at(275, sprung)[1] - 6),
        f"what this corner carries: {sprung:.0f} N",
        "small",
        "start",
    )
    return out


def axes(_: Van) -> Drawing:
    """Show vehicle axes, bar axis, arm direction and the sign σ, seen from above."""
    out = Drawing(760, 400, "Vehicle axes, bar axis and arm direction of a left and a right corner")
    mid = 380.0
    out.arrow((mid, 250), (mid, 170))
    out.text((mid + 10, 182), "x forward", "", "start")
    out.arrow((mid, 250), (mid - 80, 250))
    out.text((mid - 84, 268), "y left", "", "middle")
    out.circle((mid, 250), 6, "void")
    out.circle((mid, 250), 2, "solid")
    out.text((mid + 12, 264), "z up, toward you", "", "start")
    out.text((mid, 24), "seen from above, front of the car at the top", "small")
    for side, sign in ((-1.0, "+1"), (1.0, "−1")):
        x = mid + side * 150
        wheel = mid + side * 300
        out.box(wheel - 22, wheel + 22, 40, 170, "thin")
        out.line((x, 105), (x, 345), "rod")
        out.line((x, 105), (wheel - side * 22, 105), "arm")
        out.arrow((x - side * 16, 345), (x - side * 16, 105), "new", "blue")
        out.arrow((x, 84), (wheel - side * 22, 84), "new", "blue")
        out.text(((x + wheel) / 2 - side * 11, 74), "r", "bold blue")
        out.text((x - side * 26, 240), "b", "bold blue")
        out.text((x + side * 10, 120 + 14), "arm end", "small", "start" if side > 0 else "end")
        out.text((x + side * 10, 345), "anchor end", "small", "start" if side > 0 else "end")
        name = "left" if side < 0 else "right"
        out.text((x + side * 60, 384), f"{name} corner: σ = {sign}", "bold")
    out.text((mid, 330), "σ = sign((r × z) · b)", "")
    return out


def angles(van: Van) -> Drawing:
    """Show the angles in the plane square to the bar, left corner, seen from the arm end."""
    out = Drawing(760, 440, "Arm angle, lever angle and key angles in the bump sense")
    key_arm = deg(van.standard.arm.socket.key_angle)
    bolt = van.bolt
    lever = math.degrees(bolt.lever_angle(mm(van.plan.pin_distance)))
    key_anchor = deg(van.standard.anchor.socket.key_angle)
    arm = 12.0
    centre = (330.0, 262.0)
    out.line((centre[0] - 250, centre[1]), (centre[0] + 400, centre[1]), "dash")
    out.text((centre[0] + 404, centre[1] + 18), "horizontal, toward the wheel", "small", "end")
    out.line(centre, polar(centre, 330, arm), "arm")
    out.line(centre, polar(centre, 190, lever), "lever")
    out.text((polar(centre, 330, arm)[0] + 4, polar(centre, 330, arm)[1] - 14), "arm", "bold")
    out.text(
        (polar(centre, 190, lever)[0] - 24, polar(centre, 190, lever)[1] - 14), "lever", "bold"
    )
    reach = 190 * bolt.pivot_distance / bolt.lever_radius
    pivot = polar(centre, reach, math.degrees(bolt.pivot_angle))
    out.line(pivot, polar(centre, 190, lever), "bolt")
    out.circle(pivot, 5, "void")
    out.text((pivot[0] + 10, pivot[1] + 4), "bolt's pivot, at α_b_", "small", "start")
    arm_key = arm + key_arm
    anchor_key = lever + key_anchor
    out.circle(centre, 26, "bar")
    for angle, words in ((arm_key, "arm key"), (anchor_key, "anchor key")):
        out.path(
            [polar(centre, r, angle + s) for r, s in ((26, -9), (26, 9), (38, 6), (38, -6))],
            "key",
            closed=True,
        )
        out.line(polar(centre, 38, angle), polar(centre, 165, angle), "dash")
        out.text(polar(centre, 205, angle + (2 if angle > 0 else -6)), words, "small brown")
    out.arc(centre, 260, (0, arm))
    out.text(polar(centre, 278, arm / 2), "φ", "bold")
    out.arc(centre, 140, (arm, arm_key))
    out.text(polar(centre, 148, (arm + arm_key) / 2 - 3), "κ_arm_", "bold", "start")
    out.arc(centre, 100, (0, lever))
    out.text(polar(centre, 114, 118), "α", "bold")
    out.arc(centre, 70, (lever, anchor_key))
    out.text((centre[0] - 38, centre[1] - 78), "κ_anchor_ < 0", "bold", "start")
    out.arc((690, 100), 44, (-50, 60))
    out.text((690, 105), "bump sense", "small", "middle")
    out.text(
        (380, 404), "left corner, seen from the arm end, looking toward the anchor end;", "small"
    )
    out.text((380, 423), "here every angle is positive counter-clockwise (σ = +1)", "small")
    return out


def counting(_: Van) -> Drawing:
    """Show how the teeth of a bar end are counted from the blank."""
    out = Drawing(760, 350, "Counting teeth from the blank in the bump sense, from both viewers")
    count, radii = 24, (82.0, 98.0)
    cases = (
        ((200.0, 170.0), 1, "arm end, seen from the arm end"),
        ((560.0, 170.0), -1, "anchor end, seen from the anchor end"),
    )
    for centre, way, words in cases:
        teeth(out, centre, radii, count, missing=(0,), start=90)
        pitch = 360.0 / count
        for tooth in (-2, -1, 0, 1, 2):
            angle = 90 + way * tooth * pitch
            words_of = "0" if tooth == 0 else f"{tooth:+d}".replace("-", "−")
            x, y = polar(centre, 114, angle)
            out.text((x, y + 5), words_of, "bold" if tooth == 0 else "")
        out.arc(centre, 136, (90 - way * 34, 90 + way * 34), "new", "blue")
        out.text((centre[0], 22), "bump sense", "small blue")
        out.text((centre[0], centre[1] + 4), "end face", "small")
        out.text((centre[0], 302), words, "bold")
    out.text(
        (380, 332),
        "left corner (σ = +1); on the right corner both senses are reversed; 0 is the blank",
        "small",
    )
    return out


def axial(van: Van) -> Drawing:
    """Show the axial coordinate, the sockets and the bar between them."""
    out = Drawing(760, 400, "Axial coordinate: arm socket, anchor socket and the bar in them")
    setup = van.standard
    fit = bw.length_fit(setup)
    start = mm(setup.axle.tube_position) + mm(setup.anchor.socket_position)
    # The middle of the bar is cut out, so that the ends can be drawn large.
    scale, cut_from, cut_to = 3.45, 74.0, 836.0

    def at(s: float) -> float:
        hidden = 0.0 if s <= cut_from else cut_to - cut_from - 26.0
        return 78.0 + scale * (s - hidden)

    bar, y = setup.bar, 190.0
    w_a, w_c = mm(setup.arm.socket.length), mm(setup.anchor.socket.length)
    p, length = mm(fit.position), mm(bar.length)
    l_a, l_c = mm(bar.arm_end.length), mm(bar.anchor_end.length)
    for low, high in ((0.0, w_a), (start, start + w_c)):
        out.box(at(low), at(high), y - 84, y - 46, "part")
        out.box(at(low), at(high), y + 46, y + 84, "part")
    head, body, nose = 44.0, 32.0, 30.0
    ends = ((p, p + l_a, -1.0, bar.arm_end), (p + length - l_c, p + length, 1.0, bar.anchor_end))
    for low, high, way, end in ends:
        outer, inner = (low, high) if way < 0 else (high, low)
        tip = outer + way * mm(end.nose)
        out.box(at(min(outer, tip)), at(max(outer, tip)), y - nose, y + nose, "bar")
        taper = inner - way * mm(end.taper)
        cut = cut_from - 4 if way < 0 else cut_to + 4
        out.path(
            [
                *((at(inner), y - head), (at(taper), y - body), (at(cut), y - body)),
                *((at(cut), y + body), (at(taper), y + body), (at(inner), y + head)),
            ],
            "bar",
            closed=True,
        )
        out.box(at(low), at(high), y - head, y + head, "bar")
        for tooth in range(-36, 37, 9):
            out.line((at(low), y + tooth), (at(high), y + tooth), "thin")
    middle = (at(cut_from - 4) + at(cut_to + 4)) / 2.0
    for x in (at(cut_from - 4), at(cut_to + 4)):
        points = [(x + (4 if i % 2 else -4), y - body - 4 + i * 9) for i in range(9)]
        out.path(points, "line")
    out.text((middle, y + 4), "…", "bold")
    out.text((at(w_a / 2), y - 60), "arm socket", "small")
    out.text((at(start + w_c / 2), y - 60), "anchor socket", "small")
    # Above: the sockets; below: the bar.
    for s in (0.0, w_a, start, start + w_c):
        out.line((at(s), y - 88), (at(s), y - 120), "thin")
    out.dimension((at(0), y - 106), (at(w_a), y - 106), "w_a_")
    out.dimension((at(start), y - 106), (at(start + w_c), y - 106), "w_c_")
    out.line((at(0), y - 120), (at(0), y - 152), "thin")
    out.line((at(start), y - 120), (at(start), y - 152), "thin")
    out.dimension((at(0), y - 140), (at(start), y - 140), "x_c_")
    low = y + 112
    for s in (p, p + l_a, p + length - l_c, p + length):
        out.line((at(s), y + head + 2), (at(s), low + 8), "thin")
    out.dimension((at(p), low), (at(p + l_a), low), "l_a_", -15)
    out.dimension((at(p + length - l_c), low), (at(p + length), low), "l_c_", -15)
    out.line((at(p), low + 8), (at(p), low + 46), "thin")
    out.line((at(p + length), low + 8), (at(p + length), low + 46), "thin")
    out.dimension((at(p), low + 40), (at(p + length), low + 40), "L", -15)
    out.arrow((at(0), y + 180), (at(0) + 90, y + 180), "new", "blue")
    out.text(
        (at(0) + 98, y + 184),
        "s, from the arm socket's outer face toward the anchor; here p = 0",
        "small blue",
        "start",
    )
    out.text((at(p) - 20, y + 4), "nose", "small", "end")
    out.text((at(p + length) + 20, y + 4), "nose", "small", "start")
    return out


def adjuster(van: Van) -> Drawing:  # noqa: PLR0915 - a drawing is a list of strokes
    """Show the adjuster's triangle and the sense of the nut."""
    out = Drawing(760, 430, "Adjuster: pivot, bolt, spacer, nut, pin and lever")
    bolt, scale, centre = van.bolt, 1.75, (470.0, 320.0)
    pin_at = mm(van.plan.pin_distance)
    lever = math.degrees(bolt.lever_angle(pin_at))
    pivot = polar(centre, scale * bolt.pivot_distance, math.degrees(bolt.pivot_angle))
    pin = polar(centre, scale * bolt.lever_radius, lever)
    along = math.degrees(math.atan2(pivot[1] - pin[1], pin[0] - pivot[0]))

    def on_bolt(distance: float, aside: float = 0.0) -> XY:
        return polar(polar(pivot, scale * distance, along), aside, along + 90.0)

    # Not every bolt has a spacer; this one is drawn with one.
    parts = attrs.evolve(van.standard.adjuster, spacer="6 mm")
    out.line(centre, pin, "lever")
    out.circle(centre, 20, "bar")
    out.line(pivot, on_bolt(mm(parts.thread_end)), "bolt")
    first, last = mm(parts.thread_start), mm(parts.thread_end)
    for turn in range(int((last - first) / 2.6)):
        distance = first + turn * 2.6
        out.line(on_bolt(distance, 5), on_bolt(distance + 1.0, -5), "line")
    near = pin_at
    for thick, wide, style in (
        (mm(parts.spacer), 17.0, "tube"),
        (mm(parts.nut_height), 15.0, "key"),
    ):
        corners = [on_bolt(near, wide), on_bolt(near + thick, wide)]
        corners += [on_bolt(near + thick, -wide), on_bolt(near, -wide)]
        out.path(corners, style, closed=True)
        near += thick
    out.circle(pivot, 6, "void")
    out.circle(pin, 6, "void")
    out.line(centre, pivot, "dash")
    x, y = between(centre, pivot, 0.72)
    out.text((x + 10, y), "a", "bold", "start")
    x, y = between(centre, pin)
    out.text((x, y + 22), "r", "bold")
    # The distance ℓ, drawn beside the bolt.
    out.dimension(on_bolt(0, 40), on_bolt(pin_at, 40), "")
    out.line(pivot, on_bolt(0, 46), "thin")
    out.line(pin, on_bolt(pin_at, 46), "thin")
    x, y = on_bolt(pin_at / 2, 54)
    out.text((x, y), "ℓ", "bold")
    out.line((centre[0] - 60, centre[1]), (centre[0] + 190, centre[1]), "dash")
    out.text((centre[0] + 196, centre[1] + 18), "toward the wheel", "small", "end")
    out.arc(centre, 62, (0, lever))
    out.text(polar(centre, 74, 45), "α", "bold", "start")
    out.arc(centre, 120, (0, math.degrees(bolt.pivot_angle)))
    out.text(polar(centre, 132, 45), "α_b_", "bold", "start")
    out.label("bolt's pivot on the chassis", (560, 40), (pivot[0] + 6, pivot[1] - 1), "start")
    out.label("lever's pin", (390, 392), (pin[0] + 4, pin[1] + 6))
    nut = on_bolt(near - mm(parts.nut_height) / 2, 0)
    spacer = on_bolt(pin_at + mm(parts.spacer) / 2, -14)
    out.label("spacer", (215, 246), spacer, "end")
    out.label("nut", (160, 300), (nut[0] - 14, nut[1] - 4), "end")
    end = on_bolt(last)
    out.label("free end: the viewer looks from here", (150, 408), (end[0] - 3, end[1] + 6))
    out.arc((90, 120), 46, (150, 30), "new", "blue")
    out.text((90, 116), "clockwise,", "small blue")
    out.text((90, 132), "seen from", "small blue")
    out.text((90, 148), "the free end:", "small blue")
    out.text((90, 164), "positive turns", "small blue")
    out.text((90, 188), "the pin comes nearer", "small")
    out.text((90, 204), "to the pivot: ℓ shrinks", "small")
    return out


def height(van: Van) -> Drawing:
    """Show the height that the sheets speak of, and what changes it."""
    out = Drawing(760, 360, "Height: from the hub centre to the arch's edge above it")
    figures = bw.rates(van.standard).figures
    lowered = bw.rates(bw.carry_out(van.setup, van.plan)).figures
    if figures is None or lowered is None:
        raise TypeError(figures)
    scale = 0.33
    for left, state, words in (
        (200.0, figures.ride, "before the job"),
        (560.0, lowered.ride, "after the job"),
    ):
        ground = 300.0
        hub = (left, ground - scale * mm(van.standard.axle.tyre_radius))
        arch = hub[1] - scale * mm(state.height)
        out.line((left - 165, ground), (left + 165, ground))
        out.circle(hub, scale * mm(van.standard.axle.tyre_radius), "line")
        out.circle(hub, 3, "solid")
        opening = [polar((left, arch + 104), 104, a) for a in range(180, -1, -5)]
        body = [(left - 165, arch + 104), *opening, (left + 165, arch + 104)]
        out.path([*body, (left + 165, arch - 22), (left - 165, arch - 22)], "tube", closed=True)
        out.circle(hub, scale * mm(van.standard.axle.tyre_radius), "line")
        out.dimension((left, hub[1]), (left, arch), "")
        out.text((left + 8, hub[1] - 26), f"{mm(state.height):.0f} mm", "bold", "start")
        out.text((left, 340), words, "bold")
    return out


# -- The drawings of the bench sheet, as it has them ---------------------------------


def bench_ends(van: Van) -> tuple[BarEndView, ...]:
    """Describe both ends of the van's bar, as its plan has them."""
    return bar_end_views(van.setup, van.plan, present=van.present)


def bench_bar_end(van: Van) -> str:
    """Draw the end at which the van's plan has a tooth removed."""
    return bar_end_svg(next(view for view in bench_ends(van) if view.work.tooth))


def bench_adjuster(van: Van) -> str:
    """Draw the van's adjuster as its plan sets it."""
    view = adjuster_view(van.setup, van.plan)
    if view is None:
        raise TypeError(view)
    return adjuster_svg(view)


def bench_bar_axis(van: Van) -> str:
    """Draw the van's bar in its sockets."""
    return bar_axis_svg(bar_axis_view(van.setup, bw.length_fit(van.setup)))


def bench_load_curve(van: Van) -> str:
    """Draw the load at the van's wheel with its plan carried out."""
    done = bw.carry_out(van.setup, van.plan)
    view = load_curve_view(bw.rates(done), corner=done.corner)
    if view is None:
        raise TypeError(view)
    return load_curve_svg(view)


def bench_nut_curve(_: Van) -> str:
    """Draw the height over the thread of the truck's adjuster, which is not safe all over."""
    job = Path(__file__).parents[1] / "docs/examples/firmer-bars.toml"
    left = bw.load_job(job, bw.Registry.discover()).corners[0]
    plan = bw.reindex(left.setup, wanted=left.wanted, present=left.present).preferred
    done = bw.carry_out(left.setup, plan)
    view = nut_curve_view(bw.nut_table(done), corner=done.corner)
    if view is None:
        raise TypeError(view)
    return nut_curve_svg(view)


def bench_template(van: Van) -> str:
    """Draw the template for the van's bar."""
    (page,) = template_views(bench_ends(van), title="Shorter dampers on the short van")
    return template_svg(page)


FIGURES: dict[str, Callable[[Van], Drawing | str]] = {
    "corner": corner,
    "blank-and-key": blank_and_key,
    "droop": droop,
    "two-clockings": two_clockings,
    "axes": axes,
    "angles": angles,
    "counting": counting,
    "axial": axial,
    "adjuster": adjuster,
    "height": height,
    "bench-bar-end": bench_bar_end,
    "bench-adjuster": bench_adjuster,
    "bench-bar-axis": bench_bar_axis,
    "bench-load-curve": bench_load_curve,
    "bench-nut-curve": bench_nut_curve,
    "bench-template": bench_template,
}


def draw(folder: Path) -> None:
    """Write every figure into a folder."""
    van = the_van()
    for name, figure in FIGURES.items():
        kept(folder / f"{name}.svg", str(figure(van)))


def main(arguments: Sequence[str]) -> None:
    """Draw into the folder given, or beside this script."""
    draw(Path(arguments[0]) if arguments else Path(__file__).parent / "figures")


if __name__ == "__main__":
    main(sys.argv[1:])
