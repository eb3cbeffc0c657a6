"""Corners for tests of the bench sheet."""

from __future__ import annotations

import attrs

import barwright as bw
from sample_records import make_setup, swing_arm_mounting

__all__ = ["stuck_corner"]


def stuck_corner() -> bw.JobCorner:
    """A corner whose bar is to be swapped, and for whose bar no safe way out is known."""
    setup = make_setup(
        damper={"open_length": "640 mm", "closed_length": "480 mm"},
        axle={"droop_stop": "-18 deg", "suspension": swing_arm_mounting()},
    )
    other = attrs.evolve(setup.bar, title="Other bar")
    return bw.JobCorner(
        setup=setup.with_parts(bar=other),
        present=attrs.evolve(setup, arm_tooth=-1),
        wanted=bw.Wanted(height="300 mm"),
    )
