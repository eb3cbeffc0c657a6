"""Tests of `barwright spline`: a spline by what was measured of it."""

from __future__ import annotations

import json

import pytest

import barwright as bw
from barwright.cli.command import run

TIPS = ["--teeth", "39", "--major-diameter", "29.92 mm"]


def test_the_answer_comes_first(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["spline", *TIPS, "--root-diameter", "27.8 mm"]) == 0
    assert capsys.readouterr().out.startswith("ISO 4156, module 0.75, fillet root,")
    assert run(["spline", *TIPS]) == 1
    assert "Measure the root diameter next" in capsys.readouterr().out


def test_json_holds_the_answer(capsys: pytest.CaptureFixture[str]) -> None:
    pins = ["--over-pins", "31.5 mm", "--pin-diameter", "1.5 mm"]
    assert run(["spline", *TIPS, *pins, "--units", "inch", "--json"]) in (0, 1)

    (item,) = json.loads(capsys.readouterr().out)["answers"]
    answer = bw.from_json(json.dumps(item["answer"]))
    assert isinstance(answer, bw.answers.SplineIdentification)
    assert item["answer"]["possible_forms"][0]["module"]["unit"] == "in"


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (["--teeth", "39"], "S203: got 'a spline of which only the teeth were counted'"),
        (["--teeth", "0"], "S203: --teeth: got '0'"),
        ([*TIPS, "--over-pins", "31 mm"], "S207: --pin-diameter: got"),
        ([*TIPS, "--root-diameter", "30"], "Q105: --root-diameter: got '30'"),
    ],
)
def test_what_cannot_be_is_refused(
    call: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["spline", *call]) == 2
    assert told in capsys.readouterr().err
