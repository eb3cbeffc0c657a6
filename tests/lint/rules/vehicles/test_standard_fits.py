"""Rule `standard-fits`: what left the works fits."""

from __future__ import annotations

from pathlib import Path

import pytest

from flawed_packs import changed, reported, subjects
from sample_packs import GOOD_PACK

TOO_LONG = "the bar is too long: its splines cannot lie in both sockets at once"
RIGHT = """
right = { arm = "arm/one", bar = "bar/two", tube = "tube/one", adjuster = "adjuster/one", damper = \
"damper/one" }
"""


def test_the_good_pack_fits() -> None:
    assert subjects(GOOD_PACK, "standard-fits") == []


def test_both_corners_are_told_at_once_with_figure_and_limit(tmp_path: Path) -> None:
    change = ("parts.toml", 'length = "904 mm"', 'length = "990 mm"')
    (finding,) = changed(tmp_path, "standard-fits", change)
    assert reported(finding) == (
        "vehicles.toml",
        7,
        "chassis/one.axles[0]",
        f"front left, front right: {TOO_LONG}; found 990.0 mm, limit 980.0 mm",
    )
    assert (finding.code, finding.key) == ("R301", "chassis[0].axles[0]")


FLAWS = {
    "a cap without holes": ("cap_holes_position", '"885 mm"', '"880 mm"', "drill new holes"),
    "a lever off its bolt": ("bolt_position", '"127 mm"', '"120 mm"', "is too far from the"),
    "a linkage that turns back": ("top_up", '"611 mm"', '"61 mm"', "a damper that shortens"),
}


@pytest.mark.parametrize(("key", "old", "new", "message"), FLAWS.values(), ids=FLAWS)
def test_everything_that_keeps_it_from_fitting_is_told(
    tmp_path: Path, key: str, old: str, new: str, message: str
) -> None:
    change = ("vehicles.toml", f"{key} = {old}", f"{key} = {new}")
    findings = changed(tmp_path, "standard-fits", change)
    assert any(message in finding.message for finding in findings)


def test_one_corner_is_told_alone(tmp_path: Path) -> None:
    parts = (GOOD_PACK / "parts.toml").read_text(encoding="utf-8")
    bar = "[[bar]]" + parts.partition("[[bar]]")[2].partition("[[tube]]")[0]
    long = bar.replace('id = "one"', 'id = "two"').replace("904", "990")
    left = 'damper = "damper/one" }\n'
    changes = [
        ("parts.toml", "[[tube]]", f"{long}\n[[tube]]"),
        ("vehicles.toml", left, left + RIGHT.replace("\\\n", "").strip() + "\n"),
    ]
    (finding,) = changed(tmp_path, "standard-fits", *changes)
    assert finding.message.startswith(f"front right: {TOO_LONG}")
