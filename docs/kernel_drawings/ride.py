"""Figures of the kernels of ride: frequencies and dampers of a corner and of a body."""

from __future__ import annotations

import numpy as np

from barwright.mechanics.corner.damping import damping_ratio, required_damper_rate, wheel_damping
from barwright.mechanics.vehicle.modes import body_modes, bounce_and_pitch_frequencies
from barwright.mechanics.vehicle.quarter_vehicle import quarter_vehicle_modes
from barwright.mechanics.vehicle.ride import (
    natural_frequency,
    ride_rate,
)
from barwright.mechanics.vehicle.vehicle import Vehicle
from kernel_drawings.sheet import LEFT, RIGHT, Figures, coil, curve_up_to, ground, legend
from svg import XY, Chart, Drawing

CORNER = {"sprung_mass": 340.0, "unsprung_mass": 42.0, "wheel_rate": 22e3, "tyre_rate": 190e3}


def ride() -> Drawing:
    """Draw frequency over the mass, and over the wheel rate with and without a tyre."""
    out = Drawing(760, 310, "Ride frequency over mass and over wheel rate")
    chart = Chart(out, LEFT, across=(200.0, 600.0), up=(0.0, 3.0))
    chart.ticks((200, 300, 400, 500, 600), (0, 1, 2, 3))
    chart.names("sprung mass, kg", "frequency on 20 N/mm, Hz")
    mass = np.linspace(200.0, 600.0, 81)
    chart.curve(mass, natural_frequency(rate=20e3, mass=mass))
    chart = Chart(out, RIGHT, across=(0.0, 60.0), up=(0.0, 3.0))
    chart.ticks((0, 10, 20, 30, 40, 50, 60), (0, 1, 2, 3))
    chart.names("wheel rate, N/mm", "frequency of 340 kg, Hz")
    rate = np.linspace(2.0, 60.0, 117)
    on_tyre = ride_rate(wheel_rate=rate * 1e3, tyre_rate=190e3)
    chart.curve(rate, natural_frequency(rate=rate * 1e3, mass=340.0), "old")
    chart.curve(rate, natural_frequency(rate=on_tyre, mass=340.0))
    legend(
        out, (456.0, 54.0), (("old", "on the wheel rate alone"), ("new", "with a tyre of 190 N/mm"))
    )
    return out


def damping() -> Drawing:
    """Draw damping ratio over the damper's rate, and the rate that a ratio needs."""
    out = Drawing(760, 310, "Dampers: damping ratio at the wheel, and the rate that one needs")
    chart = Chart(out, LEFT, across=(0.0, 6.0), up=(0.0, 1.0))
    chart.ticks((0, 1, 2, 3, 4, 5, 6), (0, 0.2, 0.4, 0.6, 0.8, 1))
    chart.names("rate of the damper, kN·s/m", "damping ratio of 340 kg on 20 N/mm")
    rate = np.linspace(0.0, 6.0, 61)
    for ratio, style in ((0.9, "old"), (0.7, "new"), (0.5, "end")):
        at_wheel = wheel_damping(damper_rate=1e3 * rate, motion_ratio=ratio)
        damped = np.asarray(damping_ratio(damping=at_wheel, rate=20e3, mass=340.0))
        curve_up_to(chart, 1.0, rate, damped, style)
    legend(out, (86.0, 52.0), (("old", "i = 0.9"), ("new", "i = 0.7"), ("end", "i = 0.5")))
    chart = Chart(out, RIGHT, across=(0.4, 1.0), up=(0.0, 8.0))
    chart.ticks((0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1), (0, 2, 4, 6, 8))
    chart.names("motion ratio i of the damper", "needed rate of the damper, kN·s/m")
    motion = np.linspace(0.4, 1.0, 61)
    for wanted, style in ((0.4, "old"), (0.3, "new"), (0.2, "end")):
        needed = np.asarray(
            required_damper_rate(damping_ratio=wanted, rate=20e3, mass=340.0, motion_ratio=motion)
        )
        curve_up_to(chart, 8.0, motion, needed / 1e3, style)
    legend(out, (610.0, 52.0), (("old", "ζ = 0.4"), ("new", "ζ = 0.3"), ("end", "ζ = 0.2")))
    return out


def quarter_vehicle() -> Drawing:
    """Draw two masses, two springs and a damper, and both modes over the damping."""
    out = Drawing(760, 330, "The quarter vehicle, and its two modes over the damping")
    _masses(out)
    rate = np.linspace(0.0, 4.0, 161)
    found = quarter_vehicle_modes(**CORNER, damping=1e3 * rate)
    frames = ((230.0, 34.0, 450.0, 264.0), (510.0, 34.0, 730.0, 264.0))
    chart = Chart(out, frames[0], across=(0.0, 4.0), up=(0.0, 12.0))
    chart.ticks((0, 1, 2, 3, 4), (0, 2, 4, 6, 8, 10, 12))
    chart.names("damping at the wheel, kN·s/m", "frequency, Hz")
    chart.curve(rate, found.body_mode.frequency)
    chart.curve(rate, found.hop.frequency, "old")
    legend(out, (340.0, 150.0), (("new", "body"), ("old", "wheel hop")))
    chart = Chart(out, frames[1], across=(0.0, 4.0), up=(0.0, 1.2))
    chart.ticks((0, 1, 2, 3, 4), (0, 0.2, 0.4, 0.6, 0.8, 1, 1.2))
    chart.names("damping at the wheel, kN·s/m", "damping ratio")
    for mode, style in ((found.body_mode, "new"), (found.hop, "old")):
        curve_up_to(chart, 1.2, rate, mode.damping_ratio, style)
    return out


def _masses(out: Drawing) -> None:
    """Draw sprung and unsprung mass on wheel rate, damper and tyre."""
    out.box(50.0, 170.0, 40.0, 90.0, "part")
    out.box(65.0, 155.0, 170.0, 206.0, "tube")
    out.path(coil((80.0, 90.0), (80.0, 170.0)))
    out.path(coil((110.0, 206.0), (110.0, 280.0)))
    out.path([(140.0, 90.0), (140.0, 128.0)])
    out.path([(132.0, 128.0), (148.0, 128.0)])
    out.path([(130.0, 116.0), (130.0, 142.0), (150.0, 142.0), (150.0, 116.0)])
    out.path([(140.0, 142.0), (140.0, 170.0)])
    ground(out, 50.0, 170.0, 280.0)
    out.text((110, 70), "m_s_", "bold")
    out.text((110, 193), "m_u_", "bold")
    for at, words, anchor in (
        ((66.0, 134.0), "K", "end"),
        ((156.0, 134.0), "c", "start"),
        ((94.0, 248.0), "K_t_", "end"),
    ):
        out.text(at, words, "bold", anchor)
    for y, words in ((65.0, "z_s_"), (188.0, "z_u_")):
        out.arrow((184.0, y + 14.0), (184.0, y - 14.0), "thin", "grey")
        out.text((178, y - 18), words, "small", "start")


def modes() -> Drawing:
    """Draw bounce and pitch over the body's inertia, and the shapes of a whole body's modes."""
    out = Drawing(760, 310, "Frequencies of a body in bounce and pitch, and a whole body's modes")
    front, rear, mass = 1.20, 1.40, 1300.0
    chart = Chart(out, LEFT, across=(0.6, 1.6), up=(0.8, 1.8))
    chart.ticks((0.6, 0.8, 1, 1.2, 1.4, 1.6), (0.8, 1, 1.2, 1.4, 1.6, 1.8))
    chart.names("pitch inertia over m a b", "natural frequency, Hz")
    share = np.linspace(0.6, 1.6, 101)
    both = bounce_and_pitch_frequencies(
        front_rate=42e3,
        rear_rate=46e3,
        front_distance=front,
        rear_distance=rear,
        mass=mass,
        pitch_inertia=share * mass * front * rear,
    )
    for frequency, style in zip(both, ("new", "old"), strict=True):
        chart.curve(share, frequency, style)
    legend(out, (220.0, 56.0), (("old", "the higher"), ("new", "the lower")))
    van = Vehicle(
        mass=mass,
        centre_of_gravity=(1.40, 0.0, 0.62),
        wheels=((2.60, 0.75), (2.60, -0.75), (0.0, 0.75), (0.0, -0.75)),
        wheel_rates=(23e3, 23e3, 26e3, 26e3),
        tyre_rates=200e3,
    )
    found = body_modes(van, roll_inertia=450.0, pitch_inertia=2000.0)
    _shares(out, found.frequencies.tolist(), found.shares.tolist())
    return out


def _shares(out: Drawing, frequencies: list[float], shares: list[list[float]]) -> None:
    """Draw each mode's energy as shares of heave, roll and pitch."""
    names, styles = ("heave", "roll", "pitch"), ("part", "key", "bar")
    left, right = 500.0, 730.0
    out.text((440, 26), "kinetic energy of three modes, by share", "small", "start")
    for row, (frequency, of) in enumerate(zip(frequencies, shares, strict=True)):
        top, x = 50.0 + 62.0 * row, left
        out.text((left - 8, top + 23), f"{frequency:.2f} Hz", "small", "end")
        for share, style in zip(of, styles, strict=True):
            end = x + (right - left) * share
            out.box(x, end, top, top + 38.0, style)
            x = end
    for index, (words, style) in enumerate(zip(names, styles, strict=True)):
        at: XY = (500.0 + 82.0 * index, 250.0)
        out.box(at[0], at[0] + 16.0, at[1] - 12.0, at[1], style)
        out.text((at[0] + 22, at[1] - 1), words, "small", "start")


FIGURES: Figures = {
    "ride": ride,
    "damping": damping,
    "quarter_vehicle": quarter_vehicle,
    "modes": modes,
}
