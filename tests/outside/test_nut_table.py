"""A table over the thread against the statics of a trailing arm, written out and solved by scipy.

The arm turns on the bar, the hub and the tyre's contact under it are rigid on the arm or move
with it; lever, bolt and pivot form a triangle. Nothing here is imported but the records'
answers; figures are those of the records, in mm, N and rad.
"""

from __future__ import annotations

import functools
import math

import pytest
import scipy.constants
from scipy.optimize import brentq

import barwright as bw
from sample_records import known, make_bar, make_setup, swing_arm_mounting

SETUP = make_setup(
    bar=make_bar(bore="6 mm"),
    axle={"suspension": swing_arm_mounting(), "load_at": bw.parts.LoadPoint.HUB},
    damper={"open_length": "800 mm", "closed_length": "300 mm"},
)

ARM, REFERENCE = 338.0, math.radians(-5.0)
HUB = (92.0, 48.0)
LOAD = 291.0 * float(scipy.constants.g)
PIVOT, LEVER, PIVOT_ANGLE = 142.0, 118.0, math.radians(97.0)
MIDDLE, PITCH = 159.5, 1.75
STOPS = math.radians(-24.0), math.radians(17.0)


def hub(angle: float) -> float:
    """Height of the hub over the bar axis [mm]: it is fixed to the arm."""
    turn = angle - REFERENCE
    out, up = HUB
    return ARM * math.sin(angle) + out * math.sin(turn) + up * math.cos(turn)


def hub_slope(angle: float) -> float:
    turn = angle - REFERENCE
    out, up = HUB
    return ARM * math.cos(angle) + out * math.cos(turn) - up * math.sin(turn)


def height(angle: float) -> float:
    """Hub to arch [mm], 404 mm with the arm at its reference."""
    return 404.0 + hub(REFERENCE) - hub(angle)


def lever(turns: float) -> float:
    """Angle of the lever [rad], by the law of cosines; the lever lies bumpward of the pivot."""
    length = MIDDLE - PITCH * turns
    cosine = (PIVOT**2 + LEVER**2 - length**2) / (2.0 * PIVOT * LEVER)
    return PIVOT_ANGLE + math.acos(cosine)


def free(turns: float) -> float:
    """Arm angle without torque [rad]: from arm to key, along the bar, and from key to lever."""
    return lever(turns) + math.radians(-181.0 - 17.5)


@functools.cache
def rate() -> float:
    """Rate of bar and tube [N·mm/rad]: that which the answer states, checked elsewhere."""
    return 1e3 * float(bw.rates(SETUP).system_rate.m_as("N*m/rad"))


def rest(turns: float, shift: float = 0.0) -> float:
    """Arm angle [rad] at which the bar carries the load, or the stop that is met before."""

    def unbalanced(angle: float) -> float:
        return rate() * max(angle - free(turns) - shift, 0.0) - LOAD * hub_slope(angle)

    low, high = STOPS
    if unbalanced(low) >= 0.0:
        return low
    return high if unbalanced(high) <= 0.0 else float(brentq(unbalanced, low, high, xtol=1e-15))


def turns_for(wanted: float, shift: float) -> float:
    return float(brentq(lambda n: height(rest(n, shift)) - wanted, -8.85, 8.85, xtol=1e-12))


@pytest.fixture(scope="module", name="table")
def _table() -> bw.answers.NutTable:
    return bw.nut_table(SETUP)


def test_each_row_stands_where_the_statics_say(table: bw.answers.NutTable) -> None:
    droop, bump = map(height, STOPS)
    assert len(table.table_rows) == 17
    for row in table.table_rows:
        turns = float(row.nut_turns.magnitude)
        angle = rest(turns)
        assert row.height.m_as("mm") == pytest.approx(height(angle), abs=1e-6)
        assert row.droop_left.m_as("mm") == pytest.approx(droop - height(angle), abs=1e-6)
        assert row.bump_left.m_as("mm") == pytest.approx(height(angle) - bump, abs=1e-6)
        assert row.torque.m_as("N*m") == pytest.approx(
            1e-3 * rate() * (angle - free(turns)), rel=1e-9
        )
        assert row.slack_at_droop is (STOPS[0] <= free(turns))


def test_each_row_rises_and_pulls_as_small_turns_say(table: bw.answers.NutTable) -> None:
    step = 1e-4
    for row in table.table_rows:
        turns = float(row.nut_turns.magnitude)
        rise = (height(rest(turns + step)) - height(rest(turns - step))) / (2.0 * step)
        assert row.height_per_turn.m_as("mm/turn") == pytest.approx(rise, rel=1e-5)
        # A small turn of the lever does the work that the bolt's shortening does.
        per_turn = (lever(turns + step) - lever(turns - step)) / (2.0 * step)
        pull = rate() * (rest(turns) - free(turns)) * -per_turn / PITCH
        assert row.bolt_at_ride.m_as("N") == pytest.approx(pull, rel=1e-5)


@pytest.mark.parametrize(("offset", "wanted"), [(0.0, 412.0), (-8.0, 412.0), (5.0, 380.0)])
def test_the_turn_to_make_is_that_which_the_statics_ask_for(offset: float, wanted: float) -> None:
    setup_turns = 2.0
    measured = height(rest(setup_turns)) + offset
    setup = make_turned(setup_turns)
    answer = bw.nut_table(
        setup, measured=f"{measured:.9f} mm", wanted=bw.Wanted(height=f"{wanted} mm")
    )
    # Where it stands, the bar is twisted by what the load asks for: so the arm is free there.
    stands = float(brentq(lambda angle: height(angle) - measured, *STOPS, xtol=1e-15))
    shift = stands - LOAD * hub_slope(stands) / rate() - free(setup_turns)
    exact = turns_for(wanted, shift) - setup_turns
    found = known(answer.correction)
    assert found.correcting_turns.m_as("turn") == pytest.approx(round(exact * 6.0) / 6.0)
    after = height(rest(float(found.nut_turns.magnitude), shift))
    assert found.height.m_as("mm") == pytest.approx(after, abs=1e-6)


def make_turned(turns: float) -> bw.Setup:
    return make_setup(
        bar=SETUP.bar,
        axle={"suspension": swing_arm_mounting(), "load_at": bw.parts.LoadPoint.HUB},
        damper={"open_length": "800 mm", "closed_length": "300 mm"},
        nut_turns=f"{turns} turn",
    )
