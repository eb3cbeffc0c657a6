"""Rule `unmatched-spline`: a spline has a counterpart."""

from __future__ import annotations

from pathlib import Path

import barwright as bw
from flawed_packs import changed, small_pack, subjects
from sample_packs import GOOD_PACK, SPECIMENS

ARM = GOOD_PACK / "parts.toml"


def test_a_spelling_of_the_form_is_told_at_both(tmp_path: Path) -> None:
    change = ("parts.toml", 'form = "involute"', 'form = "Involute"')
    findings = changed(tmp_path, "unmatched-spline", change)
    assert [(f.of, f.message) for f in findings] == [
        ("arm/one.socket", "no bar end in the pack has 39 teeth of form 'Involute'"),
        ("bar/one.arm_end", "no socket in the pack has 39 teeth of form 'involute'"),
    ]
    assert {(f.code, f.severity) for f in findings} == {("R205", bw.answers.Severity.WARNING)}


def test_a_count_of_teeth_is_told(tmp_path: Path) -> None:
    change = ("parts.toml", "anchor_end = { teeth = 42", "anchor_end = { teeth = 41")
    findings = changed(tmp_path, "unmatched-spline", change)
    assert [f.of for f in findings] == ["bar/one.anchor_end", "tube/one.socket"]


def test_a_pack_of_arms_alone_goes_with_the_bars_of_others(tmp_path: Path) -> None:
    text = ARM.read_text(encoding="utf-8").partition("[[bar]]")[0].replace("desk", "invented")
    assert "[[arm]]" in text
    assert subjects(small_pack(tmp_path, text), "unmatched-spline") == []


def test_nothing_is_said_while_some_of_it_is_broken(tmp_path: Path) -> None:
    changes = [
        ("parts.toml", 'form = "involute"', 'form = "Involute"'),
        ("parts.toml", 'open_length = "674 mm"', 'open_length = "674"'),
    ]
    assert changed(tmp_path, "unmatched-spline", *changes) == []


def test_a_pack_of_bars_and_tubes_goes_with_the_arms_of_others(tmp_path: Path) -> None:
    text = (SPECIMENS / "rack" / "parts.toml").read_text(encoding="utf-8")
    text = text.replace('"desk"', '"invented"')
    assert "[[arm]]" not in text
    assert subjects(small_pack(tmp_path, text), "unmatched-spline") == []


def test_a_tube_is_no_counterpart_of_an_arm_end(tmp_path: Path) -> None:
    arm_end = 'arm_end = { teeth = 39, form = "involute"'
    change = ("parts.toml", arm_end, arm_end.replace("39", "42"))
    findings = changed(tmp_path, "unmatched-spline", change)
    assert [f.of for f in findings] == ["arm/one.socket", "bar/one.arm_end"]
