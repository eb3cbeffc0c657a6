"""The map of a table: records with the names of columns in braces."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import attrs

from barwright.computed_once import cached_property
from barwright.errors import BarwrightError, SchemaError
from barwright.registry.files.document import read_toml
from barwright.registry.importing.table import Table
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.format.pack import KINDS

__all__ = ["NAMED", "TableMap", "read_map"]

NAMED = re.compile(r"\{([^{}]+)\}")
"""The name of a column in a text of a map."""

_HEADER = ("id", "title", "licence", "source")
_MAY_BE_IN_HEADER = ("version", "requires_barwright")
_CSV = {"separator": ",", "decimal": ".", "empty": "unknown"}
_WORDS = {"separator": (",", ";", "\t", "|"), "decimal": (".", ","), "empty": ("unknown", "none")}


@attrs.frozen(slots=False)
class TableMap:
    """What becomes of each row of a table.

    Parameters
    ----------
    name : str
        Name of its file.
    header : mapping
        Id, title, licence and sources of the pack; the first source is the table.
    separator : str
        Sign between the cells of a row of CSV.
    decimal : str
        Sign before the decimals of a number.
    empty : str
        What an empty cell says of a figure: ``unknown`` or ``none``.
    records : tuple of (str, dict)
        Kind and template of each record that a row gives, kinds in the order of a pack.
    """

    name: str
    header: Mapping[str, Any]
    separator: str
    decimal: str
    empty: str
    records: tuple[tuple[str, dict[str, Any]], ...]

    @cached_property
    def columns(self) -> Mapping[str, str]:
        """Kind of a record that names a column, by the name."""
        return {name: kind for kind, record in self.records for name in _names(record)}

    def check_columns(self, table: Table) -> None:
        """Refuse the name of a column that the table does not have.

        Parameters
        ----------
        table : Table
            The table.

        Raises
        ------
        ExceptionGroup
            S206 for each such name.
        """
        known = [column.name for column in table.columns]
        missing = [
            SchemaError(
                "S206",
                value=name,
                expected=f"the name of a column of {table.name}",
                remedy=nearest(name, known),
                key=kind,
                file=self.name,
            )
            for name, kind in self.columns.items()
            if name not in known
        ]
        if missing:
            raise ExceptionGroup("columns", missing)


def read_map(path: Path) -> TableMap:
    """Read the map of a table.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    TableMap

    Raises
    ------
    FileError
        If it cannot be read, or is no TOML.
    SchemaError
        S201 for a key that is not allowed there, S202 for one that is missing, S203 for a
        value of the wrong type, S204 for a word that is not on the list.
    """
    content = read_toml(path)
    try:
        return _read(content, path.name)
    except SchemaError as error:
        raise error.within(file=path.name) from None


def _read(content: Mapping[str, Any], name: str) -> TableMap:
    _refuse_other_keys(content, [*_HEADER, *_MAY_BE_IN_HEADER, "table", *KINDS])
    for key in _HEADER:
        if key not in content:
            raise _wrong("S202", key, "nothing", expected="a value", remedy="add the key")
    _check_tables(content["source"], "source")
    records = tuple(_records(content))
    if not records:
        raise _wrong(
            "S202", "chassis", "nothing", expected="a record", remedy="add one, like [[chassis]]"
        )
    return TableMap(
        name=name,
        header={key: content[key] for key in (*_HEADER, *_MAY_BE_IN_HEADER) if key in content},
        records=records,
        **_way_of_writing(content.get("table", {})),
    )


def _records(content: Mapping[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for kind in KINDS:
        if kind in content:
            _check_tables(content[kind], kind)
            yield from ((kind, record) for record in content[kind])


def _way_of_writing(table: object) -> dict[str, str]:
    if not isinstance(table, dict):
        raise _wrong(
            "S203", "table", table, expected="a table of keys", remedy="write it as [table]"
        )
    _refuse_other_keys(table, list(_CSV), within="table")
    for key, value in table.items():
        if value not in _WORDS[key]:
            raise _wrong(
                "S204",
                f"table.{key}",
                value,
                expected=" or ".join(map(repr, _WORDS[key])),
                remedy="write one of these",
            )
    return _CSV | table


def _check_tables(value: object, key: str) -> None:
    if not isinstance(value, list) or not value or not all(isinstance(v, dict) for v in value):
        raise _wrong(
            "S203", key, value, expected="a list of tables", remedy=f"write it as [[{key}]]"
        )


def _refuse_other_keys(table: Mapping[str, Any], known: Sequence[str], *, within: str = "") -> None:
    for key in table:
        if key not in known:
            place = f"{within}.{key}".strip(".")
            raise _wrong(
                "S201", place, key, expected="a key on the list", remedy=nearest(key, known)
            )


def _names(template: Any) -> Iterator[str]:  # noqa: ANN401 - whatever TOML holds
    """Names of columns in a template, in order."""
    if isinstance(template, str):
        yield from NAMED.findall(template)
    elif isinstance(template, dict):
        for value in template.values():
            yield from _names(value)
    elif isinstance(template, list):
        for value in template:
            yield from _names(value)


def _wrong(code: str, key: str, value: object, *, expected: str, remedy: str) -> BarwrightError:
    return SchemaError(code, value=value, expected=expected, remedy=remedy, key=key)
