"""Which parts supersede which: the other direction of what each says that it replaces."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from barwright.parts.common.record import Part

__all__ = ["in_full", "newest_replacements", "replacements", "same_kind"]

# A longer line of parts, each in place of the one before, is a slip.
_MOST_STEPS = 64


def in_full(names: Iterable[str], pack: str) -> tuple[str, ...]:
    """Return ids with their pack.

    Parameters
    ----------
    names : iterable of str
        Ids, some of them without the pack.
    pack : str
        The pack of those.

    Returns
    -------
    tuple of str
    """
    return tuple(name if ":" in name else f"{pack}:{name}" for name in names)


def same_kind(one: str, other: str) -> bool:
    """Tell whether two full ids name records of one kind."""
    return _kind(one) == _kind(other)


def _kind(full_id: str) -> str:
    return full_id.partition(":")[2].partition("/")[0]


def replacements(parts: Iterable[Part]) -> dict[str, list[str]]:
    """List for each superseded part those that say that they replace it.

    Parameters
    ----------
    parts : iterable of Part
        The parts, under their full ids.

    Returns
    -------
    dict of str to list of str
        Ids of the new parts by the id of the old one, which is of the same kind.
    """
    found: dict[str, list[str]] = defaultdict(list)
    for part in parts:
        for old in dict.fromkeys(part.replaces):
            if old != part.id and same_kind(old, part.id):
                found[old].append(part.id)
    return dict(found)


def newest_replacements(direct: Mapping[str, Sequence[str]]) -> dict[str, tuple[str, ...]]:
    """Follow replacements to the parts that nothing replaces in turn.

    Parameters
    ----------
    direct : mapping of str to sequence of str
        As :func:`replacements` lists them.

    Returns
    -------
    dict of str to tuple of str
        Without parts that replace each other in a circle.

    Examples
    --------
    >>> newest_replacements({"p:bar/a": ["p:bar/b"], "p:bar/b": ["p:bar/c"]})["p:bar/a"]
    ('p:bar/c',)
    """
    newest = {old: _ends(old, direct) for old in direct}
    return {old: ends for old, ends in newest.items() if ends}


def _ends(old: str, direct: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    seen = {old}
    ends: set[str] = set()
    waiting = list(direct[old])
    while waiting and len(seen) <= _MOST_STEPS:
        part = waiting.pop()
        if part not in seen:
            seen.add(part)
            waiting += direct.get(part, ())
            ends |= set() if part in direct else {part}
    return tuple(sorted(ends))
