"""Rule `toleranced`: a figure that cannot be exact has a tolerance."""

from __future__ import annotations

from pathlib import Path

import pytest

from flawed_packs import changed, reported


@pytest.mark.parametrize(
    ("source", "messages"),
    [("desk", []), ("bench", ["a measured figure has no tolerance"])],
)
def test_a_measured_figure_has_a_tolerance(
    tmp_path: Path, source: str, messages: list[str]
) -> None:
    bore = f'bore = {{ is = "38.4 mm", source = "{source}", at = "rim" }}'
    findings = changed(tmp_path, "toleranced", ("parts.toml", 'bore = "38.4 mm"', bore))
    assert [finding.message for finding in findings] == messages


def test_a_shear_modulus_has_a_tolerance_whatever_its_source(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, "toleranced", ("steel.toml", " ± 4 GPa", ""))
    assert reported(finding) == (
        "steel.toml",
        5,
        "material/steel.shear_modulus",
        "a shear modulus has no tolerance",
    )
    assert finding.code == "R102"
    assert "spread by 5 %" in finding.remedy
