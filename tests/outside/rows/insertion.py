"""Rows of `insertion`: outlines of bar and socket, laid over each other."""

from __future__ import annotations

import functools
import math

import numpy as np
import shapely
from shapely import Polygon

from barwright.mechanics.spline.insertion import passes_freely, passes_meshed
from spline_outlines import Rack, cut_spline, disc, turned
from validation import Kind, Row

BAR = Rack(pressure_angle=30.0, reach=0.9, addendum=0.5)
SOCKET = Rack(pressure_angle=30.0, reach=0.5, addendum=0.9)
TEETH = 24
SMOOTH = 1e-3  # modules
BLANKS = (0, 3, 10)

# Turns by half teeth, once round to where they began, so that one more passes than is stopped.
TURNS = np.arange(-TEETH, TEETH + 1) * math.tau / (2 * TEETH)

# Bar ends [mm] that are held against a socket of 24 teeth, module 1 mm: 23 mm inside its teeth.
MAJORS = np.linspace(21.0, 25.0, 17) + 0.1


@functools.cache
def socket(*, keyed: bool) -> Polygon:
    """Material of a socket of 24 teeth, module 1 mm; its key is the space above the axis."""
    spaces = cut_spline(TEETH, 1.0, SOCKET, blanks=(0,) if keyed else (), smooth=SMOOTH)
    return disc(40.0).difference(shapely.union_all([spaces, disc(TEETH - 1.0)]))


def fits(bar: Polygon, around: Polygon) -> bool:
    """Whether two outlines share no more area than the smoothing of their flanks."""
    return bool(shapely.intersection(bar, around).area < 0.02)


def meshed_turns(*, keyed: bool) -> int:
    """Count the turns at which a bar with three blanks passes."""
    bar = cut_spline(TEETH, 1.0, BAR, blanks=BLANKS, smooth=SMOOTH)
    return sum(fits(turned(bar, angle), socket(keyed=keyed)) for angle in TURNS)


def free_bars() -> int:
    """Count the round ends that pass."""
    return sum(fits(disc(major), socket(keyed=True)) for major in MAJORS)


def own_turns(*, keyed: bool) -> int:
    """What the kernel counts of the same turns."""
    return int(np.sum(passes_meshed(TURNS, teeth=TEETH, blanks=BLANKS, keyed=keyed)))


ROWS = [
    Row(
        of="insertion.passes_freely",
        source="shapely, overlap of outlines: ends that pass",
        given="17 ends of 21.1 to 25.1 mm, socket of 24 teeth, module 1 mm, 23 mm inside its teeth",
        unit="",
        expected=free_bars,
        got=lambda: float(np.sum(passes_freely(major_diameter=MAJORS, minor_diameter=23.0))),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="insertion.passes_meshed",
        source="shapely, overlap of outlines: angles at which the end passes the key",
        given="24 teeth, 0, 3 and 10 missing; 49 turns by half a tooth",
        unit="",
        expected=lambda: meshed_turns(keyed=True),
        got=lambda: own_turns(keyed=True),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="insertion.passes_meshed",
        source="shapely, overlap of outlines: angles at which the end passes, no key",
        given="24 teeth, 0, 3 and 10 missing; 49 turns by half a tooth",
        unit="",
        expected=lambda: meshed_turns(keyed=False),
        got=lambda: own_turns(keyed=False),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
]
