"""Which characters must not reach a terminal, told from their Unicode properties."""

from __future__ import annotations

import unicodedata

__all__ = ["unprintable"]

_REORDERING = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}
# Marks that only set a direction.
_DIRECTION = {"\u061c", "\u200e", "\u200f"}


def unprintable(text: str) -> set[str]:
    """List what steers a terminal, parts lines, re-orders text or cannot be encoded."""
    return {c for c in text if c != "\n" and _is_unprintable(c)}


def _is_unprintable(character: str) -> bool:
    return (
        unicodedata.category(character) in {"Cc", "Cs", "Zl", "Zp"}
        or unicodedata.bidirectional(character) in _REORDERING
        or character in _DIRECTION
    )
