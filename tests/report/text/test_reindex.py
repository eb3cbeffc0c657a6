"""The terminal's text of plans says what it must."""

from __future__ import annotations

import re
from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed
from barwright.report.text.reindex import reindex_row, reindex_text
from sample_records import make_bar, make_setup, tube_of
from terminal_text import folded

LOWER = bw.Wanted(height="349 mm")


def test_plans_show_end_tooth_viewer_and_key() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    shown = folded(reindex_text(answer))
    assert shown.startswith(f"{answer.headline} ")
    assert "Alternatives Plan 2 teeth to remove" in shown
    assert f" Plan {len(answer.plans)} teeth to remove" in shown
    assert "anchor end, seen from the anchor end toward the arm end" in shown
    assert "How the bar comes out as it is now" in shown


def test_a_lone_plan_has_no_alternatives() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    assert "Alternatives" in folded(reindex_text(answer))
    lone = attrs.evolve(answer, plans=answer.plans[:1], rejected=())
    assert "Alternatives" not in folded(reindex_text(lone))


def test_an_end_says_what_is_done_to_it_and_what_comes_to_the_key() -> None:
    shown = folded(reindex_text(bw.reindex(make_setup(), wanted=LOWER)))
    assert (
        "Plan 1 teeth to remove 1 arm end remove a tooth of the bar "
        "arm end, tooth from the maker's blank 1 counter-clockwise "
        "arm end, seen from the arm end toward the anchor end "
        "arm end, on the key the new blank arm end, most loaded tooth 1.18 times the even share "
        "anchor end leave this end on the tooth it is on "
        "anchor end, on the key the maker's blank nut from mid-thread" in shown
    )
    unkeyed = folded(reindex_text(bw.reindex(make_setup(arm_keyed=False), wanted=LOWER)))
    assert (
        "arm end this socket has no key: any tooth goes where the key would be arm end, tooth "
        "from the maker's blank 1 counter-clockwise" in unkeyed
    )


def test_an_end_whose_blanks_are_used_says_which() -> None:
    setup = make_setup()
    done = bw.carry_out(setup, bw.reindex(setup, wanted=LOWER).plans[0])
    back = folded(reindex_text(bw.reindex(done, wanted=bw.Wanted(height="404 mm"))))
    used = "arm end put an existing blank on the key arm end, on the key the maker's blank"
    assert used in back
    keyed = attrs.evolve(done, arm_tooth=0)
    again = folded(reindex_text(bw.reindex(keyed, wanted=LOWER)))
    used = "arm end put an existing blank on the key arm end, tooth from the maker's blank 1 "
    assert used in again
    assert "arm end, on the key the blank cut earlier" in again


@pytest.mark.parametrize(
    ("height", "cells"),
    [
        ("404 mm", ["can be reached", "0", "none", "-0.50 turn", "404.0 mm"]),
        ("349 mm", ["can be reached", "1", "arm end", "-0.83 turn", "349.1 mm"]),
        ("470 mm", ["can be reached", "2", "arm end, anchor end", "4.17 turn", "469.5 mm"]),
        ("900 mm", ["cannot be reached", "", "", "", ""]),
    ],
)
def test_the_first_plan_stands_in_a_row(height: str, cells: list[str]) -> None:
    row = reindex_row(bw.reindex(make_setup(), wanted=bw.Wanted(height=height)))
    columns = ["answer", "teeth to remove", "ends", "nut from mid-thread", "hub to arch"]
    assert list(row) == columns
    assert list(row.values()) == cells


def test_a_plan_says_what_it_costs_against_the_first_and_the_first_does_not() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    first, *others = folded(reindex_text(answer)).split("Plan ")[1:]
    assert "compared with plan 1" not in first
    for one, cost in zip(others, ("+0 +0 -0.7 turn", "+1 +1 +0.7 turn"), strict=True):
        teeth, ends, turns, unit = cost.split()
        assert (
            f" teeth to remove compared with plan 1 {teeth} ends compared with plan 1 {ends} "
            f"turns to spare compared with plan 1 {turns} {unit} "
        ) in one


def test_what_is_asked_for_and_what_the_travel_reaches_are_told() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    assert answer.free_angle is not None
    free = answer.free_angle.m_as("deg")
    assert (
        f"What is wanted and what is possible wanted, hub to arch 349.0 mm travel reaches "
        f"{answer.reachable_from:.1f~P} to "
        f"{answer.reachable_to:.1f~P} free angle of the arm {free:.2f}° ± 0.00° "
        "thread to keep each way 2.3 turn "
        f"nearest with no tooth removed {answer.uncut_height:.1f~P} "
    ) in folded(reindex_text(answer))


def test_a_bar_that_is_held_says_what_is_left_in_it() -> None:
    short = {"open_length": "616 mm", "closed_length": "452 mm"}
    answer = bw.reindex(make_setup(damper=short), wanted=LOWER)
    on, _ = answer.removal
    shown = folded(reindex_text(answer)).partition("How the bar comes out as it is now ")[2]
    assert shown.startswith(
        "damper bar nut from mid-thread free lift, nut slack torque, energy left "
        f"on stays twisted -8.9 turn {on.lift:.0f~P} {on.residual_torque.m_as('N*m'):.0f} N·m, "
        f"{on.residual_energy.m_as('J'):.0f} J off slides by hand"
    )


def test_a_bar_in_a_fixed_socket_is_freed_by_a_lift_or_by_none() -> None:
    answer = bw.reindex(on_fixed(), wanted=bw.Wanted(height="380 mm"))
    on, off = answer.removal
    shown = folded(reindex_text(answer)).partition("How the bar comes out as it is now ")[2]
    assert (on.slides, off.slides) == (False, True)
    assert shown.startswith(
        "damper bar lift that unloads it torque, energy left "
        f"on stays twisted none does {on.residual_torque.m_as('N*m'):.0f} N·m, "
        f"{on.residual_energy.m_as('J'):.0f} J off slides by hand {off.lift:.0f~P} nothing"
    )


def test_a_second_finding_is_a_reason_where_the_answer_is_no_and_a_note_where_it_is_yes() -> None:
    refused = bw.reindex(make_setup(bar=make_bar(length="1200 mm")), wanted=LOWER)
    assert refused.verdict.is_refusal
    assert len(refused.findings) > 1
    shown = folded(reindex_text(refused))
    assert " because: " in shown
    assert " note: " not in shown
    asked = bw.reindex(make_setup(), wanted=LOWER)
    assert " because: " not in folded(reindex_text(asked))


def test_how_near_a_height_comes_is_told_by_flats_and_by_the_parts() -> None:
    exact = folded(reindex_text(bw.reindex(make_setup(), wanted=LOWER)))
    assert " to the nearest flat ± " in exact
    assert "by the parts' tolerances" not in exact
    demo = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    open_by = folded(reindex_text(bw.reindex(demo, wanted=LOWER)))
    assert " by the parts' tolerances, about 95 % ± " in open_by


def test_a_plan_that_cannot_be_carried_out_says_so() -> None:
    held = make_setup(
        axle={"droop_stop": "-5.5 deg"},
        bar=make_bar(diameter="20.2 mm"),
        adjuster={"thread_start": "164 mm", "thread_end": "180 mm"},
    )
    answer = bw.reindex(held, wanted=bw.Wanted(height="404 mm"))
    shown = folded(reindex_text(answer))
    assert f"Plan 1 answer {answer.rejected[0].verdict.value} teeth to remove" in shown


def test_a_plan_without_a_thread_is_compared_by_teeth_and_ends_alone() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    cost = bw.answers.PlanCost(teeth=2, ends=1, thread_reserve=None)
    plans = (answer.plans[0], attrs.evolve(answer.plans[1], cost=cost))
    shown = folded(reindex_text(attrs.evolve(answer, plans=plans)))
    told = (
        " teeth to remove compared with plan 1 +2 ends compared with plan 1 +1 How the bar goes in "
    )
    assert told in re.sub(r" \* note: .*?(?= How)", "", shown)


# -- Clockings where a plan needs more figures ---------------------------------------------


def clocked(**change: Any) -> str:
    """The page of a corner whose droop stop nobody knows."""
    low = make_setup(nut_turns="-8 turn", axle={"droop_stop": "unknown"})
    setup = attrs.evolve(low, **change)
    return bw.text(bw.reindex(setup, wanted=bw.Wanted(same_height=True)))


def test_a_clocking_says_which_tooth_goes_on_the_key_and_where_the_nut_goes() -> None:
    text = clocked()
    for line in (
        "Clocking 1",
        "anchor end, counted from                 the tooth that is on the key now",
        "anchor end, tooth to go on the key       1 counter-clockwise",
        "nut, measured to the lever's pin         158.6 mm",
        "to the nearest flat                      ± 0.15 mm",
        "one turn clockwise raises by             not known",
        "   * note: needed for a plan: droop stop",
    ):
        assert f"\n{line}\n" in text
    assert "by the tolerances" not in text


def test_a_clocking_shows_what_the_tolerances_leave_open() -> None:
    setup = make_setup()
    size = bw.parts.Figure(value=tube_of(setup).lever_radius, tolerance=bw.Quantity(1.0, "mm"))
    text = clocked(anchor=setup.anchor.described({"lever_radius": size}))

    assert "\nby the tolerances, about 95 %            ± 0." in text
