"""Rule `placed`: a figure says where in its source it stands."""

from __future__ import annotations

from pathlib import Path

import pytest

from flawed_packs import ESTIMATED, changed, reported, small_pack, subjects

STEEL = '[[material]]\nid = "s"\ntitle = "S"\nsource = "{}"\nshear_modulus = "77 GPa ± 1 GPa"\n'


@pytest.mark.parametrize(
    ("source", "of"),
    [
        ("measured", ["material/s.shear_modulus"]),
        ("published", ["material/s.shear_modulus"]),
        ("maker", ["material/s.shear_modulus"]),
        ("invented", []),
        ("recalled", []),
        ("estimated", []),
    ],
)
def test_what_stands_somewhere_has_a_place(tmp_path: Path, source: str, of: list[str]) -> None:
    assert subjects(small_pack(tmp_path, STEEL.format(source), ESTIMATED), "placed") == of


def test_a_place_of_the_record_holds_for_its_figures(tmp_path: Path) -> None:
    assert subjects(small_pack(tmp_path, STEEL.format("maker") + 'at = "p"\n'), "placed") == []


@pytest.mark.parametrize("at", ["", " ", "-", "…", "?"])
def test_what_names_nothing_is_no_place(tmp_path: Path, at: str) -> None:
    pack = small_pack(tmp_path, STEEL.format("maker") + f'at = "{at}"\n')
    assert subjects(pack, "placed") == ["material/s.shear_modulus"]


def test_a_figure_inside_a_record_has_its_own_line(tmp_path: Path) -> None:
    (finding,) = changed(
        tmp_path,
        "placed",
        ("parts.toml", 'length = "38 mm"', 'length = { is = "38 mm ± 1 mm", source = "bench" }'),
    )
    assert reported(finding) == (
        "parts.toml",
        6,
        "arm/one.socket.length",
        "it does not say where in source 'bench' the figure stands",
    )
    assert (finding.code, finding.severity.value, finding.pack) == ("R101", "error", "tiny")
    assert finding.key == "arm[0].socket.length"
    assert "at = " in finding.remedy


def test_a_figure_that_holds_by_itself_needs_no_place(tmp_path: Path) -> None:
    """A nose of 0 mm is stated nowhere, so that nothing can be said of it."""
    findings = changed(tmp_path, "placed", ("parts.toml", 'at = "page 3"\n', ""))
    assert findings == []
    pack = tmp_path / "pack"
    text = (pack / "parts.toml").read_text(encoding="utf-8")
    text = text.replace('title = "Bar"\nsource = "desk"', 'title = "Bar"\nsource = "bench"')
    (pack / "parts.toml").write_text(text, encoding="utf-8")
    assert "bar/one.arm_end.taper" in subjects(pack, "placed")
    assert "bar/one.arm_end.nose" not in subjects(pack, "placed")


def test_a_fact_with_a_source_of_its_own_needs_a_place(tmp_path: Path) -> None:
    """One with the source of the figures beside it is not told beside them."""
    own = ("parts.toml", "teeth = 39", 'teeth = { is = 39, source = "bench" }')
    (finding,) = changed(tmp_path, "placed", own)
    assert (finding.of, finding.message) == (
        "arm/one.socket.teeth",
        "it does not say where in source 'bench' the fact stands",
    )
