"""Reading an overlay together with the packs beneath it, and what it changes of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from os import PathLike
from pathlib import Path

import attrs

from barwright.errors import PackError, SchemaError
from barwright.lint.subject.other_packs import NO_OTHERS, OtherPacks
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.stated import StatedCorrection, StatedPreference
from barwright.registry.files.snapshot import HEADER, Snapshot, snapshot_of
from barwright.registry.overlays.correction import Change, holder_of
from barwright.registry.overlays.overlay import read_overlay
from barwright.registry.overlays.preference import (
    Preference,
    clashing,
    is_overlay,
    stated_preferences,
    wrong_preferences,
)
from barwright.registry.overlays.store import OverlaidStore, Overlay
from barwright.registry.packs.format.pack import Pack
from barwright.registry.packs.load import Loaded
from barwright.registry.packs.store import Store
from barwright.registry.registry import Registry

__all__ = ["ReadPack", "beneath", "read_with_packs"]


@attrs.frozen(kw_only=True, eq=False)
class ReadPack:
    """What could be read of a pack, or of an overlay and of what lies beneath it.

    Parameters
    ----------
    loaded : Loaded
        Its own records and files, and all that is wrong with it.
    laid : Store, optional
        All records with the overlay on top; none if it cannot be laid there.
    corrections : tuple of StatedCorrection
        Those that fit their records.
    preferences : tuple of StatedPreference
        What it prefers.
    left_out : tuple of PackError
        Packs beneath that cannot be used.
    others : OtherPacks
        Packs that its claims and checks may name.
    """

    loaded: Loaded
    laid: Store | None = None
    corrections: tuple[StatedCorrection, ...] = ()
    preferences: tuple[StatedPreference, ...] = ()
    left_out: tuple[PackError, ...] = ()
    others: OtherPacks = NO_OTHERS


def read_with_packs(snapshot: Snapshot, over: Sequence[str | PathLike[str]] | None) -> ReadPack:
    """Read an overlay together with the packs beneath it.

    Parameters
    ----------
    snapshot : Snapshot
        Files of the overlay.
    over : sequence of path, optional
        Folders of the packs, and of overlays between; those that are installed if left out.

    Returns
    -------
    ReadPack
    """
    stated = stated_preferences(snapshot)
    below = beneath(over, {})
    claimed = clashing(below.problems)
    if stated:
        below = _preferring(over, {one.id: one.origin for one in stated})
    wrong = list(wrong_preferences(stated, below.store, below.problems))
    read = read_overlay(snapshot, below.store, wrong)
    pack = read.loaded.pack
    return ReadPack(
        loaded=read.loaded,
        laid=OverlaidStore(below.store, (Overlay(pack, read.changes),)) if pack else None,
        corrections=tuple(_corrections(read.changes, pack, below.store)) if pack else (),
        preferences=tuple(_stated(one, is_needed=one.id in claimed) for one in stated),
        left_out=below.problems,
        others=OtherPacks(below),
    )


def beneath(over: Sequence[str | PathLike[str]] | None, prefer: Mapping[str, str]) -> Registry:
    """Open the packs beneath an overlay, or beside a pack that refers to them.

    Parameters
    ----------
    over : sequence of path, optional
        Their folders; those that are installed if left out.
    prefer : mapping of str to str
        Which to take of several with one id.

    Returns
    -------
    Registry
    """
    if over is None:
        return Registry.discover(prefer=prefer)
    overlays = [folder for folder in over if is_overlay(snapshot_of(Path(folder)))]
    packs = [folder for folder in over if folder not in overlays]
    return Registry.from_folders(*packs, overlays=overlays, prefer=prefer)


def _preferring(over: Sequence[str | PathLike[str]] | None, prefer: Mapping[str, str]) -> Registry:
    """Open the packs with those preferences that name what is there; others are told later."""
    try:
        return beneath(over, prefer)
    except SchemaError as error:
        holding = {n: origin for n, origin in prefer.items() if f"prefer.{n}" != error.key}
        return _preferring(over, holding)


def _corrections(changes: Sequence[Change], pack: Pack, store: Store) -> Iterator[StatedCorrection]:
    for change in changes:
        record = pack.parts.get(change.of) or store.part(change.of)
        holder, field = holder_of(record, change.figure)
        known = change.known
        place = PackPlace(f"{change.of}.{change.figure}", known.file, known.key)
        yield StatedCorrection(place, holder, field, known)


def _stated(one: Preference, *, is_needed: bool) -> StatedPreference:
    place = PackPlace(f"prefer.{one.id}", HEADER, f"prefer.{one.id}")
    return StatedPreference(place, one, is_needed)
