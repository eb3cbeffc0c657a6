"""Rule `plausible`: a figure lies where such figures usually lie."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pytest

import barwright as bw
from barwright.lint.rules.records.plausible import RANGES, RULE
from barwright.lint.subject.subject import Subject
from each_case import each_case
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


# From the smallest trailer to the heaviest van on torsion bars, or from the softest to the hardest
# of what steel gives; common practice, no source.  Beyond, a digit or a unit is wrong more often.
USUAL: dict[tuple[type[Any], str], tuple[float, float, str]] = {
    (bw.parts.Material, "shear_modulus"): (65, 85, "GPa"),  # spring steels: 77 to 82
    (bw.parts.Material, "youngs_modulus"): (180, 220, "GPa"),  # steels: 190 to 212
    (bw.parts.Material, "density"): (7650, 8050, "kg/m**3"),  # steels: 7700 to 8050
    (bw.parts.Material, "tensile_strength"): (300, 2500, "MPa"),  # mild steel to hard wire
    (bw.parts.Material, "proof_strength"): (200, 2200, "MPa"),
    (bw.parts.Material, "permissible_shear"): (100, 1500, "MPa"),
    (bw.parts.Material, "preset_permissible_shear"): (100, 1500, "MPa"),
    (bw.parts.Bar, "diameter"): (8, 80, "mm"),
    (bw.parts.Bar, "length"): (200, 2500, "mm"),
    (bw.parts.Bar, "preset_twist"): (10, 400, "deg"),
    (bw.parts.Bar, "measured_rate"): (1, 2000, "N*m/deg"),
    (bw.parts.BarEnd, "teeth"): (6, 80, ""),
    (bw.parts.BarEnd, "length"): (8, 150, "mm"),
    (bw.parts.BarEnd, "major_diameter"): (10, 120, "mm"),
    (bw.parts.BarEnd, "root_diameter"): (8, 115, "mm"),
    (bw.parts.BarEnd, "taper"): (0, 150, "mm"),
    (bw.parts.BarEnd, "fillet_radius"): (0.3, 100, "mm"),
    (bw.parts.BarEnd, "nose"): (0, 100, "mm"),
    (bw.parts.BarEnd, "nose_diameter"): (4, 115, "mm"),
    (bw.parts.Socket, "teeth"): (6, 80, ""),
    (bw.parts.Socket, "length"): (8, 150, "mm"),
    (bw.parts.Socket, "minor_diameter"): (8, 115, "mm"),
    (bw.parts.Socket, "required_engagement"): (5, 120, "mm"),
    (bw.parts.Arm, "radius"): (80, 800, "mm"),
    (bw.parts.Tube, "outside_diameter"): (15, 150, "mm"),
    (bw.parts.Tube, "bore"): (8, 140, "mm"),
    (bw.parts.Tube, "lever_radius"): (30, 400, "mm"),
    (bw.parts.Tube, "socket_position"): (20, 2500, "mm"),
    (bw.parts.KeyLever, "face_end"): (30, 400, "mm"),
    (bw.parts.Adjuster, "thread_diameter"): (6, 36, "mm"),  # M6 to M36
    (bw.parts.Adjuster, "thread_pitch"): (0.75, 4, "mm"),  # M6 fine to M36 coarse
    (bw.parts.Adjuster, "nut_height"): (4, 60, "mm"),
    (bw.parts.Damper, "open_length"): (100, 1200, "mm"),
    (bw.parts.Damper, "closed_length"): (80, 900, "mm"),
    (bw.parts.Damper, "damping_rate"): (0.3, 15, "N*s/mm"),
    (bw.parts.DoubleWishboneMounting, "upper_radius"): (80, 800, "mm"),
    (bw.parts.DoubleWishboneMounting, "upright"): (80, 700, "mm"),
    (bw.parts.HelperCoil, "rate"): (0.5, 300, "N/mm"),
    (bw.parts.HelperCoil, "free_length"): (50, 900, "mm"),
    (bw.parts.GasCharge, "force"): (50, 1500, "N"),
    (bw.parts.Chassis, "wheelbase"): (1000, 7000, "mm"),
    (bw.parts.Axle, "tyre_radius"): (120, 700, "mm"),
    (bw.parts.Axle, "tyre_rate"): (40, 1500, "N/mm"),  # a soft trailer's to a lorry's
    (bw.parts.Axle, "unsprung_mass"): (3, 300, "kg"),
    (bw.parts.Axle, "standard_mass"): (20, 3000, "kg"),
    (bw.parts.Axle, "standard_height"): (80, 1500, "mm"),
    (bw.parts.Axle, "measured_height"): (80, 1500, "mm"),
    (bw.parts.Axle, "droop_stop"): (-60, 20, "deg"),
    (bw.parts.Axle, "bump_stop"): (-20, 60, "deg"),
    (bw.parts.Axle, "lever_allowance"): (0, 20, "mm"),
    (bw.parts.Axle, "cap_allowance"): (0, 20, "mm"),
    (bw.parts.Axle, "space_behind"): (0, 500, "mm"),
}


def is_unusual(cls: type[Any], name: str, value: float, unit: str) -> bool:
    """Whether the rule remarks a figure of a record, stated by itself."""
    figure = bw.Quantity(value, unit) if unit else round(value)
    about = SimpleNamespace(value=figure)
    stated = SimpleNamespace(record=object.__new__(cls), name=name, about=about, place="")
    subject = cast("Subject", SimpleNamespace(pieces=(), corrections=(stated,)))
    return bool(list(RULE.remarks(subject)))


def test_every_range_is_tested() -> None:
    assert {(cls, name) for cls, names in RANGES.items() for name in names} == USUAL.keys()


@each_case("of, limits", USUAL.items())
def test_each_range_ends_where_it_should(
    of: tuple[type[Any], str], limits: tuple[float, float, str]
) -> None:
    *ends, unit = limits
    for end, outward in zip(ends, (-1, 1), strict=True):
        beyond = max(abs(end) * 1e-3, 1e-3) if unit else 1
        assert is_unusual(*of, end + outward * beyond, unit)
        assert not is_unusual(*of, end - outward * beyond, unit)
