"""Rule `mirror`: left mirrors right."""

from __future__ import annotations

from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.lint.rules.vehicles import mirror
from flawed_packs import changed, reported, subjects
from sample_packs import GOOD_PACK

PARTS = (GOOD_PACK / "parts.toml").read_text(encoding="utf-8")
BAR = "[[bar]]" + PARTS.partition("[[bar]]")[2].partition("[[tube]]")[0]
LEFT = 'adjuster = "adjuster/one", damper = "damper/one" }\n'
RIGHT = 'right = { arm = "arm/one", bar = "bar/two", tube = "tube/one", '


def on_the_right(old: str, new: str, left: str = "") -> list[tuple[str, str, str]]:
    """Changes that put another bar on the right corner, and change the left one too."""
    other = BAR.replace('id = "one"', 'id = "two"').replace(old, new)
    return [
        ("parts.toml", BAR, f"{BAR.replace(old, left or old)}{other}"),
        ("vehicles.toml", LEFT, f"{LEFT}{RIGHT}{LEFT}"),
    ]


def test_one_bar_on_both_sides_mirrors() -> None:
    assert subjects(GOOD_PACK, "mirror") == []


def test_blanks_set_apart_on_both_sides_are_told_with_what_to_do(tmp_path: Path) -> None:
    """The free angle goes up on one side and down on the other, by the angle of the blanks."""
    blanks = 'at = "page 3"\nblank_angle = "0.5 deg"'
    (finding,) = changed(tmp_path, "mirror", ("parts.toml", 'at = "page 3"', blanks))
    file, line, of, message = reported(finding)
    assert (file, line, of, finding.code) == ("vehicles.toml", 7, "chassis/one.axles[0]", "R303")
    assert message.startswith("on the keys, left and right differ: free angle ")
    one, other = (float(part.strip(" °")) for part in message.rpartition("angle ")[2].split("and"))
    assert abs(one - other) == pytest.approx(1.0, abs=1e-4)
    assert finding.remedy.startswith("a bar with blank_angle is made for one side")


def test_a_pair_of_bars_with_opposite_blanks_mirrors(tmp_path: Path) -> None:
    page = 'at = "page 3"'
    left, right = (f'{page}\nblank_angle = "{angle}"' for angle in ("0.5 deg", "-0.5 deg"))
    assert changed(tmp_path / "a", "mirror", *on_the_right(page, right, left)) == []
    (finding,) = changed(tmp_path / "b", "mirror", *on_the_right(page, right))
    assert finding.remedy.startswith("compare the figures of the left and right")


def test_a_thicker_bar_on_one_side_is_told(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, "mirror", *on_the_right("23.3 mm", "23.4 mm"))
    assert "left and right differ: height" in finding.message


def test_corners_that_do_not_fit_are_not_compared(tmp_path: Path) -> None:
    assert changed(tmp_path, "mirror", *on_the_right('length = "904 mm"', 'length = "99 cm"')) == []


def refusing(*_: object) -> None:
    raise bw.GeometryError("G101", value="1 mm", expected="2 mm", remedy="measure", key="radius")


def test_a_corner_that_cannot_be_computed_is_left_to_another_rule(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(mirror, "ride", refusing)
    assert subjects(GOOD_PACK, "mirror") == []


def test_corners_without_a_rest_are_compared_by_their_free_angles(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[bw.parts.Side] = []

    def without_a_rest(setup: bw.Setup) -> bw.answers.Ride:
        asked.append(setup.side)
        rest = bw.ride(setup)
        assert rest.free_angle is not None
        apart = rest.free_angle * (2.0 if setup.side is bw.parts.Side.RIGHT else 1.0)
        return attrs.evolve(rest, state=None, free_angle=apart)

    monkeypatch.setattr(mirror, "ride", without_a_rest)

    (finding,) = [f for f in bw.lint_pack(GOOD_PACK).findings if f.rule == "mirror"]
    assert "left and right differ: free angle" in finding.message
    assert set(asked) == set(bw.parts.Side)
