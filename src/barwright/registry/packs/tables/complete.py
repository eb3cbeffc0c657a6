"""Setting the last fields of a record that was just made."""

from __future__ import annotations

from typing import TypeVar

from barwright.parts.common.record import Part, Record
from barwright.registry.packs.supersession import in_full

__all__ = ["completed", "identified"]

P = TypeVar("P", bound=Part)
R = TypeVar("R", bound=Record)


def completed(record: R, **fields: object) -> R:
    """Set fields of a record that was just made, and that nothing else holds yet.

    Making it again would convert and check every field once more; nothing is converted
    or checked here.

    Parameters
    ----------
    record : Record
        Changed in place.
    **fields : object
        Values as the fields' own converters would return them.

    Returns
    -------
    Record
        The same.
    """
    for name, value in fields.items():
        object.__setattr__(record, name, value)
    return record


def identified(
    part: P, full_id: str, *, replaced_by: tuple[str, ...] = (), pack_version: str = ""
) -> P:
    """Set what a part that was just made of a table is told by among all packs.

    Parameters
    ----------
    part : Part
        Changed in place.
    full_id : str
        Its id with its pack.
    replaced_by : tuple of str
        Full ids of the parts that supersede it.
    pack_version : str
        Version of its pack.

    Returns
    -------
    Part
        The same.
    """
    replaces = in_full(part.replaces, full_id.partition(":")[0])
    return completed(
        part,
        id=full_id,
        replaces=replaces,
        replaced_by=replaced_by,
        pack_version=pack_version,
    )
