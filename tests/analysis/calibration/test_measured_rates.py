"""Tests of `measured_rates`: what is kept of readings for a vehicle."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.analysis.calibration.measured_rates import measured_rates
from read_corners import read, true_corner
from sample_records import known, make_setup

LEFT, RIGHT = make_setup(), make_setup(side=bw.parts.Side.RIGHT)
TRUE = true_corner()


def asked(setup: bw.Setup, true: bw.Setup) -> bw.answers.CalibratedCorner:
    return bw.calibrate(setup, read(setup, true))


def test_a_rate_keeps_its_standard_error_as_a_tolerance() -> None:
    answer = asked(LEFT, TRUE)
    (found,) = measured_rates([LEFT], [answer])
    assert (found.bar, found.rate) == (LEFT.bar.id, answer.bar_rate)
    assert found.place == "front left, 4 readings"
    half = known(answer.bar_rate_uncertainty).m_as("N*m/deg")
    assert found.tolerance.m_as("N*m/deg") * 2.0 / 3.0**0.5 == pytest.approx(half)


def test_both_sides_of_one_bar_are_joined() -> None:
    answers = [asked(LEFT, TRUE), asked(RIGHT, true_on_right("47 N*m/deg"))]
    (found,) = measured_rates([LEFT, RIGHT], answers)
    rates = [known(answer.bar_rate).m_as("N*m/deg") for answer in answers]
    assert min(rates) < found.rate.m_as("N*m/deg") < max(rates)
    assert found.place == "front left, 4 readings; front right, 4 readings"


def test_a_side_without_readings_or_with_one_is_no_hindrance() -> None:
    answer = asked(LEFT, TRUE)
    one = RIGHT.with_reading(height="401 mm")
    for side in (RIGHT, one):
        (found,) = measured_rates([LEFT, side], [answer, bw.calibrate(side)])
        assert found.rate == answer.bar_rate


def true_on_right(rate: str) -> bw.Setup:
    bar = attrs.evolve(RIGHT.bar, measured_rate=rate)
    return RIGHT.with_parts(bar=bar)


@pytest.mark.parametrize(
    ("right", "value"),
    [
        (RIGHT.with_reading(height="401 mm"), "no rate of a bar"),
        (RIGHT.with_reading(height="900 mm"), "front right: needs more figures"),
    ],
)
def test_what_tells_no_rate_cannot_be_kept(right: bw.Setup, value: str) -> None:
    with pytest.raises(bw.JobError) as caught:
        measured_rates([right], [bw.calibrate(right)])
    assert (caught.value.code, caught.value.value) == ("J104", value)


def test_two_rates_of_one_bar_cannot_be_kept() -> None:
    answers = [asked(LEFT, TRUE), asked(RIGHT, true_on_right("60 N*m/deg"))]
    with pytest.raises(bw.JobError, match="which side has another bar") as caught:
        measured_rates([LEFT, RIGHT], answers)
    assert "front right 60.00 N·m/deg ±" in caught.value.value
