"""Corners whose spring is known, and what would be read of them."""

from __future__ import annotations

from collections.abc import Sequence

import attrs

import barwright as bw
from sample_records import make_setup

__all__ = ["LOADS", "read", "stands", "true_corner"]

LOADS = (260.0, 290.0, 320.0, 350.0)
"""Sprung masses [kg] that differ enough for a rate."""


def true_corner(*, rate: str = "46 N*m/deg", blank: str = "0.8 deg") -> bw.Setup:
    """The corner with a bar that is not what its figures say."""
    setup = make_setup()
    return setup.with_parts(bar=attrs.evolve(setup.bar, measured_rate=rate, blank_angle=blank))


def stands(setup: bw.Setup, load: float, *, pin: str | None = None) -> float:
    """Height [mm] at which a corner stands under a sprung mass [kg]."""
    loaded = setup.with_load(kind=bw.parts.LoadKind.SPRUNG, mass=f"{load!r} kg")
    placed = loaded if pin is None else attrs.evolve(loaded, pin_distance=pin)
    return float(bw.ride(placed).height.m_as("mm"))


def read(  # a test changes any of these
    figures: bw.Setup,
    true: bw.Setup,
    *,
    loads: Sequence[float] = LOADS,
    off: Sequence[float] = (),
    pins: Sequence[str] = (),
    height: str = " ± 2 mm",
    mass: str = " ± 1 kg",
    place: str = " ± 0.5 mm",
) -> list[bw.parts.Reading]:
    """What is read of a corner, by its figures, with errors of height [mm]."""
    off = off or [0.0] * len(loads)
    found = []
    for index, load in enumerate(loads):
        pin = pins[index] if pins else None
        stood = stands(true, load, pin=pin) + off[index]
        found.append(
            bw.parts.measured(
                figures,
                height=f"{stood:.9f} mm{height}",
                sprung_mass=f"{load!r} kg{mass}",
                pin_distance=None if pin is None else f"{pin}{place}",
            )
        )
    return found
