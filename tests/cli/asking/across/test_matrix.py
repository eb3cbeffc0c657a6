"""Tests of `barwright matrix`: every bar on every vehicle."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli.command import run
from sample_packs import changed_pack

SHORT = ["--demo", "--vehicles", "fells short"]


def test_the_count_comes_first(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["matrix", *SHORT]) == 0

    out = capsys.readouterr().out
    assert out.startswith("20 bars on 1 vehicle, 40 pairs: 18 fit, 2 of them with changes; ")
    assert "Packs with invented figures: fells" in out
    assert "excluded: tooth count" in out


def test_json_holds_the_answer_in_units_and_its_packs(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(["matrix", *SHORT, "--bars", "firm", "--units", "inch", "--json"]) == 0

    (item,) = json.loads(capsys.readouterr().out)["answers"]
    answer = bw.from_json(json.dumps(item))
    assert isinstance(answer, bw.answers.FamilyMatrix)
    assert item["rows"][0]["wheel_rate"]["unit"] == "lbf/in"


def test_options_reach_the_question(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["--bars", "short-firm", "--height", "390 mm", "--clocking", "--processes", "1"]
    assert run(["matrix", *SHORT, *asked, "--json"]) == 0

    (left, right) = json.loads(capsys.readouterr().out)["answers"][0]["rows"]
    assert (left["height"], right["height"]) == ({"value": 390.0, "unit": "mm"},) * 2
    assert isinstance(left["arm_tooth"], int)

    assert run(["matrix", *SHORT, "--pruned", "--json"]) == 0
    assert len(json.loads(capsys.readouterr().out)["answers"][0]["rows"]) == 40


@pytest.mark.parametrize("words", [["--bars", "zzz"], ["--bars", "hodmule:bar"]])
def test_where_nothing_fits_the_answer_is_no(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["matrix", *SHORT, *words]) == 1
    assert ": none is known to fit.\n" in capsys.readouterr().out


def test_a_wrong_height_is_the_option_s(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["matrix", *SHORT, "--height", "high"]) == 2
    assert "error Q104: --height: got 'high'" in capsys.readouterr().err


def test_packs_that_are_all_broken_are_their_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = 1000")

    assert run(["matrix", "--pack", str(pack)]) == 3
    assert "is left out" in capsys.readouterr().err


def test_rows_go_into_a_file_that_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "family.parquet"
    asked = ["matrix", *SHORT, "--bars", "firm", "--output", str(path)]
    assert run(asked) == 0

    out = capsys.readouterr().out
    assert "".join(f"The rows are in {path}.".split()) in "".join(out.split())
    assert "done before" not in out
    assert path.exists()

    assert run(asked) == 0
    assert "1 of 1 parts were done before." in " ".join(capsys.readouterr().out.split())
    assert run([*asked, "--json"]) == 0
    answer = bw.from_json(json.dumps(json.loads(capsys.readouterr().out)["answers"][0]))
    assert isinstance(answer, bw.answers.FamilyFile)
    assert answer.earlier == 1


def test_a_file_of_another_form_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["matrix", *SHORT, "--output", str(tmp_path / "family.csv")]) == 2
    assert "F110" in capsys.readouterr().err
