"""Columns of figures about corners, and the answers of their rows held against single ones."""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np

import barwright as bw
from barwright.analysis.tolerance.figures import figure_places
from barwright.columns.asked.catalogue import QUESTIONS
from barwright.columns.asked.question import Question
from barwright.columns.asked.strength import strength_question
from barwright.columns.given import columns_of
from barwright.columns.rows import Corners, Rows, answered_rows
from barwright.units import quantity_of_units, unit_spelling

__all__ = [
    "ASKED",
    "ROWS",
    "answered",
    "assert_the_same",
    "heights_of",
    "paths_of",
    "table_of",
]

ROWS = 12

LIMITS = bw.StrengthLimits(
    endurance="350 MPa",
    shear_ratio=0.7,
    woehler_line=bw.WoehlerLine(at_stress="400 MPa", at_life=1e6, exponent=5.0),
)

ASKED: dict[str, Question] = {
    **QUESTIONS,
    "strength over a history": strength_question(
        limits=LIMITS, travel="40 mm", history=["0 mm", "25 mm", "-15 mm", "30 mm", "-500 mm"]
    ),
    "strength by the caller": strength_question(
        limits=attrs.evolve(LIMITS, permissible_shear="650 MPa", ultimate_shear="900 MPa"),
        travel="60 mm",
    ),
}


def paths_of(setup: bw.Setup) -> list[str]:
    """Figures of a corner that a column can take the place of."""
    return [
        place.path
        for place in figure_places(setup)
        if not place.path.startswith(("chassis", "reading", "further", "axle.left", "axle.right"))
    ]


def table_of(
    setup: bw.Setup, paths: list[str], chance: np.random.Generator, rows: int = ROWS
) -> dict[str, Any]:
    """Columns about a corner's own figures: most near them, some far off, some impossible."""
    table: dict[str, Any] = {}
    for place in figure_places(setup):
        if place.path not in paths:
            continue
        own = float(place.value.magnitude)
        share = chance.choice([0.0, 0.002, 0.03, 0.4], rows, p=[0.2, 0.4, 0.3, 0.1])
        numbers = own * (1.0 + share * chance.uniform(-1.0, 1.0, rows))
        numbers += (own == 0.0) * share * chance.uniform(-1.0, 1.0, rows)
        wrong = chance.choice([0.0, -own, np.nan, 1e20, 10.0 * own], rows)
        numbers = np.where(chance.random(rows) < 0.02, wrong, numbers)
        table[place.path] = quantity_of_units(numbers, unit_spelling(place.value))
    return table


def heights_of(setup: bw.Setup, chance: np.random.Generator, rows: int = ROWS) -> Any:
    """Heights about the standard one; some out of travel."""
    own = setup.axle.standard_height
    shares = chance.choice([0.02, 0.2, 3.0], rows, p=[0.5, 0.45, 0.05])
    numbers = own.magnitude * (1.0 + shares * chance.uniform(-1.0, 1.0, rows))
    return quantity_of_units(numbers, unit_spelling(own))


def answered(setup: bw.Setup, table: dict[str, Any], question: str, *, together: bool) -> Rows:
    columns = columns_of(setup, table)
    if together:
        return answered_rows(setup, columns, [ASKED[question]])[0]
    rows = Rows(setup, columns, ASKED[question], Corners(setup, columns))
    for row in range(rows.count):
        rows.single(row)
    return rows


def assert_the_same(setup: bw.Setup, table: dict[str, Any], question: str) -> None:
    together, single = (answered(setup, table, question, together=one) for one in (True, False))

    assert together.codes.tolist() == single.codes.tolist()
    assert together.reasons == single.reasons
    assert together.verdicts.tolist() == single.verdicts.tolist()
    for name, numbers in together.numbers.items():
        np.testing.assert_allclose(
            numbers, single.numbers[name], rtol=1e-9, atol=1e-12, err_msg=name
        )
