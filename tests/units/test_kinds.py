"""What a reader of either system is given, and what a shop may write that is no unit here."""

from __future__ import annotations

import pytest

from barwright.errors import QuantityError
from barwright.units import HEIGHT_PER_TURN, LENGTH, STRESS, in_system, shown, to_kind
from barwright.units.kinds import KINDS, SYSTEMS, Kind, a_kind
from barwright.units.slips import MEANT
from each_case import each_case

# Written down by hand: a kind as messages name it, and its unit in either system.
GIVEN = {
    "a length": ("mm", "in"),
    "an angle": ("deg", "deg"),
    "a number of nut turns": ("turn", "turn"),
    "a mass": ("kg", "lb"),
    "a force": ("N", "lbf"),
    "a torque": ("N*m", "lbf*ft"),
    "an energy": ("J", "ft*lbf"),
    "a rate at the wheel": ("N/mm", "lbf/in"),
    "a change of gas force with length": ("N/mm", "lbf/in"),
    "a damping rate": ("N*s/m", "lbf*s/in"),
    "a torsional rate": ("N*m/deg", "lbf*ft/deg"),
    "a stress": ("MPa", "ksi"),
    "a shear modulus": ("GPa", "ksi"),
    "a density": ("kg/m**3", "kg/m**3"),
    "a frequency": ("Hz", "Hz"),
    "a height per nut turn": ("mm/turn", "in/turn"),
    "a distance on the road": ("km", "mi"),
    "a time in use": ("year", "year"),
}
METRIC = {metric for metric, _ in GIVEN.values()} | {"kN", "N/m", "N*s/mm", "N*m/rad", "rad", "h"}
INCH = {inch for _, inch in GIVEN.values()} | {"ft", "psi", "lbf*in", "lbf*in/deg", "rad", "h"}

# What shops write, and what they mean by it.
SLANG = {
    "N*m": ("nm", "n-m", "n.m"),
    "N*m/deg": ("nm/deg", "n*m/°", "nm/°"),
    "N*m/rad": ("nm/rad",),
    "lbf/in": ("lb/in", "lbs/in", "lb/inch", "lbs/inch"),
    "lbf*in": ("lb-in", "in-lb", "in-lbs", "lb*in", "lbf-in"),
    "lbf*ft": ("lb-ft", "ft-lb", "ft-lbs", "lb*ft", "ft*lb", "lbf-ft"),
    "lbf*ft/deg": ("ft-lb/deg", "lb-ft/deg"),
    "lb": ("lbs",),
    "kg": ("kgs",),
    "in": ("inch", "inches", '"', "″"),
    "ft": ("foot", "feet"),
    "deg": ("°", "degree", "degrees"),
    "turn": ("turns", "rev"),
    "mm/turn": ("mm/rev",),
    "in/turn": ("in/rev",),
    "MPa": ("n/mm2", "n/mm²"),
}


def test_kinds_are_named_and_given_as_the_trade_has_them() -> None:
    first = {
        a_kind(kind): (kind.units[0], SYSTEMS["inch"].get(kind.units[0], kind.units[0]))
        for kind in KINDS
    }

    assert first == GIVEN


@each_case("kind", KINDS)
def test_a_reader_of_one_system_sees_no_unit_of_the_other(kind: Kind) -> None:
    for unit in kind.units:
        metric, inch = (SYSTEMS[system].get(unit, unit) for system in ("metric", "inch"))
        assert metric in METRIC & set(kind.units)
        assert inch in INCH & set(kind.units)


def test_a_figure_in_inches_has_the_digits_that_keep_its_worth() -> None:
    """An inch is 25.4 mm, so that two more digits say as much and a little more; ksi, one."""
    length, stress, rise = (
        to_kind(text, kind, key="")
        for text, kind in (
            ("25.4 mm", LENGTH),
            ("689.5 MPa", STRESS),
            ("2.54 mm/turn", HEIGHT_PER_TURN),
        )
    )

    assert shown(length, 1) == "25.4 mm"
    assert shown(in_system(length, "inch"), 1) == "1.000 in"
    assert shown(in_system(stress, "inch"), 0) == "100.0 ksi"
    assert shown(in_system(rise, "inch"), 1) == "0.100 in/turn"


@each_case("meant, written", [(meant, one) for meant, slang in SLANG.items() for one in slang])
def test_slang_is_refused_with_the_unit_that_is_meant(meant: str, written: str) -> None:
    kind = next(kind for kind in KINDS if meant in kind.units)
    with pytest.raises(QuantityError) as caught:
        to_kind(f"1 {written}", kind, key="")

    assert caught.value.remedy == f"write '1 {meant}'"


def test_no_other_slang_is_known() -> None:
    assert set(MEANT) == {one for slang in SLANG.values() for one in slang}
