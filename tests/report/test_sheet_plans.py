"""Which plan a bench sheet follows, and what it says where there is none of that number."""

from __future__ import annotations

import io

import attrs
import pytest
from rich.console import Console

import barwright as bw
from barwright.report.sheet_text import sheet_text
from making import make_setup
from sheets import stuck_corner

TWO_PLANS = bw.Wanted(height="349 mm", cuts=1)
ONE_PLAN = bw.Wanted(height="404 mm", cuts=0)
OUT_OF_REACH = bw.Wanted(height="900 mm")


def sheet_of(*wishes: bw.Wanted, plan: int = 1) -> bw.BenchSheet:
    sides = (make_setup(side=side) for side in bw.Side)
    corners = tuple(
        bw.JobCorner(setup=setup, present=setup, wanted=wish)
        for setup, wish in zip(sides, wishes, strict=False)
    )
    return bw.bench_sheet(bw.Job(title="t", corners=corners), plan=plan)


def printed(sheet: bw.BenchSheet) -> str:
    out = io.StringIO()
    Console(width=200, file=out).print(sheet_text(sheet))
    return out.getvalue()


def test_a_sheet_says_which_plan_its_steps_follow() -> None:
    assert "\nPlan 1 of 2\n" in printed(sheet_of(TWO_PLANS))
    assert "\nPlan 2 of 2\n" in printed(sheet_of(TWO_PLANS, plan=2))


@pytest.mark.parametrize(
    ("wishes", "expected"),
    [
        ((TWO_PLANS,), "the number of a plan, from 1 to 2"),
        ((ONE_PLAN, OUT_OF_REACH), "1, the only plan"),
    ],
)
def test_a_number_that_no_corner_has_is_refused(
    wishes: tuple[bw.Wanted, ...], expected: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        sheet_of(*wishes, plan=9)
    assert (caught.value.code, caught.value.key) == ("S206", "plan")
    assert f"got '9', expected {expected}; " in str(caught.value)


def test_a_corner_with_fewer_plans_says_so_and_follows_no_other() -> None:
    sheet = sheet_of(TWO_PLANS, ONE_PLAN, plan=2)
    first, second = sheet.corners
    assert first.plan == first.reindex.plans[1]
    assert (second.plan, second.steps, second.settings) == (None, (), ())
    assert second.outcome.is_good
    text = printed(sheet)
    assert "This corner has one plan only; print it with --plan 1." in text
    # Its own plan is still there to read.
    assert text.rindex("Plan 1: ") > text.index("This corner has one plan")


def test_how_many_plans_there_are_is_said_where_there_are_several() -> None:
    sheet = sheet_of(TWO_PLANS)
    (corner,) = sheet.corners
    beyond = attrs.evolve(corner, number=3, plan=None, steps=())
    text = printed(attrs.evolve(sheet, corners=(beyond,)))
    assert "This corner has no plan 3; print one of plans 1 to 2." in text


@pytest.mark.parametrize("number", [1, 2])
def test_where_nothing_can_be_reached_every_number_gives_the_reason(number: int) -> None:
    sheet = sheet_of(OUT_OF_REACH, plan=number)
    assert sheet.outcomes == (bw.Outcome.NO,)
    text = printed(sheet)
    assert "because: " in text
    assert "This corner has" not in text
    assert "Plan 1" not in text


def test_a_sheet_that_refuses_prints_no_empty_headings() -> None:
    text = printed(bw.bench_sheet(bw.Job(title="t", corners=(stuck_corner(),))))
    assert "STOP: This sheet knows no safe way" in text
    assert "Figures to set" not in text
    assert "Measure and note" not in text
    assert "Figures to set" in printed(sheet_of(TWO_PLANS))
