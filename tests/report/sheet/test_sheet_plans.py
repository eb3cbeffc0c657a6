"""Which plan a bench sheet follows, and what it says where there is none of that number."""

from __future__ import annotations

import io

import pytest
from rich.console import Console

import barwright as bw
from barwright.report.text.sheet import sheet_text
from sample_records import make_setup

TWO_PLANS = bw.Wanted(height="349 mm", cuts=1)
ONE_PLAN = bw.Wanted(height="404 mm", cuts=0)
OUT_OF_REACH = bw.Wanted(height="900 mm")


def sheet_of(*wishes: bw.Wanted, plan: int | dict[str, int] = 1) -> bw.answers.BenchSheet:
    sides = (make_setup(side=side) for side in bw.parts.Side)
    corners = tuple(
        bw.JobCorner(setup=setup, present=setup, wanted=wish)
        for setup, wish in zip(sides, wishes, strict=False)
    )
    return bw.bench_sheet(bw.Job(title="t", corners=corners), plan=plan)


def printed(sheet: bw.answers.BenchSheet) -> str:
    out = io.StringIO()
    Console(width=200, file=out).print(sheet_text(sheet))
    return out.getvalue()


def test_a_sheet_names_the_plans_that_its_steps_do_not_follow() -> None:
    first, second = sheet_of(TWO_PLANS), sheet_of(TWO_PLANS, plan=2)
    assert "- plan 2, front left: " in printed(first)
    assert "- plan 1, " not in printed(first)
    assert "- plan 1, front left: " in printed(second)
    assert "- plan 2, " not in printed(second)


@pytest.mark.parametrize(
    ("wishes", "plan", "expected"),
    [
        ((TWO_PLANS,), 9, "a plan of the front left: 1 to 2"),
        ((ONE_PLAN, OUT_OF_REACH), 9, "1, the front left's only plan"),
        # The number that a sheet asks for exists on that side, or is refused.
        ((TWO_PLANS, ONE_PLAN), 2, "1, the front right's only plan"),
        ((TWO_PLANS, TWO_PLANS), {"right": 3}, "a plan of the front right: 1 to 2"),
        ((TWO_PLANS,), {"rear": 1}, "a corner of the job: front left"),
    ],
)
def test_a_number_that_a_corner_does_not_have_is_refused(
    wishes: tuple[bw.Wanted, ...], plan: int | dict[str, int], expected: str
) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        sheet_of(*wishes, plan=plan)
    assert (caught.value.code, caught.value.key) == ("S206", "plan")
    assert f", expected {expected}; " in str(caught.value)


@pytest.mark.parametrize("plan", [{"left": 2}, {"front left": 2}, {"front left": 2, "right": 1}])
def test_each_side_follows_the_plan_that_is_chosen_for_it(plan: dict[str, int]) -> None:
    left, right = sheet_of(TWO_PLANS, TWO_PLANS, plan=plan).corners
    assert (left.plan_number, left.plan) == (2, left.reindex.plans[1])
    assert (right.plan_number, right.plan) == (1, right.reindex.plans[0])


def test_a_sheet_opens_with_the_answer_for_each_corner() -> None:
    same, other = sheet_of(TWO_PLANS, TWO_PLANS), sheet_of(TWO_PLANS, ONE_PLAN)
    assert same.headline.startswith("Front left and right: remove 1 tooth")
    assert len(other.headlines) == 2
    assert " ".join(printed(other).split()).startswith(" ".join(other.headlines))
    assert (same.outcome, other.outcome) == (bw.Outcome.FINE_WITH_CHANGES,) * 2


@pytest.mark.parametrize("number", [1, 2])
def test_where_nothing_can_be_reached_every_number_gives_the_reason(number: int) -> None:
    sheet = sheet_of(OUT_OF_REACH, plan=number)
    assert sheet.outcomes == (bw.Outcome.NO,)
    text = printed(sheet)
    assert text.startswith("Front left: cannot be reached: ")
    assert "plan 1" not in text
