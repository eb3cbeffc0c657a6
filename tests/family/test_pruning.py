"""What spline keys and lengths exclude is what the fit of each pair refuses."""

from __future__ import annotations

from typing import Any

import attrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.analysis.finding import Topic
from barwright.family.pruning import MEETS_ALL, REQUIREMENTS, BarTable, pruned
from draws import draws
from each_case import each_case
from gaps import without
from sample_packs import discovered_once
from sample_records import make_bar, make_end, make_setup
from setup_strategies import corners

SETUP = make_setup()
TIGHT = attrs.evolve(SETUP, axle=attrs.evolve(SETUP.axle, arm_stop="-2 mm", anchor_stop="910 mm"))


def excluded(setup: bw.Setup, *bars: bw.parts.Bar) -> list[Topic | None]:
    numbers = pruned(setup, BarTable.of(bars)).tolist()
    return [None if number == MEETS_ALL else REQUIREMENTS[number] for number in numbers]


def refusals(setup: bw.Setup, bar: bw.parts.Bar) -> set[Topic]:
    """Topics of the single answer's reasons."""
    return {reason.topic for reason in bw.length_fit(setup.with_parts(bar=bar)).reasons}


BARS: dict[str, tuple[bw.Setup, bw.parts.Bar, Topic | None]] = {
    "its own": (SETUP, SETUP.bar, None),
    "another count at the arm": (SETUP, make_bar(40), Topic.TOOTH_COUNT),
    "another count at the anchor": (SETUP, make_bar(39, 43), Topic.TOOTH_COUNT),
    "another form": (
        SETUP,
        make_bar(anchor_end=make_end(42, form="straight")),
        Topic.TOOTH_FORM,
    ),
    "teeth that do not reach": (
        SETUP,
        make_bar(arm_end=make_end(39, major_diameter="27 mm", root_diameter="26 mm")),
        Topic.TOOTH_DEPTH,
    ),
    "roots that touch": (
        SETUP,
        make_bar(arm_end=make_end(39, root_diameter="29.5 mm")),
        Topic.TOOTH_DEPTH,
    ),
    "far too short": (SETUP, make_bar(length="700 mm"), Topic.NO_OVERLAP),
    "a little too short": (SETUP, make_bar(length="872 mm"), Topic.ENGAGEMENT),
    "far too long": (SETUP, make_bar(length="1200 mm"), Topic.NO_OVERLAP),
    "longer than the space between the stops": (
        TIGHT,
        make_bar(length="913 mm"),
        Topic.STOPS,
    ),
    "out behind": (
        attrs.evolve(SETUP, axle=attrs.evolve(SETUP.axle, space_behind="0 mm")),
        make_bar(anchor_end=make_end(42, nose="40 mm")),
        Topic.SPACE_BEHIND,
    ),
}


@each_case("case", BARS)
def test_a_bar_is_excluded_by_the_first_requirement_that_it_misses(case: str) -> None:
    setup, bar, topic = BARS[case]

    assert excluded(setup, SETUP.bar, bar, make_bar(50)) == [
        excluded(setup, SETUP.bar)[0],
        topic,
        Topic.TOOTH_COUNT,
    ]
    assert topic is None or topic in refusals(setup, bar)


def test_no_bar_is_excluded_where_there_is_none() -> None:
    assert excluded(SETUP) == []


@settings(max_examples=draws(60))
@given(
    st.tuples(corners(), corners()),
    st.integers(800, 1000),
    st.integers(0, 30),
    st.none() | st.sampled_from(["length", "arm_end.teeth", "anchor_end.length", "arm_end.nose"]),
    st.none() | st.sampled_from(["arm.socket.teeth", "anchor.socket.length", "axle.space_behind"]),
)
def test_whatever_is_excluded_would_be_refused_and_nothing_else(
    drawn: Any, length: int, nose: int, unknown: str | None, unknown_there: str | None
) -> None:
    (setup, _), (other, _) = drawn
    bars = [
        attrs.evolve(
            bar, length=f"{length} mm", arm_end=attrs.evolve(bar.arm_end, nose=f"{nose} mm")
        )
        for bar in (setup.bar, other.bar)
    ]
    if unknown:
        bars = [without(bar, unknown) for bar in bars]
    if unknown_there:
        setup = without(setup, unknown_there)

    for bar, topic in zip(bars, excluded(setup, *bars), strict=True):
        refused = refusals(setup, bar) & set(REQUIREMENTS)
        if topic is not None:
            assert topic in refused
        elif not (unknown or unknown_there):
            assert not refused


@pytest.mark.parametrize("name", ["fells:chassis/short", "hodmule:chassis/long"])
def test_the_demo_is_pruned_as_each_pair_is_refused(name: str) -> None:
    registry = discovered_once()
    setup = registry.setup(name, corner="front right")
    bars = [registry.bar(id_) for id_ in registry.ids("bar")]

    found = [topic is not None for topic in excluded(setup, *bars)]

    assert found == [bool(refusals(setup, bar) & set(REQUIREMENTS)) for bar in bars]
    assert len(set(found)) == 2
