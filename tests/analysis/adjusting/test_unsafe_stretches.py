"""The stretches on which a nut must not stand are those of the rows that are not safe."""

from __future__ import annotations

import attrs
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import on_key_lever
from barwright.answers import NutRow, UnsafeStretch
from draws import draws
from sample_records import known, make_setup

ROOMY = {"open_length": "700 mm", "closed_length": "450 mm"}
WEAK = {
    "property_class": bw.parts.PropertyClass.CLASS_8_8,
    "thread_diameter": "6 mm",
    "thread_pitch": "1 mm",
}


def loose(droop_stop: float) -> bw.Setup:
    """A corner whose key lever nothing holds once its bar is slack."""
    return on_key_lever(damper=ROOMY, axle={"droop_stop": f"{droop_stop:.6f} deg"})


def stretches(setup: bw.Setup) -> tuple[UnsafeStretch, ...]:
    return known(bw.nut_table(setup).nut_curve).unsafe_stretches


def mm(length: bw.Quantity) -> float:
    return float(length.m_as("mm"))


def lies_on(row: NutRow, found: UnsafeStretch) -> bool:
    low, high = sorted(map(mm, (found.unsafe_from, found.unsafe_to)))
    return low - 1e-4 <= mm(row.pin_distance) <= high + 1e-4


@settings(max_examples=draws(10), suppress_health_check=[HealthCheck.too_slow])
@given(st.floats(-36.0, -28.0))
def test_a_row_is_loose_just_where_a_stretch_says_so(droop_stop: float) -> None:
    table = bw.nut_table(loose(droop_stop))
    found = known(table.nut_curve).unsafe_stretches
    assert len(found) == any(row.lever_unheld for row in table.table_rows) or len(found) == 1
    for row in table.table_rows:
        assert row.lever_unheld is any(lies_on(row, each) for each in found)


def test_a_row_is_too_much_for_the_bolt_just_where_a_stretch_says_so() -> None:
    table = bw.nut_table(make_setup(adjuster=WEAK))
    (found,) = known(table.nut_curve).unsafe_stretches
    assert (found.lever_unheld, found.bolt_takes_set) == (False, True)
    assert [row.bolt_takes_set for row in table.table_rows] == [
        lies_on(row, found) for row in table.table_rows
    ]


def test_a_stretch_begins_and_ends_where_the_safety_changes() -> None:
    setup = loose(-34.0)
    table = bw.nut_table(setup)
    (found,) = known(table.nut_curve).unsafe_stretches
    curve = known(table.nut_curve)
    assert mm(found.unsafe_from) == pytest.approx(mm(curve.pin_distance[0]))
    per_turn = mm(table.table_rows[1].pin_distance) - mm(table.table_rows[0].pin_distance)
    here = table.set_row
    edge = (mm(found.unsafe_to) - mm(here.pin_distance)) / per_turn
    raising = 1.0 if table.raising_sense is bw.answers.TurningSense.CLOCKWISE else -1.0
    for step, is_loose in ((-1e-4, True), (1e-4, False)):
        turns = here.nut_turns.m_as("turn") + raising * (edge + step)
        there = attrs.evolve(setup, nut_turns=f"{turns:.9f} turn")
        assert bw.nut_table(there).set_row.lever_unheld is is_loose


@pytest.mark.parametrize("held_by", [None, "a clip"])
def test_a_lever_that_a_clip_holds_has_no_such_stretch(held_by: str | None) -> None:
    setup = on_key_lever({"held_by": held_by}, damper=ROOMY, axle={"droop_stop": "-34 deg"})
    assert bool(stretches(setup)) is (held_by is None)


def test_a_thread_that_is_safe_all_over_has_none_and_one_that_never_is_has_one() -> None:
    assert stretches(make_setup()) == ()
    weakest = WEAK | {"thread_diameter": "3 mm", "thread_pitch": "0.5 mm"}
    curve = known(bw.nut_table(make_setup(adjuster=weakest)).nut_curve)
    (found,) = curve.unsafe_stretches
    ends = [mm(curve.pin_distance[at]) for at in (0, -1)]
    assert [mm(found.unsafe_from), mm(found.unsafe_to)] == pytest.approx(ends)
