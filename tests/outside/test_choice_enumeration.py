"""What is chosen is what no other beats, by an enumeration that asks the public questions.

Every bar is put with every arm, tube and damper, whatever their splines.  Each corner is
asked whether the bar fits, what rate it has, whether it survives and how it is clocked, one
question after the other, and all plans of all corners are compared with each other.
"""

from __future__ import annotations

import itertools
import math
from typing import Any

import attrs
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

import barwright as bw
from barwright import Goal
from barwright.parts import Extreme
from draws import draws
from sample_records import known, make_bar, make_end, make_setup, make_socket, tube_of

STEEL = bw.parts.Material(
    id="t:material/spring",
    title="Spring steel",
    shear_modulus="77 GPa",
    permissible_shear="900 MPa",
)
# A corner whose bar is among the parts too.
PRESENT = make_setup(
    bar=make_bar(material=STEEL, arm_end=make_end(40, teeth=39), anchor_end=make_end(43, teeth=42))
)
# Teeth of the arm end and of the anchor end.
SPLINES = ((39, 42), (36, 42), (39, 45), (36, 40))


def mm(value: bw.Quantity) -> float:
    return float(value.m_as("mm"))


@attrs.frozen
class Option:
    """A corner with one of its plans, as the enumeration sees it."""

    name: tuple[Any, ...]
    key: tuple[float, ...]


def steps(figure: float, step: float) -> int:
    return round(figure / step)


def enumerated(
    present: bw.Setup, goal: Goal, parts: list[bw.parts.Part], *, wanted: bw.Wanted, miss: float
) -> list[Option]:
    """Ask the questions of every corner that the parts can make."""
    bars = [part for part in parts if isinstance(part, bw.parts.Bar)]
    arms = [part for part in parts if isinstance(part, bw.parts.Arm)]
    tubes = [part for part in parts if isinstance(part, bw.parts.Tube)]
    dampers = [part for part in parts if isinstance(part, bw.parts.Damper)]
    now = bw.rates(present, wanted=wanted).wheel_rate.m_as("N/mm")
    return [
        option
        for bar, arm, tube, damper in itertools.product(bars, arms, tubes, dampers)
        for option in options_of(
            present,
            present.with_parts(bar=bar, arm=arm, anchor=tube, damper=damper),
            goal,
            wanted=wanted,
            miss=miss,
            now=float(now),
        )
    ]


def options_of(
    present: bw.Setup, setup: bw.Setup, goal: Goal, *, wanted: bw.Wanted, miss: float, now: float
) -> list[Option]:
    fit = bw.length_fit(setup)
    if not fit.outcome.is_good:
        return []
    rates = bw.rates(setup, wanted=wanted)
    if rates.figures is None:
        return []
    strength = bw.strength(setup, wanted=wanted)
    if strength.verdict not in (bw.Verdict.HOLDS, bw.Verdict.BELOW_YIELD):
        return []
    if goal.extreme is Extreme.LARGEST_BAR:
        distance = steps(-setup.bar.diameter.m_as("m"), 1e-4)
    elif goal.extreme is Extreme.LOWEST_STRESS:
        distance = steps(abs(strength.bump.stress.m_as("Pa")), 5e6)
    else:
        assert goal.rate_change is not None
        off = abs(rates.wheel_rate.m_as("N/mm") / (now * (1.0 + goal.rate_change / 100.0)) - 1.0)
        if off > miss:
            return []
        distance = steps(off, 0.005)
    kinds = ("arm", "anchor", "damper")
    others = sum(getattr(setup, kind).id != getattr(present, kind).id for kind in kinds)
    changes = [one for one in fit.changes if not one.topic.value.startswith("swapped")]
    answer = bw.reindex(setup, wanted=wanted, present=present)
    before = (
        distance,
        -steps(known(strength.bump.factor), 0.05),
        others + len(changes),
        -steps(mm(rates.ride.height) - mm(rates.bump.height), 5.0),
    )
    found: dict[tuple[float, ...], Option] = {}
    for plan in answer.plans:
        lacking = (known(answer.enough_thread_reserve) - known(plan.thread_reserve)).m_as("turn")
        after = (
            plan.cuts,
            math.ceil(max(0.0, lacking) - 1e-9),
            steps(mm(plan.height_rounding), 5.0),
        )
        ids = tuple(getattr(setup, kind).id for kind in ("bar", *kinds))
        # Plans of one corner that compare alike count once, as the first of them.
        found.setdefault(after, Option((*ids, plan.arm_tooth, plan.anchor_tooth), before + after))
    return list(found.values())


def unbeaten(options: list[Option]) -> set[tuple[Any, ...]]:
    return {
        one.name
        for one in options
        if not any(
            other.key != one.key and all(a <= b for a, b in zip(other.key, one.key, strict=True))
            for other in options
        )
    }


def named(answer: bw.answers.Selection) -> list[tuple[Any, ...]]:
    return [
        (
            *(one.bar_id, one.arm_id, one.anchor_id, one.damper_id),
            *(one.plan.arm_tooth, one.plan.anchor_tooth),
        )
        for one in answer.options
    ]


@st.composite
def registries(draw: st.DrawFn) -> list[bw.parts.Part]:
    """A few bars, arms and tubes with splines of which some agree, and two dampers."""
    usual = PRESENT

    def bar(number: int) -> bw.parts.Bar:
        arm_teeth, anchor_teeth = draw(st.sampled_from(SPLINES))
        return make_bar(
            id=f"t:bar/{number}",
            material=STEEL,
            diameter=f"{draw(st.integers(220, 262)) / 10} mm",
            length=f"{draw(st.sampled_from([894, 904, 914, 1004]))} mm",
            arm_end=make_end(40, teeth=arm_teeth),
            anchor_end=make_end(43, teeth=anchor_teeth),
            blank_angle=f"{draw(st.sampled_from([0, 3]))} deg",
        )

    def socket(own: bw.parts.Socket, teeth: int, size: int) -> bw.parts.Socket:
        end = make_end(size, teeth=teeth)
        return make_socket(end, key_angle=own.key_angle, keyed=draw(st.booleans()))

    arms = [
        attrs.evolve(usual.arm, id=f"t:arm/{n}", socket=socket(usual.arm.socket, teeth, 40))
        for n, teeth in enumerate(draw(st.sampled_from([(39, 36), (39,), (36, 36)])))
    ]
    tubes = [
        attrs.evolve(
            tube_of(usual),
            id=f"t:tube/{n}",
            socket_position=f"{draw(st.sampled_from([762, 772, 872]))} mm",
            socket=socket(usual.anchor.socket, teeth, 43),
        )
        for n, teeth in enumerate(draw(st.sampled_from([(42, 45), (40, 42)])))
    ]
    damper = attrs.evolve(usual.damper, id="t:damper/two", open_length="664 mm")
    return [
        *map(bar, range(3)),
        *arms,
        *tubes,
        damper,
        usual.damper,
        usual.arm,
        usual.anchor,
        usual.bar,
    ]


GOALS = (
    Goal(rate_change=20.0),
    Goal(rate_change=-8.0),
    Goal(extreme=Extreme.LARGEST_BAR),
    Goal(extreme=Extreme.LOWEST_STRESS),
)


@pytest.mark.slow
@settings(max_examples=draws(12), suppress_health_check=[HealthCheck.too_slow])
@given(registries(), st.sampled_from(GOALS), st.sampled_from(["404 mm", "388 mm"]))
def test_what_is_chosen_is_what_an_enumeration_finds(
    parts: list[bw.parts.Part], goal: Goal, height: str
) -> None:
    wanted = bw.Wanted(height=height)

    answer = bw.choose(PRESENT, goal, parts=parts, wanted=wanted, most_miss=30.0, with_dampers=True)

    options = enumerated(PRESENT, goal, parts, wanted=wanted, miss=0.3)
    assume(options)
    chosen = named(answer)
    assert len(set(chosen)) == len(chosen)
    assert set(chosen) == unbeaten(options)
    assert answer.untried == 0


# -- Which diameter ----------------------------------------------------------------------


def with_diameter(setup: bw.Setup, diameter: float) -> bw.Setup:
    return setup.with_parts(bar=attrs.evolve(setup.bar, diameter=f"{diameter!r} mm"))


def of_steel(shear: str, *, mass: str = "291 kg", **axle: Any) -> bw.Setup:
    steel = attrs.evolve(STEEL, permissible_shear=shear)
    return make_setup(bar=attrs.evolve(PRESENT.bar, material=steel), mass=mass, axle=axle)


def stress_left(setup: bw.Setup) -> float:
    check = bw.strength(setup, wanted=HELD).bump
    return known(check.factor) - 1.0


def twist_at_droop(setup: bw.Setup) -> float:
    return float(bw.rates(setup, wanted=HELD).droop.twist.m_as("deg"))


HELD = bw.Wanted(height="404 mm")


@pytest.mark.parametrize(
    ("setup", "topic", "left", "span"),
    [
        # A light corner, whose bar is twisted by its travel more than by its load.
        (
            of_steel("549 MPa", mass="150 kg", droop_stop="-8 deg"),
            "stress",
            stress_left,
            (28.0, 31.5),
        ),
        (of_steel("3000 MPa"), "slack at full droop", twist_at_droop, (24.0, 30.0)),
    ],
)
def test_the_largest_diameter_is_where_the_public_question_turns(
    setup: bw.Setup, topic: str, left: Any, span: tuple[float, float]
) -> None:
    size = known(bw.choose(setup, Goal(rate_change=10.0), parts=[], wanted=HELD).size)

    root = brentq(lambda diameter: left(with_diameter(setup, diameter)), *span)
    assert mm(known(size.largest)) == pytest.approx(root, abs=2e-3)
    assert known(size.stopped_by).topic.value == topic


@pytest.mark.parametrize(("minor", "bore"), [(28.3, 80.0), (28.6, 28.1)])
def test_the_way_in_stops_a_thicker_bar_where_it_is_narrowest(minor: float, bore: float) -> None:
    # The arm's head is small enough to go in through the anchor's socket and the tube.
    setup = of_steel("3000 MPa", droop_stop="-12 deg")
    ends = make_end(33, teeth=39), make_end(38, teeth=42)
    arm, tube = setup.arm, tube_of(setup)
    setup = setup.with_parts(
        arm=attrs.evolve(arm, socket=attrs.evolve(arm.socket, minor_diameter="24.1 mm")),
        anchor=attrs.evolve(
            tube, bore=f"{bore} mm", socket=attrs.evolve(tube.socket, minor_diameter=f"{minor} mm")
        ),
        bar=attrs.evolve(setup.bar, arm_end=ends[0], anchor_end=ends[1]),
    )

    size = known(bw.choose(setup, Goal(rate_change=10.0), parts=[], wanted=HELD).size)

    assert mm(known(size.largest)) == pytest.approx(min(minor, bore), abs=2e-3)
    assert known(size.stopped_by).topic.value == "the way in"


def test_the_diameter_for_a_goal_is_the_root_of_the_rates() -> None:
    now = bw.rates(PRESENT, wanted=HELD).wheel_rate.m_as("N/mm")

    def off(diameter: float) -> float:
        rates = bw.rates(with_diameter(PRESENT, diameter), wanted=HELD)
        return float(rates.wheel_rate.m_as("N/mm") - 1.24 * now)

    size = known(bw.choose(PRESENT, Goal(rate_change=24.0), parts=[], wanted=HELD).size)

    assert mm(known(size.diameter)) == pytest.approx(brentq(off, 23.0, 27.0), abs=2e-3)
