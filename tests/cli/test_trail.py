"""Tests of `barwright trail`, and of what the other questions say that they rest on."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli.command import run
from packing import SPECIMENS, changed_pack

JOB = str(SPECIMENS / "twenty" / "01-keep-standard.toml")
THREE_BARS = str(SPECIMENS / "twenty" / "09-three-bars.toml")
LAST = "Rests on invented figures: fells:drawing-board"


def test_json_holds_the_trail(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["trail", JOB, "ride.wheel_rate", "--json"]) == 0
    left, _ = json.loads(capsys.readouterr().out)["answers"]

    answer = bw.from_json(json.dumps(left["answer"]))
    assert isinstance(answer, bw.Trail)
    assert answer.figure == "ride.wheel_rate"
    # The wanted height counts: a figure of the standard height moves the rate there.
    assert "axle.standard_height" in {line.figure for line in answer.lines}
    assert all(line.note for line in answer.lines if line.source.startswith("fells:"))


def test_several_variants_are_a_row_each(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["trail", THREE_BARS, "bar_rate"]) == 0

    out = capsys.readouterr().out
    assert "moved most by" in out
    assert out.count("N·m/deg") >= 3


def test_an_unknown_figure_is_bad_input(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["trail", JOB, "ride.wheel_rat"]) == 2
    assert "did you mean 'ride.wheel_rate'" in capsys.readouterr().err


@pytest.mark.parametrize("question", ["fit", "rates", "reindex", "strength", "tolerance"])
def test_an_answer_says_what_it_rests_on(question: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run([question, JOB]) == 0
    text = capsys.readouterr().out.rstrip()
    assert text.endswith(LAST)
    assert text.count(LAST) == 2

    assert run([question, JOB, "--json"]) == 0
    for one in json.loads(capsys.readouterr().out)["answers"]:
        assert one["rests_on"] == [{"kind": "invented", "source": "fells:drawing-board"}]


def test_many_variants_say_it_once(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["fit", THREE_BARS]) == 0
    assert capsys.readouterr().out.count(LAST) == 1


def test_an_answer_that_rests_on_what_was_measured_says_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    measured = changed_pack(tmp_path, "pack.toml", '"invented"', '"measured"')
    registry = bw.Registry.from_folders(measured)
    monkeypatch.setattr(bw.Registry, "discover", lambda **_: registry)
    job = (SPECIMENS / "jobs" / "least.toml").read_text(encoding="utf-8")
    path = tmp_path / "job.toml"
    path.write_text(job.replace("fells:chassis/short", "tiny:chassis/one"), encoding="utf-8")

    assert run(["fit", str(path)]) == 0
    out = capsys.readouterr().out
    assert "Rests on" not in out
    assert "front left" in out
