"""Tests of `barwright choose`: a bar for a vehicle or a job, by one goal."""

from __future__ import annotations

import json

import pytest

import barwright as bw
from barwright.cli.command import run
from rare_cases import rarely_after

VAN = ["fells", "short"]
JOB = "docs/examples/shorter-dampers.toml"


@pytest.mark.rare
def test_both_sides_alike_are_one_answer(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["choose", *VAN, "--stiffer", "30", "--demo"]) == 0

    out = capsys.readouterr().out
    assert out.startswith("Firm bar, short van: 27.5 N/mm at the wheel, +31 %.")
    assert "Fells carrier, short wheelbase, front left, front right\n" in out
    assert out.count("To choose from") == 1
    assert "Caution: A twisted bar can maim." in out


@pytest.mark.rare
def test_a_bar_for_one_side_alone_parts_the_answers(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["choose", *VAN, "--stiffer", "17", "--miss", "1", "--demo"]) == 0

    out = capsys.readouterr().out
    assert "Pre-set bar, short van, left" in out
    assert "Pre-set bar, short van, right" in out


def test_a_job_says_what_is_on_the_car_and_how_it_is_to_stand(
    capsys: pytest.CaptureFixture[str],
) -> None:
    call = ["choose", JOB, "--softer", "12", "--no-cut", "--units", "inch", "--json"]
    assert run(call) == 0

    left, right = json.loads(capsys.readouterr().out)["answers"]
    assert (left["corner"], right["corner"]) == ("front left", "front right")
    answer = bw.from_json(json.dumps(left["answer"]))
    assert isinstance(answer, bw.answers.Selection)
    assert answer.preferred.plan.cuts == 0
    assert left["answer"]["present_rate"]["unit"] == "lbf/in"


@pytest.mark.parametrize(
    "goal",
    rarely_after(
        1,
        [
            ["--rate", "18.4 N/mm", "--miss", "2"],
            ["--frequency", "1.21 Hz", "--miss", "1"],
            ["--lowest-stress"],
            ["--largest", "--axle", "front", "--height", "400 mm"],
        ],
    ),
)
def test_a_goal_is_any_of_these(goal: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["choose", *VAN, *goal, "--demo"]) == 0
    assert "To choose from" in capsys.readouterr().out


def test_nothing_that_suits_is_a_no_with_the_search(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["choose", *VAN, "--stiffer", "150", "--demo"]) == 1

    out = capsys.readouterr().out
    assert out.startswith(
        "Nothing suits: of 26 tried, none has a rate within 10 % of the goal. Nearest: "
    )
    assert "The search" in out


@pytest.mark.parametrize(
    ("call", "told"),
    [
        ([], "S207: goal: got 'no goal'"),
        (["--stiffer", "3", "--softer", "3"], "S207: goal: got '--stiffer and --softer'"),
        (["--largest", "--lowest-stress"], "S207: goal: got '--lowest-stress and --largest'"),
        (["--rate", "3 N/mm", "--stiffer", "3"], "S207: goal: got '--rate and --stiffer'"),
        (["--rate", "3"], "--rate: got '3'"),
        (["--stiffer", "inf"], "Q302: --stiffer: got 'inf'"),
        (["--front-to-rear", "0.9"], "both axles"),
        (["--stiffer", "3", "--axle", "rear"], "rear"),
        (["--stiffer", "3", "--miss", "0"], "Q302: --miss: got '0.0'"),
    ],
)
def test_what_is_no_goal_is_refused(
    call: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["choose", *VAN, *call, "--demo"]) == 2
    assert told in capsys.readouterr().err
