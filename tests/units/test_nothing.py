"""Tests of `barwright.units.nothing`: what is left of a quantity that is shown."""

from __future__ import annotations

import pytest

import barwright as bw
from barwright.units.nothing import is_nothing


@pytest.mark.parametrize(
    ("length", "unit", "digits", "nothing"),
    [
        (0.0, "mm", 1, True),
        (0.4, "mm", 0, True),
        (0.4, "mm", 1, False),
        (-0.4, "mm", 0, True),
        (0.6, "mm", 0, False),
        # Inches have finer digits.
        (0.04, "inch", 0, False),
    ],
)
def test_what_rounds_to_zero_is_nothing(
    *, length: float, unit: str, digits: int, nothing: bool
) -> None:
    assert is_nothing(bw.Quantity(length, unit), digits=digits) is nothing
