"""The commands for scripts: many files at once, in forms that programs read."""

from __future__ import annotations

import functools
import io
import json
import os
import re
import stat
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import jsonschema
import pytest

import barwright as bw
from barwright.cli import main
from barwright.cli.checking import check
from barwright.cli.command import run
from sample_packs import discovered_once

TWENTY = "tests/specimens/twenty"
SCHEMA = Path("tests/specimens/schemas/sarif-2.1.0.json")
GOOD = f"{TWENTY}/01-keep-standard.toml"


@functools.cache
def checked(path: Path, registry: bw.Registry, **ways: Any) -> bw.answers.JobCheck:
    """What is found in a job file, which is the same in whatever form it is told."""
    return bw.check_job(path, registry, **ways)


@pytest.fixture
def checked_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Put the questions of a job file once for all tests that look at how the answers are told."""

    def check_jobs(
        paths: Sequence[Path], _: bw.Registry, *, processes: int | None, **ways: Any
    ) -> Iterator[bw.answers.JobCheck]:
        assert processes is None
        return (checked(path, discovered_once(), **ways) for path in paths)

    monkeypatch.setattr(check, "check_jobs", check_jobs)


@pytest.mark.usefixtures("checked_once")
def test_twenty_jobs_with_five_bad_ones_give_twenty_lines(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(["check", TWENTY]) == 2
    lines = capsys.readouterr().out.splitlines()
    count, unmeasured, *files = [line for line in lines if not line.startswith(" ")]
    assert len(files) == 20
    assert [line.split()[0] for line in files] == ["good"] * 13 + ["no"] * 2 + ["bad"] * 5
    assert unmeasured == "Rests on invented figures: fells:drawing-board"
    assert count == "20 job file(s): 13 good, 2 no, 5 bad, 0 fault"
    problems = [line for line in lines if line.startswith(" ")]
    codes = {line.split()[1] for line in problems if f"{TWENTY}/" in line}
    assert codes >= {"Q101", "L101", "S201", "L103", "F103"}
    reasons = [line for line in problems if f"{TWENTY}/" not in line]
    assert any("front left: cannot be reached: " in line for line in reasons)
    assert all(re.search("[0-9]", line) for line in reasons)


def test_the_exit_code_is_the_worst_and_a_no_is_worse_than_none(
    capsys: pytest.CaptureFixture[str],
) -> None:
    good = f"{TWENTY}/01-keep-standard.toml"
    no = f"{TWENTY}/15-no-out-of-travel.toml"
    assert run(["check", good]) == 0
    assert run(["check", good, no]) == 1
    assert run(["check", good, no, "no-such-file.toml"]) == 2
    assert "F101" in capsys.readouterr().out


@pytest.mark.usefixtures("checked_once")
def test_the_same_folder_as_sarif_validates(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", TWENTY, "--form", "sarif"]) == 2
    log = json.loads(capsys.readouterr().out)
    jsonschema.Draft4Validator(json.loads(SCHEMA.read_text("utf-8"))).validate(log)
    places = {
        result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
        for result in log["runs"][0]["results"]
    }
    assert len(places) == 7


@pytest.mark.usefixtures("checked_once")
def test_json_lines_are_one_a_file(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", TWENTY, "--form", "json-lines"]) == 2
    results = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert len(results) == 20
    assert {result["answer"] for result in results} == {"JobCheck"}
    assert [result["exit_code"] for result in results] == [0] * 13 + [1] * 2 + [2] * 5
    invented = [{"kind": "invented", "source": "fells:drawing-board", "figures": []}]
    assert [result["rests_on"] for result in results] == [invented] * 15 + [[]] * 5


def test_reasons_are_told_in_inches_on_demand(capsys: pytest.CaptureFixture[str]) -> None:
    job = f"{TWENTY}/15-no-out-of-travel.toml"
    assert run(["check", job, "--units", "inch"]) == 1
    out = capsys.readouterr().out
    assert "found 23.622 in, limit 11.472 in to 19.099 in" in out
    assert " mm" not in out


@pytest.mark.usefixtures("checked_once")
def test_junit_goes_to_a_file_that_is_whole(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "report.xml"
    assert run(["check", TWENTY, "--form", "junit", "--output", str(output)]) == 2
    suite = ET.fromstring(output.read_text("utf-8")).find("testsuite")  # noqa: S314 - our own
    assert suite is not None
    assert (suite.get("tests"), suite.get("failures"), suite.get("errors")) == ("20", "2", "5")
    assert capsys.readouterr().out == ""
    assert list(tmp_path.iterdir()) == [output]


@pytest.mark.usefixtures("checked_once")
def test_text_to_a_file_holds_the_same_lines(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run(["check", TWENTY])
    printed = capsys.readouterr().out
    output = tmp_path / "report.txt"
    run(["check", TWENTY, "--output", str(output)])
    assert output.read_text("utf-8") == printed


@pytest.mark.usefixtures("checked_once")
def test_annotations_name_file_and_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", TWENTY, "--form", "github"]) == 2
    out = capsys.readouterr().out
    assert f"::error file={TWENTY}/16-bad-units.toml,line=5,title=Q101::" in out


def test_an_output_that_cannot_be_written_leaves_what_was_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    missing = tmp_path / "no-such-folder" / "report.txt"
    assert run(["check", GOOD, "--output", str(missing)]) == 2
    assert "F201" in capsys.readouterr().err
    folder = tmp_path / "report.txt"
    folder.mkdir()
    assert run(["check", GOOD, "--output", str(folder)]) == 2
    assert "F201" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == [folder]


@pytest.mark.skipif(os.name != "posix", reason="modes are POSIX's")
def test_an_output_gets_the_mode_that_new_files_get(tmp_path: Path) -> None:
    plain = tmp_path / "plain"
    plain.write_text("", encoding="utf-8")
    output = tmp_path / "report.txt"
    run(["check", GOOD, "--output", str(output)])
    assert stat.S_IMODE(output.stat().st_mode) == stat.S_IMODE(plain.stat().st_mode)


def test_a_folder_without_jobs_is_bad_input(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["check", str(tmp_path), f"{TWENTY}/01-keep-standard.toml"]) == 2
    out = capsys.readouterr().out
    assert "F105" in out
    assert "2 job file(s): 1 good, 0 no, 1 bad, 0 fault" in out


def test_the_donors_of_the_long_van_are_offered(capsys: pytest.CaptureFixture[str]) -> None:
    job = f"{TWENTY}/14-no-short-bar-in-long-van.toml"
    assert run(["fit", job, "--donors"]) == 1
    out = capsys.readouterr().out
    assert "does not fit" in out.lower()
    assert "fells:tube/short" in out
    assert run(["fit", job, "--donors", "--json"]) == 1
    answers = json.loads(capsys.readouterr().out)["answers"]
    assert answers[0]["answer"]["combinations"][0]["anchor_id"] == "fells:tube/short"


def test_a_job_of_several_variants_is_a_table_with_a_row_each(
    capsys: pytest.CaptureFixture[str],
) -> None:
    job = f"{TWENTY}/09-three-bars.toml"
    for command in ("fit", "rates", "reindex"):
        assert run([command, job]) == 0
        out = " ".join(capsys.readouterr().out.split())
        for bar in ("short-soft", "short-firm"):
            assert bar in out.replace(" ", "")
        assert run([command, job, "--json"]) == 0
        answers = json.loads(capsys.readouterr().out)["answers"]
        assert [a["variant"] for a in answers] == [
            f"bar fells:bar/short-{name}" for name in ("soft", "standard", "firm")
        ]


@pytest.mark.parametrize("command", ["sheet", "chart", "compare"])
def test_commands_for_one_variant_refuse_several(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    job = f"{TWENTY}/09-three-bars.toml"
    arguments = [command, job, job] if command == "compare" else [command, job]
    assert run(arguments) == 2
    assert "3 variants" in capsys.readouterr().err


def test_compare_shows_each_figure_with_its_change(capsys: pytest.CaptureFixture[str]) -> None:
    jobs = [f"{TWENTY}/01-keep-standard.toml", f"{TWENTY}/05-firm-bar.toml"]
    assert run(["compare", *jobs]) == 0
    out = capsys.readouterr().out
    assert "first: Fells carrier, short wheelbase, Standard bar, short van" in out.splitlines()
    assert "ride: wheel rate" in out
    assert run(["compare", *jobs, "--json", "--units", "inch"]) == 0
    rows = json.loads(capsys.readouterr().out)["answers"][0]["rows"]
    rate = next(row for row in rows if row["figure"] == "ride.wheel_rate")
    assert rate["change"]["unit"] == "lbf/in"


def test_jobs_without_a_corner_in_common_are_not_compared(
    capsys: pytest.CaptureFixture[str],
) -> None:
    left, right = f"{TWENTY}/03-in-inches.toml", f"{TWENTY}/04-arm-angle.toml"
    assert run(["compare", left, right, "--json"]) == 2
    assert json.loads(capsys.readouterr().out)["problems"][0]["code"] == "J103"
    assert run(["compare", left, f"{TWENTY}/01-keep-standard.toml"]) == 0
    assert "only one of the jobs names the corner 'front right'" in capsys.readouterr().err


def test_the_sheet_follows_the_plan_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    job = "docs/examples/shorter-dampers.toml"
    assert run(["sheet", job, "--plan", "2", "--json"]) == 0
    corners = json.loads(capsys.readouterr().out)["corners"]
    assert all(corner["plan"] == corner["reindex"]["plans"][1] for corner in corners)
    assert run(["sheet", job, "--plan", "0"]) == 2
    capsys.readouterr()
    assert run(["sheet", job, "--plan", "9"]) == 2
    assert "S206: --plan: got '9', expected a plan of the front left" in capsys.readouterr().err


def test_charts_go_to_the_terminal_or_to_a_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = f"{TWENTY}/01-keep-standard.toml"
    assert run(["chart", job]) == 0
    assert "rate at the wheel" in capsys.readouterr().out
    svg = tmp_path / "chart.svg"
    assert run(["chart", job, "--corner", "front right", "--svg", str(svg)]) == 0
    assert "front right" in svg.read_text("utf-8")
    assert run(["chart", job, "--corner", "rear left"]) == 2
    assert run(["chart", f"{TWENTY}/15-no-out-of-travel.toml"]) == 1
    assert "cannot be reached" in capsys.readouterr().err.lower()


def test_parts_and_vehicles_filter_by_words_and_kind(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["parts", "short", "firm", "--json"]) == 0
    parts = json.loads(capsys.readouterr().out)["parts"]
    assert [part["id"] for part in parts] == ["fells:bar/short-firm"]
    assert run(["parts", "--kind", "damper", "--json"]) == 0
    parts = json.loads(capsys.readouterr().out)["parts"]
    assert {part["answer"] for part in parts} == {"Damper"}
    assert run(["parts", "nothing-of-that-name"]) == 1
    assert run(["vehicles", "LONG"]) == 0
    out = capsys.readouterr().out
    assert "fells:chassis/long" in out
    assert "fells:chassis/short" not in out


def test_inches_on_demand(capsys: pytest.CaptureFixture[str]) -> None:
    job = f"{TWENTY}/03-in-inches.toml"
    for command in ("fit", "rates", "reindex", "sheet", "chart"):
        assert run([command, job, "--units", "inch"]) == 0
        out = capsys.readouterr().out
        assert " in" in out or "(in)" in out
        assert " mm" not in out, command


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_names_the_command(shell: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["completion", shell]) == 0
    assert "_BARWRIGHT_COMPLETE" in capsys.readouterr().out


def test_an_error_that_a_question_ends_with_names_the_file_and_its_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(
        'vehicle = "fells:chassis/short"\ncorners = ["front left"]\n'
        '[present]\nnut_turns = "40 turn"\n[wanted]\nheight = "349 mm"\n',
        encoding="utf-8",
    )
    for command in ("reindex", "sheet"):
        assert run([command, str(job)]) == 2
        assert f"Q302: {job}:4: present.nut_turns: " in capsys.readouterr().err
    assert run(["check", str(job)]) == 2
    assert f"{job}:4: Q302 present.nut_turns: " in capsys.readouterr().out


def test_a_shell_completes_commands(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("_BARWRIGHT_COMPLETE", "bash_complete")
    monkeypatch.setenv("COMP_WORDS", "barwright che")
    monkeypatch.setenv("COMP_CWORD", "1")
    with pytest.raises(SystemExit):
        run([])
    assert capsys.readouterr().out.split() == ["plain,check"]


def test_a_standard_output_that_is_no_file_is_written_to_all_the_same(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    out = io.StringIO()
    monkeypatch.setattr("sys.stdout", out)
    monkeypatch.setattr("sys.argv", ["barwright", "vehicles"])
    with pytest.raises(SystemExit) as ended:
        main()
    assert ended.value.code == 0
    assert "fells:chassis/short" in out.getvalue()


def test_a_terminal_gets_colour_and_a_pipe_gets_none(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    job = f"{TWENTY}/01-keep-standard.toml"
    run(["fit", job])
    assert "\x1b[" not in capsys.readouterr().out
    monkeypatch.setenv("FORCE_COLOR", "1")
    run(["fit", job])
    assert "\x1b[" in capsys.readouterr().out


@pytest.mark.usefixtures("checked_once")
def test_progress_is_shown_on_a_terminal_only(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    run(["check", TWENTY])
    assert capsys.readouterr().err == ""
    monkeypatch.setattr("sys.stderr.isatty", lambda: True)
    run(["check", TWENTY])
    assert "checking" in capsys.readouterr().err


def test_good_files_need_no_annotation(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", f"{TWENTY}/01-keep-standard.toml", "--form", "github"]) == 0
    assert capsys.readouterr().out == ""


def test_donors_of_several_variants_are_rows(capsys: pytest.CaptureFixture[str]) -> None:
    run(["fit", "--donors", f"{TWENTY}/08-two-vans.toml"])
    out = capsys.readouterr().out
    assert "best donors" in out


def test_a_tooth_that_the_bar_has_not_is_told_with_its_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(
        'vehicle = "fells:chassis/short"\ncorners = ["front left"]\n'
        "[present]\narm_tooth = 50\n[wanted]\nkeep_standard = true\n",
        encoding="utf-8",
    )
    assert run(["check", str(job)]) == 2
    assert f"{job}:4: S207 present.arm_tooth: got '50'" in capsys.readouterr().out


@pytest.mark.usefixtures("checked_once")
def test_quiet_lists_only_what_is_not_good(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", TWENTY, "--quiet"]) == 2
    files = [line for line in capsys.readouterr().out.splitlines() if not line.startswith(" ")]
    assert [line.split()[0] for line in files] == ["no"] * 2 + ["bad"] * 5


def test_quiet_prints_nothing_where_all_is_good(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", GOOD, "--quiet"]) == 0
    assert capsys.readouterr().out == ""


CUT = "docs/examples/shorter-dampers.toml"


@pytest.mark.parametrize(
    ("rules", "verdict"),
    [
        ((), "can be reached"),
        (("--require", "no-cuts"), "cannot be reached"),
        (("--require", "strength"), "can be reached"),
        (("--require", "strength", "--require", "no-cuts"), "cannot be reached"),
        (("--max-stress", "700 MPa"), "can be reached"),
        (("--max-stress", "600 MPa"), "overstressed"),
    ],
)
def test_rules_of_the_house_refuse_a_job(
    rules: tuple[str, ...], verdict: str, capsys: pytest.CaptureFixture[str]
) -> None:
    code = run(["check", CUT, "--form", "json-lines", *rules])

    corner, _ = json.loads(capsys.readouterr().out)["corners"]
    assert corner["verdict"] == verdict
    assert code == (verdict != "can be reached")
    # Whoever reads a line has the plan there too.
    assert bool(corner["plan"]) == (verdict == "can be reached")


def test_a_rule_that_is_no_stress_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", CUT, "--max-stress", "600"]) == 2
    assert "Q105: max_stress: got '600', expected a stress" in capsys.readouterr().err
