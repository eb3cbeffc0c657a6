"""What may be wanted of a bar that is chosen."""

from __future__ import annotations

from typing import Any

import pytest

import barwright as bw
from barwright import Goal
from barwright.parts import Extreme


@pytest.mark.parametrize(
    "given",
    [
        {},
        {"rate_change": 30.0, "wheel_rate": "20 N/mm"},
        {"extreme": Extreme.LARGEST_BAR, "front_to_rear": 0.9},
    ],
)
def test_a_goal_is_one_wish(given: dict[str, Any]) -> None:
    with pytest.raises(bw.JobError, match="one goal"):
        Goal(**given)


@pytest.mark.parametrize(
    ("given", "key"),
    [
        ({"rate_change": -100.0}, "rate_change"),
        ({"rate_change": float("nan")}, "rate_change"),
        ({"rate_change": True}, "rate_change"),
        ({"front_to_rear": 0.0}, "front_to_rear"),
        ({"wheel_rate": "20 N*m"}, "wheel_rate"),
        ({"wheel_rate": "0 N/mm"}, "wheel_rate"),
        ({"ride_frequency": "-1 Hz"}, "ride_frequency"),
        ({"extreme": "largest"}, "extreme"),
    ],
)
def test_what_no_corner_can_have_is_refused(given: dict[str, Any], key: str) -> None:
    with pytest.raises(bw.BarwrightError) as refused:
        Goal(**given)
    assert refused.value.key == key
