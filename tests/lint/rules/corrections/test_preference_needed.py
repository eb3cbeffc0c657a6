"""Rule `preference-needed`: a preference is needed."""

from __future__ import annotations

import shutil
from pathlib import Path

import barwright as bw
from sample_overlays import correction, found_over, overlay, two_packs
from sample_packs import GOOD_PACK


def preferring(folder: Path, pack: Path, *records: str) -> Path:
    return overlay(folder, *records, header=f'[prefer]\ntiny = "{pack}"\n')


def test_a_preference_where_one_pack_claims_the_id_is_found(tmp_path: Path) -> None:
    made = preferring(tmp_path, GOOD_PACK)

    message = "no two packs with different content claim this id"
    expected = [("pack.toml", 27, "prefer.tiny", message)]
    assert found_over(made, "preference-needed") == expected


def test_a_choice_between_packs_is_good(tmp_path: Path) -> None:
    first, second = two_packs(tmp_path)
    made = preferring(tmp_path, second, correction())

    linted = bw.lint_pack(made, over=[first, second])
    assert [f.rule for f in linted.findings if f.rule in ("preference-needed", "loads")] == []


def test_a_choice_between_copies_is_found(tmp_path: Path) -> None:
    shutil.copytree(GOOD_PACK, tmp_path / "copy")
    made = preferring(tmp_path, tmp_path / "copy")

    linted = bw.lint_pack(made, over=[GOOD_PACK, tmp_path / "copy"])
    assert "preference-needed" in [f.rule for f in linted.findings]


def test_nothing_is_said_while_the_overlay_cannot_be_laid_on_top(tmp_path: Path) -> None:
    made = preferring(tmp_path, GOOD_PACK, correction("size"))

    assert found_over(made, "preference-needed") == []
