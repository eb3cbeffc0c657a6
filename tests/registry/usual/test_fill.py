"""Tests of usual figures in the place of unknown ones."""

from __future__ import annotations

from collections.abc import Callable

import attrs
import pytest

import barwright as bw
from barwright.analysis.tolerance.figures import held_figures
from barwright.parts.record import Record
from barwright.registry.usual.fill import UsualFigures
from sample_packs import discovered_once

SETUP = discovered_once().setup("fells:chassis/short", corner="front left")


def among(*fields: str) -> Callable[[Record, str], bool]:
    """Take the figures of some fields for unknown."""
    return lambda _, field: field in fields


def filled(setup: bw.Setup, *fields: str) -> bw.Setup:
    """The corner with usual figures in some fields."""
    return UsualFigures(among(*fields)).put_into(setup)


def test_a_usual_figure_takes_the_place_of_an_unknown_one() -> None:
    axle = filled(SETUP, "tyre_rate").axle
    figure = axle.about["tyre_rate"]

    assert axle.tyre_rate.m_as("N/mm") == 210.0
    assert figure.tolerance is not None
    assert figure.tolerance.m_as("N/mm") == 90.0
    assert figure.source == "standards:usual/tyre-rate"
    assert figure.source_kind is bw.parts.SourceKind.ESTIMATED
    # What is known beside it stays.
    assert axle.about["droop_stop"] == SETUP.axle.about["droop_stop"]


def test_what_is_known_stays_as_it_is() -> None:
    assert filled(SETUP) is SETUP
    assert filled(SETUP, "droop_stop", "key_angle") is SETUP
    assert filled(SETUP, "tyre_rate").bar is SETUP.bar


def test_a_figure_counts_once_wherever_its_record_stands() -> None:
    setup = filled(SETUP, "tyre_rate", "shear_modulus", "closed_length")
    names = [one.path for one in held_figures(setup) if one.known and "usual" in one.known.source]

    assert setup.axle is setup.chassis.axles[0]
    assert setup.bar is setup.axle.left.bar
    assert {"axle.tyre_rate", "damper.closed_length", "bar.material.shear_modulus"} <= set(names)
    assert len([name for name in names if name.endswith("tyre_rate")]) == 1


def test_setups_that_share_a_record_share_it_still() -> None:
    fill = UsualFigures(among("tyre_rate"))
    other = attrs.evolve(SETUP, nut_turns="1 turn")

    assert fill.put_into(SETUP).axle is fill.put_into(other).axle


def test_a_figure_that_grows_with_an_unknown_one_stays_unknown() -> None:
    @attrs.frozen
    class Gap:
        """What may stand for a figure that nobody knows."""

    damper = SETUP.damper
    holed = attrs.evolve(damper)
    object.__setattr__(holed, "open_length", Gap())

    assert UsualFigures(among("closed_length")).put_into(holed) is holed


def test_the_uncertainty_of_an_answer_carries_it() -> None:
    def shares(setup: bw.Setup) -> set[str]:
        rows = bw.tolerance(bw.rates, setup).rows
        return {share.figure for row in rows for share in row.shares}

    assert "axle.tyre_rate" not in shares(SETUP)
    assert "axle.tyre_rate" in shares(filled(SETUP, "tyre_rate"))


@pytest.mark.parametrize("field", ["tyre_rate", "shear_modulus"])
def test_the_answer_names_it_if_it_moves_it(field: str) -> None:
    setup = filled(SETUP, field)

    found = bw.rests_on(setup, questions=[lambda corner: corner.axle.tyre_rate])
    named = [one.source for one in found if one.kind == "estimated"]
    assert named == (["standards:usual/tyre-rate"] if field == "tyre_rate" else [])
