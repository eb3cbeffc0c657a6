"""Tests of `setup`: a corner that is known by a height that was measured on it."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed
from sample_records import known, make_setup


def test_a_reading_keeps_the_corner_as_it_was() -> None:
    now = make_setup(arm_tooth=1)
    measured = now.with_reading(height="391 mm", tolerance="2 mm")
    reading = known(measured.reading)
    assert (reading.setup, reading.height) == (now, bw.Quantity("391 mm"))
    assert reading.about["height"].tolerance == bw.Quantity("2 mm")
    # A second one is of the same corner, and takes the place of the first.
    again = measured.with_reading(height="389 mm")
    assert known(again.reading).setup == now
    assert known(again.reading).about["height"].tolerance is None


def test_a_reading_is_of_the_corner_itself_and_rests_on_no_other() -> None:
    left, right = make_setup(), make_setup(side=bw.parts.Side.RIGHT)
    reading = known(right.with_reading(height="391 mm").reading)
    with pytest.raises(bw.SchemaError, match=r"a reading of .* front left") as caught:
        attrs.evolve(left, reading=reading)
    assert (caught.value.code, caught.value.key) == ("S207", "reading")
    with pytest.raises(bw.SchemaError, match="the setup without one") as caught:
        bw.parts.Reading(setup=left.with_reading(height="391 mm"), height="391 mm")
    assert (caught.value.code, caught.value.key) == ("S207", "setup")
    with pytest.raises(bw.QuantityError):
        left.with_reading(height="0 mm")


# -- Where the nut stands, measured -----------------------------------------------------------


def test_a_nut_is_known_by_its_turns_or_by_its_place_and_not_by_both() -> None:
    turned = make_setup(nut_turns="2 turn")
    with pytest.raises(bw.SchemaError, match="nut_turns 2 turn and pin_distance 160 mm") as caught:
        attrs.evolve(turned, pin_distance="160 mm")
    assert (caught.value.code, caught.value.key) == ("S207", "pin_distance")


@pytest.mark.parametrize(("key", "place"), [("nut_turns", "1 turn"), ("pin_distance", "160 mm")])
def test_a_fixed_socket_has_nothing_to_turn(key: str, place: str) -> None:
    changed: dict[str, Any] = {key: place}
    with pytest.raises(bw.SchemaError, match="a fixed socket has nothing to turn") as caught:
        attrs.evolve(on_fixed(), **changed)
    assert caught.value.key == key
    # A setup that gets one loses its place of the nut.
    socketed = attrs.evolve(make_setup(), **changed).with_parts(anchor=on_fixed().anchor)
    assert socketed.pin_distance is None
    assert not socketed.nut_turns.magnitude


def test_several_readings_are_kept_and_forgotten() -> None:
    setup = make_setup()
    readings = [bw.parts.measured(setup, height=f"{height} mm") for height in (391, 380)]
    measured = setup.with_readings(readings)
    assert measured.readings == tuple(readings)
    assert (measured.reading, measured.further_readings) == (readings[0], (readings[1],))
    assert measured.with_readings([]) == setup
    one = measured.with_reading(height="400 mm")
    assert [known(reading.height).m_as("mm") for reading in one.readings] == [400]


def test_further_readings_follow_a_first_one_of_the_same_corner() -> None:
    setup = make_setup()
    reading = bw.parts.measured(setup, height="391 mm")
    with pytest.raises(bw.SchemaError, match="without a first one") as caught:
        attrs.evolve(setup, further_readings=(reading,))
    assert caught.value.key == "further_readings"
    right = make_setup(side=bw.parts.Side.RIGHT)
    with pytest.raises(bw.SchemaError, match=r"a reading of .* front left"):
        setup.with_readings([reading, bw.parts.measured(right, height="391 mm")])


def test_readings_are_of_one_spring() -> None:
    setup = make_setup()
    readings = [
        bw.parts.measured(one, height="391 mm") for one in (setup, attrs.evolve(setup, arm_tooth=1))
    ]
    with pytest.raises(bw.SchemaError, match="readings with other parts or teeth") as caught:
        setup.with_readings(readings)
    assert (caught.value.code, caught.value.key) == ("S207", "readings")
