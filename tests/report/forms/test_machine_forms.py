"""What programs read of checked jobs and packs: SARIF, JUnit XML, workflow commands."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import attrs
import jsonschema
import xmlschema
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.report.forms.annotations import to_annotations
from barwright.report.forms.junit import to_junit
from barwright.report.forms.sarif import to_sarif
from draws import draws

SCHEMAS = Path(__file__).parents[2] / "specimens" / "schemas"
SARIF = jsonschema.Draft4Validator(json.loads((SCHEMAS / "sarif-2.1.0.json").read_text("utf-8")))
JUNIT = xmlschema.XMLSchema(str(SCHEMAS / "junit-10.xsd"))

HOSTILE = st.text(max_size=40) | st.sampled_from(
    ["a%b,c:d\r\n::error::x", "<b>&\"'", "\x1b[31m", "\x00", "\ud7ff\ufffe", "../a b.toml"]
)
PROBLEMS = st.builds(
    bw.answers.FileProblem,
    code=st.sampled_from(["Q101", "S201", "F103"]),
    value=HOSTILE,
    expected=HOSTILE,
    remedy=HOSTILE,
    file=HOSTILE.filter(bool),
    line=st.integers(0, 99),
    key=HOSTILE,
)
CORNERS = st.builds(
    bw.answers.CornerCheck,
    vehicle_id=HOSTILE,
    corner=st.sampled_from(["front left", "rear right"]),
    variant=HOSTILE,
    verdict=st.sampled_from(list(bw.Verdict)),
    plan=st.none(),
    findings=st.just((bw.answers.Finding(topic=bw.answers.Topic.LOAD, text="a, b: 100 %"),)),
)
RESULTS = st.lists(
    st.builds(
        bw.answers.JobCheck,
        file=HOSTILE.filter(bool),
        exit_code=st.integers(0, 3),
        corners=st.lists(CORNERS, max_size=3).map(tuple),
        problems=st.lists(PROBLEMS, min_size=1, max_size=3).map(tuple),
    ),
    max_size=15,
)

FINDINGS = st.builds(
    bw.answers.LintFinding,
    rule=st.sampled_from(["loads", "placed", "plausible"]),
    code=st.sampled_from(["S201", "R101", "R103", "U101"]),
    severity=st.sampled_from(list(bw.answers.Severity)),
    pack=HOSTILE,
    of=HOSTILE,
    file=HOSTILE.filter(bool),
    line=st.integers(0, 99),
    key=HOSTILE,
    message=HOSTILE,
    remedy=HOSTILE,
)
FLAWS = FINDINGS.filter(lambda finding: finding.is_flaw)
NOTES = FINDINGS.map(lambda found: attrs.evolve(found, severity=bw.answers.Severity.NOTE))
PACKS = st.lists(
    st.builds(
        bw.answers.PackLint,
        folder=HOSTILE.filter(bool),
        pack=HOSTILE,
        exit_code=st.integers(1, 3),
        findings=st.tuples(FLAWS, FINDINGS, FINDINGS),
    )
    | st.builds(
        bw.answers.PackLint,
        folder=HOSTILE,
        pack=HOSTILE,
        exit_code=st.just(0),
        findings=st.lists(NOTES, max_size=2).map(tuple),
    ),
    max_size=15,
)


def results_of(log: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(log)["runs"][0]["results"]
    return found


@settings(max_examples=draws(50))
@given(RESULTS)
def test_sarif_is_valid_and_holds_every_problem_and_refusal(
    results: list[bw.answers.JobCheck],
) -> None:
    log = to_sarif(results, version="1.0")
    SARIF.validate(json.loads(log))
    refused = sum(not c.outcome.is_good for r in results for c in r.corners)
    assert len(results_of(log)) == sum(len(r.problems) for r in results) + refused


def test_a_sarif_result_is_known_again_when_its_line_moves() -> None:
    logs = [results_of(to_sarif([checked(problem(line=line))], version="1")) for line in (3, 30)]
    assert logs[0][0]["partialFingerprints"] == logs[1][0]["partialFingerprints"]
    assert logs[0][0]["locations"] != logs[1][0]["locations"]


@settings(max_examples=draws(50))
@given(RESULTS)
def test_junit_is_valid_and_counts_right(results: list[bw.answers.JobCheck]) -> None:
    text = to_junit(results)
    JUNIT.validate(text)
    assert text.count("<testcase ") == len(results)
    failures = sum(r.exit_code == 1 for r in results)
    assert f'failures="{failures}"' in text
    assert text.count("<error ") == sum(r.exit_code > 1 for r in results)


@settings(max_examples=draws(50))
@given(RESULTS)
def test_workflow_commands_are_one_a_line_and_limited(results: list[bw.answers.JobCheck]) -> None:
    text = to_annotations(results)
    for line in filter(None, text.split("\n")):
        assert re.fullmatch(
            r"::(error|warning) file=[^:,\r]*(,line=\d+)?,title=[^:,\r]*::[^\r]*"
            r"|::notice::\d+ more of kind (error|warning) are not shown",
            line,
        )
    for kind in ("error", "warning"):
        assert sum(line.startswith(f"::{kind} ") for line in text.split("\n")) <= 10


def test_workflow_commands_escape_what_would_part_them() -> None:
    line = to_annotations([checked(problem(file="a,b:c.toml", value="1%\n2"))])
    assert line.startswith("::error file=a%2Cb%3Ac.toml,line=4,title=Q101::")
    assert "1%25" in line
    assert "\n" not in line


def problem(**change: Any) -> bw.answers.FileProblem:
    usual: dict[str, Any] = {
        "code": "Q101",
        "value": "25,4 mm",
        "expected": "a length",
        "remedy": "write '25.4 mm'",
        "file": "job.toml",
        "line": 4,
        "key": "wanted.height",
    }
    return bw.answers.FileProblem(**(usual | change))


def checked(*problems: bw.answers.FileProblem) -> bw.answers.JobCheck:
    return bw.answers.JobCheck(file=problems[0].file, exit_code=2, problems=problems)


# -- Packs ---------------------------------------------------------------------------


@settings(max_examples=draws(50))
@given(PACKS)
def test_sarif_of_packs_is_valid_and_holds_every_finding(packs: list[bw.answers.PackLint]) -> None:
    log = to_sarif(packs, version="1.0")
    SARIF.validate(json.loads(log))
    findings = [finding for linted in packs for finding in linted.findings]
    assert [r["ruleId"] for r in results_of(log)] == [f.code for f in findings]
    assert [r["level"] for r in results_of(log)] == [f.severity.value for f in findings]


def test_a_rule_in_sarif_says_what_it_wants() -> None:
    log = json.loads(to_sarif([linted(finding())], version="1"))
    (rule,) = log["runs"][0]["tool"]["driver"]["rules"]
    assert rule["id"] == "R103"
    assert rule["shortDescription"]["text"].startswith(
        "a figure lies in the usual range of such figures"
    )


@settings(max_examples=draws(50))
@given(PACKS)
def test_junit_of_packs_is_valid_and_counts_right(packs: list[bw.answers.PackLint]) -> None:
    text = to_junit(packs)
    JUNIT.validate(text)
    assert text.count('<testcase classname="barwright.pack"') == len(packs)
    assert f'failures="{sum(p.exit_code == 1 for p in packs)}"' in text
    assert text.count("<error ") == sum(p.exit_code > 1 for p in packs)


def test_a_case_in_junit_tells_every_finding_in_a_line() -> None:
    text = to_junit([linted(finding(), finding(code="R101", severity=bw.answers.Severity.ERROR))])
    assert 'name="barwright lint"' in text
    assert 'name="packs/tiny"' in text
    place = "packs/tiny/parts.toml:4: "
    assert f"{place}R103 plausible (warning) bar/one.length: too long; look" in text
    assert f"{place}R101 plausible bar/one.length: too long; look" in text


@settings(max_examples=draws(50))
@given(PACKS)
def test_workflow_commands_of_packs_are_one_a_line(packs: list[bw.answers.PackLint]) -> None:
    for line in filter(None, to_annotations(packs).split("\n")):
        assert re.fullmatch(
            r"::(error|warning|notice) file=[^:,\r]*(,line=\d+)?,title=[^:,\r]*::[^\r]*"
            r"|::notice::\d+ more of kind (error|warning|notice) are not shown",
            line,
        )


def test_a_workflow_command_of_a_finding() -> None:
    assert to_annotations([linted(finding())]) == (
        "::warning file=packs/tiny/parts.toml,line=4,title=R103 plausible"
        "::bar/one.length: too long; look"
    )


def finding(**change: Any) -> bw.answers.LintFinding:
    usual: dict[str, Any] = {
        "rule": "plausible",
        "code": "R103",
        "severity": bw.answers.Severity.WARNING,
        "pack": "tiny",
        "of": "bar/one.length",
        "file": "parts.toml",
        "line": 4,
        "key": "bar[0].length",
        "message": "too long",
        "remedy": "look",
    }
    return bw.answers.LintFinding(**(usual | change))


def linted(*findings: bw.answers.LintFinding) -> bw.answers.PackLint:
    return bw.answers.PackLint(folder="packs/tiny", pack="tiny", exit_code=1, findings=findings)
