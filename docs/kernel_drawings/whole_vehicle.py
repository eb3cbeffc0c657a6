"""Figures of the kernels of the whole vehicle: roll, pose, stance and balance."""

from __future__ import annotations

import math

import numpy as np

from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.balance import cross_weight, cross_weight_change, self_stress
from barwright.mechanics.vehicle.roll import (
    AntiRollBar,
    axle_roll_rate,
    load_transfer,
    roll_gradient,
)
from barwright.mechanics.vehicle.static_equilibrium import influence, settle
from barwright.mechanics.vehicle.vehicle import CORNERS, Vehicle
from kernel_drawings.sheet import Figures, Space, area, coil, ground, legend, signed
from svg import XY, Chart, Drawing, between, polar

VAN = Vehicle(
    mass=1400.0,
    centre_of_gravity=(1.35, 0.03, 0.65),
    wheels=((2.50, 0.75), (2.50, -0.75), (0.0, 0.75), (0.0, -0.75)),
    wheel_rates=(22e3, 22e3, 26e3, 26e3),
    tyre_rates=200e3,
    front_bar=AntiRollBar(one_wheel_rate=9e3),
    unsprung_masses=40.0,
)


def roll() -> Drawing:
    """Draw a body that leans about its roll axis, and the load that each axle transfers."""
    out = Drawing(760, 340, "A body that leans in a bend, and how the axles share the transfer")
    mass, lever, track = 1300.0, 0.48, 1.50
    _leaning(out)
    bar = np.linspace(0.0, 20.0, 81)
    front = axle_roll_rate(
        wheel_rate=22e3, track=track, bar=AntiRollBar(one_wheel_rate=1e3 * bar), tyre_rate=200e3
    )
    rear = axle_roll_rate(wheel_rate=26e3, track=track, tyre_rate=200e3)
    pull = 5.0
    leaning = pull * np.asarray(roll_gradient(mass=mass, lever=lever, roll_rate=front + rear))
    chart = Chart(out, (450.0, 34.0, 730.0, 264.0), across=(0.0, 20.0), up=(0.0, 3000.0))
    chart.ticks((0, 5, 10, 15, 20), (0, 1000, 2000, 3000))
    chart.names("front anti-roll bar, one wheel, N/mm", "load transfer at 5 m/s², N")
    for rate, style in ((front, "new"), (rear, "old")):
        moved = load_transfer(
            lateral_acceleration=pull,
            roll=leaning,
            roll_rate=rate,
            track=track,
            mass=mass / 2.0,
            roll_centre=0.10,
        )
        chart.curve(bar, moved, style)
    legend(out, (470.0, 54.0), (("new", "front axle"), ("old", "rear axle")))
    degrees = np.degrees(leaning)
    words = f"roll from {degrees[0]:.1f}° without a bar to {degrees[-1]:.1f}°"
    out.text((720, 244), words, "small", "end")
    return out


def _leaning(out: Drawing) -> None:
    """Draw the body from behind, leaning to the right about the roll axis."""
    axis: XY = (200.0, 250.0)
    tilt = -7.0

    def at(across: float, up: float) -> XY:
        size, angle = math.hypot(across, up), math.degrees(math.atan2(up, across))
        return polar(axis, size, angle + tilt)

    ground(out, 40.0, 370.0, 290.0)
    for x in (80.0, 320.0):
        out.box(x - 13.0, x + 13.0, 214.0, 290.0, "tube")
    out.line((80.0, 262.0), (320.0, 262.0), "bolt")
    corners = [(-110.0, 44.0), (110.0, 44.0), (100.0, 190.0), (-100.0, 190.0)]
    area(out, [at(*corner) for corner in corners])
    for x, side in ((116.0, -85.0), (284.0, 85.0)):
        out.path(coil((x, 262.0), at(side, 44.0), turns=4, width=7.0))
    centre = at(0.0, 120.0)
    out.line(axis, (axis[0], 96.0), "dash")
    out.line(axis, centre, "line")
    out.circle(axis, 5.0, "key")
    out.circle(centre, 5.0, "solid")
    out.arrow(centre, (centre[0] + 84.0, centre[1]), "old", "red")
    out.arrow(centre, (centre[0], centre[1] + 70.0), "new", "blue")
    out.text((centre[0] + 90.0, centre[1] + 4.0), "m a", "bold red", "start")
    out.text((centre[0] + 8.0, centre[1] + 66.0), "m g", "bold blue", "start")
    x, y = between(axis, centre, 0.45)
    out.text((x - 10.0, y), "d", "bold", "end")
    out.text((axis[0] - 10.0, axis[1] + 4.0), "roll axis", "small", "end")
    out.arc(axis, 150.0, (90.0, 83.0))
    out.text((axis[0] + 4.0, axis[1] - 162.0), "φ", "bold", "start")
    out.text((200, 326), "seen from behind, in a bend to the left", "small")


def _plan(out: Drawing, centre: XY, scale: float) -> list[XY]:
    """Draw a vehicle from above, its front up; answer where its wheels are."""
    half = (0.62 * scale, 1.25 * scale)
    out.box(
        centre[0] - half[0],
        centre[0] + half[0],
        centre[1] - half[1] - 14,
        centre[1] + half[1] + 14,
        "tube",
    )
    places: list[XY] = []
    for x, y in VAN.wheels.tolist():
        place = (centre[0] - scale * y, centre[1] - scale * (x - 1.25))
        out.box(place[0] - 10.0, place[0] + 10.0, place[1] - 24.0, place[1] + 24.0, "part")
        places.append(place)
    out.arrow((centre[0], centre[1] - half[1] - 20), (centre[0], centre[1] - half[1] - 46), "line")
    return places


def vehicle() -> Drawing:
    """Draw a body on four springs and tyres in the vehicle axes, with heave, roll and pitch."""
    out = Drawing(760, 400, "A rigid body on four corners, in the vehicle axes")
    space = Space((500.0, 214.0), 140.0, azimuth=60.0, elevation=24.0)
    height, low = 0.95, 0.35
    wheels = [(float(x), float(y)) for x, y in VAN.wheels]
    plan = [wheels[i] for i in (0, 1, 3, 2)]
    area(out, [space.at((x, y, 0.0)) for x, y in plan])
    for (x, y), name in zip(wheels, CORNERS, strict=True):
        hub = space.at((x, y, low))
        out.path(coil(space.at((x, y, 0.0)), hub, turns=3, width=6.0))
        out.path(coil(hub, space.at((x, y, height)), turns=5, width=9.0))
        out.circle(hub, 6.0, "tube")
        beside = -1.0 if y < 0.0 else 1.0
        place = space.at((x, y, 0.0))
        anchor = "start" if beside > 0.0 else "end"
        out.text((place[0] + beside * 16.0, place[1] + 10.0), name, "small", anchor)
    out.path([space.at((x, y, height)) for x, y in plan], "part", closed=True)
    space.axes(out, 0.4)
    centre = space.at((1.35, 0.03, height))
    out.circle(centre, 5.0, "solid")
    out.text((centre[0] + 10, centre[1] + 4), "centre of gravity", "small", "start")
    legend_at = (560.0, 60.0)
    for row, words in enumerate(
        ("heave: up along z", "roll: about x, left side up", "pitch: about y, nose down")
    ):
        out.text((legend_at[0], legend_at[1] + 20.0 * row), words, "small", "start")
    out.text((380, 384), "each corner: the wheel rate over the hub, the tyre below it", "small")
    return out


def stance() -> Drawing:
    """Draw what 10 mm of free height at one corner do to the loads and heights of all."""
    out = Drawing(760, 360, "What raising one adjuster by 10 mm does to loads and heights")
    level = settle(VAN, 0.15)
    moved = influence(VAN)
    for middle, figures, unit, words in (
        (190.0, 0.010 * moved.loads[:, 0], "N", "change of load"),
        (570.0, 10.0 * moved.arches[:, 0], "mm", "change of height above the road"),
    ):
        places = _plan(out, (middle, 186.0), 84.0)
        for index, ((x, y), change) in enumerate(zip(places, figures.tolist(), strict=True)):
            way = -1.0 if x < middle else 1.0
            anchor = "end" if way < 0.0 else "start"
            style = "bold red" if change < 0.0 else "bold blue"
            digits = 0 if unit == "N" else 1
            out.text((x + way * 18.0, y + 4.0), f"{signed(change, digits)} {unit}", style, anchor)
            if unit == "N":
                rests = f"of {float(level.loads[index]):.0f} N"
                out.text((x + way * 18.0, y + 20.0), rests, "small", anchor)
        out.circle(places[0], 8.0, "key")
        out.text((middle, 346), words, "bold")
    return out


def balance() -> Drawing:
    """Draw the self-stress of four corners, and the cross weight over each corner's setting."""
    out = Drawing(760, 360, "Self-stress of four corners, and cross weight over an adjuster")
    middle = 180.0
    places = _plan(out, (middle, 186.0), 84.0)
    out.line(places[0], places[3], "old")
    out.line(places[1], places[2], "new")
    for (x, y), share in zip(places, self_stress(VAN).tolist(), strict=True):
        way = -1.0 if x < middle else 1.0
        style = "bold red" if share > 0.0 else "bold blue"
        out.text(
            (x + way * 18.0, y + 4.0), signed(share, 2), style, "end" if way < 0.0 else "start"
        )
    out.text((180, 346), "loads that need no weight", "bold")
    chart = Chart(out, (450.0, 34.0, 730.0, 284.0), across=(-20.0, 20.0), up=(0.46, 0.54))
    chart.ticks((-20, -10, 0, 10, 20), (0.46, 0.48, 0.5, 0.52, 0.54))
    chart.names("change of free height of one corner, mm", "share of front right and rear left")
    start = float(cross_weight(settle(VAN, 0.15).loads))
    change = cross_weight_change(VAN).tolist()
    lift = np.linspace(-20.0, 20.0, 3)
    for index, style in ((0, "old"), (2, "new")):
        chart.curve(lift, start + change[index] * lift / 1e3, style)
    names = ((0, "old"), (2, "new"))
    legend(out, (470.0, 54.0), [(style, CORNERS[index]) for index, style in names])
    weight = float(settle(VAN, 0.15).loads.sum()) / STANDARD_GRAVITY
    out.text((722, 274), f"of {weight:.0f} kg in all", "small", "end")
    return out


FIGURES: Figures = {
    "roll": roll,
    "vehicle": vehicle,
    "static_equilibrium": stance,
    "balance": balance,
}
