"""Tests of `headline`: the first lines say what is done where, and how the vehicle then stands."""

from __future__ import annotations

import barwright as bw
from anchored_corners import on_fixed
from sample_records import known, make_setup
from sheet_corners import LOWER, sheet_of

AS_IT_IS = bw.Wanted(height="404 mm")
RIGHT = make_setup(side=bw.parts.Side.RIGHT)


def of(left: bw.Wanted, right: bw.Wanted) -> bw.answers.BenchSheet:
    made = tuple(
        bw.JobCorner(setup=setup, present=setup, wanted=wish)
        for setup, wish in ((make_setup(), left), (RIGHT, right))
    )
    return bw.bench_sheet(bw.Job(title="t", corners=made))


def test_a_headline_says_the_work_the_nut_the_height_and_what_is_left() -> None:
    sheet = sheet_of(make_setup())
    plan = known(sheet.corners[0].plan)
    pin, height = known(plan.pin_distance).m_as("mm"), plan.height.m_as("mm")
    assert sheet.headlines == (
        (
            f"Front left: remove 1 tooth at the arm end. Set the nut {pin:.1f} mm from the bolt's "
            "pivot. The corner then stands at "
            f"{height:.0f} mm hub to arch, with "
            f"{plan.droop_left.m_as('mm'):.0f} mm of droop and "
            f"{plan.bump_left.m_as('mm'):.0f} mm of bump left."
        ),
    )


def test_sides_whose_work_is_the_same_share_a_line() -> None:
    (line,) = of(LOWER, LOWER).headlines
    assert line.startswith("Front left and right: remove 1 tooth at the arm end. Set the nut ")


def test_sides_whose_work_differs_have_a_line_each() -> None:
    left, right = of(LOWER, AS_IT_IS).headlines
    assert left.startswith("Front left: remove 1 tooth")
    assert right.startswith("Front right: remove no tooth")


def test_heights_that_differ_stand_beside_each_other() -> None:
    (line,) = of(LOWER, bw.Wanted(height="350 mm")).headlines
    assert "stands at 349 mm (left), 350 mm (right) hub to arch" in line


def test_where_nothing_is_turned_no_place_is_named() -> None:
    setup = on_fixed(axle={"droop_stop": "-40 deg"}, damper={"open_length": "760 mm"})
    (line,) = sheet_of(setup, wanted=AS_IT_IS).headlines
    assert ". The corner then stands at " in line
    assert " from the " not in line


def test_a_doubted_load_stands_before_the_plan_that_rests_on_it() -> None:
    van = bw.Registry.demo().setup("fells:chassis/short", corner="front left")
    light = van.with_load(kind=bw.parts.LoadKind.SPRUNG, mass="140 kg")
    one = bw.JobCorner(setup=light, present=light, wanted=AS_IT_IS)
    (line,) = bw.bench_sheet(bw.Job(title="t", corners=(one,))).headlines
    assert line.startswith("Front left: check the load first: the sprung mass is far from")
    _, plan = line.split("523.8 kg. ")
    assert plan[:7] in ("Remove ", "Leave t")
    assert bw.reindex(light, wanted=AS_IT_IS).headline.startswith("Check the load first: ")
