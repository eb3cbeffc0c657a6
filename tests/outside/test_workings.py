"""Printed workings, computed again from the printed numbers alone."""

from __future__ import annotations

import re
from pathlib import Path

import attrs
import pytest
from hypothesis import given, settings

import barwright as bw
from anchored_corners import on_key_lever
from barwright.analysis.working.subjects import SubjectName
from barwright.units import System
from column_corners import everything
from draws import draws
from exact_figures import exact
from sample_packs import SPECIMENS, discovered_once
from setup_strategies import corners
from workings import computed_again, printed_steps, put_in_wrongly

JOBS = sorted((SPECIMENS.parents[1] / "docs" / "examples").glob("*.toml"))
OF = ("fit", "rates", "ride", "strength", "nut", "reindex")


def numbers_in(cell: str) -> set[str]:
    """Numbers of a cell or a result, which may be told in several units."""
    found = set()
    for piece in cell.split(" = "):
        number = re.match(r"-?\d+(?:\.\d+)?", piece)
        assert number, cell
        found.add(number[0] + "°" * ("°" in piece))
    return found


def known_figures(wide: str) -> dict[str, set[str]]:
    """Every number that is printed for a symbol: where it is given, and where it was found."""
    found: dict[str, set[str]] = {}
    for symbol, cell in re.findall(r"^(\S+) +(-?\d.*?)(?:  |$)", wide, re.MULTILINE):
        found.setdefault(symbol, set()).update(numbers_in(cell))
    for step in printed_steps(wide):
        if not step.is_balance:
            result = step.rows[-1].partition(";")[0]
            found.setdefault(step.symbol, set()).update(numbers_in(result))
    return found


def assert_holds(answer: bw.answers.Working) -> int:
    """Compute every line again, and hold each number to the place where it was found."""
    known, lines = known_figures(bw.text(answer, width=250)), 0
    for step in printed_steps(bw.text(answer)):
        for found, printed, allowed in computed_again(step):
            assert abs(found - printed) <= allowed, (step, found, printed, allowed)
            lines += 1
        if len(step.rows) > 1:
            assert put_in_wrongly(step, known) == [], known
    return lines


CASES = [
    *((of, "metric") for of in OF),
    ("rates", "inch"),
]


@pytest.mark.parametrize(("of", "system"), CASES)
@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_every_line_of_the_demo_follows_from_its_own_numbers(
    job: Path, of: SubjectName, system: System
) -> None:
    corner = bw.load_job(job, discovered_once()).corners[0]
    wanted = corner.wanted if of in {"rates", "strength", "reindex"} else None
    # No line shows a ±; with all of them, as a person asks, in one of the cases.
    setup = corner.setup if system == "inch" else exact(corner.setup)
    answer = bw.working(setup, asked=of, wanted=wanted, system=system)

    least = 0 if answer.verdict.is_refusal else 10
    assert assert_holds(answer) >= least


def test_so_does_every_line_of_a_corner_that_was_measured() -> None:
    usual = on_key_lever()
    reading = bw.parts.measured(usual, height="391 mm ± 2 mm", sprung_mass="290 kg")
    setup = attrs.evolve(usual, reading=reading, nut_turns="2 turn", arm_tooth=1)
    assert assert_holds(bw.working(setup, asked="nut")) >= 60


def test_so_does_every_line_of_a_corner_with_all_that_a_record_may_leave_out() -> None:
    assert assert_holds(bw.working(everything(), asked="strength")) >= 60


@pytest.mark.slow  # many whole pages
@given(corners())
@settings(max_examples=draws(10))
def test_so_does_every_line_of_any_corner(drawn: tuple[bw.Setup, str]) -> None:
    setup, height = drawn
    assert assert_holds(bw.working(setup, asked="ride")) >= 10
    assert assert_holds(bw.working(setup, wanted=bw.Wanted(height=height))) >= 10
