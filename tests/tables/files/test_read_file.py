"""Files of tables, read in chunks: what they hold, and what is said of damaged ones."""

from __future__ import annotations

import os
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pyarrow as pa
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pyarrow import parquet

import barwright as bw
from barwright.tables.files import read_file
from barwright.tables.files.read_file import open_table
from draws import draws

ROWS = pa.table(
    {"id": [f"van {n}" for n in range(10)], "load.mass [kg]": [float(n) for n in range(10)]}
)


def write(path: Path, table: Any = ROWS) -> Path:
    """A file of the form that its name says."""
    if path.suffix == ".parquet":
        parquet.write_table(table, path, row_group_size=4)
    else:
        with pa.ipc.new_file(path, table.schema) as writer:
            writer.write_table(table, max_chunksize=7)
    return path


def csv_of(folder: Path, text: str | bytes) -> Path:
    path = folder / "rows.csv"
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


def all_of(path: Path) -> list[read_file.Chunk]:
    with open_table(path) as table:
        return list(table.chunks)


@pytest.mark.parametrize("form", ["parquet", "arrow"])
def test_a_file_is_read_in_chunks(
    tmp_path: Path, form: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(read_file, "CHUNK", 3)
    path = write(tmp_path / f"rows.{form}")

    with open_table(path) as table:
        assert table.length == 10
        assert table.schema.equals(ROWS.schema)
    chunks = all_of(path)

    assert max(chunk.rows.num_rows for chunk in chunks) == 3
    assert pa.concat_tables([chunk.rows for chunk in chunks]).equals(ROWS)
    assert [number for chunk in chunks for number in chunk.numbers] == list(range(2, 12))
    assert chunks[-1].done == 10


@pytest.mark.parametrize("form", ["parquet", "arrow", "csv"])
def test_of_a_wide_table_fewer_rows_are_read_at_a_time(
    tmp_path: Path, form: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(read_file, "CHUNK", 6)
    wide = {f"column {number}": ["x"] * 10 for number in range(32)}
    if form == "csv":
        lines = [",".join(wide), *[",".join("x" * 32)] * 10]
        path = csv_of(tmp_path, "\n".join(lines))
    else:
        path = write(tmp_path / f"rows.{form}", pa.table(wide))

    chunks = all_of(path)

    assert max(chunk.rows.num_rows for chunk in chunks) == 3
    assert sum(chunk.rows.num_rows for chunk in chunks) == 10


def test_of_long_rows_fewer_are_read_at_a_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(read_file, "_MOST_CHARACTERS", 25)
    path = csv_of(tmp_path, "id\n" + "0123456789\n" * 7)

    assert [chunk.rows.num_rows for chunk in all_of(path)] == [3, 3, 1]


@pytest.mark.parametrize("columns", [0, 2001])
def test_a_table_with_too_many_columns_is_refused(tmp_path: Path, columns: int) -> None:
    path = write(tmp_path / "rows.arrow", pa.table({f"c{n}": [1] for n in range(columns)}))

    with pytest.raises(bw.FileError, match=f"{columns} columns"):
        all_of(path)


def test_csv_is_read_as_texts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(read_file, "CHUNK", 2)
    path = csv_of(tmp_path, '\ufeffid,load.mass [kg]\na,1\n\n  , \n"b, c",\nd,2,3\ne\nf,4')

    chunks = all_of(path)

    assert [chunk.rows.to_pylist() for chunk in chunks] == [
        [{"id": "a", "load.mass [kg]": "1"}, {"id": "b, c", "load.mass [kg]": ""}],
        [{"id": None, "load.mass [kg]": None}] * 2,
        [{"id": "f", "load.mass [kg]": "4"}],
    ]
    assert [list(chunk.numbers) for chunk in chunks] == [[2, 5], [6, 7], [8]]
    assert [error.value for error in chunks[1].refused.values()] == ["3 cells", "1 cells"]
    assert chunks[-1].done == path.stat().st_size


@pytest.mark.parametrize("form", ["parquet", "arrow"])
@pytest.mark.parametrize("left", [0, 3, 100, -1, -100])
def test_a_file_that_is_cut_short_is_told(tmp_path: Path, form: str, left: int) -> None:
    path = write(tmp_path / f"rows.{form}")
    path.write_bytes(path.read_bytes()[:left])

    with pytest.raises(bw.FileError, match="it may be cut short") as caught:
        all_of(path)

    assert caught.value.code == "F110"
    assert caught.value.file == str(path)


@settings(max_examples=draws(60))
@given(seed=st.integers(0, 10**6), form=st.sampled_from(["parquet", "arrow"]))
def test_damage_is_told_or_does_no_harm(
    tmp_path_factory: pytest.TempPathFactory, seed: int, form: str
) -> None:
    chance = random.Random(seed)  # noqa: S311 - figures, not secrets
    path = write(tmp_path_factory.mktemp("damaged") / f"rows.{form}")
    content = bytearray(path.read_bytes())
    for _ in range(4):
        content[chance.randrange(len(content))] ^= 1 << chance.randrange(8)
    path.write_bytes(content)

    try:
        all_of(path)
    except bw.FileError as error:
        assert error.code in ("F101", "F102", "F110")  # noqa: PT017 - any of them may come, or none


@pytest.mark.parametrize(
    ("content", "code", "says"),
    [
        ("", "F110", "0 columns"),
        (",".join("abc" * 1000), "F110", "3000 columns"),
        ('a,b\n"1\n', "F110", "unexpected end of data"),
        (b"a,b\n\xff,1\n", "F102", "byte 0xff"),
        ("a\n" + "1" * (1 << 20), "F110", "a line of"),
        ("a\n" + "1" * 200_000, "F110", "field larger"),
    ],
)
def test_wrong_csv_is_told(tmp_path: Path, content: str | bytes, code: str, says: str) -> None:
    path = csv_of(tmp_path, content)

    with pytest.raises(bw.FileError, match=says) as caught:
        all_of(path)

    assert (caught.value.code, caught.value.file) == (code, str(path))


def no_file(_: Path) -> None:
    """Make none."""


@pytest.mark.parametrize(
    ("make", "code"), [(Path.mkdir, "F110"), (os.mkfifo, "F110"), (no_file, "F101")]
)
@pytest.mark.parametrize("form", ["parquet", "arrow", "csv"])
def test_what_is_no_file_is_told(
    tmp_path: Path, make: Callable[[Path], object], code: str, form: str
) -> None:
    path = tmp_path / f"rows.{form}"
    make(path)

    with pytest.raises(bw.FileError) as caught:
        all_of(path)

    assert caught.value.code == code


def test_a_heading_that_is_no_utf_8_is_told(tmp_path: Path) -> None:
    path = write(tmp_path / "rows.arrow")
    path.write_bytes(path.read_bytes().replace(b"load.mass", b"load.m\xffss"))

    with pytest.raises(bw.FileError, match="byte 0xff") as caught:
        all_of(path)

    assert caught.value.code == "F102"


def test_texts_that_are_no_utf_8_are_told(tmp_path: Path) -> None:
    texts = pa.Array.from_buffers(
        pa.string(), 1, [None, pa.py_buffer(b"\0\0\0\0\1\0\0\0"), pa.py_buffer(b"\xff")]
    )
    path = write(tmp_path / "rows.arrow", pa.table({"id": texts}))

    with pytest.raises(bw.FileError, match="UTF8") as caught:
        all_of(path)

    assert caught.value.code == "F110"
