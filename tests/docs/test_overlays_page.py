"""The page on overlays is followed script by script, and lists what the classes have."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import Any

import attrs
import pytest

from barwright.registry.overlays.correction import Correction
from barwright.registry.overlays.preference import OverlayHeader
from barwright.registry.packs.format.keys import key_of
from barwright.registry.packs.format.pack import PackHeader
from doc_pages import ROOT, read, scripts, shell, shown_as

PAGE = read("overlays.md")


@pytest.mark.slow
def test_each_script_prints_what_the_page_shows_after_those_before_it(tmp_path: Path) -> None:
    for name in ("tests/specimens/twenty", "plugins/barwright-pack-fells"):
        shutil.copytree(ROOT / name, tmp_path / name)
    for script, expected in scripts("overlays.md"):
        done = shell(script, tmp_path)
        assert shown_as(expected).fullmatch(done.stdout), done.stdout


def tables() -> list[dict[str, tuple[str, str]]]:
    """Each table of keys: whether one is required and its value, by the key."""
    found = []
    for table in re.findall(r"^\| field \| required .*\n\|.*\n((?:\|.*\n)+)", PAGE, re.MULTILINE):
        rows = re.findall(r"^\| `(\w+)` \| ([^|]+) \| ([^|]+) \|", table, re.MULTILINE)
        found.append({key: (required, value) for key, required, value in rows})
    return found


@pytest.mark.parametrize(("cls", "base"), [(OverlayHeader, PackHeader), (Correction, object)])
def test_a_table_lists_exactly_the_keys_of_a_class(cls: type[Any], base: type[Any]) -> None:
    common = {field.name for field in attrs.fields(base)} if attrs.has(base) else set()
    own = {key_of(f.name): f for f in attrs.fields(cls) if f.name not in common}

    (table,) = [table for table in tables() if set(table) == set(own)]
    for key, (required, _) in table.items():
        assert (required == "yes") == (own[key].default is attrs.NOTHING), key
