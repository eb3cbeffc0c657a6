"""The unit of a column: in the metadata of its Arrow field, or in brackets in its heading."""

from __future__ import annotations

from typing import Any

__all__ = ["UNIT", "heading_of_field", "unit_of_field"]

UNIT = b"unit"
"""Key of a field's metadata under which its unit stands."""


def unit_of_field(field: Any) -> str:  # noqa: ANN401 - of Arrow
    """Return the unit that a field's metadata gives.

    Parameters
    ----------
    field : pyarrow.Field
        The field.

    Returns
    -------
    str
        Empty if it gives none.
    """
    unit: bytes = (field.metadata or {}).get(UNIT, b"")
    return unit.decode(errors="replace").strip()


def heading_of_field(field: Any) -> str:  # noqa: ANN401 - of Arrow
    """Return a field's name, its unit in brackets behind it, such as ``bar.diameter [mm]``.

    Parameters
    ----------
    field : pyarrow.Field
        The field.

    Returns
    -------
    str
    """
    unit = unit_of_field(field)
    return f"{field.name} [{unit}]" if unit else str(field.name)
