"""Tests of `table_map`: a map is read, or the first thing that is wrong with it is told."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw
from barwright.registry.importing.heading import Heading
from barwright.registry.importing.table import Row, Table
from barwright.registry.importing.table_map import TableMap, read_map
from each_case import each_case
from table_packs import HEADER

CHASSIS = '[[chassis]]\nid = "{code}"\ntitle = "{code}"\naxles = [{ place = "{place}" }]\n'
BAR = '[[bar]]\nid = "{bar}"\nteeth = 39\n'


def map_of(folder: Path, text: str) -> TableMap:
    path = folder / "vans.map.toml"
    path.write_text(text, encoding="utf-8")
    return read_map(path)


def test_kinds_stand_in_the_order_of_a_pack(tmp_path: Path) -> None:
    read = map_of(tmp_path, HEADER + CHASSIS + BAR + BAR)

    assert [kind for kind, _ in read.records] == ["bar", "bar", "chassis"]
    assert (read.name, read.header["id"]) == ("vans.map.toml", "moor")
    assert (read.separator, read.decimal, read.empty) == (",", ".", "unknown")
    assert read.columns == {"bar": "bar", "code": "chassis", "place": "chassis"}


def test_how_the_table_is_written(tmp_path: Path) -> None:
    table = '[table]\nseparator = ";"\ndecimal = ","\nempty = "none"\n'

    read = map_of(tmp_path, HEADER + table + CHASSIS)

    assert (read.separator, read.decimal, read.empty) == (";", ",", "none")


@each_case(
    "text, code, key",
    [
        (HEADER.replace('id = "moor"', "") + CHASSIS, "S202", "id"),
        (HEADER.replace('licence = "CC0-1.0"', "") + CHASSIS, "S202", "licence"),
        (HEADER.replace("[[source]]", "[source]") + CHASSIS, "S203", "source"),
        (HEADER, "S202", "chassis"),
        ("colour = 3\n" + HEADER + CHASSIS, "S201", "colour"),
        (HEADER + '[[check]]\nof = "bar/x"\n', "S201", "check"),
        (HEADER + CHASSIS.replace("[[chassis]]", "[chassis]"), "S203", "chassis"),
        ("chassis = []\n" + HEADER, "S203", "chassis"),
        ("chassis = [3]\n" + HEADER, "S203", "chassis"),
        ("table = 3\n" + HEADER + CHASSIS, "S203", "table"),
        (HEADER + CHASSIS + "[table]\nquote = 3\n", "S201", "table.quote"),
        (HEADER + CHASSIS + '[table]\nseparator = "ab"\n', "S204", "table.separator"),
        (HEADER + CHASSIS + "[table]\ndecimal = 3\n", "S204", "table.decimal"),
    ],
)
def test_what_is_wrong_with_a_map(tmp_path: Path, text: str, code: str, key: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        map_of(tmp_path, text)

    assert (caught.value.code, caught.value.key) == (code, key)
    assert caught.value.file == "vans.map.toml"


@pytest.mark.parametrize("line", ["chassis = []", "chassis = [3]", "chassis = 3"])
def test_a_kind_of_record_is_a_list_of_tables(tmp_path: Path, line: str) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        map_of(tmp_path, f"{line}\n{HEADER}")

    assert caught.value.expected == "a list of tables"
    assert caught.value.remedy == "write it as [[chassis]]"


def test_columns_that_are_not_there_are_told_together(tmp_path: Path) -> None:
    read = map_of(tmp_path, HEADER + CHASSIS + BAR)
    table = Table("vans.csv", (Heading("bar"), Heading("cod")), (Row(2, ("A", "B")),))

    with pytest.raises(ExceptionGroup) as caught:
        read.check_columns(table)

    problems = [str(problem) for problem in caught.value.exceptions]
    assert problems == [
        (
            "S206: vans.map.toml: chassis: got 'code', expected the name of a column of vans.csv; "
            "did you mean 'cod'?"
        ),
        (
            "S206: vans.map.toml: chassis: got 'place', expected the name of a column of vans.csv; "
            "known: bar, cod"
        ),
    ]
    read.check_columns(Table("vans.csv", tuple(map(Heading, read.columns)), ()))
