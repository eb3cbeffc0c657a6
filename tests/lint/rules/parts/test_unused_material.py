"""Rule `unused-material`: a material is there for a bar or a tube."""

from __future__ import annotations

from pathlib import Path

from flawed_packs import added, found, reported, small_pack, subjects
from sample_packs import GOOD_PACK

STEEL = '[[material]]\nid = "other"\ntitle = "Other"\nsource = "{}"\nshear_modulus = "77 GPa"\n'


def test_a_steel_of_nothing_is_found(tmp_path: Path) -> None:
    (finding,) = found(added(tmp_path, STEEL.format("desk")), "unused-material")
    message = "no bar or tube uses this material"
    assert reported(finding) == ("more.toml", 1, "material/other", message)
    assert finding.code == "R204"
    assert subjects(GOOD_PACK, "unused-material") == []


def test_a_steel_of_a_tube_alone_is_used(tmp_path: Path) -> None:
    pack = added(tmp_path, STEEL.format("desk"))
    text = (pack / "parts.toml").read_text(encoding="utf-8")
    text = text.replace("tiny:material/steel", "tiny:material/other")
    (pack / "parts.toml").write_text(text, encoding="utf-8")
    assert subjects(pack, "unused-material") == []


def test_a_pack_of_steels_alone_is_there_to_be_looked_up(tmp_path: Path) -> None:
    assert subjects(small_pack(tmp_path, STEEL.format("invented")), "unused-material") == []


def test_nothing_is_said_while_a_bar_is_broken(tmp_path: Path) -> None:
    pack = added(tmp_path, STEEL.format("desk"), '[[bar]]\nid = "two"\n')
    assert subjects(pack, "unused-material") == []
