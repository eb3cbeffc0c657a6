"""Tests of `barwright.report.sheet.step_words`: pieces of sentences, for either side of a datum."""

from __future__ import annotations

import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.report.sheet.step_words import anchor_line, corrected, lies, reaches, toward
from barwright.units import LENGTH, to_kind
from sample_records import known, make_setup


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


@pytest.mark.parametrize(
    ("setup", "said"),
    [
        (make_setup(), "nut: one turn clockwise, seen from the bolt's free end,"),
        (on_key_lever(), "bolt: one turn clockwise, seen from the bolt's head,"),
    ],
)
def test_a_height_is_corrected_by_turning_what_raises_it(setup: bw.Setup, said: str) -> None:
    plan = bw.reindex(setup, wanted=bw.Wanted(height="380 mm")).plans[0]
    rise = known(plan.height_per_turn).m_as("mm/turn")
    assert corrected(plan) == f"Correct with the {said} raises the vehicle by {rise:.1f} mm."


def test_the_line_of_a_key_is_the_levers_or_the_sockets() -> None:
    assert anchor_line(make_setup()) == "the lever's centreline"
    fixed = on_fixed(socket={"anchor_angle": "172 deg"})
    assert anchor_line(fixed) == "the socket's line at 172.0° above the horizontal"
