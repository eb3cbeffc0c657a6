"""Setting the last fields of a record that was just made."""

from __future__ import annotations

from typing import TypeVar

from barwright.parts.record import Record

__all__ = ["completed"]

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
