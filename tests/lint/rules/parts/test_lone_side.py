"""Rule `lone-side`: a part made for one side has its counterpart for the other."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import added, found, reported, subjects
from sample_packs import GOOD_PACK

PARTS = (GOOD_PACK / "parts.toml").read_text(encoding="utf-8")


def one(kind: str, name: str, *lines: str) -> str:
    """A part of the good pack under another name, with further keys."""
    text = PARTS.partition(f"[[{kind}]]\n")[2].partition("\n\n")[0]
    named = text.replace('id = "one"', f'id = "{name}"').replace('title = "', f'title = "{name} ')
    return "\n".join([f"[[{kind}]]", named, *lines, ""])


def with_blanks(bar: str, blanks: str) -> str:
    """A bar of the good pack with blanks at its arm end, which has 39 teeth."""
    last = 'taper = "22 mm"'
    assert last in bar
    return bar.replace(last, f"{last}, blanks = {blanks}")


@pytest.mark.parametrize("kind", ["arm", "bar", "tube"])
@pytest.mark.parametrize(("side", "other"), [("left", "right"), ("right", "left")])
def test_a_part_for_one_side_has_its_like(tmp_path: Path, kind: str, side: str, other: str) -> None:
    lone = one(kind, "two", f'made_for = "{side}"')
    (finding,) = found(added(tmp_path / "a", lone), "lone-side")
    message = f"it has no counterpart for the {other} side"
    assert reported(finding) == ("more.toml", 1, f"{kind}/two", message)
    assert (finding.code, finding.severity) == ("R207", bw.answers.Severity.WARNING)
    pair = [lone, one(kind, "three", f'made_for = "{other}"')]
    assert subjects(added(tmp_path / "b", *pair), "lone-side") == []


@pytest.mark.parametrize(
    ("other", "is_mirrored"), [("-4.3 deg", True), ("4.3 deg", False), ("-4.2 deg", False)]
)
def test_blanks_set_apart_are_mirrored(tmp_path: Path, other: str, *, is_mirrored: bool) -> None:
    pair = [
        one("bar", "l", 'made_for = "left"', 'blank_angle = "4.3 deg"'),
        one("bar", "r", 'made_for = "right"', f'blank_angle = "{other}"'),
    ]
    of = subjects(added(tmp_path, *pair), "lone-side")
    assert of == ([] if is_mirrored else ["bar/l", "bar/r"])


@pytest.mark.parametrize(
    ("other", "is_mirrored"),
    [("[0, 36]", True), ("[0, -3]", True), ("[36, 0]", True), ("[0, 3]", False), ("[0]", False)],
)
def test_further_blanks_of_an_end_are_mirrored(
    tmp_path: Path, other: str, *, is_mirrored: bool
) -> None:
    pair = [
        with_blanks(one("bar", "l", 'made_for = "left"'), "[0, 3]"),
        with_blanks(one("bar", "r", 'made_for = "right"'), other),
    ]
    of = subjects(added(tmp_path, *pair), "lone-side")
    assert of == ([] if is_mirrored else ["bar/l", "bar/r"])


def test_the_angle_of_a_key_is_the_same_on_both_sides(tmp_path: Path) -> None:
    right = one("arm", "r", 'made_for = "right"').replace("17.5 deg", "-17.5 deg")
    pack = added(tmp_path, one("arm", "l", 'made_for = "left"'), right)
    assert subjects(pack, "lone-side") == ["arm/l", "arm/r"]


def test_a_part_for_either_side_needs_no_other(tmp_path: Path) -> None:
    assert subjects(added(tmp_path, one("bar", "two")), "lone-side") == []


def test_a_part_that_is_quite_another_is_not_named_as_the_nearest(tmp_path: Path) -> None:
    lone = one("bar", "two", 'made_for = "left"')
    other = one("bar", "three", 'made_for = "right"')
    changed = re.sub(r'"(\d)', r'"9\1', re.sub(r"teeth = \d", "teeth = 1", other))
    (finding, _) = found(added(tmp_path, lone, changed), "lone-side")
    assert reported(finding)[3] == "it has no counterpart for the right side"
