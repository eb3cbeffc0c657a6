"""Strategies that draw whole setups, for the property tests."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

import barwright as bw
from sample_records import (
    fixed_line,
    make_bar,
    make_end,
    make_setup,
    strut_mounting,
    swing_arm_mounting,
    swivelling,
)

__all__ = ["corners", "identities", "shown_by"]

# Bars along and across the vehicle, the arm end at either end; left corners.
LAYOUTS = st.sampled_from(
    [
        ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        ((-1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        ((0.0, 1.0, 0.0), (-1.0, 0.0, 0.0)),
        ((0.0, -1.0, 0.0), (-1.0, 0.0, 0.0)),
        ((0.0, 1.0, 0.0), (1.0, 0.0, 0.0)),
        ((0.8, 0.6, 0.0), (-0.6, 0.8, 0.0)),
    ]
)


BLANKS = st.just(()) | st.lists(st.integers(1, 12), max_size=2, unique=True).map(
    lambda further: (0, *further)
)


def shown_by(blanks: tuple[int, ...]) -> dict[str, Any]:
    """What an end has that its teeth are counted from: blanks, or else a mark."""
    return {"blanks": blanks} if blanks else {"blanks": (), "mark": "a punched dot"}


@st.composite
def corners(draw: st.DrawFn) -> tuple[bw.Setup, str]:
    """A setup and a wanted height."""
    axis, arm = draw(LAYOUTS)
    degrees = st.integers(-1800, 1800).map(lambda tenths: f"{tenths / 10} deg")
    offset = draw(st.integers(-25, 25))
    suspension = draw(
        st.sampled_from([strut_mounting(offset=f"{offset} mm"), swing_arm_mounting()])
    )
    is_swing_arm = isinstance(suspension, bw.parts.SwingArmMounting)
    # An end without a blank lies in a socket without a key; its maker marked a tooth.
    arm_blanks, anchor_blanks = draw(BLANKS), draw(st.sampled_from([(0,), ()]))
    bar = make_bar(
        blank_angle=draw(st.integers(-60, 60).map(lambda tenths: f"{tenths / 10} deg")),
        arm_end=make_end(draw(st.integers(34, 44)), **shown_by(arm_blanks)),
        anchor_end=make_end(draw(st.integers(44, 50)), **shown_by(anchor_blanks)),
    )
    at = draw(degrees)
    pull = draw(st.booleans())
    held = draw(st.sampled_from([swivelling(pivot_angle=at), fixed_line(foot_angle=at)]))
    setup = make_setup(
        side=draw(st.sampled_from(list(bw.parts.Side))),
        bar=bar,
        arm_key=draw(degrees),
        anchor_key=draw(degrees),
        arm_keyed=bool(arm_blanks) and draw(st.booleans()),
        anchor_keyed=bool(anchor_blanks) and draw(st.booleans()),
        damper={
            "open_length": "700 mm",
            "closed_length": "450 mm",
            "gas": draw(st.none() | st.just(GAS)),
        },
        adjuster={
            "lever_lies": bw.parts.LeverSide.BUMPWARD if pull else bw.parts.LeverSide.DROOPWARD,
            "mounting": held,
        },
        axle={
            "bar_axis": axis,
            "arm_direction": arm,
            "suspension": suspension,
            "load_at": bw.parts.LoadPoint.HUB if is_swing_arm else bw.parts.LoadPoint.CONTACT,
        },
    )
    return setup, f"{draw(st.integers(340, 440))} mm"


GAS = bw.parts.GasCharge(force="190 N", at_length="590 mm", slope="-0.42 N/mm")


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=8).filter(str.strip)
MONTHS = st.builds(bw.parts.Month, st.integers(1000, 9999), st.integers(1, 12))


@st.composite
def identities(draw: st.DrawFn) -> dict[str, Any]:
    """What a chassis states of itself."""
    start, end = sorted([draw(MONTHS), draw(MONTHS)])
    first, last = draw(st.sampled_from([(start, end), (start, None), (None, end), (None, None)]))
    names = ("maker", "model", "body", "trim", "drive")
    return {name: draw(st.none() | TEXTS) for name in names} | {
        "markets": tuple(draw(st.lists(TEXTS, max_size=2))),
        "codes": tuple(draw(st.lists(TEXTS, max_size=2))),
        "first_built": first,
        "last_built": last,
    }
