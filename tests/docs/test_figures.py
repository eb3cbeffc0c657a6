"""The figures of the pages are what their script draws, and every one is used."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from types import ModuleType
from xml.etree import ElementTree as ET

import pytest

from each_case import each_case

DOCS = Path(__file__).parents[2] / "docs"
FIGURES = DOCS / "figures"
PAGES = sorted(DOCS.glob("*.md"))


@pytest.fixture(scope="module")
def script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("docs_figures", DOCS / "figures.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_committed_figures_are_what_the_script_draws(
    script: ModuleType, tmp_path: Path
) -> None:
    script.draw(tmp_path)
    drawn = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    kept = {path.name: path.read_bytes() for path in FIGURES.iterdir()}
    stale = sorted(name for name in drawn.keys() | kept.keys() if drawn.get(name) != kept.get(name))
    assert stale == [], "run: python docs/figures.py"


def test_the_script_draws_the_same_bytes_each_time(script: ModuleType, tmp_path: Path) -> None:
    for name in ("one", "other"):
        (tmp_path / name).mkdir()
        script.main([str(tmp_path / name)])
    for one in (tmp_path / "one").iterdir():
        assert one.read_bytes() == (tmp_path / "other" / one.name).read_bytes()


def test_every_figure_is_shown_with_a_text_in_its_place() -> None:
    shown = {
        match[2]: match[1]
        for page in PAGES
        for match in re.finditer(r"!\[([^\]]*)\]\(figures/([^)]+)\)", page.read_text("utf-8"))
    }
    assert shown.keys() == {path.name for path in FIGURES.iterdir()}
    assert all(len(text) > 40 for text in shown.values())


@each_case("path", sorted(path for path in DOCS.glob("*/*.svg") if path.parent.name != "made"))
def test_a_figure_is_a_drawing_with_a_title_and_its_texts_lie_within_it(path: Path) -> None:
    # A file of this repository, written by its own script.
    root = ET.parse(path).getroot()  # noqa: S314
    space = {"s": "http://www.w3.org/2000/svg"}
    assert root.findtext("s:title", namespaces=space)
    width, height = (float(length) for length in root.attrib["viewBox"].split()[2:])
    for text in root.findall("s:text", space):
        words = "".join(text.itertext())
        if "transform" in text.attrib:
            continue
        # A letter takes less in the widest of the fonts, on average; pixels if no size is given.
        size = float(text.get("font-size", 13.0))
        long = 0.585 * size * len(words)
        left = (
            float(text.attrib["x"])
            - long * {"start": 0, "middle": 0.5, "end": 1}[text.attrib["text-anchor"]]
        )
        assert left > -size, words
        assert left + long < width + size, words
        assert 0.6 * size < float(text.attrib["y"]) < height - 0.15 * size, words
