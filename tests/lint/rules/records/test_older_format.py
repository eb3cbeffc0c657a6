"""Rule `older-format`: a pack of an older version of the format uses nothing newer."""

from __future__ import annotations

from pathlib import Path

import barwright as bw
from flawed_packs import found, reported, small_pack, subjects
from sample_packs import SPECIMENS

STEEL = '[[material]]\nid = "s"\ntitle = "S"\nsource = "invented"\nshear_modulus = "77 GPa"\n'


def pack_of_version_1(folder: Path, text: str) -> Path:
    pack = small_pack(folder, text)
    header = pack / "pack.toml"
    text = header.read_text(encoding="utf-8")
    assert "schema = 2" in text
    header.write_text(text.replace("schema = 2", "schema = 1"), encoding="utf-8")
    return pack


def test_newer_keys_in_a_pack_of_version_1_are_told_together(tmp_path: Path) -> None:
    pack = pack_of_version_1(tmp_path, STEEL + 'paint = "blue"\nremarks = ["R"]\n')

    (finding,) = found(pack, "older-format")

    text = "schema = 1, but that version does not know paint, remarks"
    file, _, of, message = reported(finding)
    assert (file, of, message) == ("pack.toml", "pack.toml", text)
    assert (finding.code, finding.severity) == ("R224", bw.answers.Severity.WARNING)


def test_a_pack_of_version_1_with_keys_of_version_1_is_good(tmp_path: Path) -> None:
    assert subjects(pack_of_version_1(tmp_path, STEEL), "older-format") == []
    for folder in (SPECIMENS / "old-packs").iterdir():
        assert subjects(folder, "older-format") == []


def test_a_pack_of_the_present_version_may_use_all_keys(tmp_path: Path) -> None:
    assert subjects(small_pack(tmp_path, STEEL + 'paint = "blue"\n'), "older-format") == []
