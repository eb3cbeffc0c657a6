"""Parquet in, Parquet out: the rows of a table in memory, however they are shared out."""

from __future__ import annotations

import pickle
from pathlib import Path
from typing import Any, Literal

import attrs
import pyarrow as pa
import pytest
from pyarrow import parquet

import barwright as bw
from barwright.parted import batch_in_parts
from barwright.parted.batch_in_parts import BatchWork
from barwright.parts.common.source import Figure
from barwright.tables.asked_of_rows import AskedOfRows
from each_case import each_case
from gaps import without
from parted.client_here import Client, work_here
from sample_packs import discovered_once

VAN = discovered_once().setup("fells:chassis/short", corner="front left")
TABLE = pa.table(
    {
        "name": [f"van {number}" for number in range(10)],
        "load.mass [kg]": [250.0, 260.0, 270.0, -1.0, 290.0, None, 300.0, 310.0, 320.0, 330.0],
    }
)


@pytest.fixture(autouse=True)
def _short_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(batch_in_parts, "CHUNK", 3)


@pytest.fixture
def source(tmp_path: Path) -> Path:
    path = tmp_path / "loads.parquet"
    parquet.write_table(TABLE, path, row_group_size=5)
    return path


@pytest.fixture
def output(tmp_path: Path) -> Path:
    return tmp_path / "answers.parquet"


def written(source: Path, output: Path, **asked: Any) -> bw.answers.BatchFile:
    return bw.write_batch(VAN, source, output, keep=["name"], **({"processes": 1} | asked))


@pytest.mark.parametrize("asked", ["rates", "ride"])
def test_the_answers_are_those_of_the_table_in_memory(
    asked: Literal["rates", "ride"], source: Path, output: Path
) -> None:
    answer = written(source, output, asked=asked)

    # In the same pieces: of one or two rows alone the last digit may be another.
    pieces = [TABLE.slice(0, 3), TABLE.slice(3, 2), TABLE.slice(5, 3), TABLE.slice(8, 2)]
    expected = pa.concat_tables(
        bw.batch_table(VAN, piece, keep=["name"], asked=asked) for piece in pieces
    )
    found = parquet.read_table(output)
    assert found.replace_schema_metadata().equals(expected)
    assert found.schema.remove_metadata().equals(expected.schema.remove_metadata())
    assert (answer.row_count, answer.errors, answer.pieces) == (10, 2, 4)
    assert repr(answer).startswith("<BatchFile: 10 rows, 2 of them errors, in /")


def test_a_folder_is_read_as_its_files_by_name(source: Path, output: Path) -> None:
    folder = source.with_name("loads")
    folder.mkdir()
    for number, begin in enumerate((0, 4, 8)):
        parquet.write_table(TABLE.slice(begin, 4), folder / f"{number}.parquet")
    (folder / "readme.txt").write_text("no table")

    written(folder, output)
    other = output.with_name("other.parquet")
    written(source, other)

    assert parquet.read_table(output)["name"].to_pylist() == TABLE["name"].to_pylist()
    one, two = (
        parquet.read_table(path, columns=["load.mass", "verdict"]) for path in (output, other)
    )
    assert one.equals(two)


def test_a_cluster_writes_the_same_bytes(
    source: Path, output: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    work_here(monkeypatch)
    written(source, output)
    other = output.with_name("other.parquet")

    written(source, other, client=Client())

    assert other.read_bytes() == output.read_bytes()


def test_a_table_without_rows_has_no_answers(source: Path, output: Path) -> None:
    parquet.write_table(TABLE.slice(0, 0), source)
    answer = written(source, output)
    assert (answer.row_count, answer.pieces) == (0, 1)
    assert parquet.read_table(output).num_rows == 0


def test_another_question_setup_or_source_is_other_work(source: Path) -> None:
    rates, lasting = AskedOfRows("rates"), AskedOfRows("strength", "metric", {"travel": "40 mm"})
    own = BatchWork(VAN, source, asked=rates, keep=("name",))
    tolerance = Figure(value=VAN.bar.length, tolerance=bw.Quantity(7.0, "mm"))
    looser = VAN.with_parts(bar=VAN.bar.described({"length": tolerance}))
    heavier = VAN.with_load(kind=VAN.load.kind, mass="300 kg")
    others = [
        BatchWork(without(VAN, "axle.tyre_rate"), source, asked=rates, keep=("name",)),
        BatchWork(looser, source, asked=rates, keep=("name",)),
        BatchWork(heavier, source, asked=rates, keep=("name",)),
        BatchWork(VAN, source, asked=AskedOfRows("ride"), keep=("name",)),
        BatchWork(VAN, source, asked=AskedOfRows("rates", "inch"), keep=("name",)),
        BatchWork(VAN, source, asked=rates, keep=()),
        attrs.evolve(own, height=bw.Quantity("380 mm")),
        attrs.evolve(own, asked=lasting),
    ]
    differing = [
        [name for name, value in other.question.items() if value != own.question[name]]
        for other in others
    ]
    assert differing == [
        ["setup"],
        ["setup"],
        ["setup"],
        ["asked"],
        ["units"],
        ["keep"],
        ["height"],
        ["asked", "strength"],
    ]
    again = attrs.evolve(own, setup=pickle.loads(pickle.dumps(VAN)))  # noqa: S301 - its own
    assert again.question == own.question
    parquet.write_table(TABLE.slice(1), source)
    assert attrs.evolve(own).question["source"] != own.question["source"]


def cut(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:-30])


def damaged(path: Path) -> None:
    content = path.read_bytes()
    path.write_bytes(content[:4] + b"\xff" * 100 + content[104:])


BAD: dict[str, tuple[Any, str, str]] = {
    "cut": (cut, "F110", "cut or damaged"),
    "damaged rows": (damaged, "F110", "cut or damaged"),
    "no Parquet": (lambda path: path.write_text("a,b"), "F110", "no Parquet file"),
    "missing": (lambda path: path.unlink(), "F101", "No such file"),
    "an empty folder": (lambda path: (path.unlink(), path.mkdir()), "F101", "without Parquet"),
}


@each_case("case", BAD)
def test_a_source_that_cannot_be_read_is_told_and_leaves_no_result(case: str) -> None:
    from tempfile import TemporaryDirectory  # noqa: PLC0415 - a new one for each case

    spoil, code, says = BAD[case]
    with TemporaryDirectory() as folder:
        source, output = Path(folder) / "loads.parquet", Path(folder) / "answers.parquet"
        parquet.write_table(TABLE, source, row_group_size=5)
        spoil(source)
        with pytest.raises(bw.FileError, match=says) as caught:
            written(source, output)
        assert (caught.value.code, caught.value.file) == (code, str(source))
        assert not output.exists()


def test_files_of_other_columns_are_refused(source: Path, output: Path) -> None:
    folder = source.with_name("loads")
    folder.mkdir()
    source.rename(folder / "0.parquet")
    parquet.write_table(TABLE.rename_columns(["name", "load.mass [lb]"]), folder / "1.parquet")
    with pytest.raises(bw.SchemaError, match=r"those of 0\.parquet") as caught:
        written(folder, output)
    assert caught.value.file == str(folder / "1.parquet")


def test_a_wrong_column_is_refused_before_any_work(source: Path, output: Path) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.write_batch(VAN, source, output, processes=1)
    assert (caught.value.code, caught.value.key) == ("S201", "name")
    assert not output.with_name("answers.parquet.parts").exists()


def test_the_source_is_not_written_over(source: Path) -> None:
    with pytest.raises(bw.FileError) as caught:
        written(source, source)
    assert caught.value.code == "F202"
    assert parquet.read_table(source).equals(TABLE)


def test_a_history_of_the_strength_is_counted_in_the_units_that_are_wanted(
    source: Path, output: Path
) -> None:
    asked: dict[str, Any] = {
        "asked": "strength",
        "system": "inch",
        "limits": bw.StrengthLimits(
            woehler_line=bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=5.0)
        ),
        "history": ["0 mm", "25 mm", "-15 mm", "30 mm"],
    }
    written(source, output, **asked)

    expected = bw.batch_table(VAN, TABLE, keep=["name"], **asked)
    assert parquet.read_table(output).replace_schema_metadata().equals(expected)
    with pytest.raises(bw.SchemaError) as caught:
        written(source, output.with_name("other.parquet"), travel="40 mm")
    assert (caught.value.code, caught.value.key, caught.value.file) == (
        "S201",
        "travel",
        str(source),
    )


def test_what_takes_longer_is_done_in_smaller_parts(
    source: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(batch_in_parts, "_PLANNED", 2)
    monkeypatch.setattr(batch_in_parts, "_SINGLY", 1)
    history = AskedOfRows("strength", "metric", {"history": ["0 mm", "9 mm"]})

    parts = [
        BatchWork(VAN, source, asked=asked, keep=("name",)).number
        for asked in (AskedOfRows("rates"), AskedOfRows("reindex"), history)
    ]

    # Of two groups of five rows.
    assert parts == [4, 6, 10]
