"""The text of a balance says which nut, which way and how far, and leaves room to write."""

from __future__ import annotations

import re

import pytest

import barwright as bw
from barwright.parts import WholeVehicle
from barwright.report.unit_system import in_units
from sample_packs import SPECIMENS, discovered_once
from weighed_vans import fours, fronts, van, van_on_four

JOB = SPECIMENS / "jobs" / "corner-weights.toml"


@pytest.fixture(scope="module")
def answer() -> bw.answers.Balance:
    job = bw.load_job(JOB, discovered_once())
    assert job.vehicle is not None
    wanted = [corner.wanted for corner in job.corners]
    return bw.balance([one.present for one in job.corners], vehicle=job.vehicle, wanted=wanted)


def test_the_sheet_gives_each_nut_its_turn_and_room_for_what_is_read(
    answer: bw.answers.Balance,
) -> None:
    shown = bw.text(answer, width=140)

    assert re.search(r"^cross weight +53.2 % \(front right and rear left\)$", shown, re.MULTILINE)
    for place, turn in (("front right", "2.67 turns (16 flats) counter-"), ("front left", "3.17 ")):
        assert re.search(rf"^ +\d+\. {place.capitalize()}: {re.escape(turn)}", shown, re.MULTILINE)
    assert re.search(
        r"^front left +306 kg +323 ± 2 kg +_____ +385 mm +395 ± 2 mm +_____$", shown, 8
    )
    assert "Do not chase 5 kg or 3 mm." in shown
    assert "make half of each turn" in shown
    numbers = [int(one) for one in re.findall(r"^ +(\d+)\. ", shown, re.MULTILINE)]
    assert numbers == list(range(1, len(numbers) + 1))
    for told in ("ride frequency", "of the body", "load transfer", "first wheel lifts"):
        assert re.search(rf"^{told} +", shown, re.MULTILINE)


def test_in_inches_nothing_is_left_in_millimetres(answer: bw.answers.Balance) -> None:
    shown = bw.text(in_units(answer, "inch"), width=140)

    assert " mm" not in shown
    assert " kg" not in shown
    assert "Do not chase 11 lb or 0.12 in." in shown


def test_what_is_balanced_has_no_sheet() -> None:
    shown = bw.text(bw.balance(fronts(), vehicle=van()))

    assert "As it stands" in shown
    assert "Before you turn a nut" not in shown
    assert "of the body" not in shown


def test_what_is_missing_has_no_tables() -> None:
    shown = bw.text(bw.balance(fronts(), vehicle=WholeVehicle()))

    assert "As it stands" not in shown
    assert "What the nuts can give" not in shown


@pytest.mark.rare
def test_two_axles_are_lifted_one_after_the_other() -> None:
    wanted = [bw.Wanted(height=height) for height in ("395 mm", "398 mm", "402 mm", "400 mm")]
    shown = bw.text(bw.balance(fours(), vehicle=van_on_four(), wanted=wanted), width=140)

    lifted = re.findall(r"both (front|rear) wheels hang", shown)
    assert sorted(lifted) == sorted(set(lifted))
