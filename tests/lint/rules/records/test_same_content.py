"""Rule `same-content`: a part stands once; whatever has it refers to it."""

from __future__ import annotations

from pathlib import Path

import pytest

from flawed_packs import added, found, reported, small_pack, subjects
from sample_packs import GOOD_PACK

DAMPER = '[[damper]]\nid = "{}"\ntitle = "{}"\nsource = "invented"\nopen_length = "{}"\n'
DAMPER += 'closed_length = "300 mm"\n'


@pytest.mark.parametrize(
    ("length", "is_same"),
    [("500 mm", True), ("50 cm", True), ("0.5 m", True), ("500.1 mm", False)],
)
def test_what_differs_in_name_only_is_a_copy(tmp_path: Path, length: str, *, is_same: bool) -> None:
    data = DAMPER.format("a", "One", "500 mm") + DAMPER.format("b", "Two", length)
    findings = found(small_pack(tmp_path, data), "same-content")
    expected = ("data.toml", 7, "damper/b", "says the same as damper/a")
    assert [reported(f) for f in findings] == ([expected] if is_same else [])
    assert all(f.code == "R203" for f in findings)


def test_a_copy_of_a_vehicle_is_one_even_in_another_file(tmp_path: Path) -> None:
    text = (GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8")
    copy = text.replace('id = "one"', 'id = "two"', 1)
    assert subjects(added(tmp_path / "a", copy), "same-content") == ["chassis/one"]
    other = copy.replace('wheelbase = "2400 mm"', 'wheelbase = "2401 mm"')
    assert subjects(added(tmp_path / "b", other), "same-content") == []


def test_the_parts_on_a_vehicle_count(tmp_path: Path) -> None:
    text = (GOOD_PACK / "vehicles.toml").read_text(encoding="utf-8")
    copy = text.replace('id = "one"', 'id = "two"', 1)
    damper = DAMPER.format("soft", "Soft", "674 mm").replace("300", "480")
    other = copy.replace("damper/one", "damper/soft")
    pack = added(tmp_path, other, damper.replace("invented", "desk"))
    assert subjects(pack, "same-content") == []


def test_two_steels_may_have_the_same_figures(tmp_path: Path) -> None:
    steel = '[[material]]\nid = "{0}"\ntitle = "{0}"\nsource = "invented"\n'
    steel += 'shear_modulus = "77 GPa"\n'
    data = steel.format("a") + steel.format("b")
    assert subjects(small_pack(tmp_path, data), "same-content") == []
