"""Tests of `barwright.analysis.finding`: one thing that a reader must know, in words."""

from __future__ import annotations

from typing import Any

import pytest

import barwright as bw
from each_case import each_case

Topic, Caution = bw.answers.Topic, bw.answers.Caution


def finding(**change: Any) -> bw.answers.Finding:
    usual: dict[str, Any] = {"topic": Topic.THREAD, "text": "little thread left"}
    return bw.answers.Finding(**(usual | change))


@pytest.mark.parametrize(
    ("change", "found", "line"),
    [
        ({}, "", "little thread left"),
        ({"figure": 3}, "3", "little thread left: 3"),
        ({"limit": "M12"}, "limit M12", "little thread left; limit M12"),
        (
            {"figure": bw.Quantity("1 mm"), "limit": bw.Quantity("2 mm")},
            "1.0 mm, limit 2.0 mm",
            "little thread left; found 1.0 mm, limit 2.0 mm",
        ),
        (
            {"figure": 9, "limit": 1, "upper": 4},
            "9, limit 1 to 4",
            "little thread left; found 9, limit 1 to 4",
        ),
        (
            {"end": bw.parts.BarEndName.ARM, "figure": 0},
            "0",
            "little thread left (arm end): 0",
        ),
        (
            {"topic": Topic.SWAPPED_ARM, "text": "swap the arm", "figure": "a:x", "limit": "a:y"},
            "a:x for a:y",
            "swap the arm (a:x for a:y)",
        ),
    ],
)
def test_a_finding_is_told_with_its_end_its_figure_and_its_limit(
    change: dict[str, Any], found: str, line: str
) -> None:
    one = finding(**change)
    assert (one.found, one.line) == (found, line)
    assert one.line.startswith(one.what)


@each_case("caution", Caution)
def test_a_caution_is_whole_sentences(caution: bw.answers.Caution) -> None:
    assert caution.text.endswith(".")
    assert caution.text[0].isupper()
    assert not any(word in f" {caution.text.lower()}" for word in (" car ", ";;", "  "))
