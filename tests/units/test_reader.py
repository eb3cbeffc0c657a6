"""Tests of `barwright.units.reader`: what is read, what is refused, and what is said about it."""

from __future__ import annotations

import time
from decimal import Decimal

import numpy as np
import pint
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy import constants

from barwright.errors import QuantityError
from barwright.units import (
    ANGLE,
    ENERGY,
    FORCE,
    KINDS,
    LENGTH,
    MASS,
    SHEAR_MODULUS,
    STRESS,
    TORQUE,
    TORSIONAL_RATE,
    TURNS,
    WHEEL_RATE,
    Kind,
    Range,
    WrittenFigure,
    check_range,
    read_figure,
    si,
    to_kind,
    unit_spelling,
)
from each_case import each_case
from other_registry import OTHER


def refusal(value: object, kind: Kind = LENGTH, allowed: Range = "any") -> QuantityError:
    """The error that a value is refused with."""
    with pytest.raises(QuantityError) as caught:
        to_kind(value, kind, key="field", allowed=allowed)
    return caught.value


# SI units in one of each spelling, from scipy's table of constants.
FACTORS = {
    "km": constants.kilo,
    "mi": constants.mile,
    "h": constants.hour,
    "year": constants.Julian_year,
    "mm": constants.milli,
    "cm": constants.centi,
    "m": 1.0,
    "in": constants.inch,
    "ft": constants.foot,
    "deg": constants.degree,
    "rad": 1.0,
    "turn": 1.0,
    "kg": 1.0,
    "lb": constants.pound,
    "N": 1.0,
    "kN": constants.kilo,
    "lbf": constants.pound_force,
    "N*m": 1.0,
    "lbf*ft": constants.pound_force * constants.foot,
    "lbf*in": constants.pound_force * constants.inch,
    "N/mm": constants.kilo,
    "N/m": 1.0,
    "lbf/in": constants.pound_force / constants.inch,
    "N*s/m": 1.0,
    "N*s/mm": constants.kilo,
    "lbf*s/in": constants.pound_force / constants.inch,
    "N*m/deg": 1.0 / constants.degree,
    "N*m/rad": 1.0,
    "lbf*ft/deg": constants.pound_force * constants.foot / constants.degree,
    "lbf*in/deg": constants.pound_force * constants.inch / constants.degree,
    "MPa": constants.mega,
    "GPa": constants.giga,
    "psi": constants.psi,
    "ksi": constants.psi * constants.kilo,
    "J": 1.0,
    "ft*lbf": constants.foot * constants.pound_force,
    "Hz": 1.0,
    "kg/m**3": 1.0,
    "mm/turn": constants.milli,
    "in/turn": constants.inch,
}

SPELLINGS = [(kind, unit) for kind in KINDS for unit in kind.units]


def test_every_spelling_has_a_factor_from_outside() -> None:
    assert {unit for _, unit in SPELLINGS} == set(FACTORS)


@each_case("kind, unit", SPELLINGS)
def test_every_spelling_of_every_kind_is_read(kind: Kind, unit: str) -> None:
    value = to_kind(f"1.25 {unit}", kind, key="field")

    assert value.magnitude == 1.25
    assert unit_spelling(value) == unit
    assert si(value, kind) == pytest.approx(1.25 * FACTORS[unit], rel=1e-14)


@each_case("kind, unit", SPELLINGS)
def test_every_spelling_is_the_unit_that_pint_calls_by_that_name(kind: Kind, unit: str) -> None:
    other = OTHER.Quantity(1.25, {"ft*lbf": "foot_pound"}.get(unit, unit))

    accepted = to_kind(other, kind, key="field")

    for read in (accepted, to_kind(f"1.25 {unit}", kind, key="field")):
        assert si(read, kind) == pytest.approx(float(other.m_as(kind.si_unit)), rel=1e-13)


@each_case(
    "text, value, tolerance",
    [
        ("742.0 mm", "742.0 mm", None),
        ("742mm", "742 mm", None),
        ("  742\tmm \n", "742 mm", None),
        ("742\u00a0mm", "742 mm", None),
        ("+742 mm", "742 mm", None),
        (".5 mm", "0.5 mm", None),
        ("5. mm", "5 mm", None),
        ("1e2 mm", "100 mm", None),
        ("1.5E-1 mm", "0.15 mm", None),
        ("742.0 mm ± 0.4 mm", "742.0 mm", "0.4 mm"),
        ("742.0 mm±0.4 mm", "742.0 mm", "0.4 mm"),
        ("742.0mm+/-0.4mm", "742.0 mm", "0.4 mm"),
        ("742.0 mm +/- 0.4 mm", "742.0 mm", "0.4 mm"),
        ("1 in ± 0.4 mm", "1 in", "0.4 mm"),
        ("742.0 mm +0.4 mm -0.1 mm", "742.15 mm", "0.25 mm"),
        ("742mm+0.4mm -0.1mm", "742.15 mm", "0.25 mm"),
        ("742 mm +0.4 mm 0", "742.2 mm", "0.2 mm"),
        ("742 mm 0 -0.1 mm", "741.95 mm", "0.05 mm"),
        ("742 mm +0 mm -0.10 mm", "741.95 mm", "0.05 mm"),
        ("25 mm -0.02 mm -0.041 mm", "24.9695 mm", "0.0105 mm"),
        ("25 mm +0.3 mm +0.1 mm", "25.2 mm", "0.1 mm"),
        ("1 in +2.54 mm 0", "1.05 in", "0.05 in"),
        ("741 mm to 743 mm", "742 mm", "1 mm"),
        ("-1mm to  743mm", "371 mm", "372 mm"),
        ("1 in to 50.8 mm", "1.5 in", "0.5 in"),
    ],
)
def test_ways_to_write_a_figure(text: str, value: str, tolerance: str | None) -> None:
    reading = read_figure(text, LENGTH, key="field")

    assert reading.value == to_kind(value, LENGTH, key="")
    expected = None if tolerance is None else to_kind(tolerance, LENGTH, key="")
    assert reading.tolerance == expected


def test_a_raised_dot_is_a_product() -> None:
    assert to_kind("12 N·m/deg", TORSIONAL_RATE, key="") == to_kind(
        "12 N*m/deg", TORSIONAL_RATE, key=""
    )


@given(
    number=st.decimals(min_value=-100_000, max_value=100_000, allow_nan=False, places=7),
    pick=st.sampled_from(SPELLINGS),
)
def test_any_decimal_is_read_to_the_last_digit(number: Decimal, pick: tuple[Kind, str]) -> None:
    kind, unit = pick

    value = to_kind(f"{number} {unit}", kind, key="field")

    assert value.magnitude == float(number)
    again = to_kind(f"{value.magnitude!r} {unit_spelling(value)}", kind, key="field")
    assert again.magnitude == value.magnitude


REFUSALS: list[tuple[object, Kind, str, str]] = [
    ("25,4 mm", LENGTH, "Q101", "write '25.4 mm'"),
    ("25.4 mm ± 1.2.3 mm", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("25,4 mm ± 0,1 mm", LENGTH, "Q101", "write '25.4 mm ± 0.1 mm'"),
    ("25,4", LENGTH, "Q101", "write '25.4 mm'"),
    ("25,4 km", LENGTH, "Q101", "write 25.4 and one of mm, cm, m, in or ft"),
    ("1,234.5 mm", LENGTH, "Q101", "write '1234.5 mm'"),
    ("742 ± 0.4 mm", LENGTH, "Q105", "write '742 mm ± 0.4 mm'"),
    ("349 mm ± 5", LENGTH, "Q105", "write '349 mm ± 5 mm'"),
    ("326 kg +- 1 kg", MASS, "Q104", "write '326 kg ± 1 kg'"),
    ("742 ± 0.4 km", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("13 3/4 in ± 1/8 in", LENGTH, "Q102", "write '13.75 in', and its tolerance likewise"),
    ("-1/2 in.", LENGTH, "Q102", "write '-0.5 in'"),
    ("1,250 mm", LENGTH, "Q101", "write '1.250 mm' or '1250 …'"),
    ("1,250,000 mm", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("1 1/4 in", LENGTH, "Q102", "write '1.25 in'"),
    ("1-1/4 inch", LENGTH, "Q102", "write '1.25 in'"),
    ("3/4 in", LENGTH, "Q102", "write '0.75 in'"),
    ("1 1/64 in", LENGTH, "Q102", "write '1.015625 in'"),
    ('3/4"', LENGTH, "Q102", "write '0.75 in'"),
    ("3/0 in", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ('1"', LENGTH, "Q103", "write '1 in'"),
    ('13.7"', LENGTH, "Q103", "write '13.7 in'"),
    ("1″", LENGTH, "Q103", "write '1 in'"),
    ("1''", LENGTH, "Q103", "write '1 in'"),
    ("1'", LENGTH, "Q103", "write '1 ft'"),
    ("5' 6\"", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("14'", ANGLE, "Q104", "write it like '12.5 deg', in deg or rad"),
    ("9**9**9 mm", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("   ", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("mm", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("MM", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("1" * 100_000 + " mm", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("x" * 100_000, LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("25 mm ± 1", LENGTH, "Q105", "write '25 mm ± 1 mm'"),
    ("٢٥ mm", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("1_000 mm", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("0x10 mm", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    (b"25 mm", LENGTH, "Q104", "write it as text, in mm, cm, m, in or ft"),
    (True, LENGTH, "Q104", "write it as text, in mm, cm, m, in or ft"),
    (None, LENGTH, "Q104", "write it as text, in mm, cm, m, in or ft"),
    (["25 mm"], LENGTH, "Q104", "write it as text, in mm, cm, m, in or ft"),
    (pint.Quantity([1, 2], "mm"), LENGTH, "Q104", "give one figure, not several"),
    (pint.Quantity(1 + 2j, "mm"), LENGTH, "Q104", "give one figure, not several"),
    ("25", LENGTH, "Q105", "write '25 mm', in mm, cm, m, in or ft"),
    ("349.5", LENGTH, "Q105", "write '349.5 mm', in mm, cm, m, in or ft"),
    ("1e5", LENGTH, "Q105", "write '1e5 mm', in mm, cm, m, in or ft"),
    (25, LENGTH, "Q105", "write '25 mm', in mm, cm, m, in or ft"),
    (1234.56789, LENGTH, "Q105", "write '1234.56789 mm', in mm, cm, m, in or ft"),
    (77, SHEAR_MODULUS, "Q105", "write '77 GPa', in GPa, MPa, psi or ksi"),
    ("5 Nm", TORQUE, "Q201", "write '5 N*m'"),
    ("5 N-m", TORQUE, "Q201", "write '5 N*m'"),
    ("5 in-lb", TORQUE, "Q201", "write '5 lbf*in'"),
    ("5 lb·ft", TORQUE, "Q201", "write '5 lbf*ft'"),
    ("5 Nm/deg", TORSIONAL_RATE, "Q201", "write '5 N*m/deg'"),
    ("300 lb/in", WHEEL_RATE, "Q201", "write '300 lbf/in'"),
    ("25 MM", LENGTH, "Q201", "write '25 mm'"),
    ("25 Mm", LENGTH, "Q201", "write '25 mm'"),
    ("25 inches", LENGTH, "Q201", "write '25 in'"),
    ("25 inches ± 1 inches", LENGTH, "Q201", "write 'in' for 'inches'"),
    ("14°", ANGLE, "Q201", "write '14 deg'"),
    ("3 turns", TURNS, "Q201", "write '3 turn'"),
    ("300 lbs", MASS, "Q201", "write '300 lb'"),
    ("900 N/mm2", STRESS, "Q201", "write '900 MPa'"),
    ("25 mm ± 2 %", LENGTH, "Q303", "write it in mm, cm, m, in or ft"),
    ("14 deg ± 2 %", ANGLE, "Q303", "write it in deg or rad"),
    ("1 turn +2 % 0", TURNS, "Q303", "write it in turn"),
    ("0 kg ± 2 %", MASS, "Q303", "write it in kg or lb"),
    ("77 ± 5 %", SHEAR_MODULUS, "Q105", "write '77 GPa ± 5 %'"),
    ("77 GPa ± 5 percent", SHEAR_MODULUS, "Q201", "write '%' for 'percent'"),
    ("77 GPa ± 0 %", SHEAR_MODULUS, "Q303", "leave the tolerance out if it is not known"),
    ("742 mm +0.4/-0.1", LENGTH, "Q105", "write '742 mm +0.4 mm -0.1 mm'"),
    ("742 +0.4/-0.1", LENGTH, "Q105", "write '742 mm +0.4 mm -0.1 mm'"),
    ("742 mm +0.4/0", LENGTH, "Q105", "write '742 mm +0.4 mm 0'"),
    ("742 mm -0.1/+0.4", LENGTH, "Q105", "write '742 mm +0.4 mm -0.1 mm'"),
    ("742 mm +0.4 mm/-0.1 mm", LENGTH, "Q104", "write '742 mm +0.4 mm -0.1 mm'"),
    ("742 mm +0.4mm/-0.1mm", LENGTH, "Q104", "write '742 mm +0.4mm -0.1mm'"),
    ("742 mm +0.4 -0.1 mm", LENGTH, "Q105", "write '742 mm +0.4 mm -0.1 mm'"),
    ("742 mm + 0.4 mm - 0.1 mm", LENGTH, "Q104", "write '742 mm +0.4 mm -0.1 mm'"),
    ("742 mm +0,4 mm -0,1 mm", LENGTH, "Q101", "write '742 mm +0.4 mm -0.1 mm'"),
    ("742 mm +0.4/-0.1 km", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("−742 mm", LENGTH, "Q104", "write '-742 mm'"),
    ("742 mm +0.4 kg -0.1 mm", LENGTH, "Q202", "give it in mm, cm, m, in or ft"),
    ("742 mm -0.1 mm +0.4 mm", LENGTH, "Q303", "write '742 mm +0.4 mm -0.1 mm'"),
    ("742 mm 0 +0.4 mm", LENGTH, "Q303", "write '742 mm +0.4 mm 0'"),
    ("742 mm 0 0", LENGTH, "Q303", "leave the tolerance out if it is not known"),
    ("742 mm +1 mm +1 mm", LENGTH, "Q303", "leave the tolerance out if it is not known"),
    ("742 mm 0", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    (
        *("742 mm +0.4 mm", LENGTH, "Q303"),
        "write '742 mm +0.4 mm 0' if it is never less, or '742 mm ± 0.4 mm'",
    ),
    (
        *("742 mm -0.1mm", LENGTH, "Q303"),
        "write '742 mm 0 -0.1 mm' if it is never more, or '742 mm ± 0.1 mm'",
    ),
    ("741-743 mm", LENGTH, "Q105", "write '741 mm to 743 mm'"),
    ("741 mm - 743 mm", LENGTH, "Q105", "write '741 mm to 743 mm'"),
    ("741 … 743 mm", LENGTH, "Q105", "write '741 mm to 743 mm'"),
    ("741 to 743", LENGTH, "Q105", "write '741 mm to 743 mm'"),
    ("741 to 743 km", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
    ("743 mm to 741 mm", LENGTH, "Q303", "write '741 mm to 743 mm'"),
    ("743 mm to 743 mm", LENGTH, "Q303", "write '743 mm'"),
    ("741 mm to 743 kg", LENGTH, "Q202", "give it in mm, cm, m, in or ft"),
    ("25 thou", LENGTH, "Q201", "give it in mm, cm, m, in or ft"),
    ("25 kg", LENGTH, "Q202", "give it in mm, cm, m, in or ft"),
    ("5 J", TORQUE, "Q202", "give it in N*m, lbf*ft or lbf*in"),
    ("5 N*m", ENERGY, "Q202", "give it in J or ft*lbf"),
    ("5 N*m", TORSIONAL_RATE, "Q202", "give it in N*m/deg, N*m/rad, lbf*ft/deg or lbf*in/deg"),
    ("5 N*m/rad", TORQUE, "Q202", "give it in N*m, lbf*ft or lbf*in"),
    ("1 turn", ANGLE, "Q202", "give it in deg or rad"),
    ("90 deg", TURNS, "Q202", "give it in turn"),
    ("30 lb", FORCE, "Q202", "give it in N, kN or lbf"),
    ("nan", LENGTH, "Q301", "measure it"),
    ("nan mm", LENGTH, "Q301", "measure it"),
    ("inf mm", LENGTH, "Q301", "measure it"),
    ("-inf mm", LENGTH, "Q301", "measure it"),
    ("1e400 mm", LENGTH, "Q301", "measure it"),
    (float("nan"), LENGTH, "Q301", "measure it, and write it as text, in mm, cm, m, in or ft"),
    (float("inf"), LENGTH, "Q301", "measure it, and write it as text, in mm, cm, m, in or ft"),
    (10**400, LENGTH, "Q301", "measure it, and write it as text, in mm, cm, m, in or ft"),
    (pint.Quantity(float("nan"), "mm"), LENGTH, "Q301", "measure it"),
    (pint.Quantity(float("-inf"), "thou"), LENGTH, "Q301", "measure it"),
    ("1e300 mm", LENGTH, "Q302", "check the unit and the exponent"),
    ("1e9 GPa", STRESS, "Q302", "check the unit and the exponent"),
    ("25 mm ± 0 mm", LENGTH, "Q303", "leave the tolerance out if it is not known"),
    ("25 mm ± -1 mm", LENGTH, "Q303", "leave the tolerance out if it is not known"),
    ("25 mm ± 1e400 mm", LENGTH, "Q303", "leave the tolerance out if it is not known"),
    ("25 mm ± 1e300 mm", LENGTH, "Q303", "leave the tolerance out if it is not known"),
    ("25 mm ± 1 kg", LENGTH, "Q202", "give it in mm, cm, m, in or ft"),
]


def test_a_tolerance_is_refused_where_it_would_be_lost() -> None:
    error = refusal("25.4 mm ± 0.1 mm", LENGTH)

    assert (error.code, error.key) == ("Q303", "field")
    assert error.remedy == "leave it out, or give a Figure in about"
    assert str(read_figure("25.4 mm ± 0.1 mm", LENGTH, key="field").tolerance) == "0.1 millimeter"


@each_case("value, kind, code, remedy", REFUSALS)
def test_a_refusal_says_what_to_write(value: object, kind: Kind, code: str, remedy: str) -> None:
    error = refusal(value, kind)

    assert (error.code, error.remedy, error.key) == (code, remedy, "field")
    assert kind.name in error.expected or code in {"Q301", "Q302", "Q303"}


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("25 km", LENGTH),
        ("25 µm", LENGTH),
        ("0.5 kNm", TORQUE),
        ("30 kgf", FORCE),
        ("5 kPa", STRESS),
    ],
)
def test_a_remedy_never_turns_one_unit_into_another(text: str, kind: Kind) -> None:
    """A unit that only looks like a listed one would be another figure."""
    assert refusal(text, kind).remedy.startswith("give it in")


@pytest.mark.parametrize(
    ("allowed", "right", "wrong"),
    [
        ("positive", ["1e-11 m", "1 mm"], ["0 mm", "-0 mm", "-1 mm", "1e-300 mm", "1e-330 mm"]),
        ("zero or more", ["0 mm", "1e-300 mm"], ["-1e-9 mm"]),
        ("zero or less", ["0 mm", "-1 mm"], ["1e-9 mm"]),
        ("any", ["-1 mm", "1e-300 mm"], ["1e16 m", "-1e16 m"]),
    ],
)
def test_what_no_real_part_can_have(allowed: Range, right: list[str], wrong: list[str]) -> None:
    for text in right:
        check_range(to_kind(text, LENGTH, key="", allowed=allowed), key="", allowed=allowed)
    for text in wrong:
        assert refusal(text, allowed=allowed).code == "Q302"


def read_or_refused(text: str, kind: Kind, allowed: Range = "any") -> WrittenFigure | QuantityError:
    """What a text is read as, or the error that it is refused with."""
    try:
        return read_figure(text, kind, key="field", allowed=allowed)
    except QuantityError as error:
        return error


@each_case(
    "text, allowed, code",
    [
        ("0 mm to 3 mm", "positive", "Q302"),
        ("3 mm +1 mm -3 mm", "positive", "Q302"),
        ("0 mm +1 mm -0.5 mm", "zero or more", "Q302"),
        ("0 mm +1 mm 0", "zero or more", ""),
        ("0 mm ± 5 %", "zero or more", "Q303"),
        ("3 mm ± 100 %", "positive", "Q303"),
        ("3 mm ± 99 %", "positive", ""),
        ("-3 mm ± 50 %", "zero or less", ""),
        ("3 mm -3 mm", "positive", "Q302"),
        ("3 mm +1e300 mm 0", "positive", "Q302"),
    ],
)
def test_both_limits_must_be_possible(text: str, allowed: Range, code: str) -> None:
    outcome = read_or_refused(text, LENGTH, allowed)

    assert (outcome.code if isinstance(outcome, QuantityError) else "") == code


@pytest.mark.parametrize(
    ("text", "kind", "value", "tolerance"),
    [
        ("77.2 GPa ± 5 %", SHEAR_MODULUS, "77.2 GPa", "3.86 GPa"),
        ("77.2 GPa±5%", SHEAR_MODULUS, "77.2 GPa", "3.86 GPa"),
        ("48 N·m/deg ± 10 %", TORSIONAL_RATE, "48 N*m/deg", "4.8 N*m/deg"),
        ("-0.4 N/mm ± 50 %", WHEEL_RATE, "-0.4 N/mm", "0.2 N/mm"),
        ("200 N +10 % -5 %", FORCE, "205 N", "15 N"),
    ],
)
def test_a_share_is_of_the_figure(text: str, kind: Kind, value: str, tolerance: str) -> None:
    reading = read_figure(text, kind, key="")

    assert reading.value == to_kind(value, kind, key="")
    assert reading.tolerance == to_kind(tolerance, kind, key="")
    assert reading.written == text


def test_what_value_and_tolerance_do_not_say_is_kept_as_written() -> None:
    for text in ("742 mm", "742 mm ± 1 mm"):
        assert read_figure(text, LENGTH, key="").written == ""
    assert read_figure(" 741 mm  to 743 mm", LENGTH, key="").written == "741 mm to 743 mm"


def test_one_limit_leaves_the_tolerance_unknown_where_that_will_do() -> None:
    reading = read_figure("742 mm +0.4 mm", LENGTH, key="", one_limit=True)

    assert reading == WrittenFigure(to_kind("742 mm", LENGTH, key=""), None, "742 mm +0.4 mm")


TENTHS = st.integers(min_value=-9999, max_value=9999).map(lambda n: Decimal(n) / 10)


@given(
    nominal=TENTHS,
    limits=st.tuples(TENTHS, TENTHS).filter(lambda pair: pair[0] != pair[1]).map(sorted),
    pick=st.sampled_from(SPELLINGS),
)
def test_limits_are_read_back_as_they_are_written(
    nominal: Decimal, limits: list[Decimal], pick: tuple[Kind, str]
) -> None:
    """As deviations from a figure and as a range; the middle is that of decimal arithmetic."""
    kind, unit = pick
    low, high = limits

    unequal = f"{nominal} {unit} {high:+} {unit} {low:+} {unit}"
    between = f"{nominal + low} {unit} to {nominal + high} {unit}"

    for text in (unequal, between):
        reading = read_figure(text, kind, key="")
        assert reading.tolerance is not None
        assert reading.value.magnitude == float(nominal + (low + high) / 2)
        assert reading.tolerance.magnitude == float((high - low) / 2)
        assert unit_spelling(reading.value) == unit_spelling(reading.tolerance) == unit
        again = read_figure(reading.written, kind, key="")
        assert again == reading


HOSTILE = ["1 mm" + " " * 59 + "x", "1 mm +1" + " " * 50 + "x", "1 " * 32, "1mm" + "-1" * 30]
HOSTILE += ["1 to " * 12, "1 m" + " 0" * 30, "1 mm" + " +1" * 20, "+" * 64, "1 mm +1 mm/" * 5]


@pytest.mark.parametrize("text", HOSTILE)
def test_no_text_keeps_the_reader_busy(text: str) -> None:
    started = time.process_time()

    refusal(text)

    assert time.process_time() - started < 0.1


NEAR_FIGURES = st.text(alphabet="0123456789.,eE+-±/*·'\"° mnNlbfindegkPaµ%\t", max_size=80)


@given(text=st.text() | NEAR_FIGURES, kind=st.sampled_from(KINDS))
@example(text="9**9**9 mm", kind=LENGTH)
@example(text="1e999 mm", kind=LENGTH)
@example(text="1/0 mm", kind=LENGTH)
def test_any_text_is_a_figure_or_refused(text: str, kind: Kind) -> None:
    outcome = read_or_refused(text, kind)

    if isinstance(outcome, QuantityError):
        assert outcome.code.startswith("Q")
        assert outcome.remedy
    else:
        assert np.isfinite(outcome.value.magnitude)
        assert unit_spelling(outcome.value) in kind.units


@given(
    value=st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.binary()
    | st.complex_numbers()
)
def test_anything_but_text_and_quantities_is_refused(value: object) -> None:
    assert refusal(value).code in {"Q104", "Q105", "Q301"}


@pytest.mark.parametrize(
    ("text", "kind", "remedy"),
    [
        ("25 inches +/- 1 inches", LENGTH, "write 'in' for 'inches'"),
        ("25 inches ± 1 inches", LENGTH, "write 'in' for 'inches'"),
        ("25 inches", LENGTH, "write '25 in'"),
        ("25,4 mm +/- 0.1 mm", LENGTH, "write '25.4 mm +/- 0.1 mm'"),
        ("12 n·m", TORQUE, "write '12 N*m'"),
        ("12 lb·ft", TORQUE, "write '12 lbf*ft'"),
    ],
)
def test_what_is_meant_is_told_with_its_tolerance_or_its_dot(
    text: str, kind: Kind, remedy: str
) -> None:
    assert refusal(text, kind).remedy == remedy


def test_advice_is_given_on_texts_as_long_as_a_figure_may_be() -> None:
    longest = "2" * 59 + ",4 mm"

    assert len(longest) == 64
    assert ".4 mm'" in refusal(longest).remedy
    assert refusal("2" + longest).remedy.startswith("write it like '12.5 mm'")


def test_the_largest_figure_is_a_figure() -> None:
    assert to_kind("1e15 m", LENGTH, key="").m_as("m") == 1e15
    assert refusal("1e16 m").expected == "between 1e-12 and 1e+15 of its SI unit"


@pytest.mark.parametrize(
    ("text", "kind", "meant"),
    [
        ("25 milimeter", LENGTH, "25 mm"),
        ("25 milimetres", LENGTH, "25 mm"),
        ("2.5 inchs", LENGTH, "2.5 in"),
        ("12 degres", ANGLE, "12 deg"),
    ],
)
def test_a_unit_that_is_written_out_with_a_slip_is_understood(
    text: str, kind: Kind, meant: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        read_figure(text, kind, key="field")
    assert (caught.value.code, caught.value.remedy) == ("Q201", f"write '{meant}'")


def test_a_unit_of_something_else_is_no_slip() -> None:
    with pytest.raises(QuantityError) as caught:
        read_figure("25 newtn", LENGTH, key="field")
    assert caught.value.remedy == "give it in mm, cm, m, in or ft"
