"""Rule `correction-needed`: a correction changes what is known."""

from __future__ import annotations

from pathlib import Path

import pytest

from sample_overlays import correction, fact_correction, found_over, overlay

TOLERANCE = "23.3 mm ± 0.05 mm"


def test_what_the_pack_says_with_a_source_of_the_same_kind_is_found(tmp_path: Path) -> None:
    made = overlay(tmp_path, correction(value=TOLERANCE, source="invented"))

    message = "the pack already says 23.3 mm, from as good a source"
    expected = [("ours.toml", 4, "tiny:bar/one.diameter", message)]
    assert found_over(made, "correction-needed") == expected


@pytest.mark.parametrize("value", ["2.33 cm ± 0.05 mm", "23.300 mm ± 0.005 cm"])
def test_another_unit_is_the_same_figure(tmp_path: Path, value: str) -> None:
    made = overlay(tmp_path, correction(value=value, source="invented"))

    assert len(found_over(made, "correction-needed")) == 1


@pytest.mark.parametrize(
    ("value", "source"),
    [
        ("23.4 mm ± 0.05 mm", "invented"),
        ("23.3 mm ± 0.02 mm", "invented"),
        ("23.3 mm", "invented"),
        (TOLERANCE, "measured"),
    ],
)
def test_another_figure_tolerance_or_kind_of_source_is_good(
    tmp_path: Path, value: str, source: str
) -> None:
    made = overlay(tmp_path, correction(value=value, source=source))

    assert found_over(made, "correction-needed") == []


def test_a_figure_that_the_pack_leaves_out_is_good(tmp_path: Path) -> None:
    made = overlay(tmp_path, correction("bore", "8 mm", source="invented"))

    assert found_over(made, "correction-needed") == []


@pytest.mark.parametrize(
    ("value", "source", "messages"),
    [
        ("39", "invented", ["the pack already says 39, from as good a source"]),
        ("39", "measured", []),
        ("40", "invented", []),
    ],
)
def test_a_fact_changes_something_too(
    tmp_path: Path, value: str, source: str, messages: list[str]
) -> None:
    made = overlay(tmp_path, fact_correction("arm_end.teeth", value, source=source))

    assert [message for *_, message in found_over(made, "correction-needed")] == messages
