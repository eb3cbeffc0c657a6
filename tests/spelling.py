"""Which words of an output none of the project's pages has: a slip of the keyboard, as a rule."""

from __future__ import annotations

import functools
import re

from sample_packs import SPECIMENS

__all__ = ["unknown_words"]

_ROOT = SPECIMENS.parents[1]
# How each figure is measured is told in data.
_MEASURED = _ROOT / "src" / "barwright" / "measuring" / "figures.toml"
_WORD = re.compile(r"[A-Za-z][A-Za-z']+")
# Of steps that no page quotes.
_OTHERS = frozenset(
    (
        "brakes",
        "couple",
        "coupling's",
        "gain",
        "hung",
        "lamps",
        "mostly",
        "shed",
        "sides'",
        "sketch",
    )
) | {"lay", "main", "odometer", "pickup", "towing", "want"}


def unknown_words(text: str) -> set[str]:
    """Words of a text that the pages do not have, small letters and capitals alike."""
    # Paths are named as their user likes, and a curve in a terminal is drawn in crosses.
    return _words(re.sub(r"\S*/\S*|\bx+\b", "", text)) - _page_words() - _OTHERS


def _words(text: str) -> set[str]:
    return {word.lower() for word in _WORD.findall(text)}


@functools.cache
def _page_words() -> frozenset[str]:
    pages = [*(_ROOT / "docs").rglob("*.md"), _ROOT / "README.md", _MEASURED]
    return frozenset().union(*(_words(page.read_text(encoding="utf-8")) for page in pages))
