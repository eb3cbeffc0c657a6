"""Tests of `barwright.analysis.reindex.plan.tooth_places`."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.analysis.reindex.plan.tooth_places import place_on_key, tooth_places
from barwright.answers import TurningSense
from barwright.parts import BarEndName, Side
from sample_records import make_bar, make_end, make_setup

BAR = make_bar(arm_end=make_end(39, blanks=(0, 3)), anchor_end=make_end(42, blanks=(0, -2)))


def work_at(setup: bw.Setup, end: BarEndName) -> bw.answers.EndWork:
    plan = bw.reindex(setup, wanted=bw.Wanted(height="380 mm")).plans[0]
    return plan.ends[end is BarEndName.ANCHOR]


@pytest.mark.parametrize(
    ("side", "end", "missing", "key"),
    [
        # A bar along the car, its arm end in front: at the left a bump is right-handed.
        (Side.LEFT, BarEndName.ARM, (-3, 0), -2),
        (Side.LEFT, BarEndName.ANCHOR, (-2, 0), 1),
        (Side.RIGHT, BarEndName.ARM, (-3, 0), 2),
        (Side.RIGHT, BarEndName.ANCHOR, (-2, 0), -1),
    ],
)
def test_places_are_counted_clockwise_as_they_are_seen(
    side: Side, end: BarEndName, missing: tuple[int, ...], key: int
) -> None:
    setup = make_setup(side=side, bar=BAR, arm_tooth=2, anchor_tooth=1)
    found = tooth_places(setup, work_at(setup, end), present=setup)

    assert found.missing_teeth == missing
    assert found.key_before == key


@pytest.mark.parametrize("end", BarEndName)
def test_places_of_a_bar_that_shows_nothing_are_counted_from_the_tooth_that_is_there(
    end: BarEndName,
) -> None:
    bar = make_bar(
        arm_end=make_end(39, blanks=()), anchor_end=make_end(42, blanks=()), blank_angle="unknown"
    )
    setup = make_setup(bar=bar, arm_keyed=False, anchor_keyed=False, arm_tooth=2, anchor_tooth=1)
    setup = setup.with_reading(height="404 mm")
    found = tooth_places(setup, work_at(setup, end), present=setup)

    assert (found.missing_teeth, found.key_before) == ((), 0)


def test_nothing_faces_the_key_of_a_part_that_is_swapped() -> None:
    setup = make_setup(bar=BAR)
    arm = attrs.evolve(setup.arm, title="Other arm")
    other = setup.with_parts(arm=arm)

    assert tooth_places(other, work_at(setup, BarEndName.ARM), present=setup).key_before is None
    assert tooth_places(other, work_at(setup, BarEndName.ANCHOR), present=setup).key_before == 0


@pytest.mark.parametrize(
    ("sense", "place"),
    [(TurningSense.CLOCKWISE, 5), (TurningSense.COUNTER_CLOCKWISE, -5)],
)
def test_the_place_on_the_key_is_the_tooth_as_it_is_counted(
    sense: TurningSense, place: int
) -> None:
    work = work_at(make_setup(), BarEndName.ARM)

    assert place_on_key(attrs.evolve(work, tooth=5, direction=sense)) == place
    assert place_on_key(attrs.evolve(work, tooth=0, direction=None)) == 0
