"""Clockings from the present lever alone are those of the whole plan."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.analysis.corner.corner import Corner
from barwright.analysis.reindex.known_clockings import known_clockings
from draws import draws
from sample_records import adjuster_of, known, make_setup
from setup_strategies import corners

SAME = bw.Wanted(same_height=True, thread_reserve="2 turn")


@st.composite
def worked_on(draw: st.DrawFn) -> bw.Setup:
    """A corner that somebody has worked on: any tooth on each key, the nut anywhere."""
    setup, _ = draw(corners())
    return attrs.evolve(
        setup,
        arm_tooth=draw(st.integers(-5, 5)),
        anchor_tooth=draw(st.integers(-5, 5)),
        nut_turns=f"{draw(st.integers(-40, 40)) / 6} turn",
    )


def clockings(
    setup: bw.Setup, wanted: bw.Wanted, present: bw.Setup | None = None
) -> tuple[Any, ...]:
    corner = Corner(setup)
    now = corner if present is None else Corner(present)
    return known_clockings(corner, now=now, wanted=wanted)


def teeth(plans: Iterable[Any]) -> list[tuple[int, int]]:
    return [(plan.arm_tooth, plan.anchor_tooth) for plan in plans]


def mm(value: bw.Quantity | None) -> float:
    return float(known(value).m_as("mm"))


def agrees(setup: bw.Setup, wanted: bw.Wanted) -> None:
    """Compare the clockings with the whole plan."""
    answer = bw.reindex(setup, wanted=wanted)
    assume(answer.free_angle is not None)
    found = clockings(setup, wanted)
    plans = (*answer.plans, *answer.rejected)
    by_teeth = dict(zip(teeth(plans), plans, strict=True))

    assert bool(found) == bool(plans)
    # Without knowing whether a bar goes in, the first is one that the whole plan weighs too.
    assert teeth(found)[:1] == [] or teeth(found)[0] in by_teeth
    # Where no plan has a finding that another lacks, the order is the same.
    if not answer.rejected and len({bool(plan.findings) for plan in plans}) == 1:
        assert teeth(found) == teeth(plans)
    for one in found:
        plan = by_teeth.get((one.arm_tooth, one.anchor_tooth))
        if plan is not None:
            assert abs(mm(one.pin_distance) - mm(plan.pin_distance)) <= mm(one.pin_left_open)
            assert (one.cuts, one.disturbed) == (plan.cuts, plan.disturbed)
            assert known(one.height_per_turn).m_as("mm/turn") == pytest.approx(
                known(plan.height_per_turn).m_as("mm/turn"), rel=1e-6
            )


SLOW = [HealthCheck.too_slow, HealthCheck.filter_too_much]

HEIGHTS = st.integers(340, 440).map(lambda number: f"{number} mm")


@pytest.mark.rare
@settings(max_examples=draws(400), suppress_health_check=SLOW)
@given(worked_on(), HEIGHTS)
def test_at_the_same_height_the_lever_alone_gives_the_plans_of_the_figures(
    setup: bw.Setup, height: str
) -> None:
    agrees(setup.with_reading(height=height), SAME)


@settings(max_examples=draws(80), suppress_health_check=SLOW)
@given(worked_on(), HEIGHTS, HEIGHTS)
def test_at_another_height_the_measured_one_gives_the_plans_of_the_figures(
    setup: bw.Setup, height: str, wanted: str
) -> None:
    agrees(setup.with_reading(height=height), bw.Wanted(height=wanted, thread_reserve="2 turn"))


@pytest.mark.rare
@settings(max_examples=draws(20), suppress_health_check=SLOW)
@given(worked_on())
def test_a_height_that_was_not_measured_stays_just_as_well(setup: bw.Setup) -> None:
    # On a stop a corner stands as high with another free angle.
    assume(bw.ride(setup).within_travel)
    agrees(setup, SAME)


# -- The ± of the nut ----------------------------------------------------------------------


@attrs.frozen
class Lever:
    """The triangle of bar, pivot and pin, in millimetres; each figure an array."""

    radius: Any
    pivot_distance: Any

    def angle(self, pin: Any) -> Any:
        """Angle at the bar between pivot and pin, by the law of cosines."""
        a, r = self.pivot_distance, self.radius
        return np.arccos((a * a + r * r - pin * pin) / (2 * a * r))

    def pin(self, angle: Any) -> Any:
        a, r = self.pivot_distance, self.radius
        return np.sqrt(a * a + r * r - 2 * a * r * np.cos(angle))


RADIUS, PIVOT, PIN, OPEN = 118.0, 142.0, 173.5, 1.0


def measured_with_errors(setup: bw.Setup) -> bw.Setup:
    """The corner; lever, pivot and the pin's place are each known within the same half width."""
    anchor, adjuster = setup.anchor, adjuster_of(setup)
    mounting = adjuster.mounting.described({"pivot_distance": within_open(PIVOT)})
    known_so = attrs.evolve(
        setup,
        anchor=anchor.described({"lever_radius": within_open(RADIUS)}),
        adjuster=attrs.evolve(adjuster, mounting=mounting),
    )
    pin = f"{PIN} mm ± {OPEN} mm"
    return known_so.with_readings([bw.parts.measured(known_so, height="371 mm", pin_distance=pin)])


def within_open(size: float) -> bw.parts.Figure:
    return bw.parts.Figure(value=bw.Quantity(size, "mm"), tolerance=bw.Quantity(OPEN, "mm"))


def drawn(rng: np.random.Generator, shape: str, half: float) -> Any:
    """Errors of a measurement: normal ones of the stated size, or anywhere within it."""
    count = 20_000
    if shape == "normal":
        return rng.normal(0.0, half / math.sqrt(3.0), count)
    return rng.uniform(-half, half, count)


@pytest.mark.parametrize(
    ("shape", "least", "most"), [("normal", 0.93, 0.97), ("rectangular", 0.93, 1.0)]
)
def test_the_nut_lies_within_its_uncertainty(shape: str, least: float, most: float) -> None:
    """A lever is measured with errors; the pin then goes where the true lever does not ask."""
    for found in clockings(measured_with_errors(make_setup()), SAME):
        turned = float(found.rotation.m_as("radian"))
        rng = np.random.default_rng(7)
        radius, pivot, now = (size + drawn(rng, shape, OPEN) for size in (RADIUS, PIVOT, PIN))
        true, stated = Lever(radius, pivot), Lever(RADIUS, PIVOT)
        asked = stated.pin(stated.angle(PIN) - turned)
        missed = true.pin(true.angle(now) - turned) - asked

        assert abs(asked - mm(found.pin_distance)) <= mm(found.pin_rounding)
        covered = np.mean(np.abs(missed) <= mm(found.pin_uncertainty))
        assert least <= covered <= most
