"""Attributes that distinguish vehicles, and the choices."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TypeAlias

from barwright.parts.chassis import Chassis
from barwright.registry.packs.search_terms import identity, months, spelled, words_of

__all__ = ["built_text", "distinguishing_words", "listed"]

_ATTRIBUTES = ("maker", "model", "body", "trim", "drive", "built", "market", "code")

Pair: TypeAlias = tuple[int, int]


def distinguishing_words(vehicles: Sequence[Chassis]) -> str:
    """Say what to add to a description that fits all of some vehicles.

    Parameters
    ----------
    vehicles : sequence of Chassis
        At least two.

    Returns
    -------
    str
        One attribute that tells all apart, with its values; or words of the titles, one
        for each; or attributes that do it together, or as far as it can be done.  Empty
        if all are alike.
    """
    pairs = set(itertools.combinations(range(len(vehicles)), 2))
    apart = {name: set(_apart(name, vehicles, pairs)) for name in _ATTRIBUTES}
    for name, reported in apart.items():
        if reported == pairs:
            return f"add {_choice(name, vehicles)}"
    words = _words_of_their_own(vehicles)
    if all(words):
        return f"add one of the words {listed(map(repr, words))}"
    together = _together(apart, pairs)
    choices = [_choice(name, vehicles) for name in together]
    return f"add {', and '.join(choices)}" if choices else ""


def listed(texts: Iterable[str]) -> str:
    """Put texts into one, with "or" before the last.

    Parameters
    ----------
    texts : iterable of str
        At least one.

    Returns
    -------
    str

    Examples
    --------
    >>> listed(["van", "box", "estate"])
    'van, box or estate'
    """
    *first, last = texts
    return f"{', '.join(first)} or {last}" if first else last


def built_text(chassis: Chassis) -> str:
    """Say in which months a vehicle was built.

    Parameters
    ----------
    chassis : Chassis
        The vehicle.

    Returns
    -------
    str
        Empty if it states none.
    """
    first, last = chassis.first_built, chassis.last_built
    if first is None:
        return "" if last is None else f"to {last}"
    return f"from {first}" if last is None else f"{first} to {last}"


def _apart(name: str, vehicles: Sequence[Chassis], pairs: Iterable[Pair]) -> Iterator[Pair]:
    """Find the pairs of vehicles that an attribute distinguishes."""
    if name == "built":
        spans = [months(vehicle) for vehicle in vehicles]
        for one, other in pairs:
            if (a := spans[one]) and (b := spans[other]) and (a[1] < b[0] or b[1] < a[0]):
                yield one, other
        return
    tokens = [set(map(spelled, identity(vehicle)[name])) - {""} for vehicle in vehicles]
    for one, other in pairs:
        if tokens[one] and tokens[other] and not tokens[one] & tokens[other]:
            yield one, other


def _choice(name: str, vehicles: Sequence[Chassis]) -> str:
    """List the values of an attribute that there are to choose between."""
    if name == "built":
        spans = {text for text in map(built_text, vehicles) if text}
        return f"{name}: {listed(sorted(spans))}"
    texts = {spelled(text): text for vehicle in vehicles for text in identity(vehicle)[name]}
    return f"{name}: {listed(sorted(map(repr, texts.values())))}"


def _words_of_their_own(vehicles: Sequence[Chassis]) -> list[str]:
    """For each vehicle the first word of its title that none of the others has; else empty."""
    words = [list(dict.fromkeys(words_of(vehicle.title))) for vehicle in vehicles]
    every = [
        set(words_of(" ".join((v.id, v.title, *itertools.chain(*identity(v).values())))))
        for v in vehicles
    ]
    count = Counter(itertools.chain(*every))
    # A number may also be a year in which others were built.
    return [next((w for w in own if count[w] == 1 and not w.isdecimal()), "") for own in words]


def _together(apart: Mapping[str, set[Pair]], pairs: set[Pair]) -> list[str]:
    """Find the smallest distinguishing set of attributes (greedy)."""
    chosen: list[str] = []
    left = set(pairs)
    while helpful := [name for name in apart if apart[name] & left]:
        best = max(helpful, key=lambda name: len(apart[name] & left))
        chosen.append(best)
        left -= apart[best]
    return chosen
