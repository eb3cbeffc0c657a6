"""An empty search says what removed the last bar, and what would let one through; tried here."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from barwright import Goal
from barwright.analysis.selection.against import (
    against_goal,
    against_plan,
    against_rates,
    against_strength,
)
from barwright.analysis.selection.search import Search
from barwright.analysis.selection.target import Target
from sample_packs import discovered_once
from sample_records import make_bar, make_end

FIRM = "fells:bar/short-firm"


def demo() -> bw.Setup:
    return discovered_once().setup("fells:chassis/short", corner="front left")


def firm(**change: Any) -> bw.parts.Bar:
    return attrs.evolve(discovered_once().bar(FIRM), **change)


def refused(bar: bw.parts.Bar, *, wanted: bw.Wanted | None = None) -> bw.answers.Sieve:
    """The requirement that leaves nothing, where a bar is the only one."""
    answer = bw.choose(demo(), Goal(rate_change=30.0), parts=[bar], wanted=wanted, most_miss=30.0)
    assert answer.verdict is bw.Verdict.NOTHING_SUITS
    last = next(one for one in answer.sieves if one.kept == 0)
    assert last.remedy in answer.headline
    return last


def test_splines_that_nothing_takes_ask_for_what_takes_them() -> None:
    arm, both = (
        refused(firm(**ends)).remedy
        for ends in (
            {"arm_end": make_end(36)},
            {"arm_end": make_end(36), "anchor_end": make_end(36)},
        )
    )

    assert arm == "give a pack that has such an arm"
    assert both == "give a pack that has such an arm and anchor"
    # With such parts it goes in.
    end = demo().bar.arm_end
    other = attrs.evolve(demo().arm, id="t:arm/x", socket=attrs.evolve(demo().arm.socket, teeth=38))
    bar = firm(arm_end=attrs.evolve(end, teeth=38))
    answer = bw.choose(demo(), Goal(rate_change=30.0), parts=[bar, other], most_miss=30.0)
    assert {one.arm_id for one in answer.options} == {"t:arm/x"}
    assert answer.preferred.swapped == ("arm",)


@pytest.mark.parametrize(
    ("bar", "remedy"),
    [
        (firm(length="700 mm"), "find an arm and an anchor in other places, or a bar of another"),
        (firm(diameter="34 mm"), "find an arm or an anchor with a wider way in, or a thinner bar"),
        (firm(diameter="unknown"), "give its missing figures"),
        (discovered_once().bar("fells:bar/short-preset-right"), "take the part that is made for"),
    ],
)
def test_a_bar_that_does_not_go_in_asks_for_other_parts(bar: bw.parts.Bar, remedy: str) -> None:
    found = refused(bar)

    assert found.requirement == "a bar that goes in"
    assert found.remedy.startswith(remedy)


def test_a_stress_that_is_too_high_asks_for_a_steel_that_bears_it() -> None:
    steel = attrs.evolve(firm().material, permissible_shear="600 MPa")

    found = refused(firm(material=steel))

    assert found.requirement == "a stress below every known limit"
    assert found.remedy == "take a steel that bears 655 MPa, or stop the wheel before full bump"
    borne = attrs.evolve(steel, permissible_shear="656 MPa")
    answer = bw.choose(demo(), Goal(rate_change=30.0), parts=[firm(material=borne)])
    assert answer.options


def test_a_steel_of_which_nothing_is_known_asks_for_its_limits() -> None:
    steel = bw.parts.Material(id="t:material/x", title="Steel", shear_modulus="79 GPa")

    assert refused(firm(material=steel)).remedy.startswith("give the permissible stress or the")


def test_figures_that_cannot_be_true_are_to_be_checked() -> None:
    found = refused(firm(diameter="8 mm"))

    assert found.requirement == "a height within the travel"
    assert found.remedy == "check the figures of its parts"


def test_a_plan_that_is_not_to_cut_asks_for_a_cut_where_that_helps() -> None:
    wanted = bw.Wanted(height="345 mm", cuts=0)

    found = refused(firm(), wanted=wanted)
    assert found.requirement == "a safe plan for the height"
    assert found.remedy == "allow 1 tooth to be removed"
    allowed = attrs.evolve(wanted, cuts=1)
    assert bw.choose(
        demo(), Goal(rate_change=30.0), parts=[firm()], wanted=allowed, most_miss=30.0
    ).options


def test_a_goal_asks_for_the_miss_that_lets_it_through() -> None:
    low, none = against_goal(-0.476, most=0.1), against_goal(float("nan"), most=0.1)

    assert low is not None
    assert (low.text, low.remedy) == ("48 % below the goal", "allow a miss of 48 %")
    high = against_goal(0.2, most=0.1)
    assert high is not None
    assert high.text == "20 % above the goal"
    assert none is not None
    assert none.remedy == "ask for a rate instead"


def test_a_height_outside_the_travel_asks_for_one_within() -> None:
    far = bw.rates(demo(), wanted=bw.Wanted(height="900 mm"))

    found = against_rates(far)

    assert found is not None
    assert found.remedy.startswith("ask for a height from 2")
    unknown = against_rates(bw.rates(demo().with_parts(bar=make_bar(diameter="unknown"))))
    assert unknown is not None
    assert unknown.remedy == "give its missing figures"


def test_a_bar_that_survives_has_nothing_against_it() -> None:
    assert against_strength(bw.strength(demo())) is None


def test_a_plan_that_needs_figures_asks_for_them() -> None:
    found = refused(firm(blank_angle="unknown"))

    assert found.requirement == "a safe plan for the height"
    assert found.remedy == "give its missing figures"


def test_no_plan_at_all_asks_for_another_height() -> None:
    bare = demo().with_parts(bar=firm(length="700 mm"))
    wanted = bw.Wanted()

    found = against_plan(bw.reindex(bare), bare, present=demo(), wanted=wanted)

    assert found is not None
    assert found.remedy == "ask for another height"


def test_a_corner_without_a_frequency_misses_a_goal_of_one() -> None:
    search = Search(demo(), bw.Wanted(), [firm()], with_dampers=False)
    (one,) = search.fitting()
    figures = one.rated.answer.figures
    assert figures is not None
    answer = attrs.evolve(one.rated.answer, figures=attrs.evolve(figures, ride_frequency=None))
    without = attrs.evolve(one, rated=attrs.evolve(one.rated, answer=answer))

    target = Target(bw.Quantity(1.4, "Hz"), is_frequency=True)
    assert search.near(target, [without], most_miss=0.1) == []
    assert search.sieves[-1].nearest.endswith("no ride frequency")
