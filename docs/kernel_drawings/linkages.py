"""Figures of the kernels of linkages and of bar axes that lie anyhow."""

from __future__ import annotations

import numpy as np

from barwright.mechanics.common.bar_axes import bar_plane
from barwright.mechanics.common.vectors import rotated
from barwright.mechanics.linkage.alignment import Alignment
from barwright.mechanics.linkage.arm_and_strut import Motion, Strut, SwingArm
from barwright.mechanics.linkage.double_wishbone import DoubleWishbone
from barwright.mechanics.linkage.wheel_carrier import on_arm
from kernel_drawings.sheet import LEFT, RIGHT, Figures, Plane, Space, beyond, ground, legend
from svg import XY, Chart, Drawing, between, polar

STRUT = Strut(
    arm_radius=0.340,
    top_mount=(0.285, 0.520),
    offset=0.050,
    length_below=0.0,
    reference_angle=-0.10,
    load_point=(0.110, -0.200),
    hub_point=(0.110, 0.060),
)

ARM = SwingArm(
    load_point=(0.380, -0.260),
    hub_point=(0.380, 0.0),
    damper_foot=(0.300, 0.010),
    damper_mount=(0.200, 0.420),
)

WISHBONE = DoubleWishbone(
    arm_radius=0.340,
    upper_pivot=(0.060, 0.260),
    upper_radius=0.235,
    upright=0.270,
    branch=1,
    damper_foot=(0.220, 0.010),
    damper_mount=(0.150, 0.430),
    reference_angle=-0.05,
    load_point=(0.120, -0.190),
    hub_point=(0.120, 0.110),
)


def _wheel(out: Drawing, plane: Plane, motion: Motion, style: str = "thin") -> None:
    """Draw hub and load point of a wheel, and the line that joins them."""
    hub = plane.at(motion.hub.outboard, motion.hub.height)
    load = plane.at(motion.load.outboard, motion.load.height)
    out.line(hub, load, style)
    out.circle(hub, 4.0, "void")
    out.circle(load, 3.5, "solid")


def linkage() -> Drawing:
    """Draw a swing arm and a strut in the plane square to the bar, with their letters."""
    out = Drawing(760, 400, "Swing arm and strut in the plane square to the bar axis")
    _swing_arm(out, Plane((90.0, 250.0), 520.0))
    _strut(out, Plane((460.0, 296.0), 480.0))
    out.text((190, 386), "swing arm", "bold")
    out.text((560, 386), "strut", "bold")
    return out


def _axes(out: Drawing, plane: Plane, angle: float, reach: float) -> None:
    """Draw the level through the bar axis, the arm's angle, the bar and the directions."""
    centre = plane.at(0.0, 0.0)
    out.line(centre, plane.at(reach, 0.0), "dash")
    out.circle(centre, 9.0, "bar")
    size = 0.36 * plane.scale * reach
    out.arc(centre, size, (0.0, np.degrees(angle)))
    x, y = polar(centre, size + 12.0, float(np.degrees(angle)) / 2.0)
    out.text((x, y + 5.0), "φ", "bold")
    corner = (centre[0] - 48.0, centre[1] + 74.0)
    out.arrow(corner, (corner[0] + 36.0, corner[1]), "thin", "grey")
    out.arrow(corner, (corner[0], corner[1] - 36.0), "thin", "grey")
    out.text((corner[0] + 45.0, corner[1] + 4.0), "y", "small")
    out.text((corner[0], corner[1] - 42.0), "z", "small")


def _swing_arm(out: Drawing, plane: Plane) -> None:
    angle = 0.30
    motion = ARM.motion(angle)
    foot = on_arm(ARM.damper_foot, angle)
    mount = plane.at(*ARM.damper_mount)
    _axes(out, plane, angle, 0.44)
    out.line(plane.at(0.0, 0.0), plane.at(motion.hub.outboard, motion.hub.height), "arm")
    out.line(plane.at(foot.outboard, foot.height), mount, "damper")
    _wheel(out, plane, motion)
    ground(out, mount[0] - 24.0, mount[0] + 24.0, mount[1])
    x, y = between(plane.at(foot.outboard, foot.height), mount)
    out.text((x - 12, y), "s", "bold green", "end")
    x, y = plane.at(motion.load.outboard, motion.load.height)
    out.text((x + 10, y + 4), "load point", "small", "start")
    x, y = plane.at(motion.hub.outboard, motion.hub.height)
    out.text((x + 10, y + 2), "hub", "small", "start")


def _strut(out: Drawing, plane: Plane) -> None:
    angle = 0.26
    motion = STRUT.motion(angle)
    joint = on_arm((0.340, 0.0), angle)
    ball, mount = plane.at(joint.outboard, joint.height), plane.at(*STRUT.top_mount)
    _axes(out, plane, angle, 0.44)
    out.line(plane.at(0.0, 0.0), ball, "arm")
    # The strut's axis passes the ball joint at the offset, square to the axis.
    offset, across, up = 0.050, 0.285 - float(joint.outboard), 0.520 - float(joint.height)
    lean = np.arctan2(up, across) + np.arcsin(offset / np.hypot(across, up))
    foot = plane.at(joint.outboard + offset * np.sin(lean), joint.height - offset * np.cos(lean))
    out.line(mount, foot, "damper")
    out.line(ball, foot, "line")
    out.line(ball, plane.at(motion.hub.outboard, motion.hub.height), "thin")
    out.circle(ball, 5.0, "void")
    _wheel(out, plane, motion)
    ground(out, mount[0] - 24.0, mount[0] + 24.0, mount[1])
    out.text((mount[0] - 12, mount[1] + 22), "M", "bold", "end")
    out.text((ball[0] - 12, ball[1] - 10), "B", "bold", "end")
    x, y = between(mount, foot, 0.45)
    out.text((x + 12, y), "s", "bold green", "start")
    out.text((foot[0] + 8, foot[1] + 16), "e", "bold", "start")
    x, y = plane.at(motion.load.outboard, motion.load.height)
    out.text((x + 10, y + 4), "load point", "small", "start")
    x, y = plane.at(motion.hub.outboard, motion.hub.height)
    out.text((x + 10, y + 2), "hub", "small", "start")


def carrier() -> Drawing:
    """Draw the path of a tyre's contact, and the roll centre that its direction gives."""
    out = Drawing(760, 400, "Path of the tyre contact, and roll centre")
    plane, half_track = Plane((420.0, 244.0), 420.0), 0.720
    angle = -0.14
    state = STRUT.carrier(angle)
    contact = state.path(STRUT.load_point)
    middle = contact.outboard - half_track
    swing = np.linspace(-0.30, 0.36, 67)
    path = STRUT.carrier(swing).path(STRUT.load_point)
    line = np.stack([path.outboard, path.height], axis=-1)
    out.path([plane.at(*point) for point in line], "old")
    joint = plane.at(state.joint.outboard, state.joint.height)
    here = plane.at(contact.outboard, contact.height)
    hub = state.path(STRUT.hub_point)
    out.line(plane.at(0.0, 0.0), joint, "arm")
    out.line(joint, plane.at(*STRUT.top_mount), "damper")
    out.line(plane.at(hub.outboard, hub.height), here, "thin")
    out.circle(joint, 5.0, "void")
    out.circle(plane.at(0.0, 0.0), 9.0, "bar")
    ground(out, 30.0, 740.0, here[1])
    out.circle(here, 3.5, "solid")
    height = float(state.roll_centre_height(STRUT.load_point, half_track=half_track))
    centre = plane.at(middle, contact.height + height)
    out.line(here, centre, "dash")
    out.line(plane.at(middle, contact.height), plane.at(middle, 0.50), "dash")
    out.circle(centre, 5.0, "key")
    out.dimension((centre[0] + 30.0, centre[1]), (centre[0] + 30.0, here[1]), "")
    out.line(centre, (centre[0] + 36.0, centre[1]), "thin")
    out.text(
        (centre[0] + 38.0, (centre[1] + here[1]) / 2 + 4),
        f"h = {1e3 * height:.0f} mm",
        "small",
        "start",
    )
    out.text((centre[0] - 10.0, centre[1] - 8.0), "roll centre", "small", "end")
    out.dimension((centre[0], here[1] + 24.0), (here[0], here[1] + 24.0), "t / 2 = 720 mm", -15.0)
    x, y = plane.at(*line[-1])
    out.text((x + 8, y + 6), "path of the contact", "small red", "start")
    out.text((plane.at(middle, 0.0)[0] + 8, 28), "middle of the vehicle", "small", "start")
    x, y = plane.at(0.0, 0.0)
    out.text((x - 12, y - 12), "bar axis", "small", "end")
    out.text((joint[0] - 8, joint[1] + 22), "B", "bold", "end")
    return out


def wishbone() -> Drawing:
    """Draw the four-bar linkage with its letters, and the camber that it gives over travel."""
    out = Drawing(760, 400, "Double wishbone: its links, and the wheel's camber over travel")
    plane = Plane((80.0, 256.0), 520.0)
    for angle, style in ((-0.22, " pale"), (0.20, " pale"), (0.0, "")):
        _four_bar(out, plane, angle, style)
    chart = Chart(out, (470.0, 34.0, 730.0, 314.0), across=(-80.0, 80.0), up=(-2.0, 1.0))
    chart.ticks((-80, -40, 0, 40, 80), (-2, -1, 0, 1))
    chart.names("travel of the wheel, mm", "camber, deg")
    # About 80 mm of travel either way.
    swing = np.linspace(-0.241, 0.229, 95)
    motion = WISHBONE.motion(swing)
    level = WISHBONE.motion(0.0)
    travel = 1e3 * (np.asarray(motion.load.height) - float(level.load.height))
    # The bar lies along the vehicle, where a tilt in the bump sense is a loss of camber.
    camber = -np.degrees(np.asarray(motion.tilt) - float(level.tilt))
    chart.curve(travel, camber)
    return out


def _four_bar(out: Drawing, plane: Plane, angle: float, style: str) -> None:
    """Draw the linkage at an angle, with letters if it is not pale."""
    motion, state = WISHBONE.motion(angle), WISHBONE.carrier(angle)
    usual = WISHBONE.carrier(WISHBONE.reference_angle).joint
    # In the reference position the upper ball joint follows from both circles.
    away = np.array([0.060 - usual.outboard, 0.260 - usual.height])
    distance = float(np.hypot(*away))
    within = np.arccos((0.270**2 + distance**2 - 0.235**2) / (2.0 * 0.270 * distance))
    lean = float(np.arctan2(away[1], away[0]) - within)
    upper = state.path((0.270 * np.cos(lean), 0.270 * np.sin(lean)))
    lower, top = (
        plane.at(state.joint.outboard, state.joint.height),
        plane.at(upper.outboard, upper.height),
    )
    bar, pivot = plane.at(0.0, 0.0), plane.at(*WISHBONE.upper_pivot)
    out.line(bar, lower, f"arm{style}")
    out.line(pivot, top, f"arm{style}")
    out.line(lower, top, f"bolt{style}")
    hub = plane.at(motion.hub.outboard, motion.hub.height)
    load = plane.at(motion.load.outboard, motion.load.height)
    out.line(hub, load, f"line{style}")
    if style:
        return
    foot = on_arm(WISHBONE.damper_foot, angle)
    out.line(plane.at(foot.outboard, foot.height), plane.at(*WISHBONE.damper_mount), "damper")
    out.circle(bar, 9.0, "bar")
    for point in (lower, top, pivot, hub):
        out.circle(point, 4.5, "void")
    out.circle(load, 3.5, "solid")
    out.text((lower[0] + 2, lower[1] + 24), "B", "bold")
    out.text((top[0] + 4, top[1] - 12), "C", "bold", "start")
    out.text((pivot[0] - 12, pivot[1] + 4), "U", "bold", "end")
    x, y = between(pivot, top, 0.66)
    out.text((x, y - 12), "r", "bold")
    x, y = between(lower, top)
    out.text((x + 8, y + 4), "h", "bold", "start")
    out.text((bar[0], bar[1] + 28), "bar", "small")


def alignment() -> Drawing:
    """Draw camber, toe and castor that a wheel gains over the tilt of its carrier."""
    out = Drawing(760, 310, "Camber, toe and castor over the tilt of the wheel carrier")
    tilt = np.linspace(-12.0, 12.0, 97)
    sweep = np.radians(15.0)
    cases = (
        (
            "trailing arm, swept by 15°",
            bar_plane(
                bar_axis=(np.sin(sweep), np.cos(sweep), 0.0),
                arm_direction=(-np.cos(sweep), np.sin(sweep), 0.0),
            ),
            Alignment(),
        ),
        (
            "arm across, bar along",
            bar_plane(bar_axis=(1.0, 0.0, 0.0), arm_direction=(0.0, 1.0, 0.0)),
            Alignment(castor=np.radians(3.0), toe=np.radians(1.0)),
        ),
    )
    for frame, (words, plane, start) in zip((LEFT, RIGHT), cases, strict=True):
        chart = Chart(out, frame, across=(-12.0, 12.0), up=(-12.0, 12.0))
        chart.ticks((-12, -6, 0, 6, 12), (-12, -6, 0, 6, 12))
        chart.names("tilt of the carrier in the bump sense, deg", f"angle, deg: {words}")
        there = start.tilted(np.radians(tilt), plane=plane, wheel_side=1)
        for angle, style in ((there.camber, "new"), (there.toe, "old"), (there.castor, "end")):
            chart.curve(tilt, np.degrees(angle), style)
    entries = (("new", "camber"), ("old", "toe"), ("end", "castor"))
    legend(out, (250.0, 56.0), entries)
    return out


def axes() -> Drawing:
    """Draw an inclined bar from the side and in space, with the plane square to it."""
    out = Drawing(760, 360, "An inclined bar, the plane square to it, and what is vertical in it")
    slope = np.radians(20.0)
    plane = bar_plane(bar_axis=(np.cos(slope), 0.0, np.sin(slope)), arm_direction=(0.0, 1.0, 0.0))
    share = float(plane.vertical_share)
    _from_the_side(out, plane.axis, plane.up, share)
    space = Space((540.0, 212.0), 190.0, azimuth=52.0)
    corners = [
        plane.in_vehicle(outboard=y, height=z)
        for y, z in ((-0.3, -0.3), (0.95, -0.3), (0.95, 0.85), (-0.3, 0.85))
    ]
    out.path([space.at(corner) for corner in corners], "tube pale", closed=True)
    centre = space.at((0.0, 0.0, 0.0))
    out.line(space.at(-1.0 * plane.axis), space.at(0.55 * plane.axis), "rod")
    for vector, words in ((plane.outboard, "o"), (plane.up, "u"), (plane.axis, "b")):
        tip = space.at(0.72 * vector)
        out.arrow(centre, tip, "new", "blue")
        out.text(beyond(centre, tip, 12.0, drop=5.0), words, "bold blue")
    tip = space.at((0.0, 0.0, 0.9))
    out.arrow(centre, tip, "dash", "grey")
    out.text((tip[0] - 6, tip[1] + 2), "z", "small", "end")
    out.text((560, 344), "the plane square to the bar: o outboard, u up in it", "small")
    return out


def _from_the_side(out: Drawing, axis: np.ndarray, up: np.ndarray, share: float) -> None:
    """Draw the bar from the right, with a vertical load and its two parts."""
    centre, long = (190.0, 220.0), 150.0

    def at(vector: np.ndarray, size: float) -> XY:
        return centre[0] + size * float(vector[0]), centre[1] - size * float(vector[2])

    out.line(at(axis, -0.9 * long), at(axis, 0.9 * long), "rod")
    out.line((centre[0], centre[1]), (centre[0] + 1.0 * long, centre[1]), "dash")
    out.arc(centre, 84.0, (0.0, 20.0))
    out.text((centre[0] + 100, centre[1] - 12), "β = 20°", "small", "start")
    out.arrow(centre, (centre[0], centre[1] - long), "old", "red")
    out.text((centre[0] + 8, centre[1] - long), "F, vertical", "small red", "start")
    tip = at(up, share * long)
    out.arrow(centre, tip, "new", "blue")
    out.line(tip, (centre[0], centre[1] - long), "dash")
    out.text((tip[0] - 6, tip[1] + 6), f"F cos β = {share:.2f} F", "small blue", "end")
    out.text((tip[0] - 6, tip[1] + 22), "turns the arm", "small blue", "end")
    x, y = at(axis, 0.9 * long)
    out.text((x - 8, y - 12), "arm end", "small", "end")
    out.text((190, 344), "seen from the right: x forward, z up", "small")


def vectors() -> Drawing:
    """Draw a wheel's spin axis that is turned about the direction of a bar."""
    out = Drawing(760, 330, "A vector turned about a unit vector, in the vehicle axes")
    space = Space((360.0, 158.0), 128.0, azimuth=58.0)
    about = np.array([np.cos(0.35), np.sin(0.35), 0.0])
    spin = np.array([-0.36, 0.80, 0.48])
    space.axes(out, 0.9)
    centre = space.at((0.0, 0.0, 0.0))
    turn = np.radians(np.linspace(0.0, 360.0, 91))
    ring = rotated(spin, about=about, by=turn)
    foot = about * float(spin @ about)
    out.path([space.at(point) for point in ring], "dash")
    out.line(space.at(-0.9 * about), space.at(1.25 * about), "rod")
    out.text(beyond(centre, space.at(1.25 * about), 20.0, drop=5.0), "n", "bold")
    for degrees, style, fill, words in ((0.0, "old", "red", "v"), (75.0, "new", "blue", "v′")):
        tip = rotated(spin, about=about, by=np.radians(degrees))
        out.arrow(centre, space.at(tip), style, fill)
        out.line(space.at(foot), space.at(tip), "thin")
        out.text(beyond(centre, space.at(tip), 12.0, drop=5.0), words, f"bold {fill}")
    arc = rotated(
        foot + 0.45 * (spin - foot), about=about, by=np.radians(np.linspace(0.0, 75.0, 31))
    )
    out.path([space.at(point) for point in arc], "line")
    x, y = space.at(rotated(foot + 0.6 * (spin - foot), about=about, by=np.radians(37.5)))
    out.text((x, y + 5), "ϑ", "bold")
    out.text((380, 316), "v is turned about n by ϑ, right-handed: its part along n stays", "small")
    return out


FIGURES: Figures = {
    "arm_and_strut": linkage,
    "wheel_carrier": carrier,
    "double_wishbone": wishbone,
    "alignment": alignment,
    "bar_axes": axes,
    "vectors": vectors,
}
