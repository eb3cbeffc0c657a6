"""Rule `standard-holds`: what left the works bears its own travel."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from barwright.lint.finding import Severity
from barwright.lint.rules.vehicles import standard_holds
from flawed_packs import changed, reported, subjects
from sample_packs import GOOD_PACK


def steel(**strengths: str) -> tuple[str, str, str]:
    """The good pack's steel with a strength, at the head of its line."""
    said = "".join(f'{name} = "{value}"\n' for name, value in strengths.items())
    return "steel.toml", "shear_modulus", f"{said}shear_modulus"


def test_where_no_strength_is_known_nothing_is_said() -> None:
    assert subjects(GOOD_PACK, "standard-holds") == []


def test_a_stress_above_the_permissible_one_is_told_of_both_corners(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, "standard-holds", steel(permissible_shear="600 MPa"))
    assert reported(finding) == (
        "vehicles.toml",
        7,
        "chassis/one.axles[0]",
        (
            "front left, front right: the shear stress at full bump is above the permissible one "
            "(tiny:desk (invented)); found 703.6 MPa, limit 600.0 MPa"
        ),
    )
    assert (finding.code, finding.severity) == ("R304", Severity.WARNING)


@pytest.mark.parametrize("permissible", ["704 MPa", "900 MPa"])
def test_a_stress_below_it_is_not(tmp_path: Path, permissible: str) -> None:
    assert changed(tmp_path, "standard-holds", steel(permissible_shear=permissible)) == []


def test_a_bar_that_yields_is_told(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, "standard-holds", steel(proof_strength="1000 MPa"))
    assert "the bar's body yields at full bump" in finding.message


def test_a_bar_that_does_not_fit_is_told_elsewhere(tmp_path: Path) -> None:
    weak = steel(permissible_shear="600 MPa")
    long = ("parts.toml", 'length = "904 mm"', 'length = "990 mm"')
    assert changed(tmp_path, "standard-holds", weak, long) == []


def refusing(*_: object) -> None:
    raise bw.GeometryError("G101", value="1 mm", expected="2 mm", remedy="measure", key="radius")


def test_a_corner_that_cannot_be_computed_is_told_elsewhere(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(standard_holds, "strength", refusing)
    assert subjects(GOOD_PACK, "standard-holds") == []
