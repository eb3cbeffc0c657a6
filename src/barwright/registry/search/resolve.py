"""Find exactly one vehicle, or raise an error that says what is missing.

Nothing is guessed.  Where several vehicles are as was said, the error lists them and says
what tells them apart; where none is, it says which word nobody has, and the nearest that
somebody has.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from barwright.errors import UnknownNameError
from barwright.parts.chassis import Chassis
from barwright.registry.discovery.shipped import WAYS_TO_DATA
from barwright.registry.nearest_name import closest, is_one_slip
from barwright.registry.packs.search_terms import EVERYWHERE, Condition
from barwright.registry.packs.store import Store
from barwright.registry.search.distinguish import distinguishing_words, listed
from barwright.registry.search.query import Clause, Description

__all__ = ["matching", "only"]

_MOST_SHOWN = 20
_MOST_MISTAKES = 3
_MOST_NEAR = 5


def matching(store: Store, description: Description) -> list[str]:
    """List the vehicles that match a description.

    Parameters
    ----------
    store : Store
        Where they are looked for.
    description : Description
        What was said; all vehicles if that is nothing.

    Returns
    -------
    list of str
        Full ids, sorted.
    """
    if not description.all_clauses:
        return [] if description.text else list(store.ids("chassis"))
    found: set[str] = set()
    for conditions in itertools.product(*(c.conditions for c in description.all_clauses)):
        found.update(store.having(conditions))
    if description.id:
        found = {full for full in found if description.id in (full, full.partition(":")[2])}
    return sorted(found)


def only(store: Store, description: Description) -> Chassis:
    """Return the one vehicle that matches a description.

    Parameters
    ----------
    store : Store
        Where it is looked for.
    description : Description
        What was said.

    Returns
    -------
    Chassis

    Raises
    ------
    UnknownNameError
        L101 if there is none, L104 if there are several.
    """
    if not description.all_clauses:
        raise _nothing_said(description)
    mistaken = [c for c in description.clauses if c.conditions[1:] and not _is_known(store, c)]
    found = [] if mistaken else matching(store, description)
    shown = [part for part in map(store.part, found[:_MOST_SHOWN]) if isinstance(part, Chassis)]
    if len(found) == 1 and shown:
        return shown[0]
    if found:
        raise _several(description, shown, count=len(found))
    mistaken = mistaken or [c for c in description.clauses if not _is_known(store, c)]
    raise _mistaken(store, description, mistaken) if mistaken else _not_together(store, description)


def _is_known(store: Store, clause: Clause) -> bool:
    """Whether any vehicle meets a condition."""
    return store.knows(clause.conditions[0])


# -- What is said to the person ------------------------------------------------------


def _nothing_said(description: Description) -> UnknownNameError:
    return UnknownNameError(
        "L101",
        value=description.text,
        expected="an id, or words that name a vehicle",
        remedy="add words until one vehicle matches",
    )


def _mistaken(store: Store, said: Description, mistaken: Sequence[Clause]) -> UnknownNameError:
    """Report the unknown words, and the nearest known ones."""
    reported = mistaken[:_MOST_MISTAKES]
    if not store.ids("chassis"):
        return _none_known(said)
    advice = [_instead(store, clause) for clause in reported]
    if len(reported) > 1:
        advice = [f"for {c.said}: {text}" for c, text in zip(reported, advice, strict=True)]
    return UnknownNameError(
        "L101",
        value=said.text,
        expected=f"a vehicle with all of these, but none has {listed(c.said for c in reported)}",
        remedy="; ".join(advice),
    )


def _none_known(said: Description) -> UnknownNameError:
    return UnknownNameError(
        "L101",
        value=said.text,
        expected="a vehicle, but none is known",
        remedy=f"correct the packs that were left out, {WAYS_TO_DATA}",
    )


def _instead(store: Store, clause: Clause) -> str:
    condition = clause.conditions[0]
    if condition.word:
        known = [word for word in store.words(condition.attribute) if word != EVERYWHERE]
        near = _near(condition, known)
        if near:
            return f"did you mean {listed(map(repr, near))}?"
    return f"leave {clause.said} out"


def _near(condition: Condition, known: Sequence[str]) -> list[str]:
    """List what may have been meant by a word, or by the text of an attribute."""
    word = condition.word
    if condition.months:
        # The number of another year is no better than the one that was written.
        return [other for other in closest(word, known) if is_one_slip(word, other)]
    holding = [other for other in known if set(word.split()) <= set(other.split())]
    return list(dict.fromkeys([*holding, *closest(word, known)]))[:_MOST_NEAR]


def _not_together(store: Store, said: Description) -> UnknownNameError:
    """Name the condition that excludes all vehicles."""
    in_the_way = [c.said for c in said.clauses if matching(store, said.without(c))]
    return UnknownNameError(
        "L101",
        value=said.text,
        expected="a vehicle with all of these words",
        remedy=f"leave out {listed(in_the_way)}" if in_the_way else "use fewer words",
    )


def _several(said: Description, shown: Sequence[Chassis], *, count: int) -> UnknownNameError:
    """List the matching vehicles, and what distinguishes them."""
    ids = ", ".join(chassis.id for chassis in shown)
    more = f", and {count - len(shown)} more" if count > len(shown) else ""
    advice = [distinguishing_words(shown), "name one by its id"]
    return UnknownNameError(
        "L104",
        value=said.text,
        expected=f"one vehicle, but {count} match: {ids}{more}",
        remedy=", or ".join(filter(None, advice)),
    )
