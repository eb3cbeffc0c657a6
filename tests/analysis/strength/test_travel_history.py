"""Histories of travel: what is read of them, and the usual one."""

from __future__ import annotations

from typing import Any

import pytest

import barwright as bw
from sample_records import make_setup

STROKES: dict[str, Any] = {
    "stroke_shares": (0.5, 1.0),
    "stroke_counts": (90, 10),
    "covers": "1000 km",
}


def test_a_usual_road_says_that_nobody_measured_it() -> None:
    road = bw.usual_travel()
    assert road.source.endswith("(common practice, no source)")
    assert road.covers == bw.Quantity(1000.0, "km")
    assert sum(road.stroke_counts) == pytest.approx(1e5, rel=1e-12)
    assert (len(road.stroke_shares), road.stroke_shares[-1]) == (20, 1.0)
    # Of 100 000, a hundredth root at each fifth of the stroke: one in ten.
    reached = [
        sum(n for s, n in zip(road.stroke_shares, road.stroke_counts, strict=True) if s > at + 1e-9)
        for at in (0.2, 0.4, 0.6, 0.8)
    ]
    assert reached == pytest.approx([1e4, 1e3, 1e2, 1e1], rel=1e-9)


@pytest.mark.parametrize(
    ("covers", "unit"), [("1000 km", "km"), ("600 mi", "mi"), ("2 year", "year")]
)
def test_a_spectrum_covers_a_distance_or_a_time(covers: str, unit: str) -> None:
    road = bw.TravelSpectrum(**(STROKES | {"covers": covers}), source="tests")
    assert f"{road.covers.units:~}" in {unit, "a"}


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"stroke_shares": (0.5,)}, "S207"),
        ({"stroke_shares": (), "stroke_counts": ()}, "S207"),
        ({"stroke_shares": (0.5, 1.1)}, "Q302"),
        ({"stroke_shares": (0.0, 1.0)}, "Q302"),
        ({"stroke_counts": (1.0, -1.0)}, "Q302"),
        ({"stroke_counts": (1.0, True)}, "Q302"),
        ({"covers": "10 mm"}, "Q202"),
        ({"covers": "-1 km"}, "Q302"),
    ],
)
def test_strokes_that_cannot_be_are_refused(change: dict[str, Any], code: str) -> None:
    with pytest.raises(bw.errors.BarwrightError) as caught:
        bw.TravelSpectrum(**(STROKES | change), source="tests")
    assert caught.value.code == code


@pytest.mark.parametrize("covers", ["12 mm", "0 km", "-3 year", "far", bw.Quantity(3.0, "kg")])
def test_what_is_no_distance_and_no_time_is_refused(covers: Any) -> None:
    with pytest.raises(bw.errors.QuantityError) as caught:
        bw.strength(make_setup(), history=["0 mm", "40 mm"], history_covers=covers)
    assert caught.value.key == "history_covers"
    assert caught.value.expected == "a distance on the road or a time in use, above zero"


@pytest.mark.parametrize("history", [None, bw.TravelSpectrum(**STROKES, source="tests")])
def test_only_travels_are_said_to_cover_something(history: Any) -> None:
    with pytest.raises(bw.errors.SchemaError) as caught:
        bw.strength(make_setup(), history=history, history_covers="12 km")
    assert (caught.value.code, caught.value.key) == ("S207", "history_covers")
