"""Rule `toleranced`: a figure that cannot be exact has a tolerance."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
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


@pytest.mark.parametrize("source", ["desk", "bench"])
def test_one_limit_is_no_tolerance(tmp_path: Path, source: str) -> None:
    """Whatever the source; the pack is read, and the other figures of the record count."""
    bore = f'bore = {{ is = "38.4 mm +0.1 mm", source = "{source}", at = "rim" }}'
    (finding,) = changed(tmp_path, "toleranced", ("parts.toml", 'bore = "38.4 mm"', bore))

    assert finding.message == "'38.4 mm +0.1 mm' gives one limit only, and so no ±"
    assert finding.remedy.startswith("write both limits, like '742 mm +0.4 mm 0'")
    known = bw.Registry.from_folders(tmp_path / "pack").part("tiny:tube/one").about["bore"]
    assert (known.value, known.tolerance) == (bw.Quantity(38.4, "mm"), None)
    assert known.written == "38.4 mm +0.1 mm"


@pytest.mark.parametrize("text", ["38.4 mm +0.1 mm 0", "38.4 mm ± 1 %", "38 mm to 39 mm"])
def test_both_limits_are_a_tolerance(tmp_path: Path, text: str) -> None:
    bore = f'bore = {{ is = "{text}", source = "bench", at = "rim" }}'
    assert changed(tmp_path, "toleranced", ("parts.toml", 'bore = "38.4 mm"', bore)) == []
