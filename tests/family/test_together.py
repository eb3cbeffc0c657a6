"""What columns answer of a pair is what the pair answers by itself."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import attrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.family.corner import FamilyCorner
from barwright.family.row import FIGURES, PlainRow, blank_row
from barwright.family.together import answered_together
from draws import draws
from each_case import each_case
from gaps import without
from sample_records import make_bar, make_end, make_setup
from setup_strategies import corners

DEMO = bw.Registry.demo()
SETUP = make_setup()
THICK = [make_bar(diameter=f"{diameter} mm") for diameter in (22, 23, 24, 25)]


def alone(corner: FamilyCorner, bar: bw.parts.Bar) -> PlainRow:
    """The answers of a pair that is asked about by itself."""
    found: PlainRow = {}
    for more in corner.answers(bar):
        found |= more
    return blank_row(**corner.named(bar), **found)


def agree(one: PlainRow, other: PlainRow) -> bool:
    return all(
        math.isclose(one[name], other[name], rel_tol=1e-11, abs_tol=1e-12)
        if name in FIGURES and None not in (one[name], other[name])
        else one[name] == other[name]
        for name in one
    )


def both(corner: FamilyCorner, bars: Sequence[bw.parts.Bar]) -> list[tuple[PlainRow, PlainRow]]:
    """The rows of pairs that columns answer, and what each answers by itself."""
    found = answered_together([(corner, bar) for bar in bars])
    return [
        (blank_row(**corner.named(bar), **answer), alone(corner, bar))
        for bar, answer in zip(bars, found, strict=True)
        if answer is not None
    ]


DIAMETERS = st.lists(st.integers(190, 300), min_size=3, max_size=5)


@settings(max_examples=draws(25))
@given(corners(), st.sampled_from(["its own", "asked for"]), DIAMETERS)
def test_both_agree_on_all_linkages_and_anchorages(
    drawn: tuple[bw.Setup, str], height_is: str, diameters: list[int]
) -> None:
    setup, height = drawn
    wanted = None if height_is == "its own" else bw.Wanted(height=height).height
    bars = [attrs.evolve(setup.bar, diameter=f"{tenths / 10} mm") for tenths in diameters]
    for one, other in both(FamilyCorner(setup, wanted), bars):
        assert agree(one, other), (one, other)


@pytest.mark.parametrize("height", [None, "360 mm"])
def test_both_agree_on_every_pair_of_the_demo(height: str | None) -> None:
    wanted = None if height is None else bw.Wanted(height=height).height
    bars = [DEMO.bar(id_) for id_ in DEMO.ids("bar")]
    answered = 0
    for vehicle in DEMO.vehicles():
        for corner in (f"{vehicle.axles[0].place.value} {side}" for side in ("left", "right")):
            setup = DEMO.setup(vehicle.id, corner=corner)
            own = [bar for bar in bars if bar.arm_end.teeth == setup.arm.socket.teeth]
            rows = both(FamilyCorner(setup, wanted), own)
            assert all(agree(one, other) for one, other in rows)
            answered += len(rows)
    assert answered > 20


def test_changes_and_reasons_are_told_as_by_themselves() -> None:
    setup = DEMO.setup("fells:chassis/short", corner="front left")
    handed = DEMO.bar("fells:bar/short-angled-right"), DEMO.bar("fells:bar/short-preset-right")
    bars = [
        attrs.evolve(bar, diameter=f"{tenths / 10} mm")
        for bar in handed
        for tenths in (228, 230, 232)
    ]
    rows = both(FamilyCorner(setup, None), bars)
    assert {row["fit"] for row, _ in rows} == {"fits with changes", "does not fit"}
    assert all(row["changes"] or row["reason"] for row, _ in rows)
    assert len(rows) == len(bars)


def test_several_corners_are_answered_at_once() -> None:
    heavy = attrs.evolve(SETUP, load=bw.parts.Load(kind=SETUP.load.kind, mass="300 kg"))
    pairs = [(FamilyCorner(setup, None), bar) for setup in (SETUP, heavy) for bar in THICK[:2]]
    found = answered_together(pairs)
    for (corner, bar), answer in zip(pairs, found, strict=True):
        assert answer is not None
        assert agree(blank_row(**corner.named(bar), **answer), alone(corner, bar))


HEAVY = attrs.evolve(SETUP, load=bw.parts.Load(kind=SETUP.load.kind, mass="4000 kg"))
ALONE: dict[str, tuple[bw.Setup, list[bw.parts.Bar], str | None]] = {
    "few": (SETUP, THICK[:2], None),
    "an unknown figure of the bar": (
        SETUP,
        [without(bar, "diameter") for bar in THICK],
        None,
    ),
    "an unknown figure of the corner": (without(SETUP, "axle.tyre_rate"), THICK, None),
    "bars of other kinds": (
        SETUP,
        [
            make_bar(),
            make_bar(bore="9 mm"),
            make_bar(paint="red", arm_end=make_end(39, nose="5 mm", nose_diameter="20 mm")),
        ],
        None,
    ),
    "an error": (HEAVY, THICK, None),
    "a height out of reach": (SETUP, THICK, "900 mm"),
    "teeth that no bar has": (attrs.evolve(SETUP, arm_tooth=38), [make_bar(30)] * 3, None),
}


@each_case("case", ALONE)
def test_whatever_columns_cannot_tell_is_left_to_the_pair(case: str) -> None:
    setup, bars, height = ALONE[case]
    wanted = None if height is None else bw.Wanted(height=height).height
    assert answered_together([(FamilyCorner(setup, wanted), bar) for bar in bars]) == [None] * len(
        bars
    )


def test_bars_with_fillets_are_answered_with_their_like_alone() -> None:
    ends: dict[str, Any] = {
        "arm_end": attrs.evolve(SETUP.bar.arm_end, taper="0 mm", fillet_radius="4 mm"),
        "anchor_end": attrs.evolve(SETUP.bar.anchor_end, taper="0 mm", fillet_radius="4 mm"),
    }
    bars = [attrs.evolve(bar, **ends) for bar in THICK[:2]]
    corners_ = [
        FamilyCorner(
            attrs.evolve(SETUP, load=bw.parts.Load(kind=SETUP.load.kind, mass=f"{mass} kg")), None
        )
        for mass in (280, 290, 300)
    ]
    pairs = [(corner, bar) for corner in corners_ for bar in bars]
    for (corner, bar), answer in zip(pairs, answered_together(pairs), strict=True):
        assert answer is not None
        assert agree(blank_row(**corner.named(bar), **answer), alone(corner, bar))
