"""A row of a column is answered as its corner alone is, whatever figures differ."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.columns.asked.strength import strength_question
from barwright.columns.given import WANTED_HEIGHT, columns_of
from barwright.columns.rows import answered_rows
from barwright.units import quantity_of_units
from column_corners import ALL, CORNERS, everything, on_each_anchorage
from column_rows import ASKED, answered, assert_the_same, heights_of, paths_of, table_of
from draws import draws
from sample_records import fixed_line, make_setup

# How often a height is asked for where one can be.
_HEIGHTS = 0.5


@pytest.mark.rare
@settings(max_examples=draws(60))
@given(
    setup=st.sampled_from([*ALL, *on_each_anchorage()]),
    question=st.sampled_from(list(ASKED)),
    paths=st.integers(1, 6),
    seed=st.integers(0, 2**32 - 1),
)
def test_whatever_figures_differ_each_row_is_answered_as_its_corner_alone(
    setup: bw.Setup, question: str, paths: int, seed: int
) -> None:
    chance = np.random.default_rng(seed)
    some = chance.choice(paths_of(setup), paths, replace=False).tolist()
    table = table_of(setup, some, chance)
    if ASKED[question].takes_height and chance.random() < _HEIGHTS:
        table[WANTED_HEIGHT] = heights_of(setup, chance)

    assert_the_same(setup, table, question)


@pytest.mark.parametrize("question", ASKED)
def test_a_bar_in_one_socket_alone_is_answered_as_of_its_corner_alone(question: str) -> None:
    table = {"bar.length": quantity_of_units([1000.0, 300.0], "mm")}

    for setup in CORNERS:
        assert_the_same(setup, table, question)


def test_a_bolt_on_a_line_is_within_the_levers_reach_or_not_in_each_row_by_itself() -> None:
    setup = make_setup(adjuster={"mounting": fixed_line()})
    distances = quantity_of_units([80.0, 100.0, 120.0, 160.0], "mm")
    table = {"adjuster.mounting.line_distance": distances}

    for question in ASKED:
        assert_the_same(setup, table, question)
    assert set(answered(setup, table, "rates", together=True).verdicts) == {
        "rated",
        "does not fit",
    }


def test_what_is_wrong_with_a_row_is_told_by_the_name_of_its_column() -> None:
    table = {
        "load.mass": quantity_of_units([290.0, np.nan, 290.0, 290.0, 290.0], "kg"),
        "bar.arm_end.nose": quantity_of_units([10.0, 10.0, -10.0, 10.0, 10.0], "mm"),
        WANTED_HEIGHT: quantity_of_units([380.0, 380.0, 380.0, np.nan, -380.0], "mm"),
    }

    rows = answered(everything(), table, "rates", together=True)

    assert [text.split(", expected")[0] for text in rows.reasons.values()] == [
        "Q301: load.mass: got 'no number'",
        "Q302: bar.arm_end.nose: got '-10 mm'",
        "Q301: wanted.height: got 'no number'",
        "Q302: wanted.height: got '-380 mm'",
    ]


def test_points_of_a_curve_are_columns_too() -> None:
    table = {"axle.bump_rubber.curve.0.force": quantity_of_units([0.9, 1.1, 5.0], "kN")}

    assert_the_same(everything(), table, "rates")


def test_a_history_without_a_line_of_lives_has_no_life() -> None:
    question = strength_question(history=["0 mm", "25 mm", "-15 mm"])
    columns = columns_of(CORNERS[0], {"load.mass": quantity_of_units([260.0, 280.0, 300.0], "kg")})

    (rows,) = answered_rows(CORNERS[0], columns, [question])

    assert np.isnan(rows.numbers["life.fewest_runs"]).all()
    assert np.isfinite(rows.numbers["bump.stress"]).all()
