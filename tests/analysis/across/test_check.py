"""Checking many job files: each gets its answer or all its problems."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

import barwright as bw
from barwright.analysis.across import check, job_files
from sample_records import make_setup

GOOD = """
vehicle = "fells:chassis/short"
corners = ["front left"]
[wanted]
height = "349 mm"
"""


@pytest.fixture(scope="module")
def registry() -> bw.Registry:
    return bw.Registry.discover()


def checked(tmp_path: Path, registry: bw.Registry, text: str) -> bw.answers.JobCheck:
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    return bw.check_job(path, registry)


def test_a_good_job_has_an_outcome_for_each_corner_and_variant(
    tmp_path: Path, registry: bw.Registry
) -> None:
    text = GOOD.replace('"front left"', '"front left", "front right"').replace(
        '"fells:chassis/short"', '["fells:chassis/short", "fells:chassis/long"]'
    )
    result = checked(tmp_path, registry, text)
    assert (result.exit_code, result.mark, result.problems) == (0, "good", ())
    assert [(c.vehicle_id, c.corner) for c in result.corners] == [
        (f"fells:chassis/{van}", f"front {side}")
        for van in ("short", "long")
        for side in ("left", "right")
    ]


def test_an_answer_that_is_no_says_why(tmp_path: Path, registry: bw.Registry) -> None:
    result = checked(tmp_path, registry, GOOD.replace("349", "900"))
    assert (result.exit_code, result.mark) == (1, "no")
    (corner,) = result.refused
    assert corner.findings[0].topic is bw.answers.Topic.TRAVEL


def test_bad_input_comes_with_all_its_problems_and_lines(
    tmp_path: Path, registry: bw.Registry
) -> None:
    text = GOOD.replace("349 mm", "34,9 mm") + '[parts]\nbar = "fells:bar/no"\nwheel = "x"\n'
    result = checked(tmp_path, registry, text)
    assert (result.exit_code, result.mark) == (2, "bad")
    assert [(p.code, p.line) for p in result.problems] == [("Q101", 5), ("S201", 8)]
    assert "write '34.9 mm'" in result.problems[0].text


def test_a_fault_in_one_file_is_told_and_not_raised(
    tmp_path: Path, registry: bw.Registry, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        message = "out of cheese"
        raise RuntimeError(message)

    monkeypatch.setattr(check, "plans_together", broken)
    result = checked(tmp_path, registry, GOOD)
    assert (result.exit_code, result.mark) == (3, "fault")
    assert result.problems[0].code == "U101"
    assert "out of cheese" in result.problems[0].value


def test_folders_are_searched_in_the_order_of_their_names(tmp_path: Path) -> None:
    for name in ("b.toml", "a.toml", "c.txt", "deep/d.toml"):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text("", encoding="utf-8")
    files = job_files.job_files([tmp_path, tmp_path / "b.toml"])
    assert [path.name for path in files] == ["a.toml", "b.toml", "d.toml"]
    assert [path.name for path in job_files.job_files([tmp_path / "none.toml"])] == ["none.toml"]


def test_a_pipe_in_a_folder_is_not_waited_for(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text("", encoding="utf-8")
    os.mkfifo(tmp_path / "pipe.toml")
    assert job_files.job_files([tmp_path]) == [tmp_path / "a.toml"]


def test_a_folder_without_jobs_is_a_problem_like_any_other(
    tmp_path: Path, registry: bw.Registry
) -> None:
    assert job_files.job_files([tmp_path]) == [tmp_path]
    result = bw.check_job(tmp_path, registry)
    assert (result.exit_code, result.problems[0].code) == (2, "F105")


def test_a_folder_that_cannot_be_searched_is_named_and_the_others_are_checked(
    tmp_path: Path, registry: bw.Registry, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("a", "b", "c"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "job.toml").write_text(GOOD, encoding="utf-8")
    scan = os.scandir

    def closed(path: str | Path) -> object:
        if Path(path) == tmp_path / "b":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
        return scan(path)

    monkeypatch.setattr(os, "scandir", closed)
    files = job_files.job_files([tmp_path])
    assert files == [tmp_path / "a" / "job.toml", tmp_path / "b", tmp_path / "c" / "job.toml"]
    results = [bw.check_job(path, registry) for path in files]
    assert [result.exit_code for result in results] == [0, 2, 0]
    (problem,) = results[1].problems
    assert (problem.code, problem.file) == ("F101", str(tmp_path / "b"))
    assert problem.value == "Permission denied"
    # The same where it is named itself.
    assert job_files.job_files([tmp_path / "b"]) == [tmp_path / "b"]


def test_a_file_that_cannot_even_be_looked_at_is_not_passed_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a.toml").write_text("", encoding="utf-8")

    def closed(path: Path) -> bool:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))

    monkeypatch.setattr(Path, "is_file", closed)
    assert job_files.job_files([tmp_path]) == [tmp_path / "a.toml"]


@pytest.mark.parametrize("name", ["x" * 300, "x" * 300 + "/y.toml", "a\0b"])
def test_a_name_that_no_file_can_have_is_bad_input(name: str, registry: bw.Registry) -> None:
    (path,) = job_files.job_files([Path(name)])
    assert [p.code for p in bw.check_job(path, registry).problems] == ["F101"]


def test_a_job_for_a_bar_of_unknown_strength_is_refused_on_demand(
    tmp_path: Path, registry: bw.Registry, monkeypatch: pytest.MonkeyPatch
) -> None:
    setup = make_setup()
    corner = bw.JobCorner(setup=setup, present=setup, wanted=bw.Wanted(height="349 mm"))
    jobs = (bw.Job(title="t", corners=(corner,)),)
    monkeypatch.setattr(job_files, "load_jobs", lambda *_: jobs)
    path = tmp_path / "job.toml"
    path.write_text(GOOD, encoding="utf-8")

    easy = bw.check_job(path, registry)
    assert easy.exit_code == 0
    assert any("the strength of the bar is not known" in line for line in easy.remarks)
    strict = bw.check_job(path, registry, require_strength=True)
    assert strict.exit_code == 1
    assert {c.outcome for c in strict.corners} == {bw.Outcome.NEEDS_FIGURES}
    assert {c.verdict for c in strict.corners} == {bw.Verdict.STRENGTH_NOT_KNOWN}


def test_a_bar_of_known_strength_passes_what_asks_for_it(
    tmp_path: Path, registry: bw.Registry
) -> None:
    path = tmp_path / "job.toml"
    path.write_text(GOOD, encoding="utf-8")
    assert bw.check_job(path, registry, require_strength=True).exit_code == 0


def test_what_became_of_a_job_is_said_in_a_headline(tmp_path: Path, registry: bw.Registry) -> None:
    path = tmp_path / "job.toml"
    path.write_text(GOOD, encoding="utf-8")
    good = bw.check_job(path, registry)
    assert good.headline.startswith("Front left: ")
    assert "stands at" in good.headline
    path.write_text(GOOD.replace('"', "'", 1), encoding="utf-8")
    bad = bw.check_job(path, registry)
    assert bad.headline.startswith("Bad input: ")


def test_a_job_without_a_plan_is_refused_for_that(tmp_path: Path, registry: bw.Registry) -> None:
    path = tmp_path / "job.toml"
    path.write_text(GOOD.replace("349 mm", "900 mm"), encoding="utf-8")
    (corner,) = bw.check_job(path, registry, require_strength=True).corners
    assert (corner.verdict, corner.plan) == (bw.Verdict.OUT_OF_REACH, None)


def test_a_problem_says_its_place() -> None:
    reported = {
        "code": "S201",
        "value": "",
        "expected": "",
        "remedy": "",
        "file": "a.toml",
        "key": "",
    }
    assert [bw.answers.FileProblem(**reported, line=line).place for line in (0, 7)] == [
        "a.toml",
        "a.toml:7",
    ]


def plan_under(registry: bw.Registry, stress: str) -> bw.answers.CornerCheck:
    """What is found of a corner whose bar must not be stressed above a limit."""
    corner, _ = bw.check_job(SHORTER, registry, max_stress=stress).corners
    return corner


SHORTER = Path(__file__).parents[3] / "docs/examples/shorter-dampers.toml"


def test_a_limit_of_the_house_is_the_stress_that_a_bar_may_have(registry: bw.Registry) -> None:
    below = plan_under(registry, "500 MPa")
    assert below.verdict is bw.Verdict.OVERSTRESSED
    found = next(one for one in below.findings if "limit of this check" in one.line)
    assert isinstance(found.figure, bw.Quantity)
    stress = float(found.figure.m_as("MPa"))

    # With just that stress the plan is carried out; with less, one that stresses the bar less.
    just, less = (plan_under(registry, f"{stress + by:.6f} MPa") for by in (1e-3, -1e-3))
    assert just.verdict is less.verdict is bw.Verdict.REACHED
    assert just.plan is not None
    assert just.plan == plan_under(registry, "5 GPa").plan
    assert just.plan != less.plan


def test_what_the_steel_permits_counts_where_it_is_less(registry: bw.Registry) -> None:
    corners = [plan_under(registry, stress) for stress in ("5 GPa", "2 GPa")]
    assert corners[0] == corners[1] == bw.check_job(SHORTER, registry).corners[0]


def test_a_job_that_goes_only_with_a_cut_is_refused_on_demand(registry: bw.Registry) -> None:
    corner, _ = bw.check_job(SHORTER, registry, require_no_cuts=True).corners
    assert (corner.verdict, corner.plan) == (bw.Verdict.OUT_OF_REACH, None)
    assert any("no tooth removed" in finding.line for finding in corner.findings)


def test_many_jobs_are_held_to_the_same_rules(registry: bw.Registry) -> None:
    found = bw.check_jobs([SHORTER], registry, max_stress="600 MPa", require_no_cuts=True)
    assert list(found) == [
        bw.check_job(SHORTER, registry, max_stress="600 MPa", require_no_cuts=True)
    ]
