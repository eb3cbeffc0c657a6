"""DEVELOPERS.md leads to files and folders that are there, and to every room."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "barwright"
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
# What a command makes, and is not kept.
MADE = {"build/reached.coverage"}


def named() -> set[str]:
    """Files and folders that the page names."""
    quoted = re.findall(r"`([\w./-]+?(?:/|\.py|\.toml|\.md))`", TEXT)
    return set(quoted) - MADE


def test_every_path_that_is_named_exists() -> None:
    # After a folder or a file of it, a row names other files of it by their own names.
    folders = {PACKAGE, ROOT, *((PACKAGE / name).parent for name in named())}
    folders |= {PACKAGE / name for name in named() if name.endswith("/")}
    missing = [n for n in named() if not any((folder / n).exists() for folder in folders)]

    assert missing == []


def test_every_room_is_named_or_a_file_of_it() -> None:
    rooms = {
        f"{init.parent.relative_to(PACKAGE)}/"
        for init in PACKAGE.glob("*/*/__init__.py")
        if init.parent.parent.name != "mechanics"
    }

    assert [room for room in rooms if not any(name.startswith(room) for name in named())] == []


def test_every_room_says_what_it_holds_in_a_line() -> None:
    lines = {
        init: init.read_text(encoding="utf-8").strip() for init in PACKAGE.glob("*/*/__init__.py")
    }

    assert [
        init for init, text in lines.items() if not re.fullmatch(r'"""[^\n]{20,}\."""', text)
    ] == []
