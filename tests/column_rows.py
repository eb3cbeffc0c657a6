"""Columns of figures about corners, and the answers of their rows held against single ones."""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.tolerance.figures import figure_places
from barwright.columns.asked.catalogue import QUESTIONS
from barwright.columns.asked.question import Question
from barwright.columns.asked.strength import strength_question
from barwright.columns.given import columns_of
from barwright.columns.rows import Corners, Rows, answered_rows
from barwright.units import quantity_of_units, unit_spelling
from sample_packs import discovered_once
from sample_records import make_bar, make_end, make_setup

__all__ = [
    "ASKED",
    "CORNERS",
    "ROWS",
    "answered",
    "assert_the_same",
    "everything",
    "heights_of",
    "paths_of",
    "table_of",
]

ROWS = 12

CORNERS = [
    discovered_once().setup(vehicle, corner=corner)
    for vehicle, corner in (
        ("fells:chassis/short", "front left"),
        ("fells:chassis/long", "front right"),
        ("hodmule:chassis/long", "front right"),
        ("trundlet:chassis/open", "rear left"),
    )
]


def everything() -> bw.Setup:
    """A corner with all that a record may leave out."""
    end = make_end(39, nose="10 mm", nose_diameter="20 mm")
    other = make_end(42, taper="0 mm", fillet_radius="20 mm")
    rubber = bw.parts.BumpRubber(
        curve=tuple(
            bw.parts.BumpRubberForce(compression=f"{10 * n} mm", force=f"{n * n} kN")
            for n in (1, 2)
        ),
        contact_length="460 mm",
    )
    setup = make_setup(
        bar=make_bar(bore="8 mm", arm_end=end, anchor_end=other), axle={"bump_rubber": rubber}
    )
    weighed = setup.with_load(kind=bw.parts.LoadKind.SCALE_READING, mass="326 kg")
    gas = bw.parts.GasCharge(force="200 N", at_length="500 mm", slope="-0.5 N/mm")
    damper = attrs.evolve(weighed.damper, gas=gas, damping_rate=None)
    middle = "170 mm"
    return attrs.evolve(weighed, damper=damper, pin_distance=middle)


CORNERS.append(everything())


def preset() -> bw.Setup:
    """A corner whose bar was pre-set to a known twist, and is judged by its steel."""
    setup = make_setup(
        bar=make_bar(preset=True, preset_twist="95 deg", made_for=bw.parts.Side.LEFT)
    )
    steel = attrs.evolve(
        setup.bar.material,
        proof_strength="1350 MPa",
        tensile_strength="1550 MPa",
        preset_permissible_shear="1000 MPa",
    )
    return setup.with_parts(bar=attrs.evolve(setup.bar, material=steel))


CORNERS += [preset(), on_key_lever(), on_fixed()]

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


def table_of(setup: bw.Setup, paths: list[str], chance: np.random.Generator) -> dict[str, Any]:
    """Columns about a corner's own figures: most near them, some far off, some impossible."""
    table: dict[str, Any] = {}
    for place in figure_places(setup):
        if place.path not in paths:
            continue
        own = float(place.value.magnitude)
        share = chance.choice([0.0, 0.002, 0.03, 0.4], ROWS, p=[0.2, 0.4, 0.3, 0.1])
        numbers = own * (1.0 + share * chance.uniform(-1.0, 1.0, ROWS))
        numbers += (own == 0.0) * share * chance.uniform(-1.0, 1.0, ROWS)
        wrong = chance.choice([0.0, -own, np.nan, 1e20, 10.0 * own], ROWS)
        numbers = np.where(chance.random(ROWS) < 0.02, wrong, numbers)
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
    for row in range(rows.number):
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
