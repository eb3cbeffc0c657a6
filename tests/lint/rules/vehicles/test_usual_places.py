"""Rule `usual-places`: hub, mounts, wheel and load of a corner are such as vehicles have."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from flawed_packs import changed, found, reported, subjects
from sample_packs import GOOD_PACK
from sound_packs import sound_pack, written

RULE = "usual-places"

SLIPS = {
    "hub_outboard": ('hub_outboard = "92 mm"', 'hub_outboard = "-92 mm"'),
    "hub_up": ('hub_up = "48 mm"', 'hub_up = "-48 mm"'),
    "suspension.top_outboard": ('top_outboard = "268 mm"', 'top_outboard = "518 mm"'),
    "reference_angle": ('reference_angle = "-5 deg"', 'reference_angle = "6 deg"'),
    "tyre_radius": ('tyre_radius = "283 mm"', 'tyre_radius = "566 mm"'),
    "tyre_rate": ('tyre_rate = "185 N/mm"', 'tyre_rate = "1056 N/mm"'),
    "unsprung_mass": ('unsprung_mass = "34.5 kg"', 'unsprung_mass = "3.45 kg"'),
}


def test_the_good_pack_is_as_vehicles_are() -> None:
    assert subjects(GOOD_PACK, RULE) == []


@pytest.mark.parametrize(("key", "slip"), SLIPS.items(), ids=SLIPS)
def test_each_slip_is_told_at_its_figure(tmp_path: Path, key: str, slip: tuple[str, str]) -> None:
    findings = changed(tmp_path, RULE, ("vehicles.toml", *slip))
    assert f"chassis/one.axles[0].{key}" in [reported(f)[2] for f in findings]
    assert all((f.code, f.severity) == ("R308", bw.answers.Severity.WARNING) for f in findings)


@pytest.mark.parametrize(("height", "where"), [(687, "far above"), (285, "into")])
def test_heights_count_from_the_hub(tmp_path: Path, height: int, where: str) -> None:
    changes = [
        ("vehicles.toml", f'{name} = "404 mm', f'{name} = "{height} mm')
        for name in ("standard_height", "measured_height")
    ]
    messages = [finding.message for finding in changed(tmp_path, RULE, *changes)]
    assert any(f"the arch would lie {where} the tyre" in message for message in messages)


def test_what_is_not_known_is_passed_over(tmp_path: Path) -> None:
    change = ("vehicles.toml", 'hub_outboard = "92 mm"', 'hub_outboard = "unknown"')
    assert changed(tmp_path, RULE, change) == []


@pytest.mark.parametrize(
    ("angle", "said"),
    [("-25 deg", "does not lie between"), ("-4.6 deg", ""), ("0 deg", ""), ("3 deg", "")],
)
def test_the_hub_was_measured_within_the_travel(tmp_path: Path, angle: str, said: str) -> None:
    change = ("vehicles.toml", 'reference_angle = "-5 deg"', f'reference_angle = "{angle}"')
    messages = [finding.message for finding in changed(tmp_path, RULE, change)]
    assert [said in message for message in messages] == [True] * bool(said)


def test_an_arm_that_was_level_has_no_wrong_sign(tmp_path: Path) -> None:
    changes = [
        ("vehicles.toml", 'reference_angle = "-5 deg"', 'reference_angle = "1 deg"'),
        ("vehicles.toml", 'measured_angle = "-5 deg', 'measured_angle = "-1.2 deg'),
    ]
    assert not changed(tmp_path, RULE, *changes)


def truck(tmp_path: Path, **rubber: Any) -> list[bw.answers.LintFinding]:
    pack = sound_pack(1, "truck")
    curve = [{"compression": "10 mm", "force": "900 N"}, {"compression": "20 mm", "force": "2 kN"}]
    usual = {"contact_angle": "7.5 deg", "contact_radius": "295 mm", "curve": curve}
    pack["chassis"][0]["axles"][0]["bump_rubber"] = {**usual, **rubber}
    return found(written(pack, tmp_path), RULE)


def test_a_bump_rubber_lies_between_rest_and_stop(tmp_path: Path) -> None:
    assert truck(tmp_path) == []
    (finding,) = truck(tmp_path, contact_angle="-7.5 deg")
    assert "bump_rubber.contact_angle -7.5° does not lie between" in finding.message


def test_a_bump_rubber_carries_newtons(tmp_path: Path) -> None:
    (finding,) = truck(tmp_path, curve=[{"compression": "10 mm", "force": "900 kN"}])
    assert finding.of == "chassis/one.axles[0].bump_rubber"
    assert finding.message.endswith("times the load of standard_mass 452 kg")


def test_linkages_that_do_not_close_are_told_by_another(tmp_path: Path) -> None:
    pack = sound_pack(1, "truck")
    pack["chassis"][0]["axles"][0]["suspension"]["upper_radius"] = "60 mm"
    folder = written(pack, tmp_path)
    assert found(folder, "standard-fits")
    assert [f.of for f in found(folder, RULE) if "arch" in f.message] == []
