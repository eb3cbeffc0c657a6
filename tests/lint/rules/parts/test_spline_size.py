"""Rule `spline-size`: a spline's diameters suit its tooth count and its module."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import changed, found, small_pack

RULE = "spline-size"

ARM = """[[arm]]
id = "one"
title = "Arm"
source = "invented"
[arm.socket]
teeth = {teeth}
form = "{form}"
minor_diameter = "{minor} mm"
"""
BAR = """[[bar]]
id = "one"
title = "Bar"
source = "invented"
material = "standards:material/51crv4"
[bar.arm_end]
teeth = {teeth}
form = "{form}"
major_diameter = "{major} mm"
root_diameter = "{root} mm"
[bar.anchor_end]
teeth = {other_teeth}
form = "{form}"
major_diameter = "{other_major} mm"
"""


def spline(tmp_path: Path, form: str, **figures: float) -> list[bw.answers.LintFinding]:
    """Look at an arm and a bar with 39 teeth of module 0.75 and others of the same size."""
    usual = {
        "teeth": 39,
        "other_teeth": 42,
        "major": 30.0,
        "root": 28.1,
        "minor": 28.6,
        "other_major": 32.2,
    }
    text = (ARM + BAR).format(form=form, **{**usual, **figures})
    return found(small_pack(tmp_path, text), RULE)


FORMS = [
    "involute 30 deg, module 0.75",
    "involute 30°, m = 0,75",
    "splines 30 x 0.75 x 39",
    "34/68",
]


@pytest.mark.parametrize("form", FORMS)
def test_the_size_is_read_from_the_form(tmp_path: Path, form: str) -> None:
    assert spline(tmp_path, form) == []
    for teeth in (38, 40):
        findings = spline(tmp_path, form, teeth=teeth)
        assert {f.of for f in findings} == {"arm/one.socket.teeth", "bar/one.arm_end.teeth"}
        assert all("count teeth again (39 would suit)" in f.remedy for f in findings)
        assert all((f.code, f.severity) == ("R209", bw.answers.Severity.WARNING) for f in findings)


def test_one_figure_that_does_not_suit_the_others(tmp_path: Path) -> None:
    (finding,) = spline(tmp_path, FORMS[0], root=26.5)
    assert finding.of == "bar/one.arm_end.root_diameter"
    assert finding.message == (
        "root_diameter 26.5 mm does not suit 39 teeth of module 0.75 mm, which have "
        "27.7 mm to 28.4 mm"
    )


@pytest.mark.parametrize("angle", ["37.5", "45"])
def test_other_pressure_angles_have_other_diameters(tmp_path: Path, angle: str) -> None:
    form = f"involute {angle} deg, module 0.75"
    assert spline(tmp_path, form, root=28.2) == []
    assert len(spline(tmp_path, form, root=28.2, teeth=38)) == 2


def test_din_5480_shifts_its_teeth(tmp_path: Path) -> None:
    """A reference diameter of 31 mm: 39 teeth shifted by 0.18 modules more than of 30 mm."""
    form = "DIN 5480, module 0.75"
    shifted = {"major": 30.6, "root": 28.9, "minor": 29.1, "other_major": 32.85}
    assert spline(tmp_path, form, **shifted) == []
    assert len(spline(tmp_path, form, **shifted, teeth=41)) == 2


@pytest.mark.parametrize("form", ["serrated", "involute"])
def test_ends_of_one_form_have_one_pitch(tmp_path: Path, form: str) -> None:
    assert spline(tmp_path, form) == []
    (finding,) = spline(tmp_path, form, teeth=38)
    assert finding.of in ("bar/one.arm_end.teeth", "bar/one.anchor_end.teeth")
    assert "name the module of each in form" in finding.remedy


def test_teeth_that_are_too_deep_for_their_count(tmp_path: Path) -> None:
    (finding,) = spline(tmp_path, "serrated", root=24.0)
    assert finding.of == "bar/one.arm_end.root_diameter"
    assert "teeth 3.00 mm deep" in finding.message


def test_what_is_not_known_is_passed_over(tmp_path: Path) -> None:
    text = BAR.format(
        form="serrated", teeth=39, other_teeth=42, major=30, root=28.1, other_major=32.2
    )
    unknown = text.replace('"30 mm"', '"unknown"').replace('"32.2 mm"', '"unknown"')
    assert found(small_pack(tmp_path, unknown), RULE) == []


def test_the_good_pack_names_no_module(tmp_path: Path) -> None:
    assert changed(tmp_path, RULE, ("parts.toml", '"Bar"', '"Bars"')) == []
