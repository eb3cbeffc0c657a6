"""What can be measured of a spline, and what cannot."""

from __future__ import annotations

from typing import Any

import pytest

import barwright as bw
from barwright.parts import MeasuredSpline


def test_each_figure_may_state_its_tolerance_and_be_left_out() -> None:
    spline = MeasuredSpline(teeth=39, major_diameter="29.9 mm ± 0.1 mm")

    assert spline.major_diameter is not None
    assert spline.major_diameter.tolerance == bw.Quantity(0.1, "mm")
    assert spline.root_diameter is None


@pytest.mark.parametrize(
    ("given", "key"),
    [
        ({"teeth": 0}, "teeth"),
        ({"teeth": "unknown"}, "teeth"),
        ({"major_diameter": "30"}, "major_diameter"),
        ({"root_diameter": "0 mm"}, "root_diameter"),
        ({"over_pins": "32 mm"}, "pin_diameter"),
        ({"major_diameter": "30 mm", "root_diameter": "30 mm"}, "root_diameter"),
        (
            {"major_diameter": "30 mm", "over_pins": "30 mm", "pin_diameter": "2 mm"},
            "over_pins",
        ),
    ],
)
def test_what_no_spline_has_is_refused(given: dict[str, Any], key: str) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        MeasuredSpline(**({"teeth": 39} | given))
    assert caught.value.key == key


def test_sizes_in_order_are_taken() -> None:
    spline = MeasuredSpline(
        teeth=39,
        major_diameter="30 mm",
        root_diameter="28 mm",
        over_pins="32 mm",
        pin_diameter="1.5 mm",
    )
    assert spline.over_pins is not None
