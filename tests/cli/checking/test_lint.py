"""`barwright lint`: packs, a line each and one for each finding."""

from __future__ import annotations

import json
import re
import shutil
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree as ET

import jsonschema
import pytest

import barwright as bw
from asked_once import asked_once
from barwright.cli.command import run
from flawed_packs import linted_once
from sample_packs import changed_pack

GOOD = "tests/specimens/packs/good"
POOR = "tests/specimens/packs/poor"
UPPER = "tests/specimens/packs/upper"
SCHEMA = Path("tests/specimens/schemas/sarif-2.1.0.json")


@pytest.fixture
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Lint the same folders once for all tests of forms."""
    asked_once(monkeypatch, "barwright.cli.checking.lint", "lint_pack")


def test_a_good_pack_is_a_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["lint", GOOD]) == 0
    assert capsys.readouterr().out.splitlines() == [
        "1 pack(s): 1 good, 0 flaws, 0 bad, 0 fault; 0 error(s), 0 warning(s), 0 waived",
        f"good  {GOOD}",
    ]


@pytest.mark.usefixtures("_quick")
def test_every_finding_is_a_line_with_its_place(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["lint", POOR]) == 1
    count, first, *lines = capsys.readouterr().out.splitlines()
    findings = linted_once(Path(POOR)).findings
    assert first == f"flaws  {POOR}"
    assert len(lines) == len(findings)
    for line, finding in zip(lines, findings, strict=True):
        # An empty file has no line to name.
        line_number = f":{finding.line}" if finding.line else ""
        place = f"{POOR}/{finding.file}{line_number}"
        is_error = finding.severity is bw.answers.Severity.ERROR
        how_bad = "" if is_error else f" ({finding.severity.value})"
        assert line == f"       {place}: {finding.code} {finding.rule}{how_bad} {finding.text}"
    count_of = Counter(finding.severity.value for finding in findings)
    reported = ", ".join(f"{count_of[word]} {word}(s)" for word in ("error", "warning", "note"))
    reported = f"{reported}, 2 waived"
    assert count == f"1 pack(s): 0 good, 1 flaws, 0 bad, 0 fault; {reported}"


def test_a_fault_that_many_figures_of_a_record_have_is_a_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pack = shutil.copytree(GOOD, tmp_path / "pack")
    parts = (pack / "parts.toml").read_text("utf-8")
    (pack / "parts.toml").write_text(parts.replace('"desk"', '"bench"'), encoding="utf-8")

    assert run(["lint", str(pack)]) == 1

    told = [line for line in capsys.readouterr().out.splitlines() if " R102 " in line]
    findings = [one for one in linted_once(pack).findings if one.code == "R102"]
    assert len(findings) > len(told)
    for finding in findings:
        record, _, field = finding.of.partition(".")
        (line,) = [line for line in told if f" {record}." in line]
        assert field in line


@pytest.mark.usefixtures("_quick")
def test_the_exit_code_is_the_worst(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["lint", GOOD, POOR]) == 1
    assert run(["lint", GOOD, "no-such-folder", POOR]) == 2
    assert (
        "bad    no-such-folder\n       no-such-folder/pack.toml: F101 " in capsys.readouterr().out
    )


@pytest.mark.usefixtures("_quick")
def test_a_folder_above_and_a_file_within_stand_for_packs(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(["lint", f"{GOOD}/parts.toml", GOOD]) == 0
    assert capsys.readouterr().out.count("good  ") == 1
    run(["lint", "tests/specimens/packs"])
    found = re.findall(r"^\w+ +(tests\S+)", capsys.readouterr().out, re.MULTILINE)
    assert found == [GOOD, POOR, UPPER]


@pytest.mark.usefixtures("_quick")
def test_json_lines_are_one_a_pack(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["lint", GOOD, POOR, "--form", "json-lines"]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert [bw.from_json(line) for line in lines] == [
        linted_once(Path(GOOD)),
        linted_once(Path(POOR)),
    ]


@pytest.mark.usefixtures("_quick")
def test_sarif_validates(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["lint", POOR, "--form", "sarif"]) == 1
    log = json.loads(capsys.readouterr().out)
    jsonschema.Draft4Validator(json.loads(SCHEMA.read_text("utf-8"))).validate(log)
    results = log["runs"][0]["results"]
    assert len(results) == len(linted_once(Path(POOR)).findings)
    places = {r["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for r in results}
    assert places == {
        f"{POOR}/{name}.toml" for name in ("cut", "fits", "odd", "pack", "parts", "vehicles")
    }


@pytest.mark.usefixtures("_quick")
def test_junit_goes_to_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    output = tmp_path / "report.xml"
    assert run(["lint", GOOD, POOR, "--form", "junit", "--output", str(output)]) == 1
    suite = ET.fromstring(output.read_text("utf-8")).find("testsuite")  # noqa: S314 - our own
    assert suite is not None
    assert (suite.get("name"), suite.get("tests"), suite.get("failures")) == (
        "barwright lint",
        "2",
        "1",
    )
    assert capsys.readouterr().out == ""


@pytest.mark.usefixtures("_quick")
def test_annotations_name_file_and_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["lint", POOR, "--form", "github"]) == 1
    out = capsys.readouterr().out
    assert f"::error file={POOR}/pack.toml,line=21,title=R112 thin-source::source/tape.note" in out
    assert run(["lint", GOOD, "--form", "github"]) == 0
    assert capsys.readouterr().out == ""


@pytest.mark.usefixtures("_quick")
def test_a_note_is_told_in_every_form_and_fails_in_none(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pack = str(changed_pack(tmp_path, "parts.toml", 'radius = "338 mm ± 0.5 mm"\n', ""))

    assert run(["lint", pack]) == 0
    told = "1 good, 0 flaws, 0 bad, 0 fault; 0 error(s), 0 warning(s), 1 note(s), 0 waived"
    assert told in capsys.readouterr().out
    assert run(["lint", pack, "--form", "github"]) == 0
    assert capsys.readouterr().out.startswith(f"::notice file={pack}/parts.toml,line=1,")
    assert run(["lint", pack, "--form", "sarif"]) == 0
    (result,) = json.loads(capsys.readouterr().out)["runs"][0]["results"]
    assert (result["ruleId"], result["level"]) == ("R104", "note")
    assert run(["lint", pack, "--form", "junit"]) == 0
    assert "R104" not in capsys.readouterr().out
    assert run(["lint", POOR, "--form", "junit"]) == 1
    out = capsys.readouterr().out
    assert ("R103" in out, "R104" in out) == (True, False)


def test_no_folder_is_bad_usage(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["lint"]) == 2
    assert "Missing argument" in capsys.readouterr().err


def test_a_pack_needs_no_other_pack_to_be_linted(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing that is installed has a say in whether a pack is good."""

    def refusing() -> None:
        raise AssertionError

    monkeypatch.setattr(bw.Registry, "discover", refusing)
    assert run(["lint", GOOD]) == 0
    assert "1 good" in capsys.readouterr().out


OVERLAY = """\
schema = 2
id = "shop"
title = "Our shop, invented"
licence = "CC0-1.0"
overlay = true
[[source]]
id = "tape"
kind = "invented"
note = "Made up for the tests."
"""
CORRECTION = """\
[[correction]]
of = "{}"
figure = "diameter"
is = "23.5 mm"
source = "tape"
why = "Made up for the tests."
"""


def overlay(folder: Path, of: str) -> str:
    made = folder / "shop"
    made.mkdir()
    (made / "pack.toml").write_text(OVERLAY, encoding="utf-8")
    (made / "ours.toml").write_text(CORRECTION.format(of), encoding="utf-8")
    return str(made)


def test_an_overlay_is_linted_over_what_is_installed_or_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shop = overlay(tmp_path, "tiny:bar/one")

    assert run(["lint", shop]) == 1
    assert "ours.toml:2: S206 correction[0].of: got 'tiny:bar/one'" in capsys.readouterr().out
    assert run(["lint", shop, GOOD, "--over", GOOD]) == 0
    assert "2 good" in capsys.readouterr().out
    assert run(["lint", shop, "--over", POOR, "--over", GOOD]) == 0


def test_what_an_overlay_lies_on_must_be_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shop = overlay(tmp_path, "tiny:bar/one")

    assert run(["lint", shop, "--over", "no-such-folder"]) == 2
    assert "no-such-folder" in capsys.readouterr().err
