"""In which sense an adjuster raises the vehicle, and which end of its thread is the slack one."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from anchored_corners import on_key_lever
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.raising import raising_sense, slack_end
from barwright.answers import TurningSense
from sample_records import fixed_line, make_setup

PUSHED = {"lever_lies": bw.parts.LeverSide.DROOPWARD}


@pytest.mark.parametrize(
    "setup",
    [
        make_setup(),
        make_setup(adjuster={"mounting": fixed_line()}),
        make_setup(adjuster={"mounting": fixed_line()} | PUSHED),
        on_key_lever(),
    ],
)
def test_a_small_turn_in_that_sense_moves_the_free_angle_droopward(setup: bw.Setup) -> None:
    corner = Corner(setup)
    sign = 1.0 if raising_sense(corner) is TurningSense.CLOCKWISE else -1.0
    turned = Corner(attrs.evolve(setup, nut_turns=f"{sign * 0.1} turn"))
    assert turned.free_angle < corner.free_angle
    # All of the thread lies that way from its slack end.
    assert slack_end(corner) == -sign * max(corner.turns_span)
    assert corner.lever_at_turns(slack_end(corner)) == pytest.approx(max(corner.lever_span))


def test_both_senses_are_met() -> None:
    pulled, pushed = (
        make_setup(adjuster={"mounting": fixed_line()} | side) for side in ({}, PUSHED)
    )
    assert raising_sense(Corner(pulled)) is not raising_sense(Corner(pushed))
