"""What was read of a whole vehicle: what is left out, and what does not go together."""

from __future__ import annotations

from typing import Any

import pytest

import barwright as bw
from barwright.parts import AxleAntiRollBar, WeighedWheel, WholeVehicle

SIZES = {"diameter": "20 mm", "length": "900 mm", "lever_length": "250 mm"}


def test_what_is_unknown_is_left_out() -> None:
    wheel = WeighedWheel(scale_reading="unknown", height="391 mm")

    assert wheel.scale_reading is None
    assert wheel.height == bw.Quantity("391 mm")


@pytest.mark.parametrize(
    ("given", "code", "key"),
    [
        ({}, "S207", "one_wheel_rate"),
        ({"one_wheel_rate": "4 N/mm", "roll_rate": "90 N*m/deg"}, "S207", "one_wheel_rate"),
        ({"one_wheel_rate": "4 N/mm"} | SIZES, "S207", "one_wheel_rate"),
        ({"diameter": "20 mm", "length": "900 mm"}, "S202", "lever_length"),
        (SIZES | {"link_distance": "250 mm"}, "S202", "link_distance"),
    ],
)
def test_an_anti_roll_bar_needs_one_rate_or_all_sizes(given: Any, code: str, key: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        AxleAntiRollBar(**given)

    assert (caught.value.code, caught.value.key) == (code, key)


def test_a_nut_has_one_place() -> None:
    with pytest.raises(bw.SchemaError) as caught:
        WeighedWheel(nut_turns="1 turn", pin_distance="160 mm")

    assert (caught.value.code, caught.value.key) == ("S207", "pin_distance")


@pytest.mark.parametrize("share", [0.0, 100.0, -1.0, float("nan"), True, "50 %"])
def test_what_is_no_cross_weight_is_refused(share: Any) -> None:
    with pytest.raises(bw.QuantityError) as caught:
        WholeVehicle(wanted_cross_weight=share)

    assert (caught.value.code, caught.value.key) == ("Q302", "wanted_cross_weight")
    assert WholeVehicle(wanted_cross_weight=50).wanted_cross_weight == 50.0
