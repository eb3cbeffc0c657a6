"""Rule `usual-directions`: bar, arm and load of an axle point where vehicles have them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from flawed_packs import found
from sound_packs import sound_pack, written

RULE = "usual-directions"

SLIPS: dict[str, tuple[str, dict[str, Any], str]] = {
    "anchor ahead": ("van", {"bar_axis": [-1, 0, 0]}, "bar_axis has the anchor of a front axle"),
    "the other axle": ("van", {"place": "rear"}, "bar_axis has the anchor of a rear axle behind"),
    "arm end inboard": ("trailer", {"bar_axis": [0, -1, 0]}, "bar_axis has the arm end of the"),
    "arms along": (
        "van",
        {"bar_axis": [0, 1, 0], "arm_direction": [-1, 0, 0]},
        "arm_direction has the arms along the vehicle",
    ),
    "wheels ahead": ("trailer", {"arm_direction": [1, 0, 0]}, "arm_direction has the wheels of"),
    "a hub that tilts": ("van", {"load_at": "hub"}, "load_at is 'hub'"),
    "a wheel that rolls": ("trailer", {"load_at": "tyre contact"}, "load_at is 'tyre contact'"),
    "a trailer's front": ("trailer", {"place": "front"}, "a trailer (drive 'none') has its only"),
}


@pytest.mark.parametrize("family", ["van", "truck", "trailer"])
def test_sound_packs_point_as_vehicles_do(tmp_path: Path, family: str) -> None:
    assert found(written(sound_pack(0, family), tmp_path), RULE) == []


@pytest.mark.parametrize(("family", "wrong", "message"), SLIPS.values(), ids=SLIPS)
def test_each_slip_is_told(
    tmp_path: Path, family: str, wrong: dict[str, Any], message: str
) -> None:
    pack = sound_pack(0, family)
    pack["chassis"][0]["axles"][0].update(wrong)
    findings = found(written(pack, tmp_path), RULE)
    assert any(finding.message.startswith(message) for finding in findings)
    assert all(f.of.startswith("chassis/one.axles[0].") for f in findings)
    assert all((f.code, f.severity) == ("R309", bw.answers.Severity.WARNING) for f in findings)
    assert all(f.remedy for f in findings)


def test_a_trailer_with_two_axles_may_have_one_in_front(tmp_path: Path) -> None:
    pack = sound_pack(2, "trailer")
    (chassis,) = pack["chassis"]
    (axle,) = chassis["axles"]
    chassis["axles"] = [axle, {**axle, "place": "front"}]
    assert found(written(pack, tmp_path), RULE) == []
