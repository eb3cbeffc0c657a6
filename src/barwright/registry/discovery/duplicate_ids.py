"""Packs that claim one id: those that are the same count once, of others the preferred one."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import Protocol, TypeVar

from barwright.errors import PackError, SchemaError
from barwright.registry.files.snapshot import HEADER

__all__ = ["Claimant", "is_called", "without_clashes"]


class Claimant(Protocol):
    """A pack that claims an id."""

    @property
    def id(self) -> str:
        """The id that it claims."""

    @property
    def origin(self) -> str:
        """What to call it in messages."""

    @property
    def distribution_version(self) -> str:
        """Of its distribution; empty for a folder."""

    @property
    def digest(self) -> str:
        """SHA-256 of its files."""


C = TypeVar("C", bound=Claimant)


def without_clashes(
    standards: C, packs: Sequence[C], prefer: Mapping[str, str] | None = None
) -> tuple[list[C], list[PackError]]:
    """Keep one pack of each id: of several with different content, the one that is preferred.

    Parameters
    ----------
    standards : pack
        The pack that ships with the library, which is always kept.
    packs : sequence of pack
        All others.
    prefer : mapping of str to str, optional
        Origin or distribution of the pack to keep, by the id that several claim.

    Returns
    -------
    tuple
        Those that are kept, and an error for each pack whose id another one claims with
        different content while none of them is preferred.
    """
    by_id: dict[str, list[C]] = defaultdict(list)
    for pack in (standards, *packs):
        by_id[pack.id].append(pack)
    wanted = {name: (prefer or {}).get(name, "") for name in by_id}
    chosen = {name: _chosen(standards, by_id[name], wanted[name]) for name in by_id}
    clashes = [
        _clash(pack, by_id[pack.id], wanted[pack.id])
        for pack in packs
        # A copy of the standards is no other pack.
        if chosen[pack.id] is None and pack.digest != standards.digest
    ]
    return [pack for pack in packs if pack is chosen[pack.id]], clashes


def _chosen(standards: C, claimants: Sequence[C], wanted: str) -> C | None:
    """Return the one of several claimants that is kept, if any."""
    if standards in claimants:
        return None
    chosen = [pack for pack in claimants if wanted and is_called(pack, wanted)] or claimants
    if len({pack.digest for pack in chosen}) > 1:
        return None
    # Which of several that are the same does not matter, but it is to be always the same.
    return min(chosen, key=lambda pack: pack.origin)


def is_called(pack: Claimant, name: str) -> bool:
    """Tell whether a name is a pack's origin, or its distribution without the version.

    Parameters
    ----------
    pack : pack
        The pack.
    name : str
        What a preference calls it.

    Returns
    -------
    bool
    """
    return name in (pack.origin, pack.origin.removesuffix(f" {pack.distribution_version}"))


def _clash(pack: Claimant, claimants: Sequence[Claimant], wanted: str) -> PackError:
    others = ", ".join(sorted(other.origin for other in claimants if other is not pack))
    problem = SchemaError(
        "P301",
        value=pack.id,
        expected="an id that no other pack claims"
        + (f", or one of them called {wanted!r}" if wanted else ""),
        remedy=f"prefer one, rename one, or uninstall this pack or {others}",
        key="id",
        file=HEADER,
    )
    return PackError("P101", problems=(problem,), file=pack.origin)
