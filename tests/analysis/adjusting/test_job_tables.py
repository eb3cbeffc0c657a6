"""Tables for all corners of a job: with a plan carried out, or as the vehicle is."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.analysis.adjusting.job_tables import (
    NutReading,
    planned_nut_tables,
    present_nut_tables,
)
from sample_records import make_setup

LOWER = bw.Wanted(height="349 mm")
SETUPS = [make_setup(side=side) for side in bw.parts.Side]
NOTHING_READ = [NutReading(), NutReading()]


def job(wanted: bw.Wanted = LOWER) -> bw.Job:
    corners = tuple(
        bw.JobCorner(setup=one, present=attrs.evolve(one, nut_turns="-2 turn"), wanted=wanted)
        for one in SETUPS
    )
    return bw.Job(title="t", corners=corners)


@pytest.mark.parametrize("number", [1, 2])
def test_the_tables_are_those_of_the_plans_carried_out(number: int) -> None:
    plans = [answer.plans[number - 1] for answer in bw.reindex_job(job())]
    expected = [bw.nut_table(bw.carry_out(*pair)) for pair in zip(SETUPS, plans, strict=True)]
    assert list(planned_nut_tables(job(), number, NOTHING_READ)) == expected


def test_the_present_tables_are_those_of_what_is_on_the_vehicle() -> None:
    expected = [bw.nut_table(corner.present) for corner in job().corners]
    assert list(present_nut_tables(job(), NOTHING_READ)) == expected


def test_where_there_is_no_plan_the_answer_says_why() -> None:
    beyond = job(bw.Wanted(height="900 mm"))
    (answer, _), (plans, _) = (
        planned_nut_tables(beyond, 1, NOTHING_READ),
        bw.reindex_job(beyond),
    )
    assert (answer.verdict, answer.findings) == (plans.verdict, plans.findings)
    assert answer.table_rows == ()
    assert answer.headline == plans.headline


def test_a_measured_height_is_brought_to_that_of_the_job() -> None:
    height = bw.Quantity(345.0, "mm")
    readings = [NutReading(measured=height), NutReading()]
    left, right = planned_nut_tables(job(), 1, readings)
    assert right.correction is None
    assert left.correction is not None
    assert (left.correction.measured_height, left.correction.wanted_height) == (
        height,
        bw.Quantity(349.0, "mm"),
    )


@pytest.mark.parametrize(
    ("measured", "is_before"), [("391 mm", True), ("376 mm", False), ("340 mm", False)]
)
def test_a_height_that_was_read_before_the_work_is_told_from_one_after_it(
    measured: str, *, is_before: bool
) -> None:
    lowered = {
        "vehicle": "fells:chassis/short",
        "corners": ["front left"],
        "present": {"pin_distance": "160 mm"},
        "measured": {"height": "391 mm ± 2 mm"},
        "wanted": {"height": "370 mm"},
    }
    van = bw.job_of(lowered, bw.Registry.demo())
    (answer,) = planned_nut_tables(van, 1, [NutReading(measured=bw.Quantity(measured))])
    (far_off,) = (one for one in answer.findings if one.topic is bw.answers.Topic.MEASURED)
    assert ("(--as-it-is)" in far_off.text) is is_before
    assert answer.headline.startswith(f"Turn nothing yet: {far_off.line}")


def test_another_wish_and_another_place_of_the_nut_count_where_they_are_given() -> None:
    turns = bw.Quantity(1.5, "turn")
    reading = NutReading(wanted=bw.Wanted(height="395 mm"), nut_turns=turns)
    answer = present_nut_tables(job(), [reading, NutReading()])[0]
    assert answer.correction is not None
    assert answer.correction.wanted_height == bw.Quantity(395.0, "mm")
    assert answer.set_row.nut_turns == turns


def test_a_present_nut_beyond_its_thread_is_said_to_be_the_jobs() -> None:
    wrong = attrs.evolve(SETUPS[0], nut_turns="12 turn")
    corner = bw.JobCorner(setup=SETUPS[0], present=wrong, wanted=LOWER)
    bad = bw.Job(title="t", corners=(corner,))
    with pytest.raises(bw.QuantityError, match=r"Q302: present\.nut_turns: got '12 turn'"):
        present_nut_tables(bad, [NutReading()])
    with pytest.raises(bw.QuantityError, match="Q302: nut_turns: got '13 turn'"):
        present_nut_tables(bad, [NutReading(nut_turns=bw.Quantity(13.0, "turn"))])
