"""For a measured height, the turn that brings the wanted one."""

from __future__ import annotations

import math

import attrs
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import on_key_lever
from barwright.answers import NutCorrection, Support, Topic, TurningSense
from draws import draws
from sample_packs import discovered_once
from sample_records import known, make_setup
from setup_strategies import corners

ROOMY = {"open_length": "700 mm", "closed_length": "450 mm"}
SETUP = make_setup(damper=ROOMY)


def mm(length: bw.Quantity) -> float:
    return float(length.m_as("mm"))


def planned(setup: bw.Setup, height: str) -> bw.Setup:
    """A setup that stands at a height, on its spring."""
    plans = bw.reindex(setup, wanted=bw.Wanted(height=height)).plans
    assume(plans)
    return bw.carry_out(setup, plans[0])


def turned(setup: bw.Setup, correction: NutCorrection) -> bw.Setup:
    return attrs.evolve(setup, nut_turns=correction.nut_turns)


@settings(max_examples=draws(30), suppress_health_check=[HealthCheck.too_slow])
@given(corners(), st.floats(-12.0, 12.0), st.floats(-6.0, 6.0))
def test_the_turn_brings_the_wanted_height_to_within_half_a_flat(
    drawn: tuple[bw.Setup, str], offset: float, raising: float
) -> None:
    setup = planned(*drawn)
    measured = mm(bw.ride(setup).height) + offset
    wanted = measured + 5.0 * raising
    table = bw.nut_table(
        setup, measured=f"{measured:.9f} mm", wanted=bw.Wanted(height=f"{wanted:.9f} mm")
    )
    assume(table.correction is not None)
    correction = known(table.correction)
    # The bar's free angle is that at which the vehicle stands as measured.
    read = setup.with_reading(height=f"{measured:.9f} mm")
    after = mm(bw.ride(turned(read, correction)).height)
    assert mm(correction.height) == pytest.approx(after, abs=1e-6)
    assert mm(correction.height_offset) == pytest.approx(offset, abs=1e-6)
    flats = float(correction.correcting_turns.magnitude) * 6.0
    assert flats == pytest.approx(round(flats), abs=1e-6)
    # No other flat comes nearer, if the thread holds it.
    rows = bw.nut_table(turned(read, correction)).table_rows
    rise = max(float(row.height_per_turn.magnitude) for row in rows)
    ends = [float(rows[end].nut_turns.magnitude) for end in (0, -1)]
    place = float(correction.nut_turns.magnitude)
    if min(ends) < place < max(ends):
        assert abs(after - wanted) <= rise / 12.0 + 1e-6


@pytest.mark.parametrize(("turns", "lower"), [(1, 0), (-4, 1), (3, -1)])
def test_whole_turns_of_the_table_are_found_again(turns: int, lower: int) -> None:
    measured = bw.nut_table(SETUP).set_row.height - bw.Quantity(3.0 * lower, "mm")
    table = bw.nut_table(SETUP.with_reading(height=measured))
    (row,) = (row for row in table.table_rows if row.raising_turns == turns)
    answer = bw.nut_table(SETUP, measured=measured, wanted=bw.Wanted(height=row.height))
    found = known(answer.correction)
    assert answer.verdict is bw.Verdict.REACHED
    assert found.correcting_turns.m_as("turn") == pytest.approx(turns)
    assert mm(found.height_offset) == pytest.approx(-3.0 * lower)
    assert found.correcting_sense is (
        TurningSense.CLOCKWISE if turns > 0 else TurningSense.COUNTER_CLOCKWISE
    )
    assert mm(found.pin_distance) == pytest.approx(mm(row.pin_distance))
    assert mm(found.height) == pytest.approx(mm(row.height))


@pytest.mark.parametrize("off", [-25.0, 0.0, 25.0])
def test_the_table_of_a_measured_corner_is_that_of_its_reading(off: float) -> None:
    setup = on_key_lever(damper=ROOMY, axle={"droop_stop": "-34 deg"})
    measured = f"{mm(bw.ride(setup).height) + off:.9f} mm"
    table = bw.nut_table(setup, measured=measured)
    exact = bw.nut_table(setup.with_reading(height=measured))
    assert table.set_row.height.m_as("mm") == pytest.approx(float(measured.split(maxsplit=1)[0]))
    assert table.table_rows == exact.table_rows
    # A bar that has sagged goes slack sooner: the safe part of the thread is not as computed.
    loose = sum(row.lever_unheld for row in bw.nut_table(setup).table_rows)
    read = sum(row.lever_unheld for row in table.table_rows)
    assert (read > loose) is (off < 0.0)
    assert (read < loose) is (off > 0.0)


def test_a_wish_alone_is_answered_from_the_computed_height() -> None:
    here = bw.nut_table(SETUP).set_row
    found = known(bw.nut_table(SETUP, wanted=bw.Wanted(height="390 mm")).correction)
    assert found.measured_height == here.height
    assert found.height_offset.magnitude == 0.0
    assert mm(found.wanted_height) == 390.0


def test_a_measured_height_alone_is_brought_to_the_standard_one() -> None:
    found = known(bw.nut_table(SETUP, measured="400 mm").correction)
    assert found.wanted_height == SETUP.axle.standard_height


def test_a_height_that_is_there_asks_for_no_turn() -> None:
    answer = bw.nut_table(SETUP, measured="398.2 mm", wanted=bw.Wanted(height="398 mm"))
    found = known(answer.correction)
    assert (found.correcting_turns.magnitude, found.correcting_sense) == (0.0, None)
    assert answer.headline == (
        "Leave the nut where it is: the corner stands at 398 mm hub to arch."
    )


def test_the_headline_says_which_turn_in_turns_and_flats() -> None:
    answer = bw.nut_table(SETUP, measured="398 mm", wanted=bw.Wanted(height="405 mm"))
    found = known(answer.correction)
    turns = found.correcting_turns.m_as("turn")
    assert answer.headline == (
        f"Turn the nut {turns:.2f} turns ({turns * 6:.0f} flats) clockwise, seen from the bolt's "
        f"free end, to {mm(found.pin_distance):.1f} mm: the corner then stands at "
        f"{mm(found.height):.0f} mm hub to arch."
    )


def test_the_last_flat_of_the_thread_is_not_passed() -> None:
    rows = bw.nut_table(SETUP).nut_curve
    highest = known(rows).height[-1]
    found = known(bw.nut_table(SETUP, wanted=bw.Wanted(height=highest)).correction)
    # 8.857 turns are 53.1 flats.
    assert found.nut_turns.m_as("turn") == pytest.approx(53 / 6)


@pytest.mark.parametrize("wanted", ["300 mm", "470 mm"])
def test_beyond_thread_and_travel_there_is_no_turn(wanted: str) -> None:
    answer = bw.nut_table(SETUP, measured="398 mm", wanted=bw.Wanted(height=wanted))
    assert mm(answer.set_row.height) == pytest.approx(398.0)
    assert (answer.verdict, answer.outcome) == (bw.Verdict.OUT_OF_REACH, bw.Outcome.NO)
    assert answer.correction is None
    first, curve = answer.findings[0], known(answer.nut_curve)
    assert first.topic is Topic.THREAD
    for limit, end in ((first.limit, 0), (first.upper, -1)):
        assert isinstance(limit, bw.Quantity)
        assert mm(limit) == pytest.approx(float(curve.height[end].m_as("mm")))


@pytest.mark.parametrize("beyond", [-0.9, 0.0, 20.0])
def test_a_height_on_a_stop_says_nothing_of_the_spring(beyond: float) -> None:
    on_stop = make_setup(mass="900 kg")
    height = f"{mm(bw.ride(on_stop).height) - beyond} mm"
    answer = bw.nut_table(on_stop, measured=height, wanted=bw.Wanted(height="380 mm"))
    assert (answer.verdict, answer.correction) == (bw.Verdict.OUT_OF_REACH, None)
    assert "says nothing about the spring" in answer.headline


def test_a_corner_that_is_measured_off_its_computed_stop_is_brought_to_its_height() -> None:
    on_stop = make_setup(mass="900 kg")
    height = f"{mm(bw.ride(on_stop).height) + 5.0} mm"
    answer = bw.nut_table(on_stop, measured=height, wanted=bw.Wanted(height=height))
    assert known(answer.correction).correcting_turns.magnitude == 0.0


def test_a_height_at_which_other_springs_hold_the_corner_says_nothing_of_the_bar() -> None:
    helped = make_setup(
        mass="200 kg",
        damper={"open_length": "700 mm", "closed_length": "450 mm"},
        nut_turns="-8 turn",
        axle={"helper_coil": bw.parts.HelperCoil(rate="60 N/mm", free_length="720 mm")},
    )
    height = mm(bw.ride(helped).height)
    answer = bw.nut_table(helped, measured=f"{height} mm")
    assert (answer.verdict, answer.correction) == (bw.Verdict.OUT_OF_REACH, None)
    assert "says nothing about the bar" in answer.headline


def test_a_place_that_is_not_safe_says_so_where_the_nut_is_set_there() -> None:
    loose = on_key_lever(damper=ROOMY, axle={"droop_stop": "-34 deg"})
    rows = bw.nut_table(loose).table_rows
    lowest = attrs.evolve(loose, nut_turns=rows[0].nut_turns)
    table = bw.nut_table(lowest)
    assert not table.set_row.is_safe
    assert (table.verdict, table.most_raising) == (bw.Verdict.LISTED, 0)
    assert [one for one in table.further_findings if "only the bar holds" in one.text]
    highest = bw.nut_table(attrs.evolve(loose, nut_turns=rows[-1].nut_turns))
    assert highest.set_row.is_safe
    assert not [one for one in highest.findings if "only the bar" in one.text]


def test_without_a_measured_height_a_corner_is_brought_off_its_stop() -> None:
    light = make_setup(mass="180 kg", nut_turns="8 turn")
    assert bw.nut_table(light).set_row.support is Support.DROOP
    answer = bw.nut_table(light, wanted=bw.Wanted(height="450 mm"))
    found = known(answer.correction)
    assert math.isclose(mm(bw.ride(turned(light, found)).height), 450.0, abs_tol=0.6)
    assert not [finding for finding in answer.findings if "droop stop" in finding.text]


def test_a_place_at_which_nothing_holds_the_lever_is_not_safe() -> None:
    loose = on_key_lever(damper=ROOMY, axle={"droop_stop": "-34 deg"})
    rows = bw.nut_table(loose).table_rows
    slack = next(row for row in rows if row.slack_at_droop)
    answer = bw.nut_table(loose, wanted=bw.Wanted(height=slack.height))
    assert (answer.verdict, answer.outcome) == (bw.Verdict.NOT_SAFE, bw.Outcome.NO)
    assert answer.correction is None
    assert answer.findings[0].topic is Topic.SLACK
    clipped = on_key_lever({"held_by": "a clip"}, damper=ROOMY, axle={"droop_stop": "-34 deg"})
    held = bw.nut_table(clipped, wanted=bw.Wanted(height=slack.height))
    assert held.verdict is bw.Verdict.REACHED
    # What is said is of the place that the nut is turned to.
    assert [finding.topic for finding in held.findings] == [Topic.SLACK]


def test_a_vehicle_that_stands_further_off_than_the_figures_leave_open_is_checked_first() -> None:
    van = discovered_once().setup("fells:chassis/short", corner="front left")
    table = bw.nut_table(van)
    leaves = mm(known(table.height_uncertainty))
    for share, expected in ((0.9, []), (-1.1, [Topic.MEASURED])):
        measured = mm(table.set_row.height) + share * leaves
        answer = bw.nut_table(van, measured=f"{measured:.6f} mm")
        assert answer.verdict is bw.Verdict.REACHED
        assert [finding.topic for finding in answer.findings] == expected
    # Without a tolerance there is nothing to hold it against.
    assert bw.nut_table(SETUP, measured="380 mm").findings == ()


@pytest.mark.parametrize(
    ("measured", "code"), [("-3 mm", "Q302"), ("3 kg", "Q202"), ("three", "Q104")]
)
def test_what_is_no_height_is_an_error(measured: str, code: str) -> None:
    with pytest.raises(bw.QuantityError, match="measured") as caught:
        bw.nut_table(SETUP, measured=measured)
    assert caught.value.code == code
