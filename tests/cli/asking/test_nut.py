"""Tests of `barwright nut`: the plan carried out by default, and what its options change."""

from __future__ import annotations

import json
from typing import Any

import pytest

import barwright as bw
from barwright.answers import NutTable
from barwright.cli.command import run
from sample_packs import SPECIMENS, discovered_once

JOB = "docs/examples/shorter-dampers.toml"
TRAILER = "docs/examples/loaded-trailer.toml"
THREE_BARS = str(SPECIMENS / "twenty" / "09-three-bars.toml")


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Load the installed packs once for all tests."""
    registry = discovered_once()
    monkeypatch.setattr(bw.Registry, "discover", lambda **_: registry)


@pytest.fixture
def tables(capsys: pytest.CaptureFixture[str]) -> Any:
    """A function that gives the tables of the corners."""

    def asked(*options: str, job: str = JOB, code: int = 0) -> list[NutTable]:
        assert run(["nut", job, "--json", *options]) == code
        answers = json.loads(capsys.readouterr().out)["answers"]
        return [bw.from_json(json.dumps(one["answer"])) for one in answers]

    return asked


def corners() -> tuple[bw.JobCorner, ...]:
    return bw.load_job(JOB, discovered_once()).corners


def test_the_preferred_plan_is_carried_out(tables: Any) -> None:
    plans = bw.reindex_job(bw.load_job(JOB, discovered_once()))
    expected = [
        bw.nut_table(bw.carry_out(corner.setup, plan.preferred))
        for corner, plan in zip(corners(), plans, strict=True)
    ]
    assert tables() == expected


def test_another_plan_or_none_can_be_asked_for(tables: Any) -> None:
    first, second = tables(), tables("--plan", "left=2")
    assert first[0] != second[0]
    assert first[1] == second[1]
    assert tables("--no-cut", code=1)[0].table_rows == ()
    assert tables("--as-it-is") == [bw.nut_table(corner.present) for corner in corners()]


def test_measured_heights_are_brought_to_that_of_the_job_or_another(tables: Any) -> None:
    both = tables("--measured", "345 mm")
    assert [one.correction.wanted_height.m_as("mm") for one in both] == [349.0, 349.0]
    left, right = tables("--measured", "left=345 mm", "--measured", "front right=352 mm")
    assert left == both[0]
    assert right.correction.measured_height.m_as("mm") == pytest.approx(352.0)
    left, right = tables("--measured", "left=345 mm", "--wanted", "left=13.6 in")
    assert left.correction.wanted_height.m_as("mm") == pytest.approx(345.44)
    assert right.correction is None


def test_the_place_of_the_nut_can_be_told(tables: Any) -> None:
    left, right = tables("--at", "left=1.5 turn")
    assert left.set_row.nut_turns.m_as("turn") == 1.5
    assert right == tables()[1]


def test_the_row_of_the_plan_and_that_of_the_present_are_marked(
    capsys: pytest.CaptureFixture[str],
) -> None:
    marks = {"planned": [], "now": ["--as-it-is"], "set": ["--at", "2 turn"]}
    for mark, options in marks.items():
        assert run(["nut", JOB, *options]) == 0
        out = capsys.readouterr().out
        counts = {other: out.count(f"\n{other}  ") for other in marks}
        assert counts.pop(mark) >= 1
        assert set(counts.values()) <= {0}
        assert "Rests on invented figures: fells:drawing-board" in out
        assert "\n+5" in out
        assert "\n+6" not in out
    assert run(["nut", JOB, "--all"]) == 0
    assert "\n+7" in capsys.readouterr().out


def test_a_trailer_has_nothing_to_turn(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["nut", TRAILER]) == 1
    assert ": nothing to turn: a fixed socket" in capsys.readouterr().out


def test_a_height_beyond_the_thread_is_no(tables: Any) -> None:
    assert tables("--measured", "345 mm", "--wanted", "480 mm", code=1)


def test_several_variants_are_a_row_each(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["nut", THREE_BARS]) == 0
    out = capsys.readouterr().out
    assert "one turn" in out
    assert out.count("mm/turn") >= 3


def test_units_may_be_inches(tables: Any) -> None:
    metric, inch = tables()[0], tables("--units", "inch")[0]
    assert str(inch.set_row.height.units) == "inch"
    assert inch.set_row.height.m_as("mm") == pytest.approx(metric.set_row.height.m_as("mm"))


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["--measured", "345"], "error Q105: --measured: got '345'"),
        (["--measured", "-3 mm"], "error Q302: --measured"),
        (["--wanted", "left=3 kg"], "error Q202: --wanted"),
        (["--at", "left=40 turn"], "error Q302: --at: got '40 turn'"),
        (["--at", "left=4 mm"], "error Q202: --at"),
        (["--plan", "9"], "error S206: --plan"),
        (["--measured", "rear=345 mm"], "error S206: --measured: got 'rear'"),
        (
            ["--measured", "345 mm", "--measured", "left=345 mm"],
            "--measured takes one height for all corners, or one for each that is named",
        ),
        (
            ["--at", "left=1 turn", "--at", "left=2 turn"],
            "--at takes TURNS or SIDE=TURNS, each side once, and not 'left=2 turn'",
        ),
        (["--at", "=1 turn"], "--at takes TURNS or SIDE=TURNS, each side once, and not '=1 turn'"),
    ],
)
def test_wrong_options_are_bad_input(
    options: list[str], message: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["nut", JOB, *options]) == 2
    assert message in " ".join(capsys.readouterr().err.split())
