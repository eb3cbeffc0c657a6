"""Rule `usual-steel`: a shear modulus is that of a steel."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import changed, reported

RULE = "usual-steel"
GIVEN = '"77 GPa ± 4 GPa"'


@pytest.mark.parametrize(
    ("modulus", "said"),
    [
        ("77.2 GPa ± 3.9 GPa", ""),
        ("78.5 GPa ± 3.9 GPa", ""),
        ("72.4 GPa ± 3.9 GPa", ""),  # one of the standards
        ("73.5 GPa ± 2 GPa", ""),
        ("73.5 GPa ± 1 GPa", "such figures lie from 75 GPa to 83 GPa"),
        ("72.7 GPa ± 3.9 GPa", "77.2 GPa is published for several: two digits may be exchanged"),
        ("84 GPa ± 0.5 GPa", "such figures lie from 75 GPa to 83 GPa"),
    ],
)
def test_a_modulus_is_that_of_a_steel(tmp_path: Path, modulus: str, said: str) -> None:
    findings = changed(tmp_path, RULE, ("steel.toml", GIVEN, f'"{modulus}"'))
    assert [reported(f)[2] for f in findings] == ["material/steel.shear_modulus"] * bool(said)
    assert all(f.message.endswith(f"is unusual for a steel; {said}") for f in findings)
    assert all((f.code, f.severity) == ("R211", bw.answers.Severity.WARNING) for f in findings)


def test_without_a_tolerance_there_is_no_room(tmp_path: Path) -> None:
    assert len(changed(tmp_path, RULE, ("steel.toml", GIVEN, '"74.9 GPa"'))) == 1
