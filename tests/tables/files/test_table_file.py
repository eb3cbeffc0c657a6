"""Files of tables: written in chunks, whole or not at all."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import pyarrow as pa
import pytest
from pyarrow import csv, parquet

import barwright as bw
from barwright.tables.files.table_file import table_file

SCHEMA = pa.schema(
    [
        pa.field("load.mass", pa.float64(), metadata={"unit": "kg"}),
        pa.field("verdict", pa.dictionary(pa.int32(), pa.string())),
        pa.field("title", pa.string()),
    ]
)
VERDICTS = pa.array(["fits", "does not fit"])


def chunk(*masses: float | None, title: str = "van") -> Any:
    """Rows of a table."""
    verdicts = pa.DictionaryArray.from_arrays(pa.array([0] * len(masses), pa.int32()), VERDICTS)
    return pa.table([pa.array(masses, pa.float64()), verdicts, [title] * len(masses)], SCHEMA)


def read_back(path: Path) -> Any:
    """A file as a table."""
    if path.suffix == ".parquet":
        return parquet.read_table(path)
    with pa.ipc.open_file(path) as reader:
        return reader.read_all()


@pytest.mark.parametrize("name", ["rows.parquet", "rows.arrow", "rows.ARROW"])
def test_chunks_become_one_table_with_its_units(tmp_path: Path, name: str) -> None:
    path = tmp_path / name

    with table_file(path, SCHEMA) as write:
        write(chunk(291.0, None))
        write(chunk(300.0).to_batches()[0])

    found = read_back(path)
    assert found.column("load.mass").to_pylist() == [291.0, None, 300.0]
    assert found.column("verdict").to_pylist() == ["fits"] * 3
    assert found.schema.field("load.mass").metadata[b"unit"] == b"kg"
    assert pa.types.is_dictionary(found.schema.field("verdict").type)


def test_csv_has_units_in_its_headings_and_no_formulas(tmp_path: Path) -> None:
    path = tmp_path / "rows.csv"

    with table_file(path, SCHEMA) as write:
        for title in ("van", "=1+1", "@x", "-2+3", "-2.5", "+49"):
            write(chunk(291.0, title=title))

    found = csv.read_csv(path)
    assert found.column_names == ["load.mass [kg]", "verdict", "title"]
    titles = [line.split(",")[2] for line in path.read_text(encoding="utf-8").splitlines()[1:]]
    assert titles == ['"van"', '"\'=1+1"', '"\'@x"', '"\'-2+3"', '"-2.5"', '"+49"']


def test_no_heading_of_csv_is_a_formula(tmp_path: Path) -> None:
    path = tmp_path / "rows.csv"
    table = pa.table({"=1+1": ["van"]})

    with table_file(path, table.schema) as write:
        write(table)

    assert path.read_text(encoding="utf-8") == '"\'=1+1"\n"van"\n'


def test_csv_has_lists_in_a_cell(tmp_path: Path) -> None:
    path = tmp_path / "rows.csv"
    points = pa.array([[1.5, None], None], pa.list_(pa.float64(), 2))
    table = pa.table({"curve": points})

    with table_file(path, table.schema) as write:
        write(table)

    assert path.read_text(encoding="utf-8") == '"curve"\n"1.5;"\n\n'


@pytest.mark.parametrize("form", ["parquet", "arrow", "csv"])
def test_an_error_in_the_midst_leaves_what_was_there(tmp_path: Path, form: str) -> None:
    path = tmp_path / f"rows.{form}"
    path.write_bytes(b"old")

    def interrupted() -> None:
        with table_file(path, SCHEMA) as write:
            write(chunk(291.0))
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        interrupted()

    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


def fill(path: Path) -> None:
    """Write many rows."""
    with table_file(path, SCHEMA) as write:
        write(chunk(*[291.0] * 100_000))


@pytest.mark.parametrize("form", ["parquet", "arrow", "csv"])
def test_a_full_disk_is_told(tmp_path: Path, form: str) -> None:
    path = tmp_path / f"full.{form}"
    path.symlink_to("/dev/full")

    with (
        pytest.raises(bw.FileError, match="No space left") as caught,
        table_file(path, SCHEMA) as w,
    ):
        w(chunk(*[291.0] * 100_000))

    assert caught.value.code == "F201"


def test_what_is_read_is_not_written_over(tmp_path: Path) -> None:
    path = tmp_path / "rows.parquet"
    path.write_bytes(b"old")

    with pytest.raises(bw.FileError, match="F202"), table_file(path, SCHEMA, inputs=[path]):
        pass

    assert path.read_bytes() == b"old"


@pytest.mark.parametrize(
    ("form", "column"),
    [
        ("csv", pa.array([{"a": 1}])),
        ("csv", pa.array([b"\xff"])),
        ("csv", pa.array([[1.0]])),
        ("parquet", pa.array([None], pa.month_day_nano_interval())),
    ],
)
def test_a_column_that_the_form_cannot_hold_is_told(tmp_path: Path, form: str, column: Any) -> None:
    table = pa.table({"odd": column})

    with pytest.raises(bw.SchemaError) as caught:  # noqa: SIM117 - it may end at the beginning
        with table_file(tmp_path / f"rows.{form}", table.schema) as write:
            write(table)

    assert (caught.value.code, caught.value.key) == ("S203", "keep")
    assert not list(tmp_path.iterdir())


def test_a_name_that_is_none_is_told() -> None:
    with pytest.raises(bw.FileError, match="F201"):
        table_file(Path("a\0.csv"), SCHEMA).__enter__()


def test_a_name_says_the_form(tmp_path: Path) -> None:
    with (
        pytest.raises(bw.FileError, match=r"ends in \.parquet or \.arrow or \.csv"),
        table_file(tmp_path / "rows.xlsx", SCHEMA),
    ):
        pass

    assert not list(tmp_path.iterdir())


def test_without_the_extra_it_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pyarrow", None)

    with pytest.raises(bw.MissingExtraError, match=r"barwright\[frames\]"):
        table_file(tmp_path / "rows.parquet", SCHEMA).__enter__()

    assert not list(tmp_path.iterdir())
