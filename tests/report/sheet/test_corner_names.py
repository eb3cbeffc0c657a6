"""Tests of `corner_names`."""

from __future__ import annotations

import pytest

from barwright.report.sheet.corner_names import names_of


@pytest.mark.parametrize(
    ("corners", "named"),
    [
        (["front left"], "Front left"),
        (["rear left", "rear right"], "Rear left and right"),
        (["front right", "rear left"], "Front right, rear left"),
    ],
)
def test_corners_are_named_in_short(corners: list[str], named: str) -> None:
    assert names_of(corners) == named
