"""Rule `waiver-needed`: a waiver is needed."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import added, found, reported, small_pack, subjects
from sample_overlays import correction, overlay

STEEL = """
[[material]]
id = "odd"
title = "Odd steel"
source = "desk"
shear_modulus = "60 GPa ± 1 GPa"
density = "7000 kg/m**3"
"""
WAIVER = """
[[waiver]]
rule = "{}"
of = "{}"
why = "It is so on every one of them."
"""


@pytest.mark.parametrize(
    ("of", "left"),
    [
        ("material/odd", []),
        ("tiny:material/odd", []),
        ("material/odd.density", ["material/odd.shear_modulus"]),
        ("material/odd.dens", ["material/odd.shear_modulus", "material/odd.density"]),
        ("material/od", ["material/odd.shear_modulus", "material/odd.density"]),
    ],
)
def test_a_waiver_lets_stand_what_it_names(tmp_path: Path, of: str, left: list[str]) -> None:
    pack = added(tmp_path, STEEL, WAIVER.format("plausible", of))
    assert subjects(pack, "plausible") == left
    needless = found(pack, "waiver-needed")
    assert bool(needless) == (len(left) == 2)


def test_one_of_no_use_is_told(tmp_path: Path) -> None:
    (finding,) = found(added(tmp_path, WAIVER.format("plausible", "bar/one")), "waiver-needed")
    message = "'plausible' finds nothing in 'bar/one' in this file"
    assert reported(finding) == ("more.toml", 2, "bar/one", message)
    assert finding.code == "R502"


def test_it_stands_in_the_file_that_it_concerns(tmp_path: Path) -> None:
    pack = added(tmp_path, STEEL)
    waiver = WAIVER.format("plausible", "material/odd")
    (pack / "other.toml").write_text(waiver, encoding="utf-8")
    assert len(subjects(pack, "plausible")) == 2
    assert [f.file for f in found(pack, "waiver-needed")] == ["other.toml"]


def test_it_waives_no_other_rule(tmp_path: Path) -> None:
    pack = added(tmp_path, STEEL, WAIVER.format("unused-material", "material/odd"))
    assert len(subjects(pack, "plausible")) == 2
    assert subjects(pack, "unused-material") == []
    assert subjects(pack, "waiver-needed") == []


def test_two_of_one_finding_are_both_of_use(tmp_path: Path) -> None:
    waiver = WAIVER.format("plausible", "material/odd")
    pack = added(tmp_path, STEEL, waiver, waiver)
    assert subjects(pack, "waiver-needed") == []


def test_nothing_is_said_while_some_of_the_pack_is_broken(tmp_path: Path) -> None:
    broken = '[[damper]]\nid = "two"\n'
    pack = added(tmp_path, broken, WAIVER.format("plausible", "damper/two"))
    assert subjects(pack, "waiver-needed") == []


@pytest.mark.parametrize(
    ("of", "left"),
    [
        ("material/odd", ["material/odd.5.density"]),
        ("tiny:material/odd", ["material/odd.5.density"]),
        ("material/odd.5", ["material/odd.shear_modulus", "material/odd.density"]),
    ],
)
def test_a_record_whose_id_goes_on_with_a_point_is_another(
    tmp_path: Path, of: str, left: list[str]
) -> None:
    other = STEEL.replace('"odd"', '"odd.5"').replace("60 GPa", "70 GPa")
    pack = added(tmp_path, STEEL, other, WAIVER.format("plausible", of))
    assert subjects(pack, "plausible") == left
    assert subjects(pack, "waiver-needed") == []


def test_so_is_a_source_whose_id_goes_on_with_a_point(tmp_path: Path) -> None:
    source = '[[source]]\nid = "{}"\nkind = "invented"\nnote = "Made up for the tests."\n'
    header = source.format("a") + source.format("a.b")
    pack = small_pack(tmp_path, header=header + WAIVER.format("unused-source", "source/a"))
    assert "source/a.b" in subjects(pack, "unused-source")
    assert "source/a" not in subjects(pack, "unused-source")


def test_so_is_a_record_that_an_overlay_corrects(tmp_path: Path) -> None:
    other = STEEL.replace('"odd"', '"odd.5"').replace("60 GPa", "70 GPa")
    pack = added(tmp_path, STEEL, other)
    made = overlay(
        tmp_path,
        correction("density", "7100 kg/m**3 ± 5 kg/m**3", of="tiny:material/odd"),
        correction("density", "7200 kg/m**3 ± 5 kg/m**3", of="tiny:material/odd.5"),
        WAIVER.format("plausible", "tiny:material/odd"),
    )
    left = [f.of for f in bw.lint_pack(made, over=[pack]).findings if f.rule == "plausible"]
    assert left == ["tiny:material/odd.5.density"]
