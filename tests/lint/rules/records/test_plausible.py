"""Rule `plausible`: a figure lies where such figures usually lie."""

from __future__ import annotations

import itertools
from pathlib import Path

import attrs
import pytest

import barwright as bw
from barwright.lint.rules.records.plausible import RANGES
from barwright.parts.fields import figure_fields
from barwright.units import si, to_kind
from flawed_packs import changed, reported

BAR = 'diameter = "23.3 mm ± 0.05 mm"'


@pytest.mark.parametrize(
    ("diameter", "is_usual"),
    [
        ("7.9 mm", False),
        ("8 mm", True),
        ("0.9 in", True),
        ("28 mm", True),
        ("80 mm", True),
        ("80.1 mm", False),
    ],
)
def test_a_figure_outside_its_range_is_a_warning(
    tmp_path: Path, diameter: str, *, is_usual: bool
) -> None:
    change = ("parts.toml", BAR, f'diameter = "{diameter}"')
    findings = changed(tmp_path, "plausible", change)
    assert [f.of for f in findings] == ([] if is_usual else ["bar/one.diameter"])


def test_what_is_said_of_it(tmp_path: Path) -> None:
    (finding,) = changed(tmp_path, "plausible", ("parts.toml", BAR, 'diameter = "4 in"'))
    message = "4 in is unusual; such figures lie from 8 mm to 80 mm"
    assert reported(finding) == ("parts.toml", 14, "bar/one.diameter", message)
    assert (finding.code, finding.severity) == ("R103", bw.answers.Severity.WARNING)


@pytest.mark.parametrize(("teeth", "is_usual"), [(5, False), (6, True), (80, True), (81, False)])
def test_counts_have_ranges_too(tmp_path: Path, teeth: int, *, is_usual: bool) -> None:
    change = ("parts.toml", "socket = { teeth = 39", f"socket = {{ teeth = {teeth}")
    findings = changed(tmp_path, "plausible", change)
    assert [f.of for f in findings] == ([] if is_usual else ["arm/one.socket.teeth"])


def test_a_tolerance_as_large_as_a_figure_above_zero_is_no_tolerance(tmp_path: Path) -> None:
    change = ("parts.toml", "23.3 mm ± 0.05 mm", "23.3 mm ± 23.3 mm")
    (finding,) = changed(tmp_path, "loads", change)
    assert finding.code == "Q303"


def test_a_figure_that_may_be_zero_has_any_tolerance(tmp_path: Path) -> None:
    change = (
        "vehicles.toml",
        'measured_angle = "-5 deg ± 0.3 deg"',
        'measured_angle = "1 deg ± 2 deg"',
    )
    assert changed(tmp_path, "plausible", change) == []


def test_an_axle_is_looked_at(tmp_path: Path) -> None:
    change = ("vehicles.toml", 'tyre_rate = "185 N/mm"', 'tyre_rate = "18.5 N/mm"')
    (finding,) = changed(tmp_path, "plausible", change)
    assert finding.of == "chassis/one.axles[0].tyre_rate"
    assert finding.line == 18


def test_every_range_is_one_of_a_field_and_not_upside_down() -> None:
    for cls, ranges in RANGES.items():
        fields = attrs.fields_dict(cls)
        for name, (low, high) in ranges.items():
            assert name in fields
            if isinstance(low, int) and isinstance(high, int):
                assert low < high
                continue
            kind, allowed = figure_fields(cls)[name]
            limits = [si(to_kind(x, kind, key=name, allowed=allowed), kind) for x in (low, high)]
            assert all(a < b for a, b in itertools.pairwise(limits))
