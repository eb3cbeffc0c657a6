"""Rule `correction-reason`: a correction says why."""

from __future__ import annotations

from pathlib import Path

import pytest

from sample_overlays import correction, found_over, overlay


def test_one_word_is_no_reason(tmp_path: Path) -> None:
    made = overlay(tmp_path, correction(why="Measured."))

    expected = [("ours.toml", 4, "tiny:bar/one.diameter", "'Measured.' is no reason")]
    assert found_over(made, "correction-reason") == expected


@pytest.mark.parametrize(
    ("why", "count"),
    [("It is so", 0), ("- wrong -", 1), ("Is thicker!", 1), ("Am Wagen gemessen.", 0)],
)
def test_a_reason_has_three_words(tmp_path: Path, why: str, count: int) -> None:
    assert len(found_over(overlay(tmp_path, correction(why=why)), "correction-reason")) == count
