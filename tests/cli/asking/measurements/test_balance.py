"""`barwright balance` answers a job, and says where a figure of it is wrong."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from barwright.cli.command import run
from sample_packs import SPECIMENS

JOB = SPECIMENS / "jobs" / "corner-weights.toml"


def test_it_says_which_nuts_to_turn(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["balance", str(JOB), "--demo"]) == 0

    assert capsys.readouterr().out.startswith("Cross weight 53.2 % now. Turn front right: 2.67")


def test_json_has_the_settings_of_the_aim_that_was_asked_for(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(["balance", str(JOB), "--aim", "cross-weight", "--json", "--demo"]) == 0

    (answer,) = json.loads(capsys.readouterr().out)["answers"]
    first = answer["answer"]["settings"][0]
    assert first["aim"] == "cross weight"
    assert first["cross_weight"] == pytest.approx(0.5, abs=2e-3)


def test_a_file_takes_each_form(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    firsts = {
        "text": "Cross weight 53.2 % now.",
        "markdown": "**Cross weight 53.2 % now.",
        "html": "<!doctype html>",
        "pdf": "%PDF",
        "json": '{"answers": [{"answer": {"answer": "Balance"',
    }
    for form, first in firsts.items():
        path = tmp_path / f"sheet.{form}"
        asked = ["balance", str(JOB), "--demo", "--form", form, "--output", str(path)]
        assert run(asked) == 0
        assert path.read_bytes().startswith(first.encode())
        assert "sheet is in" in capsys.readouterr().err


def test_a_page_is_that_of_the_library_with_the_vehicle_and_its_packs(
    capsys: pytest.CaptureFixture[str],
) -> None:
    asked = ["balance", str(JOB), "--demo", "--form", "html", "--units", "inch"]
    assert run(asked) == 0

    out = capsys.readouterr().out
    assert "Fells carrier, short wheelbase" in out
    assert "Packs with invented figures: fells" in out
    assert " mm" not in out
    assert run(["balance", str(JOB), "--demo", "--form", "pdf", "--json"]) == 2
    assert run(["balance", str(JOB), "--demo", "--form", "markdown"]) == 0
    assert "## Turn, in this order" in capsys.readouterr().out


def test_a_job_without_the_table_needs_figures(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    job = tmp_path / "job.toml"
    text = 'vehicle = "fells:chassis/short"\ncorners = ["front left", "front right"]\n'
    job.write_text(f"{text}wanted.keep_standard = true\n", encoding="utf-8")

    assert run(["balance", str(job), "--demo"]) == 1
    assert "front.left.scale_reading" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"157.0 mm ± 0.5 mm"', '"300 mm"', "balance.front.left.pin_distance: got '300 mm'"),
        ("roll_radius", "roll_radios", "balance.roll_radios"),
        ('total = "1145 kg ± 3 kg"', "wanted_cross_weight = 120.0", "wanted_cross_weight"),
        ('total = "1145 kg ± 3 kg"', 'wanted_cross_weight = "50 %"', "wanted_cross_weight"),
        ("anti_roll_bar.one_wheel_rate", "anti_roll_bar.diameter", "anti_roll_bar"),
    ],
)
def test_a_slip_in_the_table_is_told_with_its_line(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, old: str, new: str, said: str
) -> None:
    job = tmp_path / "job.toml"
    text = JOB.read_text(encoding="utf-8")
    assert old in text
    job.write_text(text.replace(old, new), encoding="utf-8")

    assert run(["balance", str(job), "--demo"]) == 2
    told = capsys.readouterr().err
    assert said in told
    assert "job.toml:" in told
