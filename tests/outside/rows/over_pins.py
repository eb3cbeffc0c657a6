"""Rows of `over_pins`: pins that touch flanks made of unwound strings."""

from __future__ import annotations

import math

import numpy as np
import scipy.optimize

import involute_string
from barwright.mechanics.spline.over_pins import involute_angle, size_over_pins
from validation import Kind, Row

MODULE, PIN, THICKNESS = 0.75, 1.5, 1.15
ANGLE = math.radians(30.0)
STRING = "scipy, pins between strings unwound from the base circle"


def _distance(radius: float, turned: float) -> float:
    """Distance from a point on the middle of a space to a flank that begins `turned` from it."""
    point = radius * np.array([math.cos(-turned), math.sin(-turned)])

    def away(unwound: float) -> float:
        return float(np.hypot(*(involute_string.end(unwound) - point)))

    return float(
        scipy.optimize.minimize_scalar(
            away, bounds=(0.0, 3.0), method="bounded", options={"xatol": 1e-12}
        ).fun
    )


def touching(teeth: int) -> float:
    """Size [mm] over pins between flanks of strings, by trying where a pin touches them."""
    pitch = MODULE * teeth / 2.0
    base = pitch * math.cos(ANGLE)
    # Where the flank leaves the base circle, from the middle of the space: half of the space
    # on the pitch circle, and how far the string has come round there.
    half_space = (math.tau / teeth - THICKNESS / pitch) / 2.0
    turned = half_space - involute_string.polar_angle(pitch / base)

    def short(radius: float) -> float:
        return _distance(radius / base, turned) * base - PIN / 2.0

    centre = float(scipy.optimize.brentq(short, pitch * 0.99, pitch * 1.1, xtol=1e-12))
    opposite = 1.0 if teeth % 2 == 0 else math.cos(math.pi / 2.0 / teeth)
    return 2.0 * centre * opposite + PIN


def _size(teeth: int) -> float:
    return 1e3 * float(
        size_over_pins(
            teeth=teeth,
            module=MODULE / 1e3,
            pressure_angle=ANGLE,
            tooth_thickness=THICKNESS / 1e3,
            pin_diameter=PIN / 1e3,
        )
    )


ROWS = [
    Row(
        of="over_pins.size_over_pins",
        source=STRING,
        given="40 teeth, module 0.75 mm, 30°, teeth of 1.15 mm, pins of 1.5 mm",
        unit="mm",
        expected=lambda: touching(40),
        got=lambda: _size(40),
        within=1e-8,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="over_pins.size_over_pins",
        source=STRING,
        given="the same with 39 teeth, whose spaces are not opposite",
        unit="mm",
        expected=lambda: touching(39),
        got=lambda: _size(39),
        within=1e-8,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="over_pins.involute_angle",
        source="scipy, lean of an unwound string that has come 0.05 rad round",
        given="0.05 rad",
        unit="deg",
        expected=lambda: math.degrees(
            involute_string.lean(
                scipy.optimize.brentq(
                    lambda radius: involute_string.polar_angle(radius) - 0.05, 1.01, 1.5, xtol=1e-14
                )
            )
        ),
        got=lambda: math.degrees(float(involute_angle(0.05))),
        within=1e-8,
        kind=Kind.FORMULATED,
    ),
]
