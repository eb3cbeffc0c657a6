"""Tests of `barwright identify`: a loose bar by what was measured of it."""

from __future__ import annotations

import json

import pytest

import barwright as bw
from barwright.cli.command import run

FIRM = ["--diameter", "25.0 mm", "--length", "904 mm", "--teeth", "42", "--teeth", "39"]


def test_the_answer_comes_first(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["identify", *FIRM, "--demo"]) == 0

    out = capsys.readouterr().out
    assert out.startswith("Firm bar, short van (fells:bar/short-firm): over 99 %.\n")
    assert "Packs with invented figures: fells" in out


def test_json_holds_the_answer(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["identify", *FIRM, "--json", "--units", "inch", "--demo"]) == 0

    (item,) = json.loads(capsys.readouterr().out)["answers"]
    answer = bw.from_json(json.dumps(item["answer"]))
    assert isinstance(answer, bw.answers.Identification)
    assert answer.possible_bars[0].arm_end == 2
    assert item["answer"]["assumed"][0]["within"]["unit"] == "in"


def test_each_option_of_the_ends_may_be_given_twice(capsys: pytest.CaptureFixture[str]) -> None:
    ends = ["--teeth", "39", "--teeth", "42", "--blanks", "0", "--blanks", "none"]
    sizes = ["--major-diameter", "30.0 mm", "--spline-length", "37 mm ± 0.2 mm"]
    further = ["--root-diameter", "28.1 mm", "--taper", "22 mm", "--nose", "3 mm"]
    body = ["--diameter", "25.0 mm", "--bore", "0 mm", "--blank-angle", "0 deg"]

    assert run(["identify", *body, *ends, *sizes, *further, "--demo"]) in (0, 1)
    assert "Firm bar" in capsys.readouterr().out


def test_more_figures_needed_or_no_bar_is_a_no(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["identify", "--length", "904 mm", "--demo"]) == 1
    assert "Measure the diameter of the body next" in capsys.readouterr().out
    odd = ["--diameter", "40 mm", "--length", "300 mm", "--teeth", "20", "--teeth", "18"]
    assert run(["identify", *odd, "--demo"]) == 1
    assert capsys.readouterr().out.startswith("No listed bar has these figures")


@pytest.mark.parametrize(
    ("call", "told"),
    [
        ([], "S203: got 'a bar of which nothing was measured'"),
        (["--diameter", "25"], "Q105: --diameter: got '25'"),
        (["--spline-length", "25"], "Q105: --spline-length: got '25'"),
        (["--taper", "-1 mm"], "--taper: got '-1 mm'"),
        (["--teeth", "0"], "S203: --teeth: got '0'"),
        (["--teeth", "9", "--teeth", "9", "--teeth", "9"], "S203: --end: got '3 ends'"),
        (["--blanks", "0,x"], "S203: --blanks: got '0,x'"),
        (["--blanks", "0,0"], "S203: --blanks: got"),
        (["--blank-angle", "4 mm"], "--blank-angle: got '4 mm'"),
    ],
)
def test_what_is_no_figure_is_refused_by_its_option(
    call: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["identify", *call, "--demo"]) == 2
    assert told in capsys.readouterr().err
