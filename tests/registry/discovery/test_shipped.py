"""Tests of `shipped`: the wheel's own copy comes first, else the project's."""

from __future__ import annotations

import shutil
import tomllib
from pathlib import Path

import pytest

from barwright.registry.discovery import shipped as carried
from barwright.registry.discovery.shipped import carried_page, demo_folders
from barwright.registry.packs.load import load_pack
from barwright.report.explain import PAGES

ROOT = Path(__file__).parents[3]
PACKS = sorted(path.parent for path in ROOT.glob("plugins/*/src/*/pack.toml"))


def wheel_map() -> dict[str, str]:
    """What the wheel carries of other folders, by where it is taken from."""
    table = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    found: dict[str, str] = table["tool"]["hatch"]["build"]["targets"]["wheel"]["force-include"]
    return found


def test_an_installation_that_can_be_edited_reads_the_project_itself() -> None:
    assert list(demo_folders()) == PACKS
    assert carried_page("lint.md") == (ROOT / "docs/lint.md").read_text(encoding="utf-8")


def test_a_wheel_reads_what_it_carries(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for source, place in wheel_map().items():
        inside = tmp_path / place
        inside.parent.mkdir(parents=True, exist_ok=True)
        (shutil.copytree if (ROOT / source).is_dir() else shutil.copyfile)(ROOT / source, inside)
    monkeypatch.setattr(carried, "_PACKAGE", tmp_path / "barwright")
    monkeypatch.setattr(carried, "_PROJECT", tmp_path / "nowhere")

    ids = [load_pack(folder, origin="demo").id for folder in demo_folders()]
    assert ids == [folder.name for folder in demo_folders()] == ["fells", "hodmule", "trundlet"]
    for name in ("errors", "lint", *PAGES):
        assert carried_page(f"{name}.md").startswith("# ")


def test_the_wheel_carries_all_demo_packs_and_no_code_of_them() -> None:
    folders = [ROOT / source for source in wheel_map() if source.startswith("plugins/")]

    assert sorted(folders) == PACKS
    for folder in folders:
        code = [path.read_text(encoding="utf-8") for path in folder.rglob("*.py")]
        assert [text.count("\n") for text in code] == [1], "a docstring alone"
