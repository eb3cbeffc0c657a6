"""The terminal's table over the thread says what it must."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.report.text.nut import nut_row, nut_text
from sample_records import known, make_bar, make_setup
from terminal_text import folded

SETUP = make_setup()
LOOSE = on_key_lever(
    damper={"open_length": "700 mm", "closed_length": "450 mm"}, axle={"droop_stop": "-34 deg"}
)
LIGHT = make_setup(mass="180 kg", nut_turns="6 turn")


def shown(answer: bw.answers.NutTable, *, whole_thread: bool = False) -> str:
    return folded(nut_text(answer, whole_thread=whole_thread, set_here="planned"))


def test_five_turns_to_either_side_are_shown_with_their_figures() -> None:
    table = bw.nut_table(SETUP)
    text = f"{shown(table)} "
    for row in table.rows_near():
        name = "planned" if row.is_set else f"{row.raising_turns:+d}"
        stands = (
            f" {name} {row.pin_distance.m_as('mm'):.1f} mm {row.height.m_as('mm'):.1f} mm "
            f"{row.droop_left.m_as('mm'):.0f} mm {row.bump_left.m_as('mm'):.0f} mm "
        )
        carries = (
            f" {name} {row.from_slack_end.m_as('turn'):.2f} turn "
            f"{row.nut_turns.m_as('turn'):.2f} turn {row.bolt_at_ride.m_as('N'):.0f} N "
            f"{row.bolt_at_bump.m_as('N'):.0f} N {row.torque.m_as('N*m'):.0f} N·m "
        )
        assert stands in text
        assert carries in text
    assert " +6 " not in text
    assert " -6 " not in text


def test_the_whole_thread_is_shown_where_it_is_asked_for() -> None:
    text = shown(bw.nut_table(SETUP), whole_thread=True)
    assert all(f" {count:+d} " in text for count in (-8, -6, 6, 8))


@pytest.mark.parametrize(
    ("setup", "words"),
    [
        (
            SETUP,
            (
                "+1 one turn clockwise, seen from the bolt's free end, raises",
                "nut at bolt's pivot to the lever's pin",
                " turn nut at hub to arch ",
                " bolt pulled ",
            ),
        ),
        (
            on_key_lever(),
            (
                "+1 one turn clockwise, seen from the bolt's head, raises",
                "bolt at cross-member to the bolt's end",
                " turn bolt at hub to arch ",
                " bolt pushed ",
            ),
        ),
    ],
)
def test_what_is_turned_and_measured_is_said_in_its_words(
    setup: bw.Setup, words: tuple[str, ...]
) -> None:
    text = shown(bw.nut_table(setup))
    assert [word for word in words if word not in text] == []
    carried = text.partition("What it carries")[2].partition(" planned ")[2]
    carried = carried.partition("Height over the thread")[0]
    assert "-" not in carried.replace("-1", "")


def test_the_uncertainty_of_the_heights_is_shown_where_it_is_known() -> None:
    van = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    table = bw.nut_table(van)
    open_by = known(table.height_uncertainty).m_as("mm")
    assert f"hub to arch ± {open_by:.0f} mm by the tolerances of the figures" in shown(table)
    assert "±" not in shown(bw.nut_table(SETUP))


def test_places_that_a_reader_must_know_of_are_marked() -> None:
    weak = {"property_class": bw.parts.PropertyClass.CLASS_8_8, "thread_diameter": "6 mm"}
    for setup, word in (
        (LIGHT, "on the droop stop"),
        (make_setup(mass="900 kg"), "on the bump stop"),
        (make_setup(nut_turns="-8 turn"), "bar slack at droop"),
        (LOOSE, "not safe: lever loose at droop"),
        (make_setup(adjuster=weak | {"thread_pitch": "1 mm"}), "not safe: bolt too weak at bump"),
    ):
        assert f" {word} " in shown(bw.nut_table(setup), whole_thread=True)
    assert "stop" not in shown(bw.nut_table(SETUP)).partition("Where it stands")[2]


def test_a_corner_that_other_springs_hold_is_marked() -> None:
    helped = make_setup(
        mass="200 kg",
        damper={"open_length": "700 mm", "closed_length": "450 mm"},
        nut_turns="-8 turn",
        axle={"helper_coil": bw.parts.HelperCoil(rate="60 N/mm", free_length="720 mm")},
    )
    table = bw.nut_table(helped)
    assert table.set_row.support is bw.answers.Support.SPRINGS
    assert " bar slack, other springs hold it, bar slack at droop " in shown(table)


def test_a_turn_to_make_says_how_it_was_found() -> None:
    table = bw.nut_table(SETUP, measured="398 mm", wanted=bw.Wanted(height="405 mm"))
    here = bw.nut_table(SETUP).set_row.height.m_as("mm")
    text = shown(table)
    assert text.startswith("Turn the nut ")
    assert f" measured 398.0 mm, {here - 398.0:.1f} mm lower than computed; the table is " in text
    assert " wanted 405.0 mm " in text
    higher = shown(bw.nut_table(SETUP, measured="409 mm"))
    assert f" measured 409.0 mm, {409.0 - here:.1f} mm higher than computed; " in higher
    computed = shown(bw.nut_table(SETUP, wanted=bw.Wanted(height="405 mm")))
    assert f" computed {here:.1f} mm wanted 405.0 mm " in computed
    assert "measured" not in computed.partition("Where it stands")[0]


def test_cautions_come_before_the_figures() -> None:
    table = bw.nut_table(SETUP)
    expected = " ".join(f"! {caution.text}" for caution in table.cautions)
    assert f"{expected} +1 one turn" in shown(table)


def test_without_a_table_the_reasons_are_shown_alone() -> None:
    assert shown(bw.nut_table(on_fixed())) == bw.nut_table(on_fixed()).headline
    unfit = bw.nut_table(make_setup(bar=make_bar(length="1200 mm")))
    assert shown(unfit).startswith(unfit.headline)
    assert "Where it stands" not in shown(unfit)


def test_reasons_and_notes_have_their_words() -> None:
    beyond = bw.nut_table(LIGHT, wanted=bw.Wanted(height="300 mm"))
    assert "* because: the corner rests on its droop stop" in shown(beyond)
    assert "* note: the corner rests on its droop stop" in shown(bw.nut_table(LIGHT))


def test_a_table_stands_in_a_row() -> None:
    table = bw.nut_table(SETUP, measured="398 mm", wanted=bw.Wanted(height="405 mm"))
    here, found = table.set_row, known(table.correction)
    assert nut_row(table) == {
        "answer": "can be reached",
        "nut at": "159.5 mm",
        "hub to arch": f"{here.height.m_as('mm'):.1f} mm",
        "one turn": f"{here.height_per_turn.magnitude:.1f} mm/turn",
        "turn": f"{found.correcting_turns.m_as('turn'):.2f} turn",
    }
    assert list(nut_row(bw.nut_table(on_fixed())).values()) == ["nothing to turn", "", "", "", ""]


def test_below_a_no_there_is_no_table() -> None:
    table = bw.nut_table(SETUP)
    refused = attrs.evolve(table, verdict=bw.Verdict.NOT_SAFE)
    assert "Where it stands" in shown(table)
    assert "Where it stands" not in shown(refused)
