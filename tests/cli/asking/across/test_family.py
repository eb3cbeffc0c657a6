"""Tests of `barwright family`: all bars by all wheelbases, for a counter."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

import barwright as bw
from barwright.cli.command import run
from sample_packs import changed_pack

TRUCKS = ["family", "hodmule", "--demo"]


def test_the_answer_comes_first_then_the_chart(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(TRUCKS) == 0

    out = capsys.readouterr().out
    assert out.startswith("3 bars go on 2 wheelbases of Gorsewain Hodmule, ")
    assert "Packs with invented figures: hodmule\n" in out
    assert "Firm bar, invented                   +13 %            +4 %\n" in out


def test_options_reach_the_question(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: dict[str, Any] = {}
    chart = bw.family_chart(bw.Registry.demo(), "trundlet", processes=1)

    def question(_: bw.Registry, vehicles: str, **options: Any) -> bw.answers.FamilyChart:
        asked.update(options, vehicles=vehicles)
        return chart

    monkeypatch.setattr("barwright.cli.asking.across.family.family_chart", question)
    options = ["--bars", "firm", "--height", "390 mm", "--axle", "front", "--unchanged"]
    options += ["--stiffer", "10", "--softer", "-50", "--sort", "stress", "--descending"]
    assert run(["family", "fells", "short", *options, "--group", "bar", "--processes", "1"]) == 0

    del asked["progress"]
    assert asked == {
        "vehicles": "fells short",
        "bars": "firm",
        "height": "390 mm",
        "axle": bw.parts.AxlePlace.FRONT,
        "unchanged": True,
        "least_change": 10.0,
        "most_change": 50.0,
        "sort": "stress",
        "descending": True,
        "group": "bar",
        "processes": 1,
    }


@pytest.mark.parametrize(
    ("form", "begins"),
    [
        ("text", "3 bars go on "),
        ("html", "<!doctype html>"),
        ("pdf", "%PDF"),
        ("svg", "<svg "),
        ("markdown", "**3 bars go on "),
        ("csv", "offered,on,bar,"),
        ("json", '{"answers": '),
    ],
)
def test_each_form_goes_into_a_file(
    form: str, begins: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "chart"
    assert run([*TRUCKS, "--form", form, "--output", str(path)]) == 0

    assert path.read_bytes().startswith(begins.encode())
    assert f"The chart is in {path}." in capsys.readouterr().err


def test_json_holds_the_answer_in_units(capsys: pytest.CaptureFixture[str]) -> None:
    assert run([*TRUCKS, "--units", "inch", "--json"]) == 0

    (item,) = json.loads(capsys.readouterr().out)["answers"]
    answer = bw.from_json(json.dumps(item))
    assert isinstance(answer, bw.answers.FamilyChart)
    assert item["wheelbases"][0]["standard_rate"]["unit"] == "lbf/in"


def test_where_nothing_is_offered_the_answer_is_no(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["family", "zzz", "--demo"]) == 1
    assert capsys.readouterr().out.startswith("No vehicle is described by these words. Give")


def test_a_wrong_height_is_the_option_s(capsys: pytest.CaptureFixture[str]) -> None:
    assert run([*TRUCKS, "--height", "high"]) == 2
    assert "error Q104: --height: got 'high'" in capsys.readouterr().err


def test_wishes_that_contradict_each_other_are_the_option_s(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run([*TRUCKS, "--stiffer", "20", "--softer", "10"]) == 2
    assert "error S207: --stiffer: got '+20 % to -10 %'" in capsys.readouterr().err


def test_packs_that_are_all_broken_are_their_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pack = changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = 1000")

    assert run(["family", "--pack", str(pack)]) == 3
    assert "is left out" in capsys.readouterr().err
