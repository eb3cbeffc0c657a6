"""What may be said of a loose bar."""

from __future__ import annotations

from typing import Any

import pytest

import barwright as bw
from barwright.parts import MeasuredBar, MeasuredEnd


def test_a_text_may_state_its_error() -> None:
    bar = MeasuredBar(diameter="24.2 mm ± 0.1 mm", length="903 mm to 905 mm", bore="0 mm")

    assert bar.diameter is not None
    assert bar.diameter.tolerance is not None
    assert bar.diameter.tolerance.m_as("mm") == pytest.approx(0.1)
    assert bar.length is not None
    assert (bar.length.value.m_as("mm"), bar.length.written) == (904.0, "903 mm to 905 mm")


def test_a_quantity_and_a_figure_are_taken_as_they_are() -> None:
    figure = bw.parts.Figure(value=bw.Quantity(25.0, "mm"), tolerance=bw.Quantity(0.1, "mm"))

    bar = MeasuredBar(diameter=figure, length=bw.Quantity(0.9, "m"))

    assert bar.diameter is figure
    assert bar.length is not None
    assert bar.length.tolerance is None


@pytest.mark.parametrize(
    ("given", "key"),
    [
        ({"diameter": "0 mm"}, "diameter"),
        ({"diameter": "24 deg"}, "diameter"),
        ({"bore": "-1 mm"}, "bore"),
        ({"blank_angle": "3 mm"}, "blank_angle"),
        ({"ends": [MeasuredEnd()] * 3}, "ends"),
        ({"ends": ["39"]}, "ends"),
    ],
)
def test_what_no_bar_has_is_refused(given: dict[str, Any], key: str) -> None:
    with pytest.raises(bw.BarwrightError) as refused:
        MeasuredBar(**given)
    assert refused.value.key == key


@pytest.mark.parametrize("blanks", ["0,3", (0, 0), (0, 1.5), (True,)])
def test_places_of_blanks_are_different_whole_numbers(blanks: Any) -> None:
    with pytest.raises(bw.SchemaError, match="different whole numbers"):
        MeasuredEnd(blanks=blanks)


def test_no_gap_is_not_the_same_as_not_looked_at() -> None:
    assert MeasuredEnd(blanks=()).blanks == ()
    assert MeasuredEnd().blanks is None
    assert MeasuredEnd(blanks=(3, 0)).blanks == (0, 3)


def test_a_missing_tooth_is_one_that_the_end_has() -> None:
    with pytest.raises(bw.SchemaError, match="39 teeth"):
        MeasuredEnd(teeth=39, blanks=(0, 39))
    assert MeasuredEnd(teeth=39, blanks=(0, 38)).blanks == (0, 38)
