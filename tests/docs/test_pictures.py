"""The pictures of printed sheets: each is drawn by the script, and shown with a text."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]
PICTURES = ROOT / "docs" / "pictures"


@pytest.fixture(scope="module")
def script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("pictures", ROOT / "docs" / "pictures.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def size(picture: bytes) -> tuple[int, int]:
    """Width and height of a PNG, from its header."""
    assert picture.startswith(b"\x89PNG\r\n\x1a\n")
    return int.from_bytes(picture[16:20], "big"), int.from_bytes(picture[20:24], "big")


@pytest.mark.rare
def test_every_picture_is_a_page_of_a_sheet_and_none_is_left_over(
    script: ModuleType, tmp_path: Path
) -> None:
    # Pixels may differ with the typesetter's release; what is drawn, and how large, may not.
    script.main([str(tmp_path)])
    drawn = {path.name: size(path.read_bytes()) for path in tmp_path.iterdir()}
    assert drawn == {path.name: size(path.read_bytes()) for path in PICTURES.iterdir()}
    assert drawn.keys() == script.PICTURES.keys()


def test_every_picture_is_shown_with_a_text_in_its_place() -> None:
    pages = [ROOT / "README.md", *(ROOT / "docs").glob("*.md")]
    shown = {
        match[2]: match[1]
        for page in pages
        for match in re.finditer(r"!\[([^\]]*)\]\([^)]*pictures/([^)]+)\)", page.read_text("utf-8"))
    }
    assert shown.keys() == {path.name for path in PICTURES.iterdir()}
    assert all(len(text) > 40 for text in shown.values())
