"""Tests of `barwright working`."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from barwright.cli.command import run
from sample_packs import SPECIMENS

VAN = str(SPECIMENS.parents[1] / "docs" / "examples" / "shorter-dampers.toml")
TRAILER = str(SPECIMENS.parents[1] / "docs" / "examples" / "loaded-trailer.toml")


@pytest.mark.rare
def test_corners_with_the_same_working_share_a_page(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["working", TRAILER, "bar_rate"]) == 0
    out = capsys.readouterr().out
    assert "trundlet:chassis/open, rear left and right" in out
    assert out.count("Torsional rate of the bar [") == 1

    assert run(["working", VAN, "ride.wheel_rate"]) == 0
    out = capsys.readouterr().out
    assert "fells:chassis/short, front left\n" in out
    assert "fells:chassis/short, front right\n" in out
    assert out.count("Rate at the wheel, at rest [") == 2


def test_one_figure_leaves_out_what_it_does_not_follow_from(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(["working", TRAILER, "bar_rate"]) == 0
    out = capsys.readouterr().out
    assert out.startswith("Torsional rate of the bar: ")
    assert "Load\n" not in out
    assert "Rests on invented figures: trundlet:shed-wall" in out


def test_an_unknown_figure_is_bad_input(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["working", VAN, "ride.wheel_rat"]) == 2
    err = capsys.readouterr().err
    assert err.startswith("error S201: FIGURE: got 'ride.wheel_rat', expected a figure of this")
    assert "did you mean 'ride.wheel_rate'" in err


def test_a_refusal_shows_as_far_as_it_goes(capsys: pytest.CaptureFixture[str]) -> None:
    job = str(SPECIMENS / "twenty" / "15-no-out-of-travel.toml")
    assert run(["working", job]) == 1
    out = capsys.readouterr().out
    assert "annot be reached" in out
    assert "Torsional rate of the bar [" in out
    assert run(["working", job, "ride.wheel_rate"]) == 1


def test_a_file_takes_each_form(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    firsts = {
        "text": "Torsional rate",
        "markdown": "**Torsional rate",
        "html": "<!doctype html>",
        "pdf": "%PDF",
    }
    for form, first in firsts.items():
        path = tmp_path / f"working.{form}"
        asked = ["working", TRAILER, "bar_rate", "--form", form, "--output", str(path)]
        assert run(asked) == 0
        assert path.read_bytes().startswith(first.encode())
        assert "working is in" in capsys.readouterr().err


def test_a_program_gets_the_working_of_each_corner(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["working", TRAILER, "bar_rate", "--json"]) == 0
    out = capsys.readouterr().out
    left, right = json.loads(out)["answers"]
    answer: Any = bw.from_json(json.dumps(left["answer"]))

    assert (left["corner"], right["corner"]) == ("rear left", "rear right")
    assert [source["source"] for source in left["rests_on"]] == ["trundlet:shed-wall"]
    assert answer.lines[-1].figure == "bar_rate"

    path = tmp_path / "working.json"
    assert run(["working", TRAILER, "bar_rate", "--form", "json", "--output", str(path)]) == 0
    assert path.read_text("utf-8") == out
    assert run(["working", TRAILER, "--json", "--form", "pdf"]) == 2
