"""Tests of `barwright trail`, and of what the other questions say that they rest on."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli.command import run
from sample_packs import SPECIMENS, changed_pack

JOB = str(SPECIMENS / "twenty" / "01-keep-standard.toml")
THREE_BARS = str(SPECIMENS / "twenty" / "09-three-bars.toml")
LAST = "Rests on invented figures: fells:drawing-board"


def test_json_holds_the_trail(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["trail", JOB, "ride.wheel_rate", "--json"]) == 0
    left, _ = json.loads(capsys.readouterr().out)["answers"]

    answer = bw.from_json(json.dumps(left["answer"]))
    assert isinstance(answer, bw.answers.Trail)
    assert answer.figure == "ride.wheel_rate"
    # The wanted height counts: a figure of the standard height moves the rate there.
    assert "axle.standard_height" in {line.figure for line in answer.lines}
    assert all(line.note for line in answer.lines if line.source.startswith("fells:"))


@pytest.mark.rare
def test_several_variants_are_a_row_each(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["trail", THREE_BARS, "bar_rate"]) == 0

    out = capsys.readouterr().out
    assert "moved most by" in out
    assert out.count("N·m/deg") >= 3


def test_an_unknown_figure_is_bad_input(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["trail", JOB, "ride.wheel_rat"]) == 2
    err = capsys.readouterr().err
    assert err.startswith("error S201: FIGURE: got 'ride.wheel_rat', expected a figure of the ")
    assert "did you mean 'ride.wheel_rate'" in err


@pytest.mark.parametrize(
    ("job", "figure", "outcome"),
    [
        ("14-no-short-bar-in-long-van", "bar_rate", "does not fit"),
        ("15-no-out-of-travel", "ride.wheel_rate", "cannot be reached"),
    ],
)
def test_a_figure_of_an_answer_that_is_no_is_no_bad_input(
    job: str, figure: str, outcome: str, capsys: pytest.CaptureFixture[str]
) -> None:
    path = str(SPECIMENS / "twenty" / f"{job}.toml")

    assert run(["trail", path, figure]) == 1
    out = capsys.readouterr().out
    assert f"{outcome}: the " in out.lower()
    assert run(["trail", path, figure, "--json"]) == 1
    reported = json.loads(capsys.readouterr().out)["answers"][0]
    assert bw.from_json(json.dumps(reported["answer"])).verdict.value == outcome
    assert run(["trail", path]) == 0


@pytest.mark.parametrize("question", ["fit", "rates", "reindex", "strength", "tolerance"])
def test_an_answer_says_what_it_rests_on(question: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run([question, JOB]) == 0
    text = capsys.readouterr().out.rstrip()
    assert text.startswith("Front left and right: ")
    assert LAST in text.splitlines()[:7]
    assert text.count(LAST) == 1

    assert run([question, JOB, "--json"]) == 0
    for one in json.loads(capsys.readouterr().out)["answers"]:
        invented = {"kind": "invented", "source": "fells:drawing-board", "figures": []}
        assert one["rests_on"] == [invented]


def test_a_comparison_says_what_either_side_rests_on(capsys: pytest.CaptureFixture[str]) -> None:
    truck = str(SPECIMENS.parents[1] / "docs/examples" / "firmer-bars.toml")

    assert run(["compare", JOB, truck]) == 0
    assert capsys.readouterr().out.count(f"{LAST}, hodmule:sketch-book") == 1
    assert run(["compare", JOB, truck, "--json"]) == 0
    for answer in json.loads(capsys.readouterr().out)["answers"]:
        invented = [one["source"] for one in answer["rests_on"] if one["kind"] == "invented"]
        assert invented == ["fells:drawing-board", "hodmule:sketch-book"]


def test_a_chart_says_what_it_rests_on(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["chart", JOB]) == 0
    headline, rests_on, *_ = capsys.readouterr().out.splitlines()
    assert headline.startswith("Front left: ")
    assert rests_on == LAST
    assert run(["chart", JOB, "--svg", str(tmp_path / "chart.svg")]) == 0
    drawn = (tmp_path / "chart.svg").read_text(encoding="utf-8")
    assert f"<desc>{LAST}</desc>" in drawn
    assert f">{LAST}</text>" in drawn


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

    svg = tmp_path / "chart.svg"
    for call in (["fit"], ["compare", str(path)], ["check"], ["chart"], ["chart", "--svg", svg]):
        assert run([*map(str, call), str(path)]) == 0
    out = capsys.readouterr().out
    assert "Rests on" not in out
    assert "Front left" in out
    assert "<desc>" not in svg.read_text(encoding="utf-8")
