"""Tests of `barwright import-table`."""

from __future__ import annotations

from pathlib import Path

import pytest

from barwright.cli.command import run
from table_packs import ROWS, carrier_map, write_files, written_table

BAD = ("FC-4", "Moor long", "2031-13", "2948", "A", "23.1", "291.4")


def called(folder: Path, *rows: tuple[str, ...], options: tuple[str, ...] = ()) -> int:
    table, mapping, output = write_files(folder, written_table(*rows), carrier_map())
    arguments = ["import-table", str(table), "--map", str(mapping), "--output", str(output)]
    return run([*arguments, *options])


def test_it_says_what_it_wrote_and_what_to_do_next(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert called(tmp_path, *ROWS) == 0

    assert capsys.readouterr().out.splitlines() == [
        "3 row(s) used, 0 left out: 1 arm, 2 bar, 1 tube, 1 adjuster, 1 damper, 3 chassis",
        f"The pack is in {tmp_path / 'moor'}. Check it: barwright lint {tmp_path / 'moor'}",
    ]
    assert run(["lint", str(tmp_path / "moor")]) == 0


def test_a_bad_row_is_told_and_nothing_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert called(tmp_path, *ROWS, BAD) == 2

    printed = capsys.readouterr()
    assert "error S204: vans.csv: row 5, chassis.first_built: got '2031-13'" in printed.err
    assert printed.out == ""
    assert not (tmp_path / "moor").exists()


def test_bad_rows_are_left_out_where_that_is_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert called(tmp_path, *ROWS, BAD, options=("--skip-bad-rows",)) == 1

    printed = capsys.readouterr()
    assert printed.err.startswith("left out S204: vans.csv: row 5, chassis.first_built: got ")
    assert printed.out.startswith("3 row(s) used, 1 left out: ")


def test_what_a_cell_says_is_shown_with_marks_for_what_steers_a_terminal(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    evil = (*BAD[:2], "\x1b[31m2031", *BAD[3:])

    assert called(tmp_path, *ROWS, evil, options=("--skip-bad-rows",)) == 1

    assert "\x1b" not in capsys.readouterr().err


def test_a_table_that_is_not_there(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["import-table", str(tmp_path / "none.csv"), "--map", "x", "--output", "y"]) == 2
    assert "does not exist" in capsys.readouterr().err
