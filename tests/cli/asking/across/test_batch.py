"""Tests of `barwright batch`: rows of a table, of jobs or of vehicles, answered in a file."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path
from typing import Any

import pyarrow as pa
import pytest
from pyarrow import parquet

import barwright as bw
from barwright.cli.command import run
from sample_packs import SPECIMENS, discovered_once

JOB = str(SPECIMENS / "jobs" / "least.toml")
TWENTY = str(SPECIMENS / "twenty")
CORNER = ("--corner", "front left")
VAN = ("--vehicle", "fells short", *CORNER)


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Load the installed packs once for all tests."""
    registry = discovered_once()
    monkeypatch.setattr(bw.Registry, "discover", lambda **_: registry)


@pytest.fixture
def table(tmp_path: Path) -> str:
    """A table of loads, of which one is none."""
    path = tmp_path / "loads.csv"
    path.write_text("van,load.mass [kg]\nempty,260\nhalf,291\nfull,many\n", encoding="utf-8")
    return str(path)


def test_the_rows_of_a_table_change_a_vehicle(
    table: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "answers.parquet"

    assert run(["batch", table, *VAN, "--keep", "van", "--output", str(output)]) == 2

    out = capsys.readouterr().out.splitlines()
    assert out[0] == "3 row(s): 2 rated, 1 with errors"
    assert out[1].startswith("row 4: Q104: load.mass: got 'many")
    assert out[2] == f"The answers are in {output}."
    rows = parquet.read_table(output)
    assert rows["van"].to_pylist() == ["empty", "half", "full"]
    van = discovered_once().setup("fells:chassis/short", corner="front left")
    alone = bw.batch(van, {"load.mass [kg]": [260.0, 291.0]})
    assert rows["ride.height"].to_pylist()[:2] == alone["ride.height"].m_as("mm").tolist()


def test_the_rows_of_a_table_change_a_job_at_its_height(table: str, tmp_path: Path) -> None:
    output = tmp_path / "answers.parquet"

    assert (
        run(["batch", table, "--job", JOB, *CORNER, "--keep", "van", "--output", str(output)]) == 2
    )

    corner = bw.load_job(JOB, discovered_once()).corners[0]
    figures = bw.rates(corner.setup, wanted=corner.wanted).figures
    assert figures is not None
    heights = parquet.read_table(output)["ride.height"].to_pylist()
    assert heights[:2] == pytest.approx([figures.ride.height.m_as("mm")] * 2)


def test_a_job_with_one_corner_needs_no_word_of_it(table: str, tmp_path: Path) -> None:
    path, output = tmp_path / "job.toml", tmp_path / "answers.csv"
    text = 'vehicle = "fells short"\ncorners = ["front left"]\nwanted.height = "380 mm"\n'
    path.write_text(text, encoding="utf-8")

    asked = ["batch", table, "--job", str(path), "--asked", "fit", "--keep", "van"]
    assert run([*asked, "--output", str(output)]) == 2
    assert len(output.read_text(encoding="utf-8").splitlines()) == 4


def test_jobs_and_folders_of_them_are_rows(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "answers.arrow"

    assert run(["batch", JOB, TWENTY, "--asked", "fit", "--output", str(output)]) == 2

    out = capsys.readouterr().out.splitlines()
    assert out[0] == "34 row(s): 26 fits, 1 fits with changes, 2 does not fit, 5 with errors"
    assert len(out) == 7
    assert output.exists()


def test_vehicles_are_rows_and_json_has_the_counts(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "answers.parquet"

    asked = ["batch", "--vehicles", "fells", "--asked", "height", "--units", "inch", "--json"]
    assert run([*asked, "--output", str(output)]) == 0

    assert json.loads(capsys.readouterr().out) == {
        "rows": 6,
        "verdict_counts": {"at rest on its spring": 6},
        "error_counts": {},
        "first_errors": [],
        "output": str(output),
    }
    assert parquet.read_schema(output).field("height").metadata == {b"unit": b"in"}


def test_processes_share_a_parquet_table_and_give_the_same_rows(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    source, shared, alone = (tmp_path / f"{name}.parquet" for name in ("loads", "shared", "alone"))
    parquet.write_table(pa.table({"load.mass [kg]": [260.0, -1.0, 291.0]}), source)
    asked = ["batch", str(source), "--job", JOB, *CORNER, "--asked", "ride", "--units", "inch"]

    told = []
    for output, more in ((alone, []), (shared, ["--processes", "2"])):
        assert run([*asked, "--output", str(output), *more]) == 2
        told.append(capsys.readouterr().out.replace(output.name, ""))

    assert told[0] == told[1]
    assert told[0].startswith("3 row(s): 2 rated, 1 with errors\nrow 3: Q302: ")
    one, other = map(parquet.read_table, (alone, shared))
    assert other.replace_schema_metadata().equals(one.replace_schema_metadata())
    assert other.schema.remove_metadata().equals(one.schema.remove_metadata())
    assert [field.metadata for field in other.schema] == [field.metadata for field in one.schema]


def test_processes_refuse_a_table_without_rows(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    source = tmp_path / "loads.parquet"
    parquet.write_table(pa.table({"load.mass [kg]": pa.array([], pa.float64())}), source)
    asked = ["batch", str(source), *VAN, "--processes", "1"]

    assert run([*asked, "--output", str(tmp_path / "answers.parquet")]) == 2

    assert "F110" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == [source]


def test_of_many_errors_the_first_are_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "loads.csv"
    path.write_text("load.mass [kg]\n" + "many\n" * 9, encoding="utf-8")

    asked = ["batch", str(path), *VAN, "--output", str(tmp_path / "a.csv")]
    assert run([*asked, "--json"]) == 2
    told = json.loads(capsys.readouterr().out)
    assert [error["row"] for error in told["first_errors"]] == [2, 3, 4, 5, 6]
    assert run(asked) == 2
    assert "4 more row(s) with errors: see the column error" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ([], "give a table, jobs or folders of jobs, or --vehicles"),
        ([JOB, "--vehicles", ""], "give a table, jobs or folders of jobs, or --vehicles"),
        (["a.csv", "b.csv"], "give one table alone"),
        (["a.csv", *VAN, "--processes", "2"], "whose names end in .parquet"),
        (["a.parquet", *VAN, "--processes", "2"], "whose names end in .parquet"),
        ([JOB, "--processes", "2"], "whose names end in .parquet"),
        (["a.csv", JOB], "give one table alone"),
        ([JOB, "--keep", "van"], "go with a table"),
        (["--vehicles", "", *CORNER], "go with a table"),
        (["a.csv"], "a table needs --job or --vehicle"),
        (["a.csv", "--job", JOB, *VAN], "a table needs --job or --vehicle"),
        (["a.csv", "--vehicle", "fells short"], "--vehicle needs --corner"),
        (["a.csv", "--job", JOB], "one corner of the job: front left, front right"),
        (["a.csv", "--job", JOB, "--corner", "rear left"], "one corner of the job"),
    ],
)
def test_options_that_do_not_go_together_are_refused(
    asked: list[str], says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["batch", *asked, "--output", str(tmp_path / "answers.csv")]) == 2

    assert says in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_strength_takes_the_travel_and_a_history(tmp_path: Path) -> None:
    output, history = tmp_path / "answers.parquet", tmp_path / "road.txt"
    history.write_text("0 mm\n40 mm\n-30 mm\n0 mm\n", encoding="utf-8")

    asked = ["batch", JOB, "--asked", "strength", "--travel", "40 mm", "--history", str(history)]
    assert run([*asked, "--output", str(output)]) == 0

    corner = bw.load_job(JOB, discovered_once()).corners[0]
    answer = bw.strength(corner.setup, travel="40 mm", wanted=corner.wanted)
    assert answer.figures is not None
    assert answer.figures.swing is not None
    amplitude = parquet.read_table(output)["swing.amplitude"][0].as_py()
    assert amplitude == pytest.approx(answer.figures.swing.amplitude.m_as("MPa"))


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("wanted.cuts", "wanted.cuts = 0"),
        ("wanted.thread_reserve", 'wanted.reserve = "2 turn"'),
        ("present", 'present.nut_turns = "2 turn"'),
    ],
)
def test_rows_are_not_planned_for_where_a_job_wants_more_than_a_height(
    key: str, text: str, table: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "job.toml"
    start = 'vehicle = "fells short"\ncorners = ["front left"]\nwanted.height = "380 mm"\n'
    path.write_text(f'{start}parts.bar = "fells:bar/short-firm"\n{text}\n', encoding="utf-8")

    asked = ["batch", table, "--job", str(path), "--keep", "van", "--asked", "reindex"]
    code = run([*asked, "--output", str(tmp_path / "answers.csv")])

    assert (code, "S207" in capsys.readouterr().err) == (2, True), key


@pytest.mark.parametrize(
    ("asked", "code"),
    [
        (["none.csv", *VAN], "F101"),
        (["none.csv", "--job", "none.toml"], "F101"),
        (["--vehicles", "no such words"], "L101"),
    ],
)
def test_what_is_not_there_is_told(
    asked: list[str], code: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["batch", *asked, "--output", str(tmp_path / "answers.csv")]) == 2

    assert f"error {code}: " in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_the_form_of_the_output_is_checked_first(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["batch", "none.csv", *VAN, "--output", str(tmp_path / "answers.txt")]) == 2
    assert "error F110: " in capsys.readouterr().err


@pytest.mark.parametrize("source", ["table", "jobs"])
def test_no_input_is_written_over(source: str, table: str, tmp_path: Path) -> None:
    job = tmp_path / "job.csv"
    job.write_text(Path(JOB).read_text(encoding="utf-8"), encoding="utf-8")
    before = {path: path.read_bytes() for path in tmp_path.iterdir()}
    if source == "table":
        asked = [table, "--job", str(job), *CORNER, "--keep", "van", "--output", str(job)]
    else:
        link = tmp_path / "job.toml"
        link.symlink_to(job)
        asked = [str(link), "--output", str(job)]

    assert run(["batch", *asked]) == 2

    assert {path: path.read_bytes() for path in before} == before


class Screen(io.StringIO):
    """What stands for a terminal."""

    def isatty(self) -> bool:
        return True


def test_a_terminal_shows_how_far_it_is(
    table: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    screen: Any = Screen()
    monkeypatch.setattr(sys, "stderr", screen)

    run(["batch", table, *VAN, "--keep", "van", "--output", str(tmp_path / "answers.csv")])

    assert "answering" in screen.getvalue()
    assert "100%" in screen.getvalue()
    assert "answering" not in capsys.readouterr().out
