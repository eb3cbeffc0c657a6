"""Packs that a pack's claims and checks refer to: which there are, and why others are not."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import attrs

from barwright.parts.claim import Claim
from barwright.parts.common.record import Part
from barwright.registry.packs.format.pack import Pack
from barwright.registry.registry import Registry

__all__ = ["NO_OTHERS", "OtherPacks", "refers_to_others"]


@attrs.frozen(eq=False)
class OtherPacks:
    """The packs beside the one that is checked.

    Parameters
    ----------
    registry : Registry, optional
        With their records; none where the pack refers to no other.
    """

    registry: Registry | None = None

    def part(self, full_id: str) -> Part | None:
        """Return a record of another pack by its full id; none if there is none."""
        return None if self.registry is None else self.registry.store.part(full_id)

    def missing(self, full_id: str) -> str:
        """Say why nothing can be known of an id, where its pack is not there; else empty."""
        pack = full_id.partition(":")[0]
        if self.registry is None or self.registry.store.header(pack) is not None:
            return ""
        broken = [problem.file for problem in self.registry.problems]
        left_out = f"; left out for their own problems: {', '.join(broken)}" if broken else ""
        return f"the pack {pack!r} is not installed{left_out}"

    def ids(self) -> tuple[str, ...]:
        """List the full ids of all records."""
        return () if self.registry is None else self.registry.ids()


NO_OTHERS = OtherPacks()
"""For a pack that refers to no other."""


def refers_to_others(pack: Pack, tables: Mapping[str, Mapping[str, Any]]) -> bool:
    """Tell whether a pack's claims or checks name records of another pack.

    Parameters
    ----------
    pack : Pack
        The pack.
    tables : mapping
        What each of its files holds.

    Returns
    -------
    bool
    """
    return any(_is_other(name, pack.id) for name in _named(pack.claims, tables))


def _is_other(name: object, own: str) -> bool:
    return isinstance(name, str) and ":" in name and not name.startswith(f"{own}:")


def _named(claims: tuple[Claim, ...], tables: Mapping[str, Mapping[str, Any]]) -> Iterator[object]:
    yield from (name for claim in claims for name in claim.on)
    for table in tables.values():
        listed = table.get("check")
        checks = listed if isinstance(listed, list) else []
        yield from (check.get("of") for check in checks if isinstance(check, dict))
