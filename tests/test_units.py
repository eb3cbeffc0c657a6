"""Tests of `barwright.units`: what is read, what is refused, and what is said about it."""

from __future__ import annotations

import copy
import pickle
import subprocess
import sys
import types
from decimal import Decimal
from typing import Any

import numpy as np
import pint
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy import constants

from barwright import units
from barwright.errors import QuantityError
from barwright.units import (
    ANGLE,
    DAMPING_RATE,
    ENERGY,
    FORCE,
    FREQUENCY,
    GAS_SLOPE,
    HEIGHT_PER_TURN,
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
    Quantity,
    Range,
    Reading,
    check_range,
    in_system,
    is_quantity,
    is_quantity_type,
    quantity,
    quantity_of_unit,
    quantity_of_units,
    read_figure,
    same,
    shown,
    si,
    to_kind,
    unit_spelling,
)

OTHER: pint.UnitRegistry[Any] = pint.UnitRegistry()
OTHER.define("cubit_of_tests = 0.5 meter")


def refusal(value: object, kind: Kind = LENGTH, allowed: Range = "any") -> QuantityError:
    """The error that a value is refused with."""
    with pytest.raises(QuantityError) as caught:
        to_kind(value, kind, key="field", allowed=allowed)
    return caught.value


# -- What is read --------------------------------------------------------------

# SI units in one of each spelling, from scipy's table of constants.
FACTORS = {
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


@pytest.mark.parametrize(("kind", "unit"), SPELLINGS)
def test_every_spelling_of_every_kind_is_read(kind: Kind, unit: str) -> None:
    value = to_kind(f"1.25 {unit}", kind, key="field")

    assert value.magnitude == 1.25
    assert unit_spelling(value) == unit
    assert si(value, kind) == pytest.approx(1.25 * FACTORS[unit], rel=1e-14)


@pytest.mark.parametrize(("kind", "unit"), SPELLINGS)
def test_every_spelling_is_the_unit_that_pint_calls_by_that_name(kind: Kind, unit: str) -> None:
    other = OTHER.Quantity(1.25, {"ft*lbf": "foot_pound"}.get(unit, unit))

    accepted = to_kind(other, kind, key="field")

    for read in (accepted, to_kind(f"1.25 {unit}", kind, key="field")):
        assert si(read, kind) == pytest.approx(float(other.m_as(kind.si_unit)), rel=1e-13)


@pytest.mark.parametrize(
    ("text", "value", "tolerance"),
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


# -- What is refused -----------------------------------------------------------

REFUSALS: list[tuple[object, Kind, str, str]] = [
    ("25,4 mm", LENGTH, "Q101", "write '25.4 mm'"),
    ("25,4 mm ± 0,1 mm", LENGTH, "Q101", "write '25.4 mm ± 0.1 mm'"),
    ("25,4", LENGTH, "Q101", "write '25.4 mm'"),
    ("25,4 km", LENGTH, "Q101", "write 25.4 and one of mm, cm, m, in or ft"),
    ("1,234.5 mm", LENGTH, "Q101", "write '1234.5 mm'"),
    ("742 ± 0.4 mm", LENGTH, "Q105", "write '742 mm ± 0.4 mm'"),
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
    ("25 mm ± 1", LENGTH, "Q104", "write it like '12.5 mm', in mm, cm, m, in or ft"),
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
    ("25 mm ± 2 %", LENGTH, "Q201", "give it in mm, cm, m, in or ft"),
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
    assert error.remedy == "leave it out, or give a Figure in the record's about"
    assert str(read_figure("25.4 mm ± 0.1 mm", LENGTH, key="field").tolerance) == "0.1 millimeter"


@pytest.mark.parametrize(
    ("value", "kind", "code", "remedy"), REFUSALS, ids=[repr(r[0])[:30] for r in REFUSALS]
)
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
    ("value", "kind"),
    [
        (OTHER.Quantity(5, "kg"), LENGTH),
        (OTHER.Quantity(5, "joule"), TORQUE),
        (OTHER.Quantity(5, "kWh"), TORQUE),
        (OTHER.Quantity(5, "N*m"), ENERGY),
        (OTHER.Quantity(5, "N*m"), TORSIONAL_RATE),
        (OTHER.Quantity(5, "N*m/rad"), TORQUE),
        (OTHER.Quantity(5, "N*m/rad"), ENERGY),
        (OTHER.Quantity(5, "turn"), ANGLE),
        (OTHER.Quantity(5, "milliturn"), ANGLE),
        (OTHER.Quantity(5, "steradian"), ANGLE),
        (OTHER.Quantity(5, ""), ANGLE),
        (OTHER.Quantity(5, "deg"), TURNS),
        (OTHER.Quantity(5, "mm/mrad"), LENGTH),
        (OTHER.Quantity(5, "mm"), HEIGHT_PER_TURN),
        (OTHER.Quantity(5, "rad/s"), FREQUENCY),
        (OTHER.Quantity(60, "rpm"), FREQUENCY),
        (OTHER.Quantity(5, "lb/in"), WHEEL_RATE),
        (OTHER.Quantity(20, "degC"), LENGTH),
    ],
)
def test_a_quantity_of_another_kind_is_refused(value: Quantity, kind: Kind) -> None:
    """Dimensions alone would let most of these pass."""
    assert refusal(value, kind).code == "Q202"


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


def read_or_refused(text: str, kind: Kind) -> Reading | QuantityError:
    """What a text is read as, or the error that it is refused with."""
    try:
        return read_figure(text, kind, key="field")
    except QuantityError as error:
        return error


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


# -- Quantities of others ------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "kind", "expected", "unit"),
    [
        (OTHER.Quantity(60, "thou"), LENGTH, 1.524, "mm"),
        (OTHER.Quantity(3, "cm"), LENGTH, 3.0, "cm"),
        (OTHER.Quantity(2, "cubit_of_tests"), LENGTH, 1.0, "m"),
        (OTHER.Quantity(0.5, "grade"), ANGLE, 0.45, "deg"),
        (OTHER.Quantity(250, "mrad"), ANGLE, 14.3239448782706, "deg"),
        (OTHER.Quantity(1, "tonne"), MASS, 1000.0, "kg"),
        (OTHER.Quantity(30, "kgf"), FORCE, 294.1995, "N"),
        (OTHER.Quantity(2, "kN*mm"), TORQUE, 2.0, "N*m"),
        (OTHER.Quantity(2, "kWh"), ENERGY, 7.2e6, "J"),
        (OTHER.Quantity(2, "kN/m"), WHEEL_RATE, 2.0, "N/mm"),
        (OTHER.Quantity(2, "kN/m"), GAS_SLOPE, 2.0, "N/mm"),
        (OTHER.Quantity(2, "kN*s/m"), DAMPING_RATE, 2000.0, "N*s/m"),
        (OTHER.Quantity(2, "N*mm/mrad"), TORSIONAL_RATE, 0.0349065850398866, "N*m/deg"),
        (OTHER.Quantity(1, "bar"), STRESS, 0.1, "MPa"),
        (OTHER.Quantity(1, "kHz"), FREQUENCY, 1000.0, "Hz"),
        (OTHER.Quantity(1, "1/s"), FREQUENCY, 1.0, "Hz"),
        (OTHER.Quantity(2, "revolution"), TURNS, 2.0, "turn"),
        (OTHER.Quantity(1, "m/turn"), HEIGHT_PER_TURN, 1000.0, "mm/turn"),
    ],
)
def test_units_that_are_not_listed_are_converted(
    value: Quantity, kind: Kind, expected: float, unit: str
) -> None:
    accepted = to_kind(value, kind, key="field")

    assert accepted.magnitude == pytest.approx(expected, rel=1e-14)
    assert unit_spelling(accepted) == unit


@pytest.mark.parametrize("style", ["~P", "~L", "P", "L", "H", "~C"])
def test_how_another_registry_prints_its_units_does_not_matter(style: str) -> None:
    registry: pint.UnitRegistry[Any] = pint.UnitRegistry()
    registry.formatter.default_format = style

    accepted = to_kind(registry.Quantity(5, "N*m/deg"), TORSIONAL_RATE, key="field")

    assert (accepted.magnitude, unit_spelling(accepted)) == (5.0, "N*m/deg")


def test_units_of_a_registry_that_knows_no_metre_are_refused() -> None:
    registry: pint.UnitRegistry[Any] = pint.UnitRegistry(None)
    registry.define("span_of_tests = [reach]")

    assert refusal(registry.Quantity(5, "span_of_tests")).code == "Q202"


def test_a_conversion_that_the_embedding_program_allows_does_not_change_the_kind() -> None:
    application: Any = pint.get_application_registry()  # type: ignore[no-untyped-call]
    with application.context("spectroscopy"):
        error = refusal(application.Quantity(5.0, "Hz"))

    assert error.code == "Q202"


@pytest.mark.parametrize("number", [25, 25.0, Decimal(25), np.float32(25), np.int64(25)])
def test_a_number_of_any_type_becomes_a_plain_float(number: Any) -> None:
    accepted = to_kind(OTHER.Quantity(number, "mm"), LENGTH, key="field")

    assert type(accepted.magnitude) is float
    assert accepted.magnitude == 25.0


@pytest.mark.filterwarnings("default")
@pytest.mark.parametrize(
    "number",
    [25 + 1j, np.complex128(25 + 1j), np.array([25.0]), np.array([25.0, 26.0]), np.True_, 10**400],
    ids=["complex", "complex of NumPy", "array of one", "array", "truth", "too large"],
)
def test_what_is_not_one_real_number_is_refused_and_not_cut_down(number: Any) -> None:
    """NumPy does so with a warning at most, which a program rarely sees."""
    error = refusal(OTHER.Quantity(number, "mm"))

    assert (error.code, error.remedy) == ("Q104", "give one figure, not several")


def test_quantities_belong_to_the_application_registry() -> None:
    accepted = to_kind(OTHER.Quantity(25, "mm"), LENGTH, key="field")

    assert (accepted + pint.Quantity(1, "in")).m_as("mm") == pytest.approx(50.4, rel=1e-15)
    assert pickle.loads(pickle.dumps(accepted)) == accepted  # noqa: S301 - our own bytes


# -- Numbers inside, quantities outside ------------------------------------------


@given(number=st.floats(1e-6, 1e6), unit=st.sampled_from(LENGTH.units))
def test_a_number_is_the_same_in_whatever_unit_it_is_given(number: float, unit: str) -> None:
    outside = quantity(number, LENGTH, unit)

    assert unit_spelling(outside) == unit
    assert si(outside, LENGTH) == pytest.approx(number, rel=1.1e-14)


def test_quantity_gives_the_trades_unit() -> None:
    assert [unit_spelling(quantity(1.0, kind)) for kind in KINDS] == [
        kind.units[0] for kind in KINDS
    ]


@pytest.mark.parametrize("number", ["25", "9**9**9", None, 1j])
def test_a_quantity_is_made_of_a_number_and_never_of_text(number: Any) -> None:
    with pytest.raises(QuantityError) as caught:
        quantity_of_unit(number, "mm")

    assert caught.value.code == "Q104"


def test_si_takes_quantities_in_unlisted_units() -> None:
    assert si(pint.Quantity(1000, "thou"), LENGTH) == pytest.approx(0.0254, rel=1e-15)


def test_arrays_are_copied_and_read_only() -> None:
    numbers = np.array([0.001, 0.002])

    for array in (quantity(numbers, LENGTH), quantity_of_units([1.0, 2.0], "mm")):
        assert array.magnitude.tolist() == [1.0, 2.0]
        assert not np.shares_memory(array.magnitude, numbers)
        with pytest.raises(ValueError, match="read-only"):
            array.magnitude[0] = 5.0


def plain(number: Any, unit: str | None = None) -> Quantity:
    """A quantity as the embedding program makes its own."""
    application: Any = pint.get_application_registry()  # type: ignore[no-untyped-call]
    made: Quantity = application.Quantity(number, unit)
    return made


# What would change a quantity itself rather than give a new one.
CHANGES: dict[str, Any] = {
    "ito": lambda figure: figure.ito("in"),
    "ito with a context": lambda figure: figure.ito("in", "spectroscopy", n=1),
    "ito_base_units": lambda figure: figure.ito_base_units(),
    "ito_root_units": lambda figure: figure.ito_root_units(),
    "ito_reduced_units": lambda figure: figure.ito_reduced_units(),
    "magnitude": lambda figure: setattr(figure, "_magnitude", 5.0),
    "units": lambda figure: setattr(figure, "_units", None),
}
CHANGES_OF_ARRAYS: dict[str, Any] = {
    "fill": lambda figure: figure.fill(plain(1.0, "mm")),
    "shape": lambda figure: setattr(figure, "shape", (2, 1)),
}


@pytest.mark.parametrize("how", CHANGES)
def test_nothing_changes_a_quantity_in_place(how: str) -> None:
    array = quantity_of_units([1.0, 2.0], "mm")

    for figure in (quantity_of_unit(25.0, "mm"), to_kind("25 mm", LENGTH, key="field"), array):
        before = str(figure)
        with pytest.raises(QuantityError) as caught:
            CHANGES[how](figure)
        assert caught.value.code == "Q401"
        assert str(figure) == before


@pytest.mark.parametrize("how", CHANGES_OF_ARRAYS)
def test_nothing_changes_an_array_in_place(how: str) -> None:
    array = quantity_of_units([1.0, 2.0], "mm")

    with pytest.raises(QuantityError, match="Q401"):
        CHANGES_OF_ARRAYS[how](array)
    with pytest.raises(ValueError, match="read-only"):
        array[0] = plain(5.0, "mm")
    with pytest.raises(ValueError, match="WRITEABLE"):
        array.magnitude.flags.writeable = True
    assert str(array) == "[1.0 2.0] millimeter"


@pytest.mark.parametrize("operator", ["iadd", "isub", "imul", "itruediv", "ifloordiv", "imod"])
def test_arithmetic_in_place_gives_a_new_quantity(operator: str) -> None:
    for figure in (quantity_of_unit(25.0, "mm"), quantity_of_units([1.0, 2.0], "mm")):
        before = str(figure)
        other = 2 if operator in ("imul", "itruediv") else plain(2.0, "mm")

        changed = getattr(figure, f"__{operator}__")(other)

        assert str(changed) != before
        assert str(figure) == before
        changed.ito_base_units()
        assert str(figure) == before


def test_a_power_in_place_gives_a_new_quantity() -> None:
    side = quantity_of_unit(25.0, "mm")
    area = side
    area **= 2

    assert (str(side), str(area)) == ("25.0 millimeter", "625.0 millimeter ** 2")


def test_a_quantity_of_the_callers_can_be_changed_without_changing_what_was_kept() -> None:
    own: Quantity = plain(25.0, "mm")
    accepted = to_kind(own, LENGTH, key="field")
    own.ito("in")

    assert str(accepted) == "25.0 millimeter"


@pytest.mark.parametrize("numbers", [["1"], [1j], [True], [None], [10**400], [[], [1.0]]], ids=str)
def test_an_array_is_made_of_real_numbers(numbers: Any) -> None:
    with pytest.raises(QuantityError, match="Q104"):
        quantity_of_units(numbers, "mm")


@pytest.mark.parametrize(
    ("text", "allowed", "is_read"),
    [
        ("25 mm ± 24.9 mm", "positive", True),
        ("25 mm ± 25 mm", "positive", False),
        ("25 mm ± 1 in", "positive", False),
        ("0 mm ± 1 mm", "any", True),
        ("-5 mm ± 8 mm", "any", True),
        ("0 mm ± 1 mm", "zero or more", True),
    ],
)
def test_the_tolerance_of_a_size_is_less_than_the_size(
    text: str, allowed: Range, *, is_read: bool
) -> None:
    if is_read:
        assert read_figure(text, LENGTH, key="field", allowed=allowed).tolerance is not None
    else:
        with pytest.raises(QuantityError, match="Q303"):
            read_figure(text, LENGTH, key="field", allowed=allowed)


@pytest.mark.parametrize("figure", [quantity_of_unit(25.0, "mm"), quantity_of_units([25.0], "mm")])
def test_what_is_kept_is_for_all_else_a_quantity_like_any(figure: Quantity) -> None:
    like = plain(copy.copy(figure.magnitude), "mm")

    assert repr(figure) == repr(like)
    assert isinstance(figure, type(like))
    assert figure.dimensionality == like.dimensionality
    for other in (like, figure.to("cm"), plain(figure), copy.copy(figure)):
        assert np.all(other == figure)
        assert np.all(figure == other)
        assert np.all(other + figure == 2 * figure)
        other.ito("in")
    assert figure.units == like.units.__class__("mm")


def test_a_kept_number_is_hashed_like_any() -> None:
    assert hash(quantity_of_unit(25.0, "mm")) == hash(plain(25.0, "mm"))


def test_what_is_taken_of_a_kept_array_is_a_quantity_like_any() -> None:
    array = quantity_of_units([1.0, 2.0], "mm")

    for taken in (
        array[0],
        next(iter(array)),
        array.max(),
        np.max(array),
        array.sum(),
    ):
        taken.ito("in")
    assert str(array) == "[1.0 2.0] millimeter"


def test_same_tells_arrays_apart_by_number_and_by_unit() -> None:
    array = quantity_of_units([1.0, 2.0], "mm")

    assert same(array) == same(quantity(np.array([0.001, 0.002]), LENGTH))
    assert same(array) != same(quantity_of_units([1.0, 2.5], "mm"))
    assert same(array) != same(quantity_of_units([1.0, 2.0], "cm"))


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (quantity_of_unit(12.0, "N*m"), 1, "12.0 N·m"),
        (quantity_of_unit(12.345, "mm"), None, "12.345 mm"),
        (quantity_of_unit(-0.01, "mm"), 1, "0.0 mm"),
        (quantity_of_unit(14.25, "deg"), 1, "14.2°"),
        (quantity_of_unit(14.25, "deg"), None, "14.25°"),
        (quantity_of_unit(1.0, "N*m/deg"), 0, "1 N·m/deg"),
        (quantity_of_unit(0.98425, "in"), 1, "0.984 in"),
        (quantity_of_unit(7850.0, "kg/m**3"), None, "7850 kg/m³"),
        (pint.Quantity(3.0, "mm**2"), 1, "3.0 mm²"),
        (pint.Quantity(3.0, "thou"), 1, "3.0 th"),
    ],
)
def test_shown(value: Quantity, digits: int | None, text: str) -> None:
    assert shown(value, digits) == text


def test_a_unit_that_is_not_listed_has_no_spelling() -> None:
    with pytest.raises(QuantityError) as caught:
        unit_spelling(pint.Quantity(1.0, "thou"))

    assert (caught.value.code, caught.value.value) == ("Q201", "thou")


@pytest.mark.parametrize(("kind", "unit"), SPELLINGS)
def test_both_systems_hold_the_same_quantity(kind: Kind, unit: str) -> None:
    value = quantity_of_unit(1.25, unit)

    for system in ("metric", "inch"):
        given_in: Quantity = in_system(value, system)
        assert given_in.m_as(kind.si_unit) == pytest.approx(value.m_as(kind.si_unit), rel=1e-13)
        assert in_system(given_in, system) == given_in


def test_systems_convert_arrays() -> None:
    inches = in_system(quantity_of_units([25.4, 50.8], "mm"), "inch")

    assert inches.magnitude.tolist() == pytest.approx([1.0, 2.0], rel=1e-15)
    assert unit_spelling(inches) == "in"


def test_what_counts_as_a_quantity() -> None:
    assert is_quantity(OTHER.Quantity(1, "mm"))
    assert not is_quantity("1 mm")
    assert is_quantity_type(Quantity)
    # As pint's own generic class is from 0.25 on.
    assert is_quantity_type(types.GenericAlias(pint.Quantity, (float,)))
    assert not is_quantity_type(float)
    assert not is_quantity_type(float | None)


def test_every_public_name_exists() -> None:
    assert [name for name in units.__all__ if not hasattr(units, name)] == []


THREADS = """
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

from barwright.units import LENGTH, si, to_kind

gate = Barrier(8)

def read(number):
    gate.wait()
    return si(to_kind(f"{number} mm", LENGTH, key=""), LENGTH)

with ThreadPoolExecutor(8) as pool:
    assert list(pool.map(read, range(1, 9))) == [number / 1000 for number in range(1, 9)]
"""


def test_eight_threads_can_be_the_first_to_touch_it() -> None:
    done = subprocess.run(
        [sys.executable, "-c", THREADS], capture_output=True, text=True, check=False, timeout=60
    )

    assert (done.returncode, done.stderr) == (0, "")
