"""Rule `empty-file`: a file of records has at least one table."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from flawed_packs import found, reported, small_pack, subjects
from sample_overlays import overlay

STEEL = '[[material]]\nid = "s"\ntitle = "S"\nsource = "invented"\nshear_modulus = "77 GPa"\n'


@pytest.mark.parametrize("text", ["", "\n \n", "# All of it was here.\n", "\ufeff"])
def test_a_file_that_was_cut_to_nothing_is_told(tmp_path: Path, text: str) -> None:
    pack = small_pack(tmp_path, STEEL)
    (pack / "more.toml").write_text(text, encoding="utf-8")
    (finding,) = found(pack, "empty-file")
    assert reported(finding) == ("more.toml", 0, "more.toml", "the file is empty, or all comments")
    assert (finding.code, finding.severity) == ("R223", bw.answers.Severity.WARNING)


def test_a_file_with_a_waiver_alone_is_not_empty(tmp_path: Path) -> None:
    waiver = '[[waiver]]\nrule = "placed"\nof = "material/s"\nwhy = "There is only one sheet."\n'
    pack = small_pack(tmp_path, STEEL)
    (pack / "more.toml").write_text(waiver, encoding="utf-8")
    assert subjects(pack, "empty-file") == []


def test_an_overlay_may_have_a_file_for_later_but_not_be_empty(tmp_path: Path) -> None:
    made = overlay(tmp_path, STEEL)
    (made / "corrections.toml").write_text("# None yet.\n", encoding="utf-8")
    assert subjects(made, "empty-file") == []
    (made / "ours.toml").write_text("", encoding="utf-8")
    assert subjects(made, "empty-file") == ["corrections.toml", "ours.toml"]
