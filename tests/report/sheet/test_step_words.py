"""Tests of `barwright.report.sheet.step_words`: pieces of sentences, for either side of a datum."""

from __future__ import annotations

import pytest

from barwright.report.sheet.step_words import lies, reaches, toward
from barwright.units import LENGTH, to_kind


@pytest.mark.parametrize(
    ("position", "said"),
    [
        ("0 mm", "is flush with"),
        ("0.04 mm", "is flush with"),
        ("3 mm", "stands 3.0 mm inside"),
        ("-2.5 mm", "stands 2.5 mm outside"),
    ],
)
def test_a_spline_is_flush_with_a_face_or_stands_to_one_side(position: str, said: str) -> None:
    assert reaches(to_kind(position, LENGTH, key="")) == said


@pytest.mark.parametrize(
    ("position", "said"), [("0.04 mm", "flush"), ("14 mm", "14.0 mm in"), ("-12 mm", "12.0 mm out")]
)
def test_a_place_among_others_is_told_in_short(position: str, said: str) -> None:
    assert lies(to_kind(position, LENGTH, key="")) == said


@pytest.mark.parametrize(
    ("offset", "said"), [("86 mm", "86.0 mm toward"), ("-4 mm", "4.0 mm away from")]
)
def test_holes_lie_toward_the_anchor_or_away_from_it(offset: str, said: str) -> None:
    assert toward(to_kind(offset, LENGTH, key="")) == said
