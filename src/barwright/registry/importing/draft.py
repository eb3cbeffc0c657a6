"""The files of a pack that a table gives, and the rows that each record comes from."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Mapping
from typing import Any

import attrs

from barwright.computed_once import cached_property
from barwright.errors import BarwrightError, SchemaError
from barwright.registry.files.snapshot import HEADER
from barwright.registry.importing.fill import Filled, Filler
from barwright.registry.importing.table import Row, Table
from barwright.registry.importing.table_map import TableMap
from barwright.registry.importing.toml_text import record_text, toml_value
from barwright.registry.packs.format.pack import SCHEMA

__all__ = ["OF_THE_MAP", "Draft", "DraftRecord"]

OF_THE_MAP = 0
"""Stands for the number of a row where something comes from the map alone."""

_A_FILE = 200
"""Records of a file, far within what is read of one."""

_SCHEMA_LINE = "#:schema ../../pack.schema.json\n"

# What two parts may differ in and still be the same part, and what no two vehicles share.
_NAMES = ("id", "title", "at")
_NEVER_SHARED = ("material", "chassis")

_PLACE = re.compile(r"(?P<record>[a-z-]+\[[0-9]+\])(?P<key>.*)", re.DOTALL)


@attrs.define
class DraftRecord:
    """A record and where it comes from.

    Parameters
    ----------
    kind : str
        Name of its table.
    table : dict
        What it holds.
    rows : list of int
        Numbers of all rows that give it; the first is the place in the source.  Of a record
        that the map alone gives, 0.
    """

    kind: str
    table: dict[str, Any]
    rows: list[int]


class Draft:
    """Collects records row by row, each once.

    Parameters
    ----------
    table : Table
        The table.
    mapping : TableMap
        What becomes of a row.
    """

    def __init__(self, table: Table, mapping: TableMap) -> None:
        self._table = table
        self._map = mapping
        self._filler = Filler(table, mapping)
        self._by_id: dict[tuple[str, str], DraftRecord] = {}
        self._by_content: dict[tuple[str, str], DraftRecord] = {}
        self.records: list[DraftRecord] = []
        self.problems: dict[int, list[BarwrightError]] = {}

    def add(self, row: Row) -> None:
        """Add the records of a row; what is wrong with it is kept as its problem.

        Parameters
        ----------
        row : Row
            The row.
        """
        shared: dict[str, str] = {}
        try:
            for filled in self._filler.records(row):
                self._add(filled, row.number, shared)
        except BarwrightError as error:
            self._keep(error, row.number)

    def _add(self, filled: Filled, row: int, shared: dict[str, str]) -> None:
        kind, table = filled.kind, _referring(filled.table, shared)
        row = OF_THE_MAP if filled.is_constant else row
        name = str(table.get("id"))
        content = json.dumps([kind, _without_names(table)], default=str)
        same = self._by_id.get((kind, name))
        if same is None and filled.is_known and kind not in _NEVER_SHARED:
            same = self._by_content.get((kind, content))
        if same is None:
            self._begin(kind, name, table, content, row)
            return
        if _without_names(same.table) != _without_names(table) or kind in _NEVER_SHARED:
            raise _contradiction(kind, name, same, table)
        if same.rows != [OF_THE_MAP]:
            same.rows.append(row)
        self._by_id[kind, name] = same
        shared[f"{kind}/{name}"] = f"{kind}/{same.table['id']}"

    def _begin(self, kind: str, name: str, table: dict[str, Any], content: str, row: int) -> None:
        stated = {key: table[key] for key in ("id", "title") if key in table}
        place = f"map {self._map.name}" if row == OF_THE_MAP else f"row {row}"
        source = {"source": self._source, "at": place}
        record = DraftRecord(kind, stated | source | table, [row])
        self.records.append(record)
        self._by_id[kind, name] = record
        self._by_content.setdefault((kind, content), record)

    @property
    def _source(self) -> object:
        """Id of the source that is the table."""
        return self._map.header["source"][0].get("id", "")

    @cached_property
    def files(self) -> Mapping[str, str]:
        """All files by their names, ``pack.toml`` first."""
        files = {HEADER: _SCHEMA_LINE + self._header()}
        return files | {name: "".join(texts) for name, texts in self._texts().items()}

    def _texts(self) -> dict[str, list[str]]:
        texts: dict[str, list[str]] = {}
        for (file, _), record in self._record_at.items():
            held = texts.setdefault(file, [_SCHEMA_LINE + "\n"])
            held.append(record_text(record.table, record.kind))
        return texts

    @cached_property
    def _record_at(self) -> dict[tuple[str, str], DraftRecord]:
        """Each record by its file and its key there."""
        counts: Counter[str] = Counter()
        placed = {}
        for record in self.records:
            number, index = divmod(counts[record.kind], _A_FILE)
            counts[record.kind] += 1
            place = f"{record.kind}-{number + 1:03}.toml", f"{record.kind}[{index}]"
            placed[place] = record
        return placed

    def _header(self) -> str:
        header = self._map.header
        lines = {"schema": SCHEMA, **{k: v for k, v in header.items() if k != "source"}}
        table, *others = header["source"]
        note = f"{table.get('note', '')} Table {self._table.name}.".strip()
        sources = [table | {"note": note}, *others]
        stated = "".join(f"{key} = {toml_value(value)}\n" for key, value in lines.items())
        return "\n".join([stated, *(record_text(source, "source") for source in sources)])

    def blame(self, problem: BarwrightError) -> None:
        """Keep a problem of the files for each row that it comes from.

        Parameters
        ----------
        problem : BarwrightError
            As the files were read.

        Raises
        ------
        BarwrightError
            The problem, if it comes from no row.
        """
        if problem.file == HEADER:
            # What stands there is what the map says.
            raise type(problem)(**problem.fields | {"file": self._map.name, "line": 0})
        found = _PLACE.fullmatch(problem.key)
        record = self._record_at.get((problem.file, found["record"])) if found else None
        if found is None or record is None:
            # Of a whole file that nobody sees, such as a text that the map makes too long.
            raise type(problem)(**problem.fields | {"file": self._table.name, "line": 0})
        for row in dict.fromkeys(record.rows):
            self._keep(problem, row, key=f"{record.kind}{found['key']}")

    def _keep(self, problem: BarwrightError, row: int, *, key: str = "") -> None:
        place, file = key or problem.key, self._map.name
        if row != OF_THE_MAP:
            place, file = ", ".join(filter(None, (f"row {row}", place))), self._table.name
        fields = problem.fields | {"key": place, "file": file, "line": 0}
        self.problems.setdefault(row, []).append(type(problem)(**fields))


def _without_names(table: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in table.items() if key not in (*_NAMES, "source")}


def _referring(value: Any, shared: Mapping[str, str]) -> Any:  # noqa: ANN401 - as in TOML
    """Name shared records by the ids under which they stand."""
    if isinstance(value, dict):
        return {key: _referring(held, shared) for key, held in value.items()}
    if isinstance(value, list):
        return [_referring(held, shared) for held in value]
    return shared.get(value, value) if isinstance(value, str) else value


def _contradiction(
    kind: str, name: str, first: DraftRecord, table: Mapping[str, Any]
) -> BarwrightError:
    known, other = _without_names(first.table), _without_names(table)
    differing = [key for key in {**known, **other} if known.get(key) != other.get(key)]
    said = f"it differs in {', '.join(differing)}" if differing else "each vehicle needs its own"
    return SchemaError(
        "S205",
        value=name,
        expected=f"an id that row {first.rows[0]} does not give to another {kind}",
        remedy=f"correct one of the rows, or put more columns into the id; {said}",
        key=f"{kind}.id",
    )
