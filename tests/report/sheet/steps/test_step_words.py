"""Tests of `report.sheet.steps.step_words`: pieces of sentences, for either side of a datum."""

from __future__ import annotations

import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.report.sheet.steps.step_words import (
    anchor_line,
    freed,
    lies,
    marked_with,
    reaches,
    toward,
)
from barwright.units import LENGTH, to_kind
from sample_records import adjuster_of, make_setup


@pytest.mark.parametrize(
    ("position", "said"),
    [
        ("0 mm", "is flush with"),
        ("0.04 mm", "is flush with"),
        ("3 mm", "stands 3.0 mm inside"),
        ("-2.5 mm", "stands 2.5 mm outside"),
    ],
)
def test_a_spline_is_flush_with_a_face_or_stands_to_one_side(position: str, said: str) -> None:
    assert reaches(to_kind(position, LENGTH, key="")) == said


@pytest.mark.parametrize(
    ("position", "said"), [("0.04 mm", "flush"), ("14 mm", "14.0 mm in"), ("-12 mm", "12.0 mm out")]
)
def test_a_place_among_others_is_told_in_short(position: str, said: str) -> None:
    assert lies(to_kind(position, LENGTH, key="")) == said


@pytest.mark.parametrize(
    ("offset", "said"), [("86 mm", "86.0 mm toward"), ("-4 mm", "4.0 mm away from")]
)
def test_holes_lie_toward_the_anchor_or_away_from_it(offset: str, said: str) -> None:
    assert toward(to_kind(offset, LENGTH, key="")) == said


def test_the_line_of_a_key_is_the_levers_or_the_sockets() -> None:
    assert anchor_line(make_setup()) == "the lever's centreline"
    fixed = on_fixed(socket={"anchor_angle": "172 deg"})
    assert anchor_line(fixed) == "the socket's line at 172.0° above the horizontal"


@pytest.mark.parametrize(
    ("setup", "marked", "free"),
    [
        (make_setup(), ", tube and lever", "Take the cap off and the bolt out of the lever."),
        (on_key_lever(), " and key lever", "With the bar out, nothing holds the key lever."),
        (on_fixed(), " and anchor socket", "Take the anchor socket off the chassis."),
    ],
)
def test_what_holds_the_anchor_end_is_marked_and_freed_for_what_it_is(
    setup: bw.Setup, marked: str, free: str
) -> None:
    assert (marked_with(setup.anchor), freed(setup.anchor)) == (marked, free)


def test_an_adjuster_is_freed_for_what_it_is() -> None:
    assert freed(adjuster_of(make_setup())) == "Take the nut off the bolt and the lever out of it."
    assert freed(adjuster_of(on_key_lever())) == "Screw the bolt out of its cross-member."
