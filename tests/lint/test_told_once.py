"""Tests of `barwright.lint.told_once`: what a record takes of another is told where it stands."""

from __future__ import annotations

from pathlib import Path

import barwright as bw
from flawed_packs import added

BASE = """
[[chassis]]
id = "base"
title = "Base"
source = "desk"
like = "chassis/one"
wheelbase = "231 mm"
without = ["axles.front.hub_up"]

[[chassis.axles]]
place = "front"
tyre_radius = "83 mm"
{}
"""
MORE = """
[[chassis]]
id = "more"
title = "More"
source = "desk"
like = "chassis/base"
codes = ["X"]

[[chassis]]
id = "shared"
title = "Shared"
source = "desk"
wheelbase = "2310 mm"
codes = ["Y"]
axles = [{ place = "front", like = "chassis/more" }]
"""


def told(tmp_path: Path, *texts: str) -> list[str]:
    findings = bw.lint_pack(added(tmp_path, *texts)).findings
    # A wheel that no vehicle has is out of proportion to all around it too.
    return [f"{one.rule} {one.of}" for one in findings if one.rule != "usual-places"]


def test_a_finding_of_what_is_taken_is_told_once(tmp_path: Path) -> None:
    assert told(tmp_path, BASE.format(""), MORE) == [
        "unknown-figures chassis/base",
        "plausible chassis/base.wheelbase",
        "plausible chassis/base.axles[0].tyre_radius",
    ]


def test_a_finding_of_an_axle_is_told_once(tmp_path: Path) -> None:
    found = told(tmp_path, BASE.format('hub_up = "48 mm"\ntube_position = "196 mm"'), MORE)

    assert {one for one in found if "standard-fits" in one} == {
        "standard-fits chassis/base.axles[0]"
    }


def test_what_a_record_states_again_is_told_again(tmp_path: Path) -> None:
    again = MORE.replace('codes = ["X"]', 'codes = ["X"]\nwheelbase = "231 mm"')

    assert told(tmp_path, BASE.format('hub_up = "48 mm"'), again) == [
        "plausible chassis/base.wheelbase",
        "plausible chassis/base.axles[0].tyre_radius",
        "plausible chassis/more.wheelbase",
    ]


def test_a_gap_of_its_own_is_told_without_those_that_are_taken(tmp_path: Path) -> None:
    own = MORE.replace('codes = ["X"]', 'codes = ["X"]\nwithout = ["axles.front.droop_stop"]')
    findings = bw.lint_pack(added(tmp_path, BASE.format(""), own)).findings

    assert [(one.of, one.message) for one in findings if one.rule == "unknown-figures"] == [
        ("chassis/base", "unknown: axles[0].hub_up"),
        ("chassis/more", "unknown: axles[0].droop_stop"),
    ]


def test_a_record_like_another_that_differs_in_nothing_is_a_copy(tmp_path: Path) -> None:
    copy = '[[damper]]\nid = "two"\ntitle = "D"\nsource = "desk"\nlike = "damper/one"\n'

    assert "same-content damper/two" in told(tmp_path, copy)


def test_a_pair_is_mirrored_by_a_difference(tmp_path: Path) -> None:
    left = """
[[bar]]
id = "left"
title = "Left bar"
source = "desk"
like = "bar/one"
made_for = "left"
preset = true
blank_angle = "3 deg"
"""
    right = """
[[bar]]
id = "right"
title = "Right bar"
source = "desk"
like = "bar/left"
made_for = "right"
blank_angle = "-3 deg"
"""
    assert [one for one in told(tmp_path, left, right) if "lone-side" in one] == []
