"""Sheets and texts for corners without a torque tube: words for what there is, and no others."""

from __future__ import annotations

import io
from typing import Any

import attrs
import pytest
from rich.console import Console

import barwright as bw
from anchored_corners import fixed_socket, key_adjuster, key_lever, on_fixed, on_key_lever
from barwright.report.sheet.rows import left_open
from barwright.report.sheet.steps.adjustment import datum, words_for
from barwright.report.text.fit import donors_text, fit_text
from barwright.report.text.rates import rates_text
from barwright.report.text.reindex import reindex_row, reindex_text
from barwright.report.text.sheet import sheet_text
from sample_records import fixed_line, known, make_bar, make_setup, swing_arm_mounting
from sheet_corners import sheet_of as sheet_for
from sheet_corners import texts

DEEP: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}
HELD = bw.Wanted(height="404 mm")


NO_WAY = "STOP: This sheet knows no safe way"


def sheet_of(
    setup: bw.Setup, wanted: bw.Wanted = HELD, present: bw.Setup | None = None
) -> bw.answers.BenchSheet:
    return sheet_for(setup, present, wanted)


def plan_of(sheet: bw.answers.BenchSheet) -> bw.answers.Plan:
    return known(sheet.corners[0].plan)


def shown_text(renderable: Any) -> str:
    console = Console(width=200, file=io.StringIO())
    console.print(renderable)
    out = console.file
    assert isinstance(out, io.StringIO)
    return out.getvalue()


def all_texts(setup: bw.Setup) -> str:
    corner = bw.JobCorner(setup=setup, present=setup, wanted=HELD)
    sheet = bw.bench_sheet(bw.Job(title="t", corners=(corner,)))
    answers = (
        fit_text(bw.length_fit(setup)),
        rates_text(bw.rates(setup)),
        reindex_text(bw.reindex(setup, wanted=HELD)),
        sheet_text(sheet),
    )
    return "\n".join(map(shown_text, answers))


# -- A bolt against a key lever ----------------------------------------------------------------


def test_the_bolt_of_a_key_lever_is_screwed_and_no_nut_is_named() -> None:
    setup = on_key_lever()
    text = all_texts(setup)
    for word in (" nut", "spacer", "free end", "'s pin", "tube", "cap of"):
        assert word not in text, word
    old = attrs.evolve(setup, bar=attrs.evolve(setup.bar, title="Old"))
    steps = texts(sheet_of(setup, present=old))
    assert "Measure hub to arch and the bolt's position, both sides." in text
    assert "Mark bar, arm and key lever together" in steps
    assert "Turn the bolt counter-clockwise, seen from the bolt's head, to its slack end" in steps
    assert "Set the bolt: " in steps
    assert "The bolt's thread must reach all the way through its hole." in steps
    assert "Check that the bolt's end sits square on the lever's face." in steps
    assert "Turn the bolt clockwise to raise that side: " in steps


def test_the_datum_of_a_bolt_against_a_key_lever_is_its_cross_member() -> None:
    setup = on_key_lever()
    sheet = sheet_of(setup)
    place = f"{known(plan_of(sheet).pin_distance).m_as('mm'):.1f} mm"
    named = {row.what: row.value for row in sheet.figures}
    assert named["cross-member to bolt's end"] == place
    (after,) = [row for row in sheet.measurements if row.what == "bolt after"]
    assert (after.where, after.expected) == ("cross-member to bolt's end", (place,))
    assert datum(setup) == "cross-member"
    assert datum(make_setup()) == "bolt's pivot"
    assert datum(make_setup(adjuster={"mounting": fixed_line()})) == "bolt's head"
    assert left_open(plan_of(sheet)).endswith("to a flat of the bolt's head")


def test_the_thrust_on_the_bolts_end_is_shown() -> None:
    assert "side thrust on its end at full bump" in shown_text(rates_text(bw.rates(on_key_lever())))
    assert "side thrust" not in shown_text(rates_text(bw.rates(make_setup())))


def test_a_key_lever_and_its_bolt_are_taken_off_and_fitted() -> None:
    now = on_key_lever()
    to_be = now.with_parts(
        anchor=key_lever(id="t:key-lever/two", title="Longer lever"),
        adjuster=key_adjuster(id="t:adjuster/two", title="Longer bolt"),
    )
    steps = texts(sheet_of(to_be, present=now))
    assert "With the bar out, nothing holds the key lever. Take off: Key lever." in steps
    assert "Lay ready: Longer lever. The bar alone will hold it." in steps
    assert "Screw the bolt out of its cross-member. Take off: Bolt." in steps
    assert steps.index("Take off: Key lever.") < steps.index("Fit: Longer bolt.")


# -- A fixed socket ------------------------------------------------------------------------------


def test_nothing_is_turned_at_a_fixed_socket() -> None:
    setup = on_fixed(**DEEP)
    text = all_texts(setup)
    for word in (
        " nut",
        "spacer",
        "bolt's",
        " turn\n",
        "one turn",
        "turns left",
        "from the middle",
        "torque tube",
    ):
        assert word not in text, word
    sheet = sheet_of(setup)
    assert words_for(setup) is None
    assert [row.what for row in sheet.parts] == ["arm", "bar", "fixed socket", "damper"]
    assert left_open(plan_of(sheet)) == "0.1 mm off the wanted"


def test_the_arm_is_held_where_a_bar_in_a_fixed_socket_is_loose() -> None:
    sheet = sheet_of(on_fixed(**DEEP))
    steps = texts(sheet)
    on = sheet.corners[0].reindex.removal[0]
    assert f"{on.lift.magnitude:.0f} mm less than where the arm hangs lowest" in steps
    assert "Check that the bar is loose: slide it a little by hand." in steps
    assert "Mark bar, arm and anchor socket together" in steps
    assert not any(step.refused for step in sheet.steps)


def test_a_damper_that_holds_the_bar_wound_comes_off_first() -> None:
    # The damper stops the arm above the free angle; the chassis' own stop does not.
    wound = on_fixed(socket={"anchor_angle": "172 deg"}, axle={"droop_stop": "-40 deg"})
    to_be = attrs.evolve(wound, anchor=fixed_socket())
    sheet = sheet_of(to_be, present=wound)
    on, off = sheet.corners[0].reindex.removal
    assert (on.slides, off.slides) == (False, True)
    steps = texts(sheet)
    assert steps.index("With the damper on, the bar still carries") < steps.index(
        "take the damper off"
    )
    assert "With the damper off, hold the arm" in steps


@pytest.mark.parametrize("suspension", ["strut", "swing arm"])
def test_a_bar_that_stays_wound_is_not_touched(suspension: str) -> None:
    axle: dict[str, Any] = dict(DEEP["axle"])
    if suspension == "swing arm":
        axle |= {"suspension": swing_arm_mounting(), "load_at": bw.parts.LoadPoint.HUB}
    change = DEEP | {"axle": axle}
    to_be = on_fixed(**change)
    for angle in ("154 deg", "222 deg"):
        now = attrs.evolve(to_be, anchor=fixed_socket(anchor_angle=angle))
        for height in (f"{mm} mm" for mm in range(380, 420)):
            sheet = sheet_of(to_be, bw.Wanted(height=height), present=now)
            if sheet.steps:
                break
        parts_the_joint = suspension == "strut" and angle == "154 deg"
        assert ("Break the taper" in texts(sheet)) == parts_the_joint
        assert (NO_WAY in texts(sheet)) != parts_the_joint
        assert (sheet.corners[0].plan is not None) == parts_the_joint


def test_a_socket_without_a_key_is_clocked_from_its_own_line() -> None:
    keyless = attrs.evolve(fixed_socket().socket, keyed=False)
    setup = on_fixed(socket={"socket": keyless}, **DEEP)
    for height in (f"{mm} mm" for mm in range(380, 430)):
        sheet = sheet_of(setup, bw.Wanted(height=height))
        if sheet.corners[0].plan is not None and "has no key" in texts(sheet):
            break
    assert "from the socket's line at 180.0° above the horizontal" in texts(sheet)


def test_a_tube_and_its_bolt_can_make_room_for_a_fixed_socket_and_come_back() -> None:
    tube = make_setup(**DEEP)
    fixed = tube.with_parts(anchor=fixed_socket())
    sheet = sheet_of(fixed, present=tube)
    steps = texts(sheet)
    assert "Take the nut off the bolt and the lever out of it. Take off: Adjuster." in steps
    assert "Fit: Fixed socket." in steps
    back = sheet_of(tube, present=fixed)
    steps = texts(back)
    assert "Take the anchor socket off the chassis. Take off: Fixed socket." in steps
    assert "Fit: Adjuster." in steps
    (new,) = [part for part in back.corners[0].parts if part.kind == "adjuster"]
    assert new.replaces == ""


def test_a_row_of_a_fixed_socket_has_no_turns() -> None:
    answer = bw.reindex(on_fixed(**DEEP), wanted=HELD)
    assert reindex_row(answer)["nut from mid-thread"] == ""
    assert reindex_row(bw.reindex(on_key_lever()))["nut from mid-thread"].endswith("turn")


def test_donors_without_a_cap_are_shown() -> None:
    setup = on_key_lever(bar=make_bar(length="1000 mm"))
    longer = key_lever(id="t:key-lever/long", socket_position="868 mm")
    text = shown_text(donors_text(bw.donors(setup, parts=[longer])))
    assert "t:key-lever/long" in text
    assert " none     0.0 mm " in text
