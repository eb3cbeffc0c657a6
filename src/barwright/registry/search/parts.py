"""Parts by pieces of what they are called: id, title, numbers, paint mark."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

import attrs

from barwright.parts.common.in_short import Summarised
from barwright.parts.common.record import Part
from barwright.registry.nearest_name import closest
from barwright.registry.packs.search_terms import compact, plain_letters, words_of
from barwright.registry.search.distinguish import listed

__all__ = ["SharedNumber", "described_by", "shared_numbers", "why_none"]

# Shorter pieces are in many a number by chance.
_LEAST_PIECE = 4


@attrs.frozen(kw_only=True, repr=False)
class SharedNumber(Summarised):
    """A part number that several records have in one system.

    Parameters
    ----------
    number_system : str
        The system.
    number : str
        The number, without spaces and hyphens, in small letters.
    ids : tuple of str
        The records, sorted.
    """

    number_system: str
    number: str
    ids: tuple[str, ...]


def shared_numbers(numbers: Iterable[tuple[str, str, str]]) -> Iterator[SharedNumber]:
    """List the part numbers that several records have in one system.

    Parameters
    ----------
    numbers : iterable of tuple of str
        System, compact number and full id of each.

    Yields
    ------
    SharedNumber
        By system and number.
    """
    found: dict[tuple[str, str], set[str]] = defaultdict(set)
    for system, number, full_id in numbers:
        found[system, number].add(full_id)
    for (system, number), ids in sorted(found.items()):
        if len(ids) > 1:
            yield SharedNumber(number_system=system, number=number, ids=tuple(sorted(ids)))


def described_by(words: str, parts: Iterable[Part]) -> Iterator[Part]:
    """Keep the parts that have all of some words.

    Parameters
    ----------
    words : str
        Each a piece of the id, of the title, of a number or of the paint mark.
    parts : iterable of Part
        The parts to choose from.

    Yields
    ------
    Part
    """
    wanted = words.split()
    return (part for part in parts if _has_all(wanted, part))


def _has_all(words: Sequence[str], part: Part) -> bool:
    text, numbers = _text(part), [compact(one.number) for one in part.numbers]
    return all(_has(word, text, numbers) for word in words)


def _has(word: str, text: str, numbers: Sequence[str]) -> bool:
    piece = compact(word)
    if piece in numbers or plain_letters(word) in text:
        return True
    return len(piece) >= _LEAST_PIECE and any(piece in number for number in numbers)


def _text(part: Part) -> str:
    return plain_letters(f"{part.id} {part.title} {part.paint}")


def why_none(words: str, parts: Sequence[Part]) -> str:
    """Say which of the words is in the way.

    Parameters
    ----------
    words : str
        Words that no part has together.
    parts : sequence of Part
        The parts that were searched.

    Returns
    -------
    str
    """
    wanted = words.split()
    for word in wanted:
        if not any(_has_all([word], part) for part in parts):
            near = closest(plain_letters(word), _known(parts))
            return f"did you mean {listed(map(repr, near))}?" if near else f"leave {word!r} out"
    rests = [(word, [other for other in wanted if other != word]) for word in wanted]
    in_the_way = [repr(word) for word, rest in rests if any(_has_all(rest, part) for part in parts)]
    return f"leave out {listed(in_the_way)}" if in_the_way else "use fewer words"


def _known(parts: Sequence[Part]) -> list[str]:
    """Words of all ids, titles and paint marks."""
    return sorted({word for part in parts for word in words_of(_text(part))})
