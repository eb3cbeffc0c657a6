"""Tests of `barwright.registry.importing.draft`: each record knows the rows that give it."""

from __future__ import annotations

from pathlib import Path

from barwright.registry.importing.draft import OF_THE_MAP, Draft
from barwright.registry.importing.table import read_table
from barwright.registry.importing.table_map import read_map
from table_packs import ROWS, carrier_map, write_files, written_table


def test_a_record_lists_all_rows_that_give_it_and_one_of_the_map_none(tmp_path: Path) -> None:
    table, mapping, _ = write_files(tmp_path, written_table(*ROWS), carrier_map())
    content = read_table(table)
    draft = Draft(content, read_map(mapping))
    for row in content.rows:
        draft.add(row)
    rows = {(one.kind, one.table["id"]): one.rows for one in draft.records}

    assert rows["bar", "a"] == [2, 4]
    assert rows["bar", "b"] == [3]
    assert [rows["chassis", f"fc-{n}"] for n in (1, 2, 3)] == [[2], [3], [4]]
    others = {name: given for name, given in rows.items() if name[0] not in {"bar", "chassis"}}
    assert others
    assert set(map(tuple, others.values())) == {(OF_THE_MAP,)}
