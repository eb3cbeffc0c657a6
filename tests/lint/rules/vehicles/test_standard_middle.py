"""Rule `standard-middle`: the nut is as near its middle as tolerances explain."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from barwright.lint.corners.suspects import MOST_EXPLAINED
from barwright.lint.rules.vehicles import standard_middle
from flawed_packs import changed, found, reported, subjects
from sample_packs import GOOD_PACK
from sound_packs import sound_pack, written

RULE = "standard-middle"
KEY = 'key_angle = "17.5 deg"'
MASS = 'standard_mass = "291 kg"'


def test_the_good_pack_has_its_nut_in_the_middle() -> None:
    assert subjects(GOOD_PACK, RULE) == []


SLIPS = {
    "scale": ("vehicles.toml", MASS, 'standard_mass = "325.5 kg"', "standard_mass 291 kg, not"),
    "radius": ("parts.toml", '"338 mm ± 0.5 mm"', '"383 mm ± 0.5 mm"', "arm/one.radius 338 mm"),
    "key": ("parts.toml", KEY, 'key_angle = "15.7 deg"', "arm/one.socket.key_angle 17.5°"),
    "height": (
        "vehicles.toml",
        'standard_height = "404 mm"',
        'standard_height = "440 mm"',
        "standard_height 404 mm",
    ),
    "a tube": ("parts.toml", '"46 mm"', '"64 mm"', "tube/one.outside_diameter 46 mm"),
}


@pytest.mark.parametrize(("file", "old", "new", "named"), SLIPS.values(), ids=SLIPS)
def test_the_slip_that_explains_it_is_named(
    tmp_path: Path, file: str, old: str, new: str, named: str
) -> None:
    remedies = [
        finding.remedy
        for rule in (RULE, "standard-stands")
        for finding in changed(tmp_path / rule, rule, (file, old, new))
    ]
    name = named.split(" ", maxsplit=1)[0]
    assert remedies
    assert all(name in remedy for remedy in remedies)


def test_what_is_said_of_it(tmp_path: Path) -> None:
    finding, *others = changed(tmp_path, RULE, ("parts.toml", KEY, 'key_angle = "21.5 deg"'))
    file, line, of, message = reported(finding)
    assert (file, line, of, others) == ("vehicles.toml", 7, "chassis/one.axles[0]", [])
    assert message.startswith("front left, front right: for the standard_height of 404 mm, with")
    assert "turns counter-clockwise from its middle" in message
    assert finding.remedy.startswith("one of these alone would explain it: ")
    assert (finding.code, finding.severity) == ("R305", bw.answers.Severity.WARNING)


def test_a_fixed_socket_has_no_middle(tmp_path: Path) -> None:
    trailer = sound_pack(2, "trailer")
    trailer["arm"][0]["socket"]["key_angle"] = "3 deg"
    assert found(written(trailer, tmp_path), RULE) == []


def refusing(*_: object) -> None:
    raise bw.GeometryError("G101", value="1 mm", expected="2 mm", remedy="measure", key="radius")


def test_a_corner_that_cannot_be_computed_is_told_by_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(standard_middle, "off_tolerance", refusing)
    assert changed(tmp_path, RULE, ("parts.toml", KEY, 'key_angle = "21.5 deg"')) == []


@pytest.mark.rare
def test_of_very_many_corners_only_the_first_are_explained(tmp_path: Path) -> None:
    pack = sound_pack(0, "van")
    (chassis,) = pack["chassis"]
    pack["arm"][0]["socket"]["key_angle"] = "21.5 deg"
    (axle,) = chassis["axles"]
    few = MOST_EXPLAINED // 2
    masses = range(few + 3)
    number = float(axle["standard_mass"].split()[0])
    start = float(sound_pack(0, "van")["arm"][0]["socket"]["key_angle"].split()[0])
    pack["arm"][0]["socket"]["key_angle"] = f"{start + 4:.1f} deg"
    pack["chassis"] = [
        {
            **chassis,
            "id": f"one-{more}",
            "title": f"Van {more}, invented",
            "axles": [{**axle, "standard_mass": f"{number + more / 10:.1f} kg"}],
        }
        for more in masses
    ]
    remedies = [finding.remedy for finding in found(written(pack, tmp_path), RULE)]
    explained = [text for text in remedies if text.startswith("one of these")]
    assert len(explained) == few
    assert len(remedies) > len(explained)


def test_a_figure_that_is_not_found_in_a_few_rounds_is_not_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("barwright.lint.corners.suspects._ROUNDS", 1)

    (finding,) = changed(tmp_path, RULE, ("parts.toml", KEY, 'key_angle = "21.5 deg"'))

    assert " of about " not in finding.remedy
