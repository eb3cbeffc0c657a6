"""A tolerance opens the free angle as far as moving the figure itself does."""

from __future__ import annotations

import math
from typing import Any, TypeVar

import attrs
import pytest

import barwright as bw
from barwright.parts.source import Record
from making import fixed_line, make_bar, make_setup, swivelling, tube_of

RecordT = TypeVar("RecordT", bound=Record)
WANTED = bw.Wanted(height="349 mm")
OTHER_STEEL = bw.Material(id="t:material/other", title="Other steel", shear_modulus="77 GPa")


def with_tolerance(record: RecordT, field: str, tolerance: str) -> RecordT:
    figure = bw.Figure(value=getattr(record, field), tolerance=bw.Quantity(tolerance))
    return attrs.evolve(record, about=bw.About({field: figure}))


def opened(setup: bw.Setup) -> float:
    """Tolerance of the free angle [rad]."""
    found = bw.reindex(setup, wanted=WANTED).free_angle_tolerance
    assert found is not None
    return float(found.m_as("rad"))


def moved(low: bw.Setup, high: bw.Setup) -> float:
    """Half of what the free angle changes from one setup to the other [rad]."""
    ends = [bw.reindex(setup, wanted=WANTED).free_angle for setup in (low, high)]
    assert ends[0] is not None
    assert ends[1] is not None
    return abs(float(ends[1].m_as("rad")) - float(ends[0].m_as("rad"))) / 2.0


def with_part(kind: str, part: Any) -> bw.Setup:
    return SETUP.with_parts(**{kind: part})


BAR = make_bar(bore="12 mm")
SETUP = make_setup(bar=BAR)


@pytest.mark.parametrize(
    ("part", "field"),
    [
        ("bar", "diameter"),
        ("bar", "bore"),
        ("tube", "outside_diameter"),
        ("tube", "bore"),
    ],
)
def test_a_diameter_opens_the_free_angle_as_far_as_moving_it_does(part: str, field: str) -> None:
    spread = bw.Quantity("0.05 mm")
    record = SETUP.parts[part]
    middle = getattr(record, field)
    known = with_part(part, with_tolerance(record, field, "0.05 mm"))
    low, high = (
        with_part(part, attrs.evolve(record, **{field: middle + by})) for by in (-spread, spread)
    )

    # The rounds at the bar's heads, which yield less, are taken to scale with its body.
    assert opened(known) == pytest.approx(moved(low, high), rel=0.02)
    assert opened(known) > 0.0


def test_bar_and_tube_of_one_steel_err_together() -> None:
    steel = with_tolerance(BAR.material, "shear_modulus", "1 GPa")
    tube = tube_of(SETUP)

    def of(bar: bw.Material, other: bw.Material) -> bw.Setup:
        return SETUP.with_parts(
            bar=attrs.evolve(BAR, material=bar), tube=attrs.evolve(tube, material=other)
        )

    low, high = (
        of(stiff, stiff)
        for stiff in (attrs.evolve(BAR.material, shear_modulus=g) for g in ("76 GPa", "78 GPa"))
    )
    together = opened(of(steel, steel))
    assert together == pytest.approx(moved(low, high), rel=2e-3)
    # The same tolerance on two steels is two coincidences, which seldom meet.
    other = with_tolerance(OTHER_STEEL, "shear_modulus", "1 GPa")
    alone = opened(of(steel, OTHER_STEEL)), opened(of(BAR.material, other))
    assert together == pytest.approx(sum(alone), rel=1e-6)
    assert opened(of(steel, other)) == pytest.approx(math.hypot(*alone), rel=1e-6)


@pytest.mark.parametrize(
    ("mounting", "field"), [(swivelling(), "pivot_angle"), (fixed_line(), "foot_angle")]
)
def test_the_angle_of_the_bolt_turns_the_lever_with_it(
    mounting: bw.SwivellingMounting | bw.FixedLineMounting, field: str
) -> None:
    known = with_tolerance(mounting, field, "0.5 deg")
    assert opened(make_setup(adjuster={"mounting": known})) == pytest.approx(math.radians(0.5))
