"""Tests of `arm_steps`: where the arm is to stand, as a length to measure."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import fixed_socket, on_fixed
from barwright.analysis.assembly.assembly import Assembly
from barwright.analysis.assembly.loose_bar import loose_bar
from barwright.analysis.assembly.unloading import choose_unloading
from barwright.analysis.corner.corner import Corner
from barwright.report.sheet.steps.arm_steps import (
    arm_freed,
    arm_joined,
    damper_off,
    damper_on,
    hose_back,
    hose_freed,
    joint_parted,
    lifted,
)
from barwright.report.sheet.steps.step import CornerStep, together
from barwright.units import System, shown
from sample_records import double_wishbone_mounting, known, make_setup, swing_arm_mounting

SHORT = {"open_length": "616 mm", "closed_length": "452 mm"}
DEEP: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}
LET_DOWN = "Let the arm down slowly until the chassis stops it."
HELD = make_setup(damper=SHORT, axle={"droop_stop": "-11 deg"})
HELD_ON, HELD_OFF = bw.reindex(HELD).removal
PARTING = known(choose_unloading(Corner(HELD), damper_on=HELD_ON, damper_off=HELD_OFF).parting)
ON_ARM = make_setup(axle={"suspension": swing_arm_mounting()})
ON_WISHBONES = make_setup(axle={"suspension": double_wishbone_mounting()})


def said_by(steps: Iterable[CornerStep]) -> str:
    """The sentences of steps, a line each."""
    written = [together({"front left": step}) for step in steps]
    return "\n".join(line for step in written for line in (step.text, *step.branch))


def lifted_on(way: Assembly, setup: bw.Setup, system: System = "metric") -> str:
    return said_by([lifted(way, bw.in_units(loose_bar(Corner(setup)), system), setup)])


def lengths(text: str, unit: str) -> list[float]:
    return [float(number) for number in re.findall(rf"([\d.]+) {unit}\b", text)]


def parting_text(setup: bw.Setup, parting: bw.answers.JointParting = PARTING) -> str:
    return said_by(joint_parted(parting, setup))


def test_a_parted_joint_is_told_with_what_it_lets_go() -> None:
    said = parting_text(HELD)
    for figure in (PARTING.torque, PARTING.energy, PARTING.downward_force, PARTING.drop):
        assert shown(figure, 0) in said
    order = ["Set a jack", "Strap the arm up", "Break the taper: it parts suddenly", "let the arm"]
    places = [said.index(words) for words in order]
    assert places == sorted(places)


def test_a_drop_is_told_in_the_readers_units() -> None:
    (metric,) = lengths(parting_text(HELD), "mm")
    inch = parting_text(HELD, bw.in_units(PARTING, "inch"))
    (inches,) = lengths(inch, "in")
    assert inches == pytest.approx(metric / 25.4, abs=0.03)
    for unit in ("mm", "N·m", " J", " N"):
        assert f"{unit} " not in inch


def test_the_joint_of_two_arms_is_named_for_its_arm() -> None:
    on_two = parting_text(ON_WISHBONES)
    assert "the lower ball joint, at the outer end of the arm that holds the bar," in on_two
    assert "nut of the ball joint at the arm's outer end" in parting_text(HELD)


def test_a_carrier_is_tied_up_once_where_there_is_one() -> None:
    assert "Tie the wheel carrier up loosely" in said_by(damper_off(HELD))
    assert "Tie up the wheel carrier" not in parting_text(HELD)
    assert "carrier" not in said_by(damper_off(ON_WISHBONES))
    assert "Tie up the wheel carrier" in parting_text(ON_WISHBONES)


def test_a_carrier_is_tied_before_its_strut_is_off() -> None:
    tied, off, down = said_by(damper_off(HELD)).splitlines()
    assert tied.startswith("Tie the wheel carrier up loosely: it may go down")
    assert off.endswith("take the damper off.")
    assert down == LET_DOWN


def test_an_arm_is_let_down_to_its_stop_where_an_adjuster_has_slackened_the_bar() -> None:
    for setup in (HELD, ON_ARM, ON_WISHBONES):
        assert said_by(damper_off(setup)).endswith(LET_DOWN)


def test_in_a_fixed_socket_an_arm_goes_down_for_what_is_measured_from_its_stop() -> None:
    # A strut's arm is lifted from there by its ball joint; a parted arm drops from there.
    assert said_by(damper_off(on_fixed(**DEEP))).endswith(LET_DOWN)
    for mounting in (swing_arm_mounting(), double_wishbone_mounting()):
        fixed = on_fixed(axle={"suspension": mounting})
        (off,) = damper_off(fixed)
        assert together({"front left": off}).text.endswith("take the damper off.")
        *_, parted = damper_off(fixed, parts_joint=True)
        assert together({"front left": parted}).text == LET_DOWN


# -- What an arm carries ---------------------------------------------------------------------


def driven(setup: bw.Setup, drive: str | None) -> bw.Setup:
    return attrs.evolve(setup, chassis=attrs.evolve(setup.chassis, drive=drive))


@pytest.mark.parametrize(
    ("drive", "shaft"),
    [
        ("front", "the drive shaft"),
        ("all", "the drive shaft"),
        ("rear", None),
        ("none", None),
        (None, "the drive shaft (if there is one)"),
    ],
)
def test_a_drive_shaft_is_spoken_of_where_the_axle_may_have_one(
    drive: str | None, shaft: str | None
) -> None:
    setup = driven(HELD, drive)
    for said in (said_by(hose_freed(setup)), said_by(arm_freed(setup))):
        assert "Free the brake hose and the cables" in said
        assert ("drive shaft" in said) is (shaft is not None)
        assert shaft is None or f"upport {shaft}" in said
    assert said_by([hose_back(setup)]) == (
        "Refit the brake hose and the cables."
        if shaft is None
        else f"Refit hose and cables. Check that no joint of {shaft} came apart."
    )


def test_what_is_parted_from_a_swing_arm_is_joined_to_it_again() -> None:
    for drive, parts in (
        (None, "the brake hose, the cables and the drive shaft (if there is one)"),
        ("none", "the brake hose and the cables"),
    ):
        setup = driven(ON_ARM, drive)
        assert said_by(arm_freed(setup)) == f"Part {parts} from the arm."
        assert said_by(arm_joined(setup)) == f"Join {parts} to the arm again.\nBleed the brake."


def test_an_arm_under_a_carrier_leaves_it_tied_up_and_the_hose_whole() -> None:
    for setup in (HELD, ON_WISHBONES):
        assert "Tie up the wheel carrier" in said_by(arm_freed(setup))
        assert said_by(arm_joined(setup)) == said_by([hose_back(setup)])
        assert "Bleed" not in said_by(arm_joined(setup))


def test_the_jack_stands_where_the_arm_takes_it() -> None:
    assert "Jack the arm up under the ball joint and take" in said_by(damper_off(HELD))
    assert "Jack the arm up under its outer end and take" in said_by(damper_off(ON_ARM))
    same, new = (damper_on(ON_ARM, is_new=is_new, then="Go on.") for is_new in (False, True))
    assert said_by([same]) == "Jack the arm up until the damper goes on. Go on."
    assert said_by([new]) == "Jack the arm up until the damper goes on: Damper. Go on."
    assert said_by([damper_on(ON_ARM, is_new=False)]).endswith("damper goes on.")


def test_an_arm_that_is_stopped_before_its_bar_is_loose_goes_back() -> None:
    *_, stopped = parting_text(HELD).splitlines()
    assert stopped.startswith("Only if a chassis stop holds the arm before that: lift it")
    assert stopped.endswith("stop. No further safe way is known.")


@pytest.mark.parametrize(("system", "unit", "size"), [("metric", "mm", 1.0), ("inch", "in", 25.4)])
def test_a_lifted_hub_is_measured_to_the_arch(system: System, unit: str, size: float) -> None:
    setup = on_fixed(**DEEP)
    answer = bw.reindex(setup, wanted=bw.Wanted(height="404 mm"))
    on = bw.in_units(answer, system).removal[0]
    hub_to_arch, less = lengths(lifted_on(on, setup, system), unit)
    loose = bw.rates(setup).figures
    assert loose is not None
    hanging = loose.droop.height.m_as("mm")
    assert less * size == pytest.approx(answer.removal[0].lift.m_as("mm"), abs=0.6 * size)
    assert (hub_to_arch + less) * size == pytest.approx(hanging, abs=1.1 * size)


def test_without_its_strut_a_carrier_is_no_datum_and_the_joint_is() -> None:
    setup = on_fixed(socket={"anchor_angle": "172 deg"}, axle={"droop_stop": "-40 deg"})
    off = bw.reindex(setup).removal[1]
    said = lifted_on(off, setup)
    assert "hub" not in said
    (rise,) = lengths(said, "mm")
    free = float((off.arm_angle + off.unloading_reserve).m_as("rad"))
    stop = float(off.arm_angle.m_as("rad"))
    assert rise == pytest.approx(338.0 * (math.sin(free) - math.sin(stop)), abs=0.5)
    swinging = attrs.evolve(
        setup, axle=attrs.evolve(setup.axle, suspension=swing_arm_mounting()), anchor=fixed_socket()
    )
    assert "so that hub to arch measures" in lifted_on(off, swinging)


def test_the_joint_of_an_inclined_bar_rises_straight_up_less() -> None:
    straight = on_fixed(socket={"anchor_angle": "172 deg"}, axle={"droop_stop": "-40 deg"})
    tilted = attrs.evolve(straight, axle=attrs.evolve(straight.axle, bar_axis=(1.0, 0.0, 0.6)))
    off = bw.reindex(straight).removal[1]
    (rise,) = lengths(lifted_on(off, straight), "mm")
    (less,) = lengths(lifted_on(off, tilted), "mm")
    assert less == pytest.approx(rise / math.hypot(1.0, 0.6), abs=1.0)
