"""Rule `damper-stops`: a standard damper and the arm's stops suit each other."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from barwright.lint.rules.vehicles import damper_stops
from flawed_packs import changed, found, reported, subjects
from sample_packs import GOOD_PACK

RULE = "damper-stops"
OPEN, CLOSED = 'open_length = "674 mm"', 'closed_length = "486 mm"'
GAS = 'gas = { force = "190 N", at_length = "590 mm", slope = "-0.42 N/mm" }'
DROOP, BUMP = 'droop_stop = "-24 deg"', 'bump_stop = "17 deg"'

SLIPS = {
    "longer than the stop lets it be": (
        ("parts.toml", OPEN, 'open_length = "764 mm"'),
        "the damper never opens to its open_length of 764 mm",
    ),
    "a droop stop far away": (
        ("vehicles.toml", DROOP, 'droop_stop = "-42 deg"'),
        "the droop_stop never acts",
    ),
    "a bump stop far away": (
        ("vehicles.toml", BUMP, 'bump_stop = "27 deg"'),
        "the bump_stop never acts",
    ),
    "closed far below the stop": (
        ("parts.toml", CLOSED, 'closed_length = "300 mm"'),
        "much of the damper's stroke is never used",
    ),
    "open at rest": (
        ("parts.toml", OPEN, 'open_length = "602 mm"'),
        "at standard_height the damper is 598.0 mm long, hardly off its open_length of 602 mm",
    ),
}


def test_the_good_pack_has_dampers_that_suit() -> None:
    assert subjects(GOOD_PACK, RULE) == []


@pytest.mark.parametrize(("change", "message"), SLIPS.values(), ids=SLIPS)
def test_each_slip_is_told(tmp_path: Path, change: tuple[str, str, str], message: str) -> None:
    findings = changed(tmp_path, RULE, change)
    assert any(message in finding.message for finding in findings)
    assert all(reported(f)[2] == "chassis/one.axles[0]" for f in findings)
    assert all("compare damper/one.open_length" in f.remedy for f in findings)
    assert all((f.code, f.severity) == ("R307", bw.answers.Severity.WARNING) for f in findings)


def test_a_tolerance_explains_a_little(tmp_path: Path) -> None:
    for tolerance, count in (("", 1), (" ± 15 mm", 0)):
        longer = ("parts.toml", OPEN, f'open_length = "725 mm{tolerance}"')
        assert len(changed(tmp_path / str(count), RULE, longer)) == count


def test_a_standard_height_out_of_travel_is_told_by_another(tmp_path: Path) -> None:
    change = ("vehicles.toml", 'standard_height = "404 mm"', 'standard_height = "700 mm"')
    assert changed(tmp_path, RULE, change) == []


def test_a_corner_that_cannot_be_computed_is_told_by_another(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def refusing(_: object) -> None:
        raise bw.GeometryError("G101", value="1", expected="2", remedy="measure", key="radius")

    monkeypatch.setattr(damper_stops, "metres", refusing)
    assert found(GOOD_PACK, RULE) == []
