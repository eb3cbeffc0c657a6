"""Rows of the matrix as an Arrow table."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from barwright.family.row import COLUMNS, FIGURES, PlainRow
from barwright.registry.importing.arrow import arrow
from barwright.tables.unit_of import UNIT

__all__ = ["table_of"]

_COUNTS = ("arm_tooth", "anchor_tooth", "cuts")


def table_of(rows: Sequence[PlainRow]) -> Any:  # noqa: ANN401 - of Arrow
    """Make a table of plain rows: units stand in the metadata of its fields.

    Parameters
    ----------
    rows : sequence of dict
        The plain rows.

    Returns
    -------
    pyarrow.Table
    """
    schema = arrow().core.schema(map(_field, COLUMNS))
    return arrow().core.Table.from_pylist(list(rows), schema=schema)


def _field(name: str) -> Any:  # noqa: ANN401 - of Arrow
    pa = arrow().core
    if name in FIGURES:
        return pa.field(name, pa.float64(), metadata={UNIT: FIGURES[name].units[0]})
    if name == "wheel_rate_change":
        return pa.field(name, pa.float64(), metadata={UNIT: "%"})
    if name in _COUNTS:
        return pa.field(name, pa.int32())
    if name == "changes":
        return pa.field(name, pa.list_(pa.string()))
    return pa.field(name, pa.bool_() if name == "is_standard" else pa.string())
