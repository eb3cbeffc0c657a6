"""Tests of `table`: CSV and Parquet are read alike, and what is no table is refused."""

from __future__ import annotations

import sys
from pathlib import Path

import pyarrow as pa
import pytest
from pyarrow import parquet

import barwright as bw
from barwright.registry.files import file_limits
from barwright.registry.importing import table as module
from barwright.registry.importing.heading import Heading, heading_of
from barwright.registry.importing.table import Row, read_table


def csv_of(folder: Path, text: str | bytes) -> Path:
    path = folder / "vans.csv"
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


def test_headings_rows_and_units_of_csv(tmp_path: Path) -> None:
    path = csv_of(tmp_path, '\ufeffcode, length [mm] ,note\r\nA, 742.0 ,"two\nlines, quoted"\r\n')

    table = read_table(path)

    assert table.name == "vans.csv"
    assert table.columns == (Heading("code"), Heading("length", "mm"), Heading("note"))
    assert table.rows == (Row(2, ("A", "742.0", "two\nlines, quoted")),)


def test_empty_rows_are_passed_over_and_counted(tmp_path: Path) -> None:
    table = read_table(csv_of(tmp_path, "code,length\nA,1\n,\n\nB,2\n"))

    assert table.rows == (Row(2, ("A", "1")), Row(5, ("B", "2")))


def test_another_separator(tmp_path: Path) -> None:
    table = read_table(csv_of(tmp_path, "code;length\nA;7,5\n"), separator=";")

    assert table.rows == (Row(2, ("A", "7,5")),)


@pytest.mark.parametrize(
    ("heading", "column"),
    [
        ("length", Heading("length")),
        ("length[mm]", Heading("length", "mm")),
        ("rate [N*m/deg]", Heading("rate", "N*m/deg")),
        ("length [ mm ]", Heading("length", "mm")),
        ("length []", Heading("length")),
        ("a [b] c", Heading("a [b] c")),
    ],
)
def test_the_unit_of_a_heading(tmp_path: Path, heading: str, column: Heading) -> None:
    assert read_table(csv_of(tmp_path, f"{heading}\n1\n")).columns == (column,)


def test_parquet_is_read_as_the_same_text(tmp_path: Path) -> None:
    columns = {
        "code": ["A", None, ""],
        "length [mm]": pa.array([742.0, 23.1, None], pa.float32()),
        "teeth": [39, 42, None],
        "date": pa.array([0, 1, None], pa.date32()),
    }
    path = tmp_path / "vans.PARQUET"
    parquet.write_table(pa.table(columns), path)

    table = read_table(path)

    assert table.columns[1] == Heading("length", "mm")
    assert table.rows == (
        Row(2, ("A", "742", "39", "1970-01-01")),
        Row(3, ("", "23.1", "42", "1970-01-02")),
    )


def test_parquet_of_what_is_no_text(tmp_path: Path) -> None:
    path = tmp_path / "vans.parquet"
    parquet.write_table(pa.table({"blanks": [[0, 3]]}), path)

    with pytest.raises(bw.FileError) as caught:
        read_table(path)

    assert (caught.value.code, caught.value.file) == ("F110", "vans.parquet")


def test_parquet_that_is_none(tmp_path: Path) -> None:
    path = tmp_path / "vans.parquet"
    path.write_text("code\nA\n", encoding="utf-8")

    with pytest.raises(bw.FileError, match="F110"):
        read_table(path)


def test_parquet_without_pyarrow(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "vans.parquet"
    path.write_bytes(b"PAR1")
    monkeypatch.setitem(sys.modules, "pyarrow", None)

    with pytest.raises(bw.MissingExtraError) as caught:
        read_table(path)

    assert "barwright[frames]" in caught.value.remedy


@pytest.mark.parametrize(
    ("text", "code", "value"),
    [
        ("", "F110", "no rows"),
        ("code\n", "F110", "no rows"),
        ("code\n \n", "F110", "no rows"),
        ('code\n"A\n', "F110", "unexpected end of data"),
        ('code\n"A"B\n', "F110", "',' expected after '\"'"),
        (b"code\n\xff\n", "F102", "byte 0xff"),
        ("code,code [mm]\nA,1\n", "S205", "code"),
        ("code,\nA,1\n", "S205", ""),
        ("code,[mm]\nA,1\n", "S205", ""),
    ],
)
def test_what_is_no_table(tmp_path: Path, text: str | bytes, code: str, value: str) -> None:
    with pytest.raises(bw.BarwrightError) as caught:
        read_table(csv_of(tmp_path, text))

    assert (caught.value.code, caught.value.value) == (code, value)


def test_a_table_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(bw.FileError, match="F101"):
        read_table(tmp_path / "none.csv")


def test_more_rows_than_a_pack_has_records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "MOST_ROWS", 2)

    with pytest.raises(bw.FileError) as caught:
        read_table(csv_of(tmp_path, "code\nA\nB\nC\n"))

    assert (caught.value.value, caught.value.expected) == ("3 rows", "at most 2")


@pytest.mark.parametrize("name", ["vans.csv", "vans.parquet"])
def test_a_table_larger_than_any(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    monkeypatch.setattr(module, "LARGEST_TABLE", 8)
    path = tmp_path / name
    path.write_bytes(b"code\nA\nB\n")

    with pytest.raises(bw.FileError) as caught:
        read_table(path)

    assert (caught.value.code, caught.value.expected) == ("F104", "at most 8 bytes")
    assert file_limits.LARGEST_TABLE > file_limits.LARGEST_FILE


@pytest.mark.parametrize("text", ["length", "length [mm]", "rate [N*m/deg]"])
def test_a_heading_is_written_as_it_is_read(text: str) -> None:
    assert str(heading_of(text)) == text
