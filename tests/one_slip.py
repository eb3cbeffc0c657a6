"""Words that one slip of the pen makes of a word."""

from __future__ import annotations

import string
from collections.abc import Iterable, Iterator


def one_slip_away(word: str, letters: Iterable[str] = string.ascii_lowercase) -> Iterator[str]:
    """Every word that one slip makes of a word."""
    for place in range(len(word) + 1):
        before, after = word[:place], word[place:]
        yield before + after[1:]
        yield before + after[1:2] + after[:1] + after[2:]
        for letter in letters:
            yield before + letter + after
            yield before + letter + after[1:]
