"""News stand one file a change, of a kind that a release knows."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from doc_pages import ROOT
from each_case import each_case

NEWS = sorted((ROOT / "changelog.d").glob("[!R]*"))
README = (ROOT / "changelog.d" / "README.md").read_text(encoding="utf-8")


def kinds() -> set[str]:
    """Kinds of news that a release gathers."""
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    return {kind["directory"] for kind in tomllib.loads(text)["tool"]["towncrier"]["type"]}


@each_case("path", NEWS)
def test_news_are_named_so_that_a_release_finds_them(path: Path) -> None:
    name = re.fullmatch(r"\+[a-z0-9-]+\.([a-z]+)\.md", path.name)

    assert name is not None
    assert name[1] in kinds()
    assert path.read_text(encoding="utf-8").strip(" \n`")[-1] in ".?!"


def test_the_page_lists_the_kinds_that_a_release_gathers() -> None:
    assert set(re.findall(r"^\| `(\w+)` \|", README, re.MULTILINE)) == kinds()
