"""Plans of columns, held against those of each corner alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import on_key_lever
from barwright.columns.given import WANTED_HEIGHT, columns_of
from barwright.columns.rows import Rows, answered_rows
from barwright.units import quantity_of_units, unit_spelling
from column_corners import ALL, CORNERS, LARGE_END, known_to, with_tolerances
from column_rows import ASKED, assert_the_same, heights_of
from draws import draws
from rare_cases import rarely_after
from sample_records import (
    make_bar,
    make_end,
    make_setup,
)
from setup_strategies import corners


def table_about(setup: bw.Setup, seed: int, rows: int = 5) -> dict[str, Any]:
    """Heights, loads and dampers about a corner's own."""
    chance = np.random.default_rng(seed)
    mass, length = setup.load.mass, setup.damper.open_length
    loads = float(mass.magnitude) * chance.uniform(0.7, 1.4, rows)
    lengths = float(length.magnitude) * chance.uniform(0.97, 1.03, rows)
    return {
        WANTED_HEIGHT: heights_of(setup, chance, rows),
        "load.mass": quantity_of_units(loads, unit_spelling(mass)),
        "damper.open_length": quantity_of_units(lengths, unit_spelling(length)),
    }


@pytest.mark.parametrize("setup", rarely_after(6, ALL))
def test_plans_of_all_kinds_of_corners_are_those_of_each_alone(setup: bw.Setup) -> None:
    assert_the_same(setup, table_about(setup, 1), "reindex")


@pytest.mark.rare
@settings(max_examples=draws(30))
@given(
    drawn=corners(),
    seed=st.integers(0, 2**32 - 1),
    known=st.sampled_from([with_tolerances, lambda setup: setup]),
)
def test_plans_of_drawn_corners_are_those_of_each_alone(
    drawn: tuple[bw.Setup, str], seed: int, known: Callable[[bw.Setup], bw.Setup]
) -> None:
    setup, _ = drawn

    assert_the_same(known(setup), table_about(setup, seed), "reindex")


def test_rows_are_planned_together(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Rows, "single", lambda *_: pytest.fail("asked about by itself"))

    for setup in ALL:
        if not setup.bar.arm_end.fillet_radius and not setup.bar.anchor_end.fillet_radius:
            columns = columns_of(setup, {"load.mass [kg]": np.linspace(280.0, 300.0, 3)})
            answered_rows(setup, columns, [ASKED["reindex"]])


# -- Corners of which little is usual ----------------------------------------------------


def loads(rows: int = 4) -> dict[str, Any]:
    """Loads about the usual one."""
    return {"load.mass": quantity_of_units(np.linspace(270.0, 320.0, rows), "kg")}


def test_a_bar_without_a_blank_for_a_key_cannot_be_in() -> None:
    marked = make_end(39, blanks=(), mark="a punched dot")
    setup = make_setup(bar=make_bar(arm_end=marked), arm_keyed=True)

    assert_the_same(setup, loads(), "reindex")


def test_rows_that_all_do_not_fit_have_no_plans() -> None:
    assert_the_same(CORNERS[0], {"bar.length": quantity_of_units([1500.0] * 4, "mm")}, "reindex")


def test_an_end_of_a_tolerance_that_few_rows_have_is_asked_about_by_itself() -> None:
    setup = make_setup()
    known = attrs.evolve(setup, damper=known_to(setup.damper, closed_length="5 mm"))
    closed = setup.damper.closed_length.m_as("mm")
    lengths = quantity_of_units([closed + 4.0, 640.0, 650.0, 660.0, 670.0], "mm")

    assert_the_same(known, {"damper.open_length": lengths}, "reindex")
    assert_the_same(known, {"damper.open_length": lengths[:1].repeat(4)}, "reindex")


def test_a_tolerance_below_zero_counts_from_its_upper_end() -> None:
    setup = make_setup()
    end = known_to(setup.bar.arm_end, nose="0.5 mm")
    known = setup.with_parts(bar=attrs.evolve(setup.bar, arm_end=end))

    assert_the_same(known, loads(), "reindex")


def test_a_tolerance_of_a_point_of_a_curve_counts() -> None:
    setup = CORNERS[4]
    assert setup.axle.bump_rubber is not None
    one, *others = setup.axle.bump_rubber.curve
    rubber = attrs.evolve(setup.axle.bump_rubber, curve=(known_to(one, force="0.1 kN"), *others))
    known = attrs.evolve(setup, axle=attrs.evolve(setup.axle, bump_rubber=rubber))

    assert_the_same(known, loads(), "reindex")


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_figure_that_is_just_what_it_was_keeps_its_tolerance(unit: str) -> None:
    setup = CORNERS[0]
    own = setup.bar.length.m_as(unit)
    lengths = quantity_of_units([own, own * 1.001, own, own * 0.999, own], unit)

    assert_the_same(setup, {"bar.length": lengths}, "reindex")


def test_an_arm_that_is_just_the_standard_one_shares_its_tolerance() -> None:
    setup = CORNERS[0]
    own = setup.arm.radius.m_as("mm")
    radii = quantity_of_units([own, own + 1.0, own, own - 1.0], "mm")

    assert_the_same(setup, {"arm.radius": radii}, "reindex")


def test_a_bolt_beyond_its_proof_load_is_not_safe() -> None:
    marked = {"property_class": bw.parts.PropertyClass.CLASS_8_8}
    weak = on_key_lever(adjuster=marked | {"thread_diameter": "7 mm", "thread_pitch": "1 mm"})
    # No proof stress is known of the largest.
    sizes = quantity_of_units([6.0, 7.0, 9.0, 12.0, 20.0], "mm")

    assert_the_same(weak, loads(), "reindex")
    assert_the_same(weak, {"adjuster.thread_diameter": sizes}, "reindex")


def test_wound_bushings_must_be_known() -> None:
    bushing = bw.parts.ArmBushing(rate="1 N*m/deg", set_angle="0 deg")
    setup = make_setup(axle={"bushing": bushing}, bar=make_bar(arm_end=LARGE_END))
    heights = quantity_of_units([370.0, 380.0, 390.0, 400.0], "mm")

    assert_the_same(setup, {WANTED_HEIGHT: heights}, "reindex")


def test_rows_that_each_lack_another_end_are_asked_about_by_themselves() -> None:
    setup = make_setup()
    socket = known_to(setup.arm.socket, required_engagement="5 mm")
    arm = attrs.evolve(setup.arm, socket=socket)
    damper = known_to(setup.damper, closed_length="5 mm")
    known = attrs.evolve(setup, damper=damper, arm=arm)
    closed, required = (
        figure.m_as("mm") for figure in (damper.closed_length, socket.required_engagement)
    )
    table = {
        "damper.open_length": quantity_of_units([closed + 4.0, 640.0, closed + 3.0, 650.0], "mm"),
        "arm.socket.length": quantity_of_units(
            [required + 20.0, required + 2.0, required + 20.0, required + 3.0], "mm"
        ),
    }

    assert_the_same(known, table, "reindex")
