"""Tests of `measured`: a reading of a corner from texts."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.parts import measured
from sample_records import known, make_setup

SETUP = make_setup()


def test_each_figure_keeps_its_uncertainty() -> None:
    reading = measured(
        SETUP,
        arm_angle="-5 deg ± 0.3 deg",
        scale_reading="326 kg ± 1 kg",
        pin_distance=bw.Quantity("160 mm"),
    )
    assert known(reading.about["arm_angle"].tolerance) == bw.Quantity(0.3, "deg")
    assert reading.about["pin_distance"].tolerance is None
    load = reading.corner.load
    assert load.kind is bw.parts.LoadKind.SCALE_READING
    assert load.about["mass"].tolerance == bw.Quantity(1, "kg")
    assert reading.corner.pin_distance == bw.Quantity(160, "mm")
    assert reading.setup.pin_distance is None


def test_what_was_not_measured_is_as_the_setup_has_it() -> None:
    known_by_height = SETUP.with_reading(height="391 mm")
    reading = measured(known_by_height, height="389 mm ± 2 mm")
    assert reading.corner == SETUP
    again = measured(SETUP, height="389 mm", sprung_mass="300 kg", nut_turns="2 turn")
    assert again.corner.load.kind is bw.parts.LoadKind.SPRUNG
    assert again.corner.nut_turns == bw.Quantity(2, "turn")


def test_a_nut_that_was_measured_takes_the_place_of_the_setups() -> None:
    set_to = attrs.evolve(SETUP, pin_distance="158 mm")
    turned = measured(set_to, height="391 mm", nut_turns="1 turn").corner
    assert (turned.nut_turns, turned.pin_distance) == (bw.Quantity(1, "turn"), None)


@pytest.mark.parametrize(
    ("given", "code", "key"),
    [
        ({}, "S207", "height"),
        ({"height": "391 mm", "arm_angle": "-5 deg"}, "S207", "height"),
        ({"height": "391 kg"}, "Q202", "height"),
        (
            {"height": "391 mm", "scale_reading": "326 kg", "sprung_mass": "291 kg"},
            "S207",
            "scale_reading",
        ),
        (
            {"height": "391 mm", "nut_turns": "1 turn", "pin_distance": "160 mm"},
            "S207",
            "pin_distance",
        ),
        ({"height": "391 mm", "scale_reading": "20 kg"}, "Q302", "load.mass"),
    ],
)
def test_what_does_not_go_together_is_refused(given: Any, code: str, key: str) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        measured(SETUP, **given)
    assert (caught.value.code, caught.value.key) == (code, key)
