"""A record as it stands in a file of a pack, before it is made."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import attrs

__all__ = ["Entry"]


@attrs.frozen(kw_only=True)
class Entry:
    """A table of a pack's file, under the id that its record will have.

    Parameters
    ----------
    id : str
        ``pack:kind/name``.
    kind : str
        Kind of record, a key of :data:`barwright.registry.packs.format.pack.KINDS`.
    file : str
        Name of the file within the pack's folder.
    key : str
        Place in that file, such as ``bar[3]``.
    table : mapping
        The table as it was read.
    replaced_by : tuple of str
        Ids of the records that supersede it.
    """

    id: str
    kind: str
    file: str
    key: str
    table: Mapping[str, Any] = attrs.field(repr=False)
    replaced_by: tuple[str, ...] = ()

    @property
    def short(self) -> str:
        """The id without the pack."""
        return self.id.partition(":")[2]
