"""Packs with overlays on top, chosen and corrected by the overlays."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TypeAlias

import attrs

from barwright.errors import PackError, SchemaError
from barwright.registry.files.snapshot import Snapshot
from barwright.registry.overlays.overlay import load_overlay
from barwright.registry.overlays.preference import (
    CALL,
    Preference,
    stated_preferences,
    wrong_preferences,
)
from barwright.registry.overlays.store import OverlaidStore, Overlay
from barwright.registry.packs.store import Store

__all__ = ["OpenedPacks", "Opener", "open_with_overlays"]

Opener: TypeAlias = Callable[[Mapping[str, str]], tuple[Store, tuple[PackError, ...]]]
"""Opens packs, and of those that claim one id the one that is preferred."""


@attrs.frozen(eq=False)
class OpenedPacks:
    """Packs and overlays.

    Parameters
    ----------
    store : Store
        Records of all.
    problems : tuple of PackError
        One for each pack and each overlay that is left out.
    preferences : tuple of Preference
        Those that hold: of the overlays, and then of the call.
    """

    store: Store
    problems: tuple[PackError, ...]
    preferences: tuple[Preference, ...]


def open_with_overlays(
    opener: Opener, overlays: Sequence[Snapshot], *, prefer: Mapping[str, str]
) -> OpenedPacks:
    """Open packs as overlays prefer them, and lay these on top, each on those before it.

    Parameters
    ----------
    opener : callable
        Opens the packs.
    overlays : sequence of Snapshot
        Files of each overlay, the uppermost last.
    prefer : mapping of str to str
        Preferences of the call, which overrule those of the overlays.

    Returns
    -------
    Laid

    Raises
    ------
    SchemaError
        S206 for a preference of the call that names what is not there.
    """
    called = [Preference(name, origin, CALL) for name, origin in prefer.items()]
    stated = [stated_preferences(one) for one in overlays]
    ruling = {one.id: one for own in stated for one in own if one.id not in prefer}
    base, problems = opener({**{name: one.origin for name, one in ruling.items()}, **prefer})
    for error in wrong_preferences(called, base, problems):
        raise error
    # What another one overrules need not be true.
    holding = [[one for one in own if ruling.get(one.id) == one] for own in stated]
    wrong = [list(wrong_preferences(own, base, problems)) for own in holding]
    outcomes = list(_outcomes(overlays, base, wrong))
    errors = [one if isinstance(one, PackError) else None for one in outcomes]
    unheard = [error if own else None for own, error in zip(stated, errors, strict=True)]
    if any(unheard):
        # An overlay is left out whole: what it prefers counts no more.
        heard = [one for one, error in zip(overlays, unheard, strict=True) if error is None]
        laid = open_with_overlays(opener, heard, prefer=prefer)
        return attrs.evolve(laid, problems=(*laid.problems, *filter(None, unheard)))
    kept = [one for one in outcomes if isinstance(one, Overlay)]
    problems = (*problems, *filter(None, errors))
    return OpenedPacks(_stacked(base, kept), problems, (*ruling.values(), *called))


def _outcomes(
    overlays: Sequence[Snapshot], base: Store, wrong: Sequence[Sequence[SchemaError]]
) -> Iterator[Overlay | PackError]:
    """Read each overlay over those before it that are good."""
    kept: list[Overlay] = []
    for snapshot, problems in zip(overlays, wrong, strict=True):
        try:
            kept.append(load_overlay(snapshot, _stacked(base, kept), problems))
        except PackError as error:
            yield error
        else:
            yield kept[-1]


def _stacked(base: Store, overlays: Sequence[Overlay]) -> Store:
    return OverlaidStore(base, tuple(overlays)) if overlays else base
