"""The plans offered are those that no other beats, by an independent enumeration.

Every pair of teeth is tried.  Its free angle is laid against the wanted one, the
lever follows from the difference, and the nut from the triangle of lever, pivot
and bolt; the pairs are then compared with each other as the design says.  What
the library does in closed form is done here by trying everything.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any

import attrs
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import barwright as bw
from draws import draws
from sample_records import adjuster_of, known, make_bar, make_end, make_setup, tube_of

DEGREE = math.pi / 180.0


@attrs.frozen
class Pair:
    """One clocking, as the enumeration sees it."""

    arm: int
    anchor: int
    cuts: int
    ends: frozenset[str]
    distance: int
    reserve: int
    assembles: bool

    @property
    def rank(self) -> tuple[int, int, int, int]:
        return (self.distance, abs(self.arm) + abs(self.anchor), self.arm, self.anchor)


def beats(one: Pair, other: Pair, enough: int) -> bool:
    """No worse in cuts, ends, thread left and distance, and better in one of them."""
    left = [min(pair.reserve, enough) for pair in (one, other)]
    respects = [
        (one.cuts <= other.cuts, one.cuts < other.cuts),
        (one.ends <= other.ends, one.ends < other.ends),
        (left[0] >= left[1], left[0] > left[1]),
        (one.distance <= other.distance, one.distance < other.distance),
    ]
    return all(no_worse for no_worse, _ in respects) and any(better for _, better in respects)


@attrs.frozen(kw_only=True)
class Lever:
    """What moves the lever of a corner, in millimetres and radians (a bolt that pulls)."""

    pivot_distance: float
    pivot_angle: float
    radius: float
    shortest: float
    longest: float
    pitch: float
    droop_stop: float

    @classmethod
    def of(cls, setup: bw.Setup) -> Lever:
        bolt = adjuster_of(setup)
        pivot = bolt.mounting
        assert isinstance(pivot, bw.parts.SwivellingMounting)
        return cls(
            pivot_distance=mm(pivot.pivot_distance),
            pivot_angle=rad(pivot.pivot_angle),
            radius=mm(tube_of(setup).lever_radius),
            shortest=mm(bolt.thread_start) - mm(bolt.spacer),
            longest=mm(bolt.thread_end) - mm(known(bolt.nut_height)) - mm(bolt.spacer),
            pitch=mm(bolt.thread_pitch),
            droop_stop=rad(setup.axle.droop_stop),
        )

    @property
    def thread_turns(self) -> float:
        """Turns of the nut from one end of the thread to the other."""
        return (self.longest - self.shortest) / self.pitch

    def nut_turns(self, lever: float) -> float | None:
        """Turns from the middle for a lever angle, None off the thread."""
        a, r = self.pivot_distance, self.radius
        beyond = (lever - self.pivot_angle) % math.tau
        if beyond >= math.pi:
            return None
        pin = math.sqrt(a * a + r * r - 2 * a * r * math.cos(beyond))
        if not self.shortest - 1e-12 <= pin <= self.longest + 1e-12:
            return None
        return ((self.shortest + self.longest) / 2 - pin) / self.pitch

    def assembles(self, clocked: float) -> bool:
        """Whether the slackest nut frees the bar with the arm at its lower stop."""
        a, r = self.pivot_distance, self.radius
        levers = [
            self.pivot_angle + math.acos((a * a + r * r - x * x) / (2 * a * r))
            for x in (self.shortest, self.longest)
        ]
        low, high = (lever + clocked for lever in levers)
        # Bring the free angles near the arm's travel.
        shift = math.tau * round(((low + high) / 2) / math.tau)
        return high - shift >= self.droop_stop


def every_pair(setup: bw.Setup, free: float) -> list[Pair]:
    """All clockings whose lever the thread can set."""
    anchorage = Lever.of(setup)
    counts = (setup.bar.arm_end.teeth, setup.bar.anchor_end.teeth)
    uncounted = (
        rad(setup.anchor.socket.key_angle)
        - rad(setup.arm.socket.key_angle)
        + sense_of(setup) * rad(setup.bar.blank_angle)
    )
    pairs = []
    for arm in teeth_of(counts[0]):
        for anchor in teeth_of(counts[1]):
            clocked = uncounted + arm * math.tau / counts[0] - anchor * math.tau / counts[1]
            # A lever is where it is, whatever whole turns lie behind it.
            lever = (free - clocked) % math.tau
            turns = anchorage.nut_turns(lever)
            if turns is not None:
                cuts, ends = work(setup, arm, anchor)
                distance, reserve = flats(anchorage, turns)
                # A bar that stays in need not come free.
                can = not ends or anchorage.assembles(free - lever)
                pairs.append(Pair(arm, anchor, cuts, ends, distance, reserve, can))
    return pairs


def work(setup: bw.Setup, arm: int, anchor: int) -> tuple[int, frozenset[str]]:
    """Teeth to remove, and the ends that leave the tooth they are on."""
    cuts, ends = 0, set()
    for name, tooth, current, end, socket in (
        ("arm", arm, setup.arm_tooth, setup.bar.arm_end, setup.arm.socket),
        ("anchor", anchor, setup.anchor_tooth, setup.bar.anchor_end, setup.anchor.socket),
    ):
        if (tooth - current) % end.teeth:
            ends.add(name)
            is_blank = any(
                (tooth - sense_of(setup) * blank) % end.teeth == 0 for blank in end.blanks
            )
            cuts += socket.keyed and not is_blank
    return cuts, frozenset(ends)


def flats(anchorage: Lever, turns: float) -> tuple[int, int]:
    """Flats from the middle of the thread to the nut, and from there to the end of the thread."""
    half = anchorage.thread_turns / 2 * 6
    flat = min(max(round(turns * 6), math.ceil(-half - 1e-9)), math.floor(half + 1e-9))
    return abs(flat), math.floor(half - abs(flat) + 1e-9)


def sense_of(setup: bw.Setup) -> int:
    return 1 if setup.side is bw.parts.Side.LEFT else -1


def enough_thread(setup: bw.Setup) -> int:
    """Flats that are enough where no figure has a tolerance: a turn or an eighth of the thread."""
    turns = Lever.of(setup).thread_turns
    return math.ceil(min(max(1.0, turns / 8), turns / 4) * 6 - 1e-9)


def unbeaten(pairs: list[Pair], enough: int) -> list[Pair]:
    """Best pair of each class, as far as no pair of another class beats it."""
    best: dict[Any, Pair] = {}
    for pair in sorted(pairs, key=lambda p: p.rank):
        best.setdefault((pair.cuts, pair.ends), pair)
    return [p for p in best.values() if not any(beats(o, p, enough) for o in best.values())]


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
        side=draw(st.sampled_from(list(bw.parts.Side))),
        bar=bar,
        arm_keyed=draw(st.booleans()),
        anchor_keyed=draw(st.booleans()),
        arm_key=f"{draw(st.integers(-1800, 1800)) / 10} deg",
        arm_tooth=draw(st.sampled_from([0, 0, 1, -2])),
        anchor_tooth=draw(st.sampled_from([0, 0, 1])),
        axle={"droop_stop": f"{draw(st.sampled_from([-30, -18, -14]))} deg"},
        damper={"open_length": "700 mm", "closed_length": "486 mm"},
    )


def in_order(offered: list[Pair], enough: int) -> list[Pair]:
    """The order of preference, as the design words it."""
    greatest = max((p.reserve for p in offered), default=0)

    def place(p: Pair) -> tuple[Any, ...]:
        keeps = p.reserve >= (enough if greatest >= enough else greatest - 6)
        return (not keeps, p.cuts, bool(p.ends), len(p.ends), *p.rank)

    return sorted(offered, key=place)


def teeth(plans: Iterable[bw.answers.Plan]) -> list[tuple[int, int]]:
    return [(plan.arm_tooth, plan.anchor_tooth) for plan in plans]


@settings(max_examples=draws(120), suppress_health_check=[HealthCheck.too_slow])
@given(setups(), st.integers(330, 430))
def test_no_other_plan_beats_the_plans_offered(setup: bw.Setup, height: int) -> None:
    answer = bw.reindex(setup, wanted=bw.Wanted(height=f"{height} mm"))
    assume(answer.free_angle is not None)
    assert answer.free_angle is not None
    assert answer.unloading is not None
    can_be_unloaded = answer.unloading.way is not bw.answers.UnloadingMethod.NONE
    pairs = every_pair(setup, rad(answer.free_angle))
    ready = [p for p in pairs if p.assembles and (can_be_unloaded or not p.ends)]
    enough = enough_thread(setup)
    offered = unbeaten(ready, enough)
    assert set(teeth(answer.plans)) == {(p.arm, p.anchor) for p in offered}
    barred = [
        p
        for p in unbeaten([p for p in pairs if p not in ready], enough)
        if not any(beats(o, p, enough) for o in offered)
    ]
    assert set(teeth(answer.rejected)) == {(p.arm, p.anchor) for p in barred}
    # No plan of these has a finding that another lacks, but for the thread that is left.
    if len({bool(plan.findings) for plan in answer.plans}) <= 1:
        assert teeth(answer.plans) == [(p.arm, p.anchor) for p in in_order(offered, enough)]


@pytest.mark.rare
@settings(max_examples=draws(60), suppress_health_check=[HealthCheck.too_slow])
@given(setups(), st.integers(330, 430))
def test_a_plan_carried_out_is_left_alone(setup: bw.Setup, height: int) -> None:
    """Asked again of a corner that its first plan was carried out on, nothing changes."""
    wanted = bw.Wanted(height=f"{height} mm")
    answer = bw.reindex(setup, wanted=wanted)
    assume(answer.plans)
    again = bw.reindex(bw.carry_out(setup, answer.plans[0]), wanted=wanted).plans[0]
    assert (again.cuts, again.disturbed) == (0, ())
    assert again.nut_turns == answer.plans[0].nut_turns


@settings(max_examples=draws(60), suppress_health_check=[HealthCheck.too_slow])
@given(setups(), st.integers(330, 430))
def test_a_bar_that_must_not_be_cut_is_not_cut(setup: bw.Setup, height: int) -> None:
    free = bw.reindex(setup, wanted=bw.Wanted(height=f"{height} mm"))
    spared = bw.reindex(setup, wanted=bw.Wanted(height=f"{height} mm", cuts=0))
    assert all(plan.cuts == 0 for plan in (*spared.plans, *spared.rejected))
    uncut = [plan for plan in free.plans if plan.cuts == 0]
    assert teeth(uncut) == teeth(spared.plans)[: len(uncut)]


def test_the_first_plan_sits_mid_thread_with_the_fewest_cuts() -> None:
    answer = bw.reindex(make_setup(), wanted=bw.Wanted(height="349 mm"))
    assert answer.plans[0].cuts == 1
    assert abs(float(known(answer.plans[0].nut_turns).magnitude)) == pytest.approx(0.0, abs=2.0)


def rad(value: bw.Quantity) -> float:
    return float(value.m_as("radian"))


def mm(value: bw.Quantity) -> float:
    return float(value.m_as("millimeter"))
