"""Packs that claim one id: none of them is kept."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from typing import Protocol, TypeVar

from barwright.errors import PackError, SchemaError
from barwright.registry.snapshot import HEADER

__all__ = ["Claimant", "without_clashes"]


class Claimant(Protocol):
    """A pack that claims an id."""

    @property
    def id(self) -> str:
        """The id that it claims."""

    @property
    def origin(self) -> str:
        """What to call it in messages."""

    @property
    def digest(self) -> str:
        """SHA-256 of its files."""


C = TypeVar("C", bound=Claimant)


def without_clashes(standards: C, packs: Sequence[C]) -> tuple[list[C], list[PackError]]:
    """Leave out every pack whose id another one claims too.

    Parameters
    ----------
    standards : pack
        The pack that ships with the library, which is always kept.
    packs : sequence of pack
        All others.

    Returns
    -------
    tuple
        Those that are kept, and an error for each of the others.
    """
    by_id: dict[str, list[C]] = defaultdict(list)
    for pack in (standards, *packs):
        by_id[pack.id].append(pack)
    kept = [pack for pack in packs if len(by_id[pack.id]) == 1]
    clashes = [_clash(pack, by_id[pack.id]) for pack in packs if len(by_id[pack.id]) > 1]
    return kept, clashes


def _clash(pack: Claimant, claimants: Sequence[Claimant]) -> PackError:
    others = ", ".join(other.origin for other in claimants if other is not pack)
    problem = SchemaError(
        "P301",
        value=pack.id,
        expected="an id that no other pack claims",
        remedy=f"rename one, or uninstall this pack or {others}",
        key="id",
        file=HEADER,
    )
    return PackError("P101", problems=(problem,), file=pack.origin)
