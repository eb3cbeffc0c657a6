"""Figures that a pack can be checked by."""

from __future__ import annotations

import inspect
import typing
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.lint.subject.quantities import QUANTITIES
from barwright.registry.packs.load import load_pack
from barwright.units import is_quantity_type, unit_spelling
from sample_packs import GOOD_PACK

PACK = load_pack(GOOD_PACK, origin="")


def records() -> dict[str, Any]:
    """What a figure can be of, by its kind."""
    chassis = PACK.parts["tiny:chassis/one"]
    assert isinstance(chassis, bw.parts.Chassis)
    corner = bw.Setup.standard(chassis, axle=chassis.axles[0], side=bw.parts.Side.LEFT)
    return {
        "chassis": corner,
        "bar": PACK.parts["tiny:bar/one"],
        "tube": PACK.parts["tiny:tube/one"],
    }


RECORDS = records()


# Only a bolt that pushes a key lever is pushed aside by it, and this one's class is not stated.
OF_OTHER_BOLTS = {"bolt.side_thrust_at_bump", "bolt.proof_load"}


@pytest.mark.parametrize("name", QUANTITIES)
def test_every_figure_is_had_in_every_way_and_is_of_its_kind(name: str) -> None:
    quantity = QUANTITIES[name]
    for kind, get in quantity.ways.items():
        value = get(RECORDS[kind])
        assert (value is None) == (name in OF_OTHER_BOLTS)
        assert value is None or unit_spelling(value) == quantity.kind.units[0]


def paths(cls: type[Any], start: str = "") -> set[str]:
    """Path of every single figure that an answer holds."""
    found: set[str] = set()
    for name, hint in typing.get_type_hints(cls).items():
        kinds = [kind for kind in (hint, *typing.get_args(hint)) if kind is not type(None)]
        if any(is_quantity_type(kind) for kind in kinds):
            found.add(start + name)
        for kind in kinds:
            if inspect.isclass(kind) and attrs.has(kind):
                found |= paths(kind, f"{start}{name}.")
    return found


def test_every_figure_of_the_rates_is_among_them() -> None:
    several = {p for p in paths(bw.answers.RateFigures) if p.startswith(("curve.", "heads."))}
    given = {"shear_modulus", "shear_modulus_tolerance"}
    assert paths(bw.answers.RateFigures) - several - given <= set(QUANTITIES)


def test_every_figure_of_the_state_on_the_keys_is_among_them() -> None:
    assert {f"keyed.{path}" for path in paths(bw.answers.CornerState)} <= set(QUANTITIES)


def test_the_rate_of_a_bar_alone_is_that_of_a_bar_held_to_the_ends_of_its_splines() -> None:
    """In the corner some of the head twists too, so that the bar there is a little softer."""
    ways = QUANTITIES["bar_rate"].ways
    alone, carry_out = ways["bar"](RECORDS["bar"]), ways["chassis"](RECORDS["chassis"])
    assert alone is not None
    assert carry_out is not None
    assert 1.0 <= (alone / carry_out).magnitude < 1.02


def test_without_an_answer_there_is_no_figure() -> None:
    corner = RECORDS["chassis"]
    long = attrs.evolve(corner.bar, length="990 mm")
    setup = corner.with_parts(bar=long)
    of_corners = {name: q.ways["chassis"] for name, q in QUANTITIES.items() if "chassis" in q.ways}
    got = {name for name, get in of_corners.items() if get(setup) is not None}
    assert got == {"fit.largest_body"}
