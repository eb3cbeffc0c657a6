"""Tests of `barwright rate`: a bar by its id, with or without a tube."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

import barwright as bw
from barwright.cli.command import run
from sample_packs import SPECIMENS, changed_pack

RACK = ["--pack", str(SPECIMENS / "rack")]
DEMO = ["--demo"]
SHORT = "fells:bar/short-standard"


def test_the_answer_comes_first(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["rate", SHORT, "--tube", "fells:tube/short", *DEMO]) == 0

    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("Bar and tube in series give 43.1 N·m/deg ± 2.2 N·m/deg")
    assert f"{SHORT}, fells:tube/short" in lines
    assert "Rests on invented figures: fells:drawing-board" in lines


def test_a_pack_without_a_vehicle_is_enough(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["rate", "rack:bar/thin", "--torque", "400 N*m", *RACK]) == 0

    out = capsys.readouterr().out
    assert out.startswith("The bar alone gives ")
    assert "Under 400 N·m" in out
    assert "720 MPa by rack:desk (invented)" in out


def test_json_holds_the_answer_and_what_it_is_of(capsys: pytest.CaptureFixture[str]) -> None:
    call = ["rate", "bar/thick", "--tube", "tube/plain", "--units", "inch", "--json", *RACK]
    assert run(call) == 0

    (item,) = json.loads(capsys.readouterr().out)["answers"]
    assert (item["bar"], item["tube"]) == ("rack:bar/thick", "rack:tube/plain")
    assert item["rests_on"] == [{"kind": "invented", "source": "rack:desk", "figures": []}]
    answer = bw.from_json(json.dumps(item["answer"]))
    assert isinstance(answer, bw.answers.BarRate)
    assert item["answer"]["system_rate"]["unit"] == "lbf*ft/deg"


def test_a_bar_that_does_not_go_into_the_tube_is_a_no(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["rate", SHORT, "--tube", "rack:tube/plain", *DEMO, *RACK]) == 1

    out = capsys.readouterr().out
    assert out.startswith("Does not fit: the tooth counts differ (anchor end); found 42, limit 36.")
    assert "because: the tooth forms differ" in out


def test_a_bar_with_gaps_gives_what_it_can(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rack = shutil.copytree(SPECIMENS / "rack", tmp_path / "rack")
    parts = rack / "parts.toml"
    text = parts.read_text(encoding="utf-8").replace('bore = "40 mm"\n', "")
    parts.write_text(text.replace('diameter = "22 mm ± 0.05 mm"\n', ""), encoding="utf-8")

    assert run(["rate", "bar/thick", "--tube", "tube/plain", "--pack", str(rack)]) == 1
    out = " ".join(capsys.readouterr().out.split())
    assert out.startswith("The bar alone gives 52.3 N·m/deg ± ")
    assert "Needed for the rate of bar and tube: tube bore. " in out
    assert "bar and tube in series unknown" in out
    assert run(["rate", "bar/thin", "--json", "--pack", str(rack)]) == 1
    (item,) = json.loads(capsys.readouterr().out)["answers"]
    assert item["answer"]["outcome"] == "needs more figures"
    assert item["answer"]["bar_rate"] == "unknown"


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (["bar/thinn"], "L102: BAR: got 'bar/thinn', expected the id of a bar; did you mean "),
        (["bar/thin", "--tube", "x"], "L102: --tube: got 'x', expected the id of a tube; known: "),
        (["bar/thin", "--torque", "4"], "Q105: --torque: got '4', expected a torque as "),
        (["bar/thin", "--torque", "0 N*m"], "Q302: --torque: got '0 N·m', "),
    ],
)
def test_bad_input_is_told_with_its_place(
    call: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["rate", *call, *RACK]) == 2
    assert told in capsys.readouterr().err


def test_where_a_pack_is_broken_an_unknown_bar_is_the_packs_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    broken = changed_pack(tmp_path, "pack.toml", "schema = 2", "schema = two")

    assert run(["rate", "tiny:bar/one", "--pack", str(broken), *RACK]) == 3
    assert "is left out" in capsys.readouterr().err


def test_other_commands_take_a_pack_without_a_vehicle(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["parts", *RACK, "--kind", "bar"]) == 0
    assert "rack:bar/thick" in capsys.readouterr().out
    assert run(["vehicles", *RACK]) == 1
    reported = capsys.readouterr()
    assert reported.out == ""
    assert reported.err.splitlines() == [
        "no pack has a vehicle; to list the parts: barwright parts",
        "looked in: rack; with --pack, the installed packs are not read",
    ]
    assert run(["lint", RACK[1]]) == 0
