"""Tests of `unloading`: one decision on how a bar comes out, with its limits."""

from __future__ import annotations

import math
from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import fixed_socket, on_fixed
from barwright.analysis.assembly.unloading import (
    Unloading,
    UnloadingMethod,
    bar_is_drawn,
    can_be_put_in,
    choose_fitting,
    choose_unloading,
    must_be_unloaded,
    swapped,
    unloading,
)
from barwright.analysis.corner.corner import Corner
from sample_records import (
    double_wishbone_mounting,
    known,
    make_bar,
    make_setup,
    swing_arm_mounting,
)

SHORT = {"open_length": "616 mm", "closed_length": "452 mm"}
DEEP: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}
RADIUS, STOP = 338.0, math.radians(-11.0)


def unloaded(present: bw.Setup) -> Unloading:
    now = Corner(present)
    return unloading(now, known(now.torsional_rates))


def held(droop_stop: str = "-11 deg", **axle: Any) -> bw.Setup:
    """A corner with the damper too short for the old clocking."""
    return make_setup(damper=SHORT, axle={"droop_stop": droop_stop} | axle)


LOOSE = make_setup(bar=make_bar(diameter="24.6 mm"))
ON_ARM = make_setup(
    damper={"open_length": "640 mm", "closed_length": "480 mm"},
    axle={"droop_stop": "-11 deg", "suspension": swing_arm_mounting()},
)


@pytest.mark.parametrize(
    ("present", "way"),
    [
        (LOOSE, UnloadingMethod.DAMPER_ON),
        (held("-20 deg"), UnloadingMethod.DAMPER_OFF),
        (held(), UnloadingMethod.JOINT_PARTED),
        (held("-9 deg"), UnloadingMethod.NONE),
        (ON_ARM, UnloadingMethod.NONE),
    ],
)
def test_the_first_way_that_is_safe_is_taken(present: bw.Setup, way: UnloadingMethod) -> None:
    found = unloaded(present)
    assert found.way is way
    assert (found.parting is not None) == (way is UnloadingMethod.JOINT_PARTED)
    assert bool(found.findings) == (way is UnloadingMethod.NONE)
    assert (found.damper_on, found.damper_off) == bw.reindex(present).removal


def test_the_demo_bar_comes_out_with_the_damper_off() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", bw.Registry.discover())
    assert {unloaded(corner.present).way for corner in job.corners} == {UnloadingMethod.DAMPER_OFF}


@given(degrees=st.floats(min_value=0.5, max_value=9.9))
def test_a_parted_joint_drops_by_the_arms_own_turn_and_presses_with_the_torque(
    degrees: float,
) -> None:
    parting = known(below(held(), degrees).parting)
    drop = RADIUS * (math.sin(STOP) - math.sin(STOP - math.radians(degrees)))
    assert parting.drop.m_as("mm") == pytest.approx(drop)
    # A force and its lever make the torque again.
    lever = RADIUS / 1e3 * math.cos(STOP)
    assert (parting.downward_force * bw.Quantity(lever, "m")).m_as("N*m") == pytest.approx(
        parting.torque.m_as("N*m")
    )
    assert parting.energy.m_as("J") > 0.0


def below(now: bw.Setup, degrees: float, torque: str = "300 N*m") -> Unloading:
    """What is decided of a bar that is loose so far below the stop of its arm."""
    on, off = bw.reindex(held()).removal
    there = attrs.evolve(
        off, unloading_reserve=bw.Quantity(-degrees, "degree"), residual_torque=bw.Quantity(torque)
    )
    return choose_unloading(Corner(now), damper_on=on, damper_off=there)


def test_the_drop_of_an_inclined_bar_is_vertical() -> None:
    straight = known(below(held(), 5.0).parting)
    inclined = known(below(held(bar_axis=(1.0, 0.0, 0.3)), 5.0).parting)
    share = 1.0 / math.hypot(1.0, 0.3)
    assert inclined.drop.m_as("mm") == pytest.approx(straight.drop.m_as("mm") * share)
    assert inclined.downward_force.m_as("N") == pytest.approx(
        straight.downward_force.m_as("N") / share
    )


def test_an_arm_is_let_down_no_further_than_the_limit() -> None:
    assert below(held(), 9.9).way is UnloadingMethod.JOINT_PARTED
    (finding,) = below(held(), 10.1).findings
    assert finding.line.endswith(
        "the arm would have to go too far below its stop; found 10.1°, limit 10.0°"
    )


def test_no_joint_is_parted_against_more_force_than_jack_and_strap_may_hold() -> None:
    most = 1000.0 * RADIUS / 1e3 * math.cos(STOP)  # 1000 N, as docs/reading-a-plan.md says
    assert below(held(), 5.0, f"{most - 0.1} N*m").way is UnloadingMethod.JOINT_PARTED
    (finding,) = below(held(), 5.0, f"{most + 0.1} N*m").findings
    assert finding.topic is bw.answers.Topic.ASSEMBLY
    assert finding.line.startswith("no safe way known to unload the fitted bar: with the nut")
    assert known_figure(finding.limit) == pytest.approx(most)
    # A longer arm presses less at the same torque.
    longer = attrs.evolve(held(), arm=attrs.evolve(held().arm, radius="360 mm"))
    assert below(longer, 5.0, f"{most + 0.1} N*m").way is UnloadingMethod.JOINT_PARTED


def known_figure(value: bw.Quantity | int | str | None) -> float:
    assert isinstance(value, bw.Quantity)
    return float(value.m_as("N*m"))


def test_no_joint_is_parted_where_there_is_none() -> None:
    (finding,) = unloaded(ON_ARM).findings
    assert "the nut slack and the damper off it still carries torque" in finding.text
    assert finding.text.endswith("its arm has no ball joint to part")
    left = unloaded(ON_ARM).damper_off.residual_torque
    assert known_figure(finding.figure) == pytest.approx(left.m_as("N*m"))
    assert (
        below(held(suspension=double_wishbone_mounting()), 5.0).way is UnloadingMethod.JOINT_PARTED
    )


def test_no_joint_is_parted_where_the_arm_would_have_to_rise() -> None:
    wound = attrs.evolve(on_fixed(**DEEP), anchor=fixed_socket(anchor_angle="222 deg"))
    found = unloaded(wound)
    assert found.way is UnloadingMethod.NONE
    (finding,) = found.findings
    assert "with the damper off it still carries torque, and the arm would have to go above" in (
        finding.text
    )


# -- Which work asks for it ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "drawn", "unloads"),
    [
        ("arm", True, True),
        ("bar", True, True),
        ("anchor", True, True),
        ("adjuster", False, True),
        ("damper", False, False),
    ],
)
def test_a_swap_asks_for_what_its_part_is_held_by(kind: str, *, drawn: bool, unloads: bool) -> None:
    now = make_setup()
    other = attrs.evolve(getattr(now, kind), title="Other")
    to_be = now.with_parts(**{kind: other})
    assert swapped(to_be, present=now) == (kind,)
    assert bar_is_drawn((kind,), disturbed=()) is drawn
    assert must_be_unloaded((kind,), disturbed=()) is unloads


def test_to_turn_the_nut_leaves_the_bar_wound_and_another_tooth_does_not() -> None:
    now = make_setup()
    turned = attrs.evolve(
        now, nut_turns="2 turn", load=bw.parts.Load(kind=now.load.kind, mass="300 kg")
    )
    assert swapped(turned, present=now) == ()
    for end in bw.parts.BarEndName:
        for asks in (bar_is_drawn, must_be_unloaded):
            assert not asks((), disturbed=())
            assert asks((), disturbed=(end,))


def test_a_fixed_socket_swaps_the_adjuster_away_too() -> None:
    now = make_setup(**DEEP)
    fixed = now.with_parts(anchor=fixed_socket())
    assert swapped(fixed, present=now) == ("anchor", "adjuster")


def test_a_parted_joint_puts_no_bar_in() -> None:
    parted = unloaded(held())
    assert parted.way is UnloadingMethod.JOINT_PARTED
    assert not can_be_put_in((parted.damper_on, parted.damper_off))
    off = unloaded(held("-20 deg"))
    assert can_be_put_in((off.damper_on, off.damper_off))


# -- What is to spare ----------------------------------------------------------------------


def with_reserves(
    on: float, off: float, tolerance: float = 1.0
) -> tuple[bw.answers.Assembly, bw.answers.Assembly]:
    """Ways in that have so much to spare [deg]."""
    found = unloaded(LOOSE)
    one, other = (
        attrs.evolve(
            way,
            unloading_reserve=bw.Quantity(reserve, "degree"),
            slides=reserve >= 0.0,
            unloading_reserve_uncertainty=bw.Quantity(tolerance, "degree"),
        )
        for way, reserve in ((found.damper_on, on), (found.damper_off, off))
    )
    return one, other


@pytest.mark.parametrize(
    ("on", "off", "damper_on"),
    [
        (2.0, 5.0, True),
        (0.5, 5.0, False),
        # Where taking it off gives nothing, it stays on.
        (0.5, 0.5, True),
        (0.5, 0.8, False),
        (-0.5, 0.5, False),
        (-2.0, -1.0, False),
    ],
)
def test_the_damper_comes_off_where_that_gives_more_to_spare(
    on: float, off: float, *, damper_on: bool
) -> None:
    ways = with_reserves(on, off)
    assert choose_fitting(ways) is ways[0 if damper_on else 1]
    if off >= 0.0:
        found = choose_unloading(Corner(LOOSE), damper_on=ways[0], damper_off=ways[1])
        assert found.way is (UnloadingMethod.DAMPER_ON if damper_on else UnloadingMethod.DAMPER_OFF)
        assert found.damper_helps is (off > on)


def test_a_bar_is_surely_loose_beyond_what_the_figures_leave_open() -> None:
    assert [way.is_sure for way in with_reserves(0.9, 1.0)] == [False, True]
    assert not any(way.is_sure for way in with_reserves(-1.0, -0.1, tolerance=0.0))


def test_the_ways_have_the_names_that_programs_read() -> None:
    assert [way.value for way in UnloadingMethod] == [
        "damper on",
        "damper off",
        "ball joint parted",
        "no safe way known",
    ]
