"""Rules pass over what rests on a figure that nobody knows, and look at all the rest."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import added, changed, small_pack, subjects
from sample_overlays import correction, overlay
from sample_packs import changed_pack

Change = tuple[str, str, str]

THICK: Change = ("parts.toml", "23.3 mm ± 0.05 mm", "30.4 mm ± 0.05 mm")
LONG: Change = ("parts.toml", 'length = "904 mm"', 'length = "985 mm"')
ODD_TEETH: Change = ("parts.toml", "anchor_end = { teeth = 42", "anchor_end = { teeth = 41")
FEW_TEETH: Change = ("parts.toml", "socket = { teeth = 39", "socket = { teeth = 5")
HEAVY: Change = ("vehicles.toml", 'standard_mass = "291 kg"', 'standard_mass = "480 kg"')


@pytest.mark.parametrize(
    ("rule", "flaw", "gap", "left"),
    [
        (
            "weak-head",
            THICK,
            ("parts.toml", 'root_diameter = "28.1 mm", ', ""),
            ["bar/one.anchor_end.root_diameter"],
        ),
        ("unmatched-spline", ODD_TEETH, ("parts.toml", "socket = { teeth = 42,", "socket = {"), []),
        (
            "unmatched-spline",
            FEW_TEETH,
            ("parts.toml", "arm_end = { teeth = 39,", "arm_end = {"),
            [],
        ),
        ("plausible", FEW_TEETH, ("parts.toml", "teeth = 5", 'teeth = "unknown"'), []),
        ("standard-fits", LONG, ("vehicles.toml", 'tube_position = "96 mm"', ""), []),
        ("standard-stands", HEAVY, ("vehicles.toml", 'hub_up = "48 mm"', ""), []),
    ],
)
def test_what_rests_on_a_gap_is_passed_over(
    tmp_path: Path, rule: str, flaw: Change, gap: Change, left: list[str]
) -> None:
    (tmp_path / "gap").mkdir()
    assert len(changed(tmp_path, rule, flaw)) > len(left)
    assert [finding.of for finding in changed(tmp_path / "gap", rule, flaw, gap)] == left


def damper(name: str, *lines: str) -> str:
    """A damper with figures of its own."""
    head = ("[[damper]]", f'id = "{name}"', f'title = "{name}"', 'source = "invented"')
    return "\n".join((*head, *lines, ""))


OPEN, CLOSED = 'open_length = "500 mm"', 'closed_length = "300 mm"'


@pytest.mark.parametrize(("closed", "copies"), [(CLOSED, ["damper/two"]), ("", [])])
def test_parts_may_differ_in_what_is_unknown(
    tmp_path: Path, closed: str, copies: list[str]
) -> None:
    data = damper("one", OPEN, closed) + damper("two", OPEN, closed)
    assert subjects(small_pack(tmp_path, data), "same-content") == copies


def arm(name: str, side: str, radius: str) -> str:
    """An arm that is made for one side."""
    head = ("[[arm]]", f'id = "{name}"', f'title = "{name}"', 'source = "desk"')
    socket = 'socket = { form = "involute", length = "38 mm", teeth = 39, key_angle = "1 deg", '
    socket += 'minor_diameter = "28.6 mm", required_engagement = "24 mm" }'
    return "\n".join((*head, f'made_for = "{side}"', f'radius = "{radius}"', socket, ""))


def test_a_part_of_which_not_all_is_known_may_be_the_counterpart(tmp_path: Path) -> None:
    others = [arm("short", "left", "300 mm"), arm("other", "right", "320 mm")]
    assert subjects(added(tmp_path, *others), "lone-side") == ["arm/short", "arm/other"]
    (tmp_path / "gap").mkdir()
    others += [arm("rusty", "right", "unknown")]
    assert subjects(added(tmp_path / "gap", *others), "lone-side") == ["arm/other"]


def test_a_record_with_gaps_names_its_sources(tmp_path: Path) -> None:
    gas = 'gas = { force = "unknown", at_length = "unknown", source = "maker" }'
    unused = subjects(small_pack(tmp_path, damper("one", gas)), "unused-source")
    assert unused == ["source/measured", "source/published", "source/recalled"]


CHECKS = """
[[check]]
computes = "bar_rate"
of = "bar/one"
is = "1 N*m/deg"
source = "desk"
at = "page 1"

[[check]]
computes = "tube_rate"
of = "tube/one"
is = "1 N*m/deg"
source = "desk"
at = "page 1"
"""


def test_a_check_of_what_is_unknown_is_passed_over(tmp_path: Path) -> None:
    pack = added(tmp_path, CHECKS)
    assert subjects(pack, "check-holds") == ["bar/one.bar_rate", "tube/one.tube_rate"]
    parts = pack / "parts.toml"
    text = parts.read_text(encoding="utf-8")
    parts.write_text(text.replace('length = "904 mm"\n', ""), encoding="utf-8")
    assert subjects(pack, "check-holds") == ["tube/one.tube_rate"]


def test_a_check_of_what_is_known_of_a_vehicle_with_gaps_is_held(tmp_path: Path) -> None:
    check = '[[check]]\ncomputes = "{}"\nof = "chassis/one"\ncorner = "front left"\n'
    check += 'is = "1 {}"\nsource = "desk"\nat = "page 1"\n'
    of_parts = [("bar_rate", "N*m/deg"), ("tube_rate", "N*m/deg"), ("system_rate", "N*m/deg")]
    of_corner = [("ride.wheel_rate", "N/mm"), ("ride_frequency", "Hz"), ("keyed.height", "mm")]
    pack = added(tmp_path, *(check.format(*one) for one in (*of_parts, *of_corner)))
    assert len(subjects(pack, "check-holds")) == 6
    vehicles = pack / "vehicles.toml"
    text = vehicles.read_text(encoding="utf-8")
    vehicles.write_text(text.replace('hub_up = "48 mm"\n', ""), encoding="utf-8")
    assert subjects(pack, "check-holds") == [f"chassis/one.{name}" for name, _ in of_parts]


def test_a_correction_may_fill_a_gap(tmp_path: Path) -> None:
    pack = changed_pack(tmp_path, "parts.toml", 'diameter = "23.3 mm ± 0.05 mm"\n', "")
    linted = bw.lint_pack(overlay(tmp_path, correction()), over=[pack])
    assert {finding.rule for finding in linted.findings} == {"unused-source"}
