"""Wishes at which a bar is tried uncut before a tooth is removed."""

from __future__ import annotations

import attrs

import barwright as bw
from barwright.analysis.corner.corner import Corner
from sample_records import known

__all__ = ["NEARLY", "OFF", "nearly_uncut"]

NEARLY, OFF = 2.0, 20.0
"""How far [mm] below what an uncut bar gives: a shop leaves the first as it is."""


def nearly_uncut(setup: bw.Setup, *, by: float) -> bw.Wanted:
    """A wish that lies below the lowest height that the bar gives uncut, by some [mm]."""
    heights = [
        known(bw.ride(attrs.evolve(setup, nut_turns=bw.Quantity(turns, "turn"))).state).height
        for turns in Corner(setup).turns_span
    ]
    return bw.Wanted(height=min(heights) - bw.Quantity(by, "mm"))
