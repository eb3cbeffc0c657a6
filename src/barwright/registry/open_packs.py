"""From places of packs to a store of their records, and the problems of those left out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias, TypeVar

import attrs

from barwright.errors import PackError
from barwright.first_use import FIRST_USE
from barwright.registry.discovery.duplicate_ids import Claimant, without_clashes
from barwright.registry.discovery.entry_points import LocatedPack
from barwright.registry.files.snapshot import stats_of
from barwright.registry.files.user_cache import Progress
from barwright.registry.packs.format.pack import Pack
from barwright.registry.packs.load import STANDARDS, load_pack, standards
from barwright.registry.packs.problems import pack_error
from barwright.registry.packs.store import MemoryStore, Store

if TYPE_CHECKING:
    from barwright.registry.index.shelf import Indexed

__all__ = ["Opened", "open_packs"]

C = TypeVar("C", bound=Claimant)

# Bytes that take 20 ms to read; an index of them opens in 1 ms, and sqlite3 loads in 7 ms.
_WORTHWHILE = 8192

Opened: TypeAlias = tuple[Store, tuple[PackError, ...]]
"""A store of records, and a problem for each pack that is left out of it."""


def open_packs(
    found: Sequence[LocatedPack],
    *,
    name: str,
    prefer: Mapping[str, str] | None = None,
    cache: bool = True,
    progress: Progress | None = None,
) -> Opened:
    """Open packs, through an index of them where that pays.

    Parameters
    ----------
    found : sequence of Found
        Where the packs lie, or why they cannot be found.
    name : str
        What this set of packs is known by in the cache.
    prefer : mapping of str to str, optional
        Which pack to keep of several that claim one id.
    cache : bool
        Whether an index may be used.
    progress : callable, optional
        Called after each pack that is read into an index.

    Returns
    -------
    tuple
        The store, and a problem for each pack that is left out.
    """
    folders = [place.folder.absolute() for place in found if place.folder is not None]
    index = _index(folders, name, progress) if cache else None
    wanted = prefer or {}
    return _loaded(found, wanted) if index is None else _looked_up(found, index, wanted)


def _index(folders: Sequence[Path], name: str, progress: Progress | None) -> Indexed | None:
    stats = [(folder, stats_of(folder)) for folder in folders]
    if sum(seen.size for _, seen in stats) < _WORTHWHILE:
        return None
    with FIRST_USE:
        from barwright.registry.index.shelf import index_of  # noqa: PLC0415 - loads sqlite3

    return index_of(stats, name=name, progress=progress)


def _loaded(found: Sequence[LocatedPack], prefer: Mapping[str, str]) -> Opened:
    """Load packs whole."""
    kept, problems = _sorted_out(standards(), map(_outcome, found), prefer)
    return MemoryStore(standards(), kept), problems


def _outcome(place: LocatedPack) -> Pack | PackError | None:
    if place.folder is None:
        return place.problem
    try:
        pack = load_pack(place.folder, origin=place.origin, version=place.version)
    except PackError as error:
        return error
    return attrs.evolve(pack, info=attrs.evolve(pack.info, hidden_versions=place.hidden_versions))


def _looked_up(found: Sequence[LocatedPack], index: Indexed, prefer: Mapping[str, str]) -> Opened:
    """Look packs up in an index that holds them all."""
    with FIRST_USE:
        from barwright.registry.index.store import IndexedPack, SafeStore  # noqa: PLC0415 - as above

    def outcome(place: LocatedPack) -> IndexedPack | PackError | None:
        if place.folder is None:
            return place.problem
        row = next(rows)
        if not row.id:
            return pack_error(row.problems, origin=place.origin)
        return IndexedPack(row, place.folder, place.origin, place.version, place.hidden_versions)

    rows = iter(index.packs)
    first = IndexedPack(next(rows), STANDARDS, "barwright", "")
    kept, problems = _sorted_out(first, map(outcome, found), prefer)
    return SafeStore(index.path, index.digest, (first, *kept), index.file), problems


def _sorted_out(
    first: C, outcomes: Iterable[C | PackError | None], prefer: Mapping[str, str]
) -> tuple[list[C], tuple[PackError, ...]]:
    """Tell packs from problems, and leave out those that claim one id."""
    known = list(outcomes)
    problems = [one for one in known if isinstance(one, PackError)]
    packs = [one for one in known if one is not None and not isinstance(one, PackError)]
    kept, clashes = without_clashes(first, packs, prefer)
    return kept, (*problems, *clashes)
