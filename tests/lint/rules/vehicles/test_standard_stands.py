"""Rule `standard-stands`: what left the works stands at its height."""

from __future__ import annotations

from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.lint.rules.vehicles import standard_stands
from barwright.lint.rules.vehicles.standard_stands import _against
from flawed_packs import changed, found, reported, subjects
from sample_packs import GOOD_PACK
from sample_records import make_setup

RULE = "standard-stands"
BOTH = "front left, front right"
ON_KEYS = "with its blanks on the keys"
KEY = 'key_angle = "17.5 deg"'


def test_the_good_pack_stands() -> None:
    assert subjects(GOOD_PACK, RULE) == []


def test_a_nut_beyond_its_thread_is_told_with_the_heights_that_it_gives(tmp_path: Path) -> None:
    """A key angle that is 14.5° off, more than a tooth of either end."""
    (finding,) = changed(tmp_path, RULE, ("parts.toml", KEY, 'key_angle = "28.3 deg"'))
    assert reported(finding) == (
        "vehicles.toml",
        7,
        "chassis/one.axles[0]",
        (
            f"{BOTH}: {ON_KEYS} it stands at 415.0 mm to 485.1 mm, not at 404 mm: "
            "its free angle is -37.5° in the middle of the thread but should be -26.7°"
        ),
    )
    assert finding.code == "R302"


KEEPING = {
    "out of travel": (
        ("vehicles.toml", 'standard_height = "404 mm"', 'standard_height = "700 mm"'),
        "the wanted height is outside the travel",
    ),
    "gas alone": (
        ("vehicles.toml", 'standard_mass = "291 kg"', 'standard_mass = "1 kg"'),
        "gas, rubber or coil carry the load there",
    ),
    "wound up on every clocking": (
        ("vehicles.toml", 'standard_mass = "291 kg"', 'standard_mass = "900 kg"'),
        "wherever the nut stands, the bar is still twisted",
    ),
    "wound up on the keys alone": (
        ("parts.toml", KEY, 'key_angle = "24.3 deg"'),
        "with its blanks on the keys: wherever the nut stands, the bar is still twisted",
    ),
}


@pytest.mark.parametrize(("change", "message"), KEEPING.values(), ids=KEEPING)
def test_what_keeps_it_from_standing_is_told(
    tmp_path: Path, change: tuple[str, str, str], message: str
) -> None:
    finding, *_ = changed(tmp_path, RULE, change)
    assert finding.message.startswith(f"{BOTH}: {message}")


@pytest.mark.parametrize("standing", [True, False])
def test_strength_is_the_business_of_another_rule(tmp_path: Path, *, standing: bool) -> None:
    weak = ("steel.toml", "shear_modulus", 'permissible_shear = "300 MPa"\nshear_modulus')
    off = ("parts.toml", KEY, 'key_angle = "28.3 deg"')
    said = [one.message for one in changed(tmp_path, RULE, weak, *([] if standing else [off]))]

    assert not any("stress" in text for text in said)
    assert bool(said) is not standing


def test_a_corner_that_does_not_fit_is_not_told_twice(tmp_path: Path) -> None:
    change = ("parts.toml", 'length = "904 mm"', 'length = "990 mm"')
    assert changed(tmp_path, RULE, change) == []


def refusing(*_: object) -> None:
    raise bw.GeometryError("G101", value="1 mm", expected="2 mm", remedy="measure", key="radius")


def test_a_corner_that_cannot_be_computed_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(standard_stands, "reindex", refusing)
    (finding,) = found(GOOD_PACK, RULE)
    assert finding.message == f"{BOTH}: got '1 mm', expected 2 mm"


# -- A fixed socket ------------------------------------------------------------------

SOCKET = """[[fixed-socket]]
id = "one"
title = "Socket"
source = "desk"
anchor_angle = "{}"
socket_position = "772 mm"
socket = {{ teeth = 42, form = "involute", length = "38 mm", minor_diameter = "31.1 mm", \
required_engagement = "24 mm", key_angle = "-181 deg" }}

"""


def fixed(folder: Path, angle: str) -> list[str]:
    """What is found of the good pack with a socket at an angle in the place of its tube."""
    parts, vehicles = (
        (GOOD_PACK / f"{name}.toml").read_text(encoding="utf-8") for name in ("parts", "vehicles")
    )
    tube = "[[tube]]" + parts.partition("[[tube]]")[2].partition("[[damper]]")[0]
    on_it = 'tube = "tube/one", adjuster = "adjuster/one"'
    places = 'bolt_position = "127 mm"\ncap_holes_position = "885 mm"\n'
    assert places in vehicles
    findings = changed(
        folder,
        RULE,
        ("parts.toml", tube, SOCKET.format(angle)),
        ("vehicles.toml", on_it, 'tube = "fixed-socket/one"'),
        ("vehicles.toml", places, ""),
    )
    return [finding.message for finding in findings]


def test_a_socket_that_nothing_adjusts_gives_the_height_or_another_one(tmp_path: Path) -> None:
    assert fixed(tmp_path / "a", "175 deg") == []
    (message,) = fixed(tmp_path / "b", "178 deg")
    assert message.startswith(f"{BOTH}: {ON_KEYS} it stands at 38")
    assert message.endswith("not at 404 mm: its free angle is -20.5° but should be -24.4°")


def test_a_plan_on_the_keys_that_is_refused_says_why() -> None:
    first = bw.reindex(make_setup(), wanted=bw.Wanted(height="349 mm")).plans[0]
    finding = bw.answers.Finding(topic=bw.answers.Topic.ASSEMBLY, text="no way out")
    refused = attrs.evolve(first, verdict=bw.Verdict.NO_SAFE_WAY, findings=(finding,))
    assert list(_against(refused)) == [finding]
