"""Tests of `barwright.units.accept`: quantities of other registries, and numbers of other types."""

from __future__ import annotations

import pickle
from decimal import Decimal
from typing import Any

import numpy as np
import pint
import pytest

from barwright.errors import QuantityError
from barwright.units import (
    ANGLE,
    DAMPING_RATE,
    ENERGY,
    FORCE,
    FREQUENCY,
    GAS_SLOPE,
    HEIGHT_PER_TURN,
    LENGTH,
    MASS,
    STRESS,
    TORQUE,
    TORSIONAL_RATE,
    TURNS,
    WHEEL_RATE,
    Kind,
    Quantity,
    Range,
    to_kind,
    unit_spelling,
)
from each_case import each_case
from other_registry import OTHER, made_anew

OTHER.define("cubit_of_tests = 0.5 meter")


def refusal(value: object, kind: Kind = LENGTH, allowed: Range = "any") -> QuantityError:
    """The error that a value is refused with."""
    with pytest.raises(QuantityError) as caught:
        to_kind(value, kind, key="field", allowed=allowed)
    return caught.value


@each_case(
    "value, kind",
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


@each_case(
    "value, kind, expected, unit",
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
    registry = made_anew()
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
