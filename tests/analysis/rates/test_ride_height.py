"""Where a corner comes to rest with the clocking and the nut as they are."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from sample_records import make_bar, make_setup


@pytest.mark.parametrize("van", ["short", "middle", "long"])
@pytest.mark.parametrize("side", ["left", "right"])
def test_the_demo_vans_stand_at_their_standard_height_on_their_keys(van: str, side: str) -> None:
    setup = bw.Registry.discover().setup(f"fells:chassis/{van}", corner=f"front {side}")
    answer = bw.ride(setup)
    assert answer.within_travel
    assert answer.state is not None
    off = answer.state.height - setup.axle.standard_height
    # Within a turn of the nut.
    assert abs(float(off.m_as("mm"))) < 5.0
    # Not slack at full droop, and not over the bump stop.
    figures = bw.rates(setup).figures
    assert figures is not None
    assert figures.droop.torque.magnitude > 0.0


def test_left_and_right_rest_alike() -> None:
    left, right = (bw.ride(make_setup(side=side)) for side in bw.parts.Side)
    assert left.state == right.state


def test_a_turn_clockwise_raises_a_car_whose_bolt_pulls() -> None:
    heights = []
    for turns in ("-2 turn", "0 turn", "2 turn"):
        state = bw.ride(make_setup(nut_turns=turns)).state
        assert state is not None
        heights.append(float(state.height.magnitude))
    assert heights == sorted(heights)


def test_a_whole_turn_of_teeth_is_none() -> None:
    setup = make_setup()
    # Tooth 30 of 39 is tooth -9; 10 of 42 is -32.
    one = attrs.evolve(setup, arm_tooth=30, anchor_tooth=10)
    other = attrs.evolve(setup, arm_tooth=-9, anchor_tooth=-32)
    here, there = bw.ride(one).state, bw.ride(other).state
    assert here is not None
    assert there is not None
    assert there.height.m_as("mm") == pytest.approx(here.height.m_as("mm"), abs=1e-9)


def test_a_bar_without_overlap_has_no_state() -> None:
    answer = bw.ride(make_setup(bar=make_bar(length="1200 mm")))
    assert answer.state is None
    assert not answer.within_travel


def test_a_heavy_corner_rests_on_its_bump_stop() -> None:
    answer = bw.ride(make_setup(mass="900 kg"))
    assert not answer.within_travel
    assert answer.state is not None
    assert answer.state.stroke_to_closed.m_as("mm") == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(("stop", "beyond"), [("-24 deg", "-24.1 deg"), ("17 deg", "17.1 deg")])
def test_a_wish_for_a_stop_itself_is_within_the_travel(stop: str, beyond: str) -> None:
    setup = make_setup(damper={"open_length": "760 mm", "closed_length": "400 mm"})
    for angle, verdict in ((stop, bw.Verdict.RATED), (beyond, bw.Verdict.OUT_OF_REACH)):
        assert bw.rates(setup, wanted=bw.Wanted(arm_angle=angle)).verdict is verdict


@pytest.mark.parametrize(
    ("mass", "rests", "finding"),
    [
        ("291 kg", "on its spring", None),
        ("100 kg", "rests on a stop", "the corner rests on its droop stop, not on its spring"),
        ("900 kg", "rests on a stop", "the corner rests on its bump stop, not on its spring"),
    ],
)
def test_the_headline_says_where_it_stands_and_on_what(
    mass: str, rests: str, finding: str | None
) -> None:
    answer = bw.ride(make_setup(mass=mass))
    height = answer.height.m_as("mm")
    assert answer.headline == f"Stands at {height:.0f} mm hub to arch, {rests}."
    reported = [f.text for f in answer.findings if "rests on" in f.text]
    assert reported == ([finding] if finding else [])


# -- The height that a corner has now -----------------------------------------------------

SAME = bw.Wanted(same_height=True)


def test_the_same_height_is_the_one_at_which_a_corner_rests() -> None:
    low = make_setup(nut_turns="-6 turn")
    height = bw.ride(low).height

    figures = bw.rates(low, wanted=SAME).figures
    assert figures is not None
    assert figures.ride.height.m_as("mm") == pytest.approx(height.m_as("mm"), abs=1e-6)
    assert bw.rates(low, wanted=SAME) == bw.rates(low, wanted=bw.Wanted(height=height))


def test_the_same_height_is_the_measured_one_where_there_is_one() -> None:
    low = make_setup(nut_turns="-6 turn").with_reading(height="371 mm")

    assert bw.rates(low, wanted=SAME) == bw.rates(low, wanted=bw.Wanted(height="371 mm"))
