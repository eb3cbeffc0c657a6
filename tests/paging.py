"""The pages of the documentation as tests read them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

__all__ = ["DOCS", "fenced", "read", "shown_as"]

DOCS = Path(__file__).parents[1] / "docs"


def read(name: str) -> str:
    """Text of a page."""
    return (DOCS / name).read_text(encoding="utf-8")


def fenced(page: str) -> Iterator[tuple[str, str]]:
    """Language and content of every fenced block, in order."""
    for match in re.finditer(r"^```(\w+)\n(.*?)^```$", page, re.MULTILINE | re.DOTALL):
        yield match[1], match[2]


def shown_as(expected: str) -> re.Pattern[str]:
    """Match output that a page shows; a line `…` is any lines, `…` in a line any text."""
    lines = [
        r"(?:.*\n)*?" if line == "…" else re.escape(line).replace("…", ".*") + r"[ ]*\n"
        for line in expected.splitlines()
    ]
    return re.compile("".join(lines))
