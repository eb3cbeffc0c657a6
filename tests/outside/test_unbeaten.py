"""The plans offered are those that no other beats, by an independent enumeration.

Every pair of teeth is tried.  Its free angle is laid against the wanted one, the
lever follows from the difference, and the nut from the triangle of lever, pivot
and bolt; the pairs are then compared with each other as the design says.  What
the library does in closed form is done here by trying everything.
"""

from __future__ import annotations

import math
from typing import Any

import attrs
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import barwright as bw
from making import adjuster_of, known, make_bar, make_end, make_setup, tube_of

DEGREE = math.pi / 180.0


@attrs.frozen
class Pair:
    """One clocking, as the enumeration sees it."""

    arm: int
    anchor: int
    cuts: int
    ends: frozenset[str]
    distance: float
    assembles: bool

    @property
    def rank(self) -> tuple[float, int, int, int]:
        return (round(self.distance, 9), abs(self.arm) + abs(self.anchor), self.arm, self.anchor)


def beats(one: Pair, other: Pair, within: float) -> bool:
    """No worse in cuts, ends and distance, and better in one of them."""
    return (
        one.cuts <= other.cuts
        and one.ends <= other.ends
        and one.distance <= other.distance + within
        and (
            one.cuts < other.cuts or one.ends < other.ends or one.distance < other.distance - within
        )
    )


def every_pair(setup: bw.Setup, free: float) -> list[Pair]:
    """All clockings whose lever the thread can set."""
    sense = 1 if setup.side is bw.Side.LEFT else -1
    counts = (setup.bar.arm_end.teeth, setup.bar.anchor_end.teeth)
    pairs = []
    for arm in teeth_of(counts[0]):
        for anchor in teeth_of(counts[1]):
            clocked = (
                rad(setup.tube.socket.key_angle)
                - rad(setup.arm.socket.key_angle)
                + sense * rad(setup.bar.blank_angle)
                + arm * math.tau / counts[0]
                - anchor * math.tau / counts[1]
            )
            # A lever is where it is, whatever whole turns lie behind it.
            lever = (free - clocked) % math.tau
            turns = nut_turns(setup, lever)
            if turns is not None:
                pairs.append(a_pair(setup, arm, anchor, turns, free - lever))
    return pairs


def a_pair(setup: bw.Setup, arm: int, anchor: int, turns: float, clocked: float) -> Pair:
    sense = 1 if setup.side is bw.Side.LEFT else -1
    cuts, ends = 0, set()
    for name, tooth, current, end, socket in (
        ("arm", arm, setup.arm_tooth, setup.bar.arm_end, setup.arm.socket),
        ("anchor", anchor, setup.anchor_tooth, setup.bar.anchor_end, setup.tube.socket),
    ):
        if (tooth - current) % end.teeth:
            ends.add(name)
            is_blank = any((tooth - sense * blank) % end.teeth == 0 for blank in end.blanks)
            cuts += socket.keyed and not is_blank
    return Pair(arm, anchor, cuts, frozenset(ends), abs(turns), assembles(setup, clocked))


def triangle(setup: bw.Setup) -> tuple[float, float, float]:
    """Pivot's distance, lever's radius, pivot's angle."""
    pivot = adjuster_of(setup).mounting
    assert isinstance(pivot, bw.SwivellingMounting)
    return mm(pivot.pivot_distance), mm(tube_of(setup).lever_radius), rad(pivot.pivot_angle)


def nut_turns(setup: bw.Setup, lever: float) -> float | None:
    """Turns from the middle for a lever angle, None off the thread (pulling bolt)."""
    a, r, at_pivot = triangle(setup)
    beyond = (lever - at_pivot) % math.tau
    if beyond >= math.pi:
        return None
    pin = math.sqrt(a * a + r * r - 2 * a * r * math.cos(beyond))
    low, high = thread(setup)
    if not low <= pin <= high:
        return None
    return ((low + high) / 2 - pin) / mm(adjuster_of(setup).thread_pitch)


def thread(setup: bw.Setup) -> tuple[float, float]:
    bolt = adjuster_of(setup)
    return (
        mm(bolt.thread_start) - mm(bolt.spacer),
        mm(bolt.thread_end) - mm(known(bolt.nut_height)) - mm(bolt.spacer),
    )


def assembles(setup: bw.Setup, clocked: float) -> bool:
    """Whether the slackest nut frees the bar with the arm at its lower stop."""
    a, r, at_pivot = triangle(setup)
    levers = [at_pivot + math.acos((a * a + r * r - x * x) / (2 * a * r)) for x in thread(setup)]
    low, high = (lever + clocked for lever in levers)
    # Bring the free angles near the arm's travel.
    shift = math.tau * round(((low + high) / 2) / math.tau)
    return high - shift >= rad(setup.axle.droop_stop)


def unbeaten(pairs: list[Pair], within: float) -> list[Pair]:
    """Best pair of each class, as far as no pair of another class beats it."""
    best: dict[Any, Pair] = {}
    for pair in sorted(pairs, key=lambda p: p.rank):
        best.setdefault((pair.cuts, pair.ends), pair)
    return [p for p in best.values() if not any(beats(o, p, within) for o in best.values())]


def teeth_of(count: int) -> range:
    return range(count // 2 - count + 1, count // 2 + 1)


@st.composite
def setups(draw: st.DrawFn) -> bw.Setup:
    arm_teeth, anchor_teeth = draw(st.integers(6, 80)), draw(st.integers(6, 80))
    arm_blanks = draw(st.lists(st.integers(1, 5), max_size=1))
    bar = make_bar(
        # The heads keep their size, so that every count passes the way in.
        arm_end=make_end(40, teeth=arm_teeth, blanks=(0, *arm_blanks)),
        anchor_end=make_end(43, teeth=anchor_teeth),
        blank_angle=f"{draw(st.integers(-50, 50)) / 10} deg",
    )
    return make_setup(
        side=draw(st.sampled_from(list(bw.Side))),
        bar=bar,
        arm_keyed=draw(st.booleans()),
        anchor_keyed=draw(st.booleans()),
        arm_key=f"{draw(st.integers(-1800, 1800)) / 10} deg",
        arm_tooth=draw(st.sampled_from([0, 0, 1, -2])),
        anchor_tooth=draw(st.sampled_from([0, 0, 1])),
        axle={"droop_stop": f"{draw(st.sampled_from([-30, -18, -14]))} deg"},
        damper={"open_length": "700 mm", "closed_length": "486 mm"},
    )


@settings(max_examples=120, suppress_health_check=[HealthCheck.too_slow])
@given(setups(), st.integers(330, 430))
def test_no_other_plan_beats_the_plans_offered(setup: bw.Setup, height: int) -> None:
    answer = bw.reindex(setup, wanted=bw.Wanted(height=f"{height} mm"))
    assume(answer.free_angle is not None)
    assert answer.free_angle is not None
    assert answer.equal_within is not None
    pairs = every_pair(setup, rad(answer.free_angle))
    within = float(answer.equal_within.magnitude)
    offered = unbeaten([p for p in pairs if p.assembles], within)
    assert {(p.arm_tooth, p.anchor_tooth) for p in answer.plans} == {
        (p.arm, p.anchor) for p in offered
    }
    barred = [
        p
        for p in unbeaten(pairs, within)
        if not p.assembles and not any(beats(o, p, within) for o in offered)
    ]
    assert {(p.arm_tooth, p.anchor_tooth) for p in answer.rejected} == {
        (p.arm, p.anchor) for p in barred
    }


def test_the_first_plan_sits_mid_thread_with_the_fewest_cuts() -> None:
    answer = bw.reindex(make_setup(), wanted=bw.Wanted(height="349 mm"))
    assert answer.plans[0].cuts == 1
    assert abs(float(known(answer.plans[0].nut_turns).magnitude)) == pytest.approx(0.0, abs=2.0)


def rad(value: bw.Quantity) -> float:
    return float(value.m_as("radian"))


def mm(value: bw.Quantity) -> float:
    return float(value.m_as("millimeter"))
