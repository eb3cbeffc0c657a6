"""Tests of `barwright diagnose`: why a car stands too low or too high."""

from __future__ import annotations

import json

import pytest

import barwright as bw
from barwright.cli.command import run

LOW = "tests/specimens/jobs/low-on-one-side.toml"


def test_the_likeliest_cause_and_its_check_come_first(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["diagnose", LOW, "--demo"]) == 0

    out = " ".join(capsys.readouterr().out.split())
    assert out.startswith(
        "front left 47 mm low; front right 1 mm low. Likely front left: anchor end"
    )
    assert "Count the teeth from the blank to the key at the anchor end." in out
    assert "Packs with invented figures: fells" in out


def test_json_holds_the_answer(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["diagnose", LOW, "--json", "--units", "inch", "--demo"]) == 0

    (item,) = json.loads(capsys.readouterr().out)["answers"]
    answer = bw.from_json(json.dumps(item["answer"]))
    assert isinstance(answer, bw.answers.Diagnosis)
    assert item["answer"]["corners"][0]["height"]["unit"] == "in"


def test_a_job_without_readings_says_what_to_measure(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["diagnose", "docs/examples/firmer-bars.toml", "--demo"]) == 2
    assert "S207" in capsys.readouterr().err
