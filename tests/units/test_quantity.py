"""Tests of `barwright.units.quantity`: numbers inside, quantities outside."""

from __future__ import annotations

import copy
import subprocess
import sys
import types
from typing import Any

import numpy as np
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright import units
from barwright.errors import QuantityError
from barwright.units import (
    KINDS,
    LENGTH,
    Kind,
    Quantity,
    Range,
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
from each_case import each_case
from other_registry import OTHER

SPELLINGS = [(kind, unit) for kind in KINDS for unit in kind.units]


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


@each_case(
    "value, digits, text",
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


@each_case("kind, unit", SPELLINGS)
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


@pytest.mark.slow
def test_eight_threads_can_be_the_first_to_touch_it() -> None:
    done = subprocess.run(
        [sys.executable, "-c", THREADS], capture_output=True, text=True, check=False, timeout=60
    )

    assert (done.returncode, done.stderr) == (0, "")
