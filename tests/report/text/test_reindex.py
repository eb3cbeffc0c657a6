"""The terminal's text of plans says what it must."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed
from barwright.report.text.reindex import reindex_row, reindex_text
from sample_records import make_bar, make_setup
from terminal_text import folded

LOWER = bw.Wanted(height="349 mm")


def test_plans_show_end_tooth_viewer_and_key() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    shown = folded(reindex_text(answer))
    assert f"Plan {len(answer.plans)}:" in shown
    assert "seen from the anchor end toward the arm end" in shown
    assert "The bar as it is now comes out:" in shown


def test_an_end_says_what_is_done_to_it_and_what_comes_to_the_key() -> None:
    shown = folded(reindex_text(bw.reindex(make_setup(), wanted=LOWER)))
    assert (
        "- arm end: remove a tooth of the bar; tooth 1 counter-clockwise from the maker's blank, "
        "seen from the arm end toward the anchor end; on the key: the new blank; its "
        "most loaded tooth carries 1.18 times the even share "
        "- anchor end: leave this end on the tooth it is on; on the key: the maker's blank "
        in shown
    )
    unkeyed = folded(reindex_text(bw.reindex(make_setup(arm_keyed=False), wanted=LOWER)))
    assert (
        "- arm end: this socket has no key: any tooth goes where the key would be; tooth 1 "
        "counter-clockwise" in unkeyed
    )


def test_an_end_whose_blanks_are_used_says_which() -> None:
    setup = make_setup()
    done = bw.carry_out(setup, bw.reindex(setup, wanted=LOWER).plans[0])
    back = folded(reindex_text(bw.reindex(done, wanted=bw.Wanted(height="404 mm"))))
    used = "arm end: put a blank that the bar has on the key; on the key: the maker's blank"
    assert used in back
    keyed = attrs.evolve(done, arm_tooth=0)
    again = folded(reindex_text(bw.reindex(keyed, wanted=LOWER)))
    assert "arm end: put a blank that the bar has on the key; tooth 1 " in again
    assert "on the key: the blank cut earlier" in again


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
    columns = ["answer", "teeth to remove", "ends", "nut from the middle", "hub to arch"]
    assert list(row) == columns
    assert list(row.values()) == cells


def test_a_plan_says_what_it_costs_against_the_first_and_the_first_does_not() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    first, *others = folded(reindex_text(answer)).split("Plan ")[1:]
    assert "against plan 1" not in first
    assert [one.partition("against plan 1 ")[2].partition(" damper")[0] for one in others] == [
        "+0 teeth to remove, +0 ends, -0.7 turn left",
        "+1 teeth to remove, +1 ends, +0.7 turn left",
    ]


def test_what_is_asked_for_and_what_the_travel_reaches_stand_above_the_plans() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    above = folded(reindex_text(answer)).partition(" Plan 1: one tooth to remove;")[0]
    assert answer.free_angle is not None
    free = answer.free_angle.m_as("deg")
    assert above.endswith(
        f"wanted, hub to arch 349.0 mm travel reaches {answer.reachable_from:.1f~P} to "
        f"{answer.reachable_to:.1f~P} free angle of the arm {free:.2f}° ± 0.00° "
        f"thread to keep either way 2.3 turn nearest without a cut {answer.uncut_height:.1f~P}"
    )


def test_a_bar_that_is_held_says_what_is_left_in_it() -> None:
    short = {"open_length": "616 mm", "closed_length": "452 mm"}
    answer = bw.reindex(make_setup(damper=short), wanted=LOWER)
    on, _ = answer.removal
    shown = folded(reindex_text(answer)).partition("The bar as it is now comes out: ")[2]
    assert shown.startswith(
        "damper bar nut, from the middle lift with a slack nut left in it "
        f"on is held -8.9 turn {on.lift:.0f~P} {on.residual_torque.m_as('N*m'):.0f} N·m, "
        f"{on.residual_energy.m_as('J'):.0f} J off slides by hand"
    )


def test_a_bar_in_a_fixed_socket_is_freed_by_a_lift_or_by_none() -> None:
    answer = bw.reindex(on_fixed(), wanted=bw.Wanted(height="380 mm"))
    on, off = answer.removal
    shown = folded(reindex_text(answer)).partition("The bar as it is now comes out: ")[2]
    assert (on.slides, off.slides) == (False, True)
    assert shown.startswith(
        "damper bar lift that frees it left in it "
        f"on is held none does {on.residual_torque.m_as('N*m'):.0f} N·m, "
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
