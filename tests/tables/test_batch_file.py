"""Files answered in files: the same rows, counted, and nothing half-written."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pyarrow as pa
import pytest
from pyarrow import csv, parquet

import barwright as bw
from barwright.analysis.answer import Verdict
from barwright.errors import ExitCode
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.batch_file import answer_file
from barwright.tables.files import read_file
from barwright.tables.table_question import TableQuestion
from file_faults import failing, injected
from sample_packs import discovered_once

VAN = discovered_once().setup("fells:chassis/short", corner="front left")
TABLE = pa.table(
    {
        "id": list("abcdefgh"),
        "load.mass [kg]": [260.0, 291.0, None, 320.0, -1.0, 300.0, 0.0, 1e12],
        "bar.length [mm]": [None if n == 1 else 903.5 + n / 10 for n in range(8)],
    }
)


def written(folder: Path, form: str = "parquet") -> Path:
    """The table as a file."""
    path = folder / f"rows.{form}"
    if form == "csv":
        csv.write_csv(TABLE, path)
    elif form == "arrow":
        with pa.ipc.new_file(path, TABLE.schema) as writer:
            writer.write_table(TABLE)
    else:
        parquet.write_table(TABLE, path)
    return path


@pytest.mark.parametrize("form", ["parquet", "arrow", "csv"])
def test_a_file_is_answered_like_the_table(
    tmp_path: Path, form: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(read_file, "CHUNK", 3)
    output, seen = tmp_path / "answers.parquet", []

    summary = bw.batch_file(
        VAN,
        written(tmp_path, form),
        output,
        keep=["id"],
        progress=lambda *counts: seen.append(counts),
    )

    answers = parquet.read_table(output)
    expected = bw.batch_table(VAN, TABLE, keep=["id"])
    assert answers.schema.equals(expected.schema, check_metadata=False)
    for name in answers.column_names:
        column, alike = answers[name], expected[name]
        if pa.types.is_floating(column.type):
            # How many rows are computed at once may change the last digit.
            numbers = pytest.approx(alike.to_numpy(), rel=1e-12, nan_ok=True)
            assert column.to_numpy() == numbers
        else:
            assert column.to_pylist() == alike.to_pylist()
    assert len(summary) == 8
    assert summary.errors == 4
    assert [one.row for one in summary.first_errors] == [3, 4, 6, 8]
    assert summary.first_errors[1].text == expected["error"][2].as_py()
    assert summary.error_counts == {"Q301": 2, "Q302": 2}
    assert len(seen) == 3
    assert seen[-1][0] == seen[-1][1]


def test_a_million_rows_of_which_three_are_bad(tmp_path: Path) -> None:
    masses = np.full(300_000, 291.0)
    masses[[7, 150_000, 299_999]] = [np.nan, -5.0, np.inf]
    path, output = tmp_path / "rows.parquet", tmp_path / "answers.parquet"
    parquet.write_table(pa.table({"load.mass [kg]": masses}), path)

    summary = bw.batch_file(VAN, path, output, asked="fit")

    assert summary.headline == "300000 row(s): 299997 fits, 3 with errors"
    assert [one.row for one in summary.first_errors] == [9, 150_002, 300_001]
    assert repr(summary) == f"<BatchSummary: fit, {summary.headline}>"


def test_memory_does_not_grow_with_the_rows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(read_file, "CHUNK", 4096)
    path, held = tmp_path / "rows.parquet", []
    parquet.write_table(pa.table({"load.mass [kg]": np.linspace(260.0, 330.0, 30 * 4096)}), path)

    bw.batch_file(
        VAN,
        path,
        tmp_path / "answers.parquet",
        progress=lambda *_: held.append(pa.total_allocated_bytes()),
    )

    assert len(held) == 30
    assert max(held[3:]) < 1.5 * max(held[:3])


@pytest.mark.parametrize(
    ("lengths", "masses", "exit_code"),
    [
        ([904.0], [291.0], ExitCode.FINE),
        ([904.0, 700.0], [291.0, 291.0], ExitCode.NO),
        ([904.0, 700.0], [291.0, -1.0], ExitCode.BAD_INPUT),
    ],
)
def test_the_exit_code_is_that_of_the_worst_row(
    tmp_path: Path, lengths: list[float], masses: list[float], exit_code: ExitCode
) -> None:
    path = tmp_path / "rows.parquet"
    parquet.write_table(pa.table({"bar.length [mm]": lengths, "load.mass [kg]": masses}), path)

    summary = bw.batch_file(VAN, path, tmp_path / "answers.csv", asked="fit")

    assert summary.exit_code is exit_code


def test_an_answer_that_needs_figures_is_a_no() -> None:
    summary = bw.answers.BatchSummary(
        asked="fit",
        verdict_counts={Verdict.NEEDS_FIGURES: 1},
        error_counts={"N301": 2},
        first_errors=(),
    )
    assert summary.exit_code is ExitCode.NO


def test_rows_may_be_asked_about_at_a_height_that_they_do_not_give(tmp_path: Path) -> None:
    path = tmp_path / "rows.csv"
    path.write_text("load.mass [kg]\n291\n", encoding="utf-8")
    outputs = [tmp_path / "one.parquet", tmp_path / "other.parquet"]
    height = bw.Wanted(height="370 mm").height

    def question(**given: Any) -> TableQuestion:
        return TableQuestion(setup=VAN, asked=AskedOfRows("rates"), keep=(), height=height, **given)

    answer_file(path, outputs[0], question, progress=None)
    path.write_text("load.mass [kg],wanted.height\n291,370 mm\n", encoding="utf-8")
    answer_file(path, outputs[1], question, progress=None)

    heights = [parquet.read_table(output)["ride.height"].to_pylist() for output in outputs]
    assert heights == [pytest.approx([370.0])] * 2


def test_a_file_without_rows_is_refused(tmp_path: Path) -> None:
    path, output = tmp_path / "rows.csv", tmp_path / "answers.csv"
    path.write_text("load.mass [kg]\n", encoding="utf-8")

    with pytest.raises(bw.FileError, match="no rows") as caught:
        bw.batch_file(VAN, path, output)

    assert (caught.value.code, caught.value.file) == ("F110", str(path))
    assert not output.exists()


def test_wrong_columns_are_told_with_their_file(tmp_path: Path) -> None:
    path = written(tmp_path)

    with pytest.raises(bw.SchemaError, match="S201") as caught:
        bw.batch_file(VAN, path, tmp_path / "answers.csv")

    assert caught.value.file == str(path)


def test_a_later_chunk_that_is_damaged_leaves_no_answers(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(read_file, "CHUNK", 2000)
    path, output = tmp_path / "rows.csv", tmp_path / "answers.csv"
    path.write_bytes(b"load.mass [kg]\n" + b"291\n" * 5000 + b"\xff\n")

    with pytest.raises(bw.FileError, match="F102"):
        bw.batch_file(VAN, path, output, asked="fit")

    assert list(tmp_path.iterdir()) == [path]


def test_the_input_is_not_written_over(tmp_path: Path) -> None:
    path = written(tmp_path)
    before = path.read_bytes()

    with pytest.raises(bw.FileError, match="F202"):
        bw.batch_file(VAN, path, path, keep=["id"])

    assert path.read_bytes() == before


def answer(folder: Path, output: Path) -> None:
    """Answer the table of a folder."""
    bw.batch_file(VAN, folder.parent / "rows.parquet", output, keep=["id"], asked="fit")


@pytest.mark.parametrize("form", ["parquet", "csv"])
def test_whatever_fails_what_was_there_is_whole(tmp_path: Path, form: str) -> None:
    written(tmp_path)
    whole = tmp_path / f"whole.{form}"
    answer(tmp_path / "x", whole)
    for at in range(1, 200):
        folder = tmp_path / str(at)
        folder.mkdir()
        output = folder / f"answers.{form}"
        output.write_bytes(b"old")
        with injected(folder, at, failing(errno.ENOSPC)) as fault:
            try:
                answer(folder, output)
            except bw.FileError as error:
                assert error.code == "F201"  # noqa: PT017 - in the end there is none
        if fault.count < at:
            assert output.read_bytes() == whole.read_bytes()
            assert at > 3
            return
        assert output.read_bytes() in (b"old", whole.read_bytes())
    raise AssertionError


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")
def test_whenever_it_is_killed_what_was_there_is_whole() -> None:
    """In a process of its own, since it forks."""
    program = Path(__file__).with_name("killed.py")
    ended = subprocess.run(
        [sys.executable, str(program)],
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )

    assert (ended.returncode, ended.stderr) == (0, "")
    assert int(ended.stdout) > 3
