"""Tests of `alternatives`: a plan with the corners that have it, and none that the steps follow."""

from __future__ import annotations

import barwright as bw
from barwright.report.sheet.alternatives import alternatives
from sample_packs import discovered_once
from sample_records import make_setup
from sheet_corners import sheet_of


def test_a_plan_that_both_sides_have_is_one_line() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", discovered_once())
    both = "front left and front right"
    assert next(alternatives(bw.bench_sheet(job))) == (
        f"plan 2, {both}: remove 1 tooth at the anchor end"
    )
    followed = list(alternatives(bw.bench_sheet(job, plan={"left": 2, "right": 1})))
    assert followed[0] == "plan 1, front left: remove 1 tooth at the arm end"
    assert followed[1] == "plan 2, front right: remove 1 tooth at the anchor end"


def test_a_corner_with_one_plan_or_none_has_no_other() -> None:
    for height in ("404 mm", "900 mm"):
        wanted = bw.Wanted(height=height, cuts=0)
        assert list(alternatives(sheet_of(make_setup(), wanted=wanted))) == []
