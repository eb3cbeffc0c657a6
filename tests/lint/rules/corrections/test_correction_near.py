"""Rule `correction-near`: a correction stays near what it corrects."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import cast

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.lint.rules.corrections.correction_near import RULE
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.stated import StatedCorrection
from barwright.lint.subject.subject import Subject
from barwright.registry.packs.load import load_pack
from barwright.units import LENGTH, read_figure
from sample_overlays import correction, fact_correction, found_over, overlay
from sample_packs import GOOD_PACK, changed_pack


def test_a_figure_far_from_that_of_the_pack_is_found(tmp_path: Path) -> None:
    made = overlay(tmp_path, correction("length", "1904 mm ± 1 mm"))

    message = "1904 mm is far from 904 mm in the pack"
    expected = [("ours.toml", 4, "tiny:bar/one.length", message)]
    assert found_over(made, "correction-near") == expected


@pytest.mark.parametrize(
    ("figure", "of", "value", "count"),
    [
        ("diameter", "tiny:bar/one", "15.54 mm", 0),
        ("diameter", "tiny:bar/one", "15.53 mm", 1),
        ("length", "tiny:bar/one", "1355 mm", 0),
        ("length", "tiny:bar/one", "1357 mm", 1),
        ("bore", "tiny:bar/one", "3 mm", 0),
        ("axles.front.droop_stop", "tiny:chassis/one", "-38.9 deg", 0),
        ("axles.front.droop_stop", "tiny:chassis/one", "-39.1 deg", 1),
        ("axles.front.droop_stop", "tiny:chassis/one", "-9.1 deg", 0),
        ("socket.key_angle", "tiny:arm/one", "378 deg", 0),
        ("blank_angle", "tiny:bar/one", "14 deg", 0),
        ("blank_angle", "tiny:bar/one", "16 deg", 1),
        ("arm_end.nose", "tiny:bar/one", "3 mm", 0),
        ("axles.front.suspension.length_below", "tiny:chassis/one", "46 mm", 1),
    ],
)
def test_how_far_is_too_far(tmp_path: Path, figure: str, of: str, value: str, count: int) -> None:
    made = overlay(tmp_path, correction(figure, value, of=of))

    assert found_over(made, "loads") == []
    assert len(found_over(made, "correction-near")) == count


def test_it_is_a_warning(tmp_path: Path) -> None:
    made = overlay(tmp_path, correction("length", "1904 mm ± 1 mm"))

    findings = bw.lint_pack(made, over=[GOOD_PACK]).findings
    assert [f.severity for f in findings if f.code == "R602"] == [bw.answers.Severity.WARNING]


def test_the_limits_are_those_that_the_rule_tells() -> None:
    assert "within a factor of 1.5" in RULE.wants
    assert "or 15 degrees" in RULE.wants


def is_far(before: bw.parts.Bar, after: str) -> bool:
    """Whether the rule finds the length of a bar far from another one."""
    length = read_figure(after, LENGTH, key="").value
    place = PackPlace("bar/one.length", "ours.toml", "correction[0].is")
    stated = StatedCorrection(place, before, "length", bw.parts.Figure(value=length))
    subject = cast("Subject", SimpleNamespace(corrections=(stated,)))
    return bool(list(RULE.remarks(subject)))


BAR = cast("bw.parts.Bar", load_pack(GOOD_PACK, origin="good").parts["tiny:bar/one"])
LENGTHS = st.integers(min_value=200, max_value=3000)


@given(one=LENGTHS, other=LENGTHS)
def test_far_is_mutual_and_the_same_in_any_unit(one: int, other: int) -> None:
    bars = [
        attrs.evolve(BAR, length=read_figure(f"{n} mm", LENGTH, key="").value) for n in (one, other)
    ]

    far = is_far(bars[0], f"{other} mm")
    assert far == is_far(bars[1], f"{one} mm")
    assert far == (2 * max(one, other) > 3 * min(one, other))
    assert far == is_far(bars[0], f"{other / 10:.1f} cm")


@pytest.mark.parametrize(
    ("figure", "of", "value", "messages"),
    [
        ("arm_end.teeth", "bar/one", "58", []),
        ("arm_end.teeth", "bar/one", "93", ["93 is far from 39 in the pack"]),
        ("arm_end.form", "bar/one", '"square"', []),
        ("arm_end.blanks", "bar/one", "[0, 20]", []),
        ("made_for", "bar/one", '"left"', []),
        ("socket.keyed", "arm/one", "false", []),
        ("axles.front.arm_axis", "chassis/one", "[1.0, 0.0, 0.0]", []),
        ("axles.front.bar_axis", "chassis/one", "[1.0, 0.0, 0.26]", []),
        (
            "axles.front.bar_axis",
            "chassis/one",
            "[1.0, 0.0, 0.27]",
            ["[1.0, 0.0, 0.27] is far from [1.0, 0.0, 0.0] in the pack"],
        ),
        (
            "axles.front.bar_axis",
            "chassis/one",
            "[0.0, 0.0, 0.0]",
            ["[0.0, 0.0, 0.0] is far from [1.0, 0.0, 0.0] in the pack"],
        ),
    ],
)
def test_how_far_a_fact_may_be(
    tmp_path: Path, figure: str, of: str, value: str, messages: list[str]
) -> None:
    """Counts by their ratio, directions by the angle between them, words not at all."""
    made = overlay(tmp_path, fact_correction(figure, value, of=f"tiny:{of}"))

    assert found_over(made, "loads") == []
    assert [message for *_, message in found_over(made, "correction-near")] == messages


def test_nothing_is_far_from_a_count_that_is_not_known(tmp_path: Path) -> None:
    folder = tmp_path / "beneath"
    folder.mkdir()
    pack = changed_pack(folder, "parts.toml", "teeth = 39, form", 'teeth = "unknown", form')
    made = overlay(tmp_path, fact_correction("socket.teeth", "39", of="tiny:arm/one"))

    findings = bw.lint_pack(made, over=[pack]).findings

    assert [f.message for f in findings if f.rule in ("correction-near", "loads")] == []
