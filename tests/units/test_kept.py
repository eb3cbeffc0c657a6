"""Tests of `barwright.units.kept`: the application may set its registry whenever it likes."""

from __future__ import annotations

import copy
import functools
import pickle
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

import numpy as np
import pint
import pytest
from pint.registry import LazyRegistry

import barwright as bw
from barwright.errors import QuantityError
from barwright.units import (
    KINDS,
    LENGTH,
    Kind,
    Quantity,
    quantity,
    quantity_of_unit,
    quantity_of_units,
    same,
    shown,
    si,
    to_kind,
    unit_spelling,
)
from barwright.units.kept import _refuse_another_meaning, taken_over, use_short_definitions
from barwright.units.kinds import UNITS
from other_registry import made_anew
from sample_records import make_bar, make_setup

EARLIER = (quantity_of_unit(25.0, "mm"), quantity_of_units([25.0, 50.0], "mm"))


@pytest.fixture(autouse=True)
def _first_registry() -> Iterator[None]:
    """Give every other test the registry that it had."""
    first = present()
    yield
    set_registry(first)


def present() -> pint.UnitRegistry[Any]:
    """The application's registry of the moment."""
    application: Any = pint.get_application_registry()  # type: ignore[no-untyped-call]
    found: pint.UnitRegistry[Any] = application.get()
    return found


def set_registry(other: pint.UnitRegistry[Any]) -> None:
    """Set the application's registry, as a host does."""
    pint.set_application_registry(other)  # type: ignore[no-untyped-call]


@functools.cache
def plain_registry() -> pint.UnitRegistry[Any]:
    """Another registry with the usual units: to make one takes a while."""
    return made_anew()


def with_another(*definitions: str, **how: Any) -> pint.UnitRegistry[Any]:
    """Set another registry, as a host does, and return it."""
    other = made_anew(**how)
    for definition in definitions:
        other.define(definition)
    set_registry(other)
    return other


# -- Before, between and after ---------------------------------------------------------


@pytest.mark.parametrize("figure", EARLIER, ids=["number", "array"])
@pytest.mark.parametrize(
    "again",
    [lambda figure: figure, lambda figure: pickle.loads(pickle.dumps(figure)), copy.deepcopy],  # noqa: S301
    ids=["itself", "pickled", "copied"],
)
def test_a_figure_belongs_to_the_registry_of_the_moment(figure: Quantity, again: Any) -> None:
    before = again(figure)
    first = present()
    other = with_another()
    after = again(figure)

    for own in (before, after):
        total = own + other.Quantity(1.0, "cm")
        assert np.all(total == other.Quantity(figure.magnitude + 10.0, "mm"))
        assert isinstance(own, other.Quantity)
        assert own.units == other.mm
        assert own.dimensionality == other.mm.dimensionality
        assert np.all(own == figure)
        assert (same(own), unit_spelling(own)) == (same(figure), "mm")
        with pytest.raises(QuantityError, match="Q401"):
            own.ito("in")
        assert type(own.to("in")) is other.Quantity
    set_registry(first)
    assert np.all(before + first.Quantity(1.0, "cm") == after + first.Quantity(1.0, "cm"))


def test_arrays_that_were_pickled_stay_as_they_are() -> None:
    again = pickle.loads(pickle.dumps(EARLIER[1]))  # noqa: S301 - our own

    with pytest.raises(ValueError, match="WRITEABLE"):
        again.magnitude.flags.writeable = True


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_every_unit_goes_over(kind: Kind) -> None:
    figures = [quantity(1.25, kind, unit) for unit in kind.units]
    other = plain_registry()
    set_registry(other)

    for figure in figures:
        assert isinstance(figure.units, other.Unit)
        assert to_kind(figure, kind, key="field") == figure
        own = other.Quantity(figure.magnitude, str(figure.units))
        assert si(own, kind) == si(figure, kind)
        assert figure.m_as(kind.si_unit) == pytest.approx(si(figure, kind), rel=1e-14)


def test_parts_and_answers_of_before_are_used_after() -> None:
    setup = make_setup()
    before = bw.rates(setup)
    kept = pickle.dumps((setup, before))
    text = bw.to_json(before)
    other = with_another()

    after = bw.rates(setup)
    again, old = pickle.loads(kept)  # noqa: S301 - our own

    assert (again, old, after) == (setup, before, before)
    assert bw.rates(again) == bw.from_json(text) == after
    assert bw.to_json(old) == text
    assert bw.compare(setup, again).rows
    for answer in (before, old, after, bw.from_json(text)):
        assert isinstance(answer, bw.answers.Rates)
        assert answer.figures is not None
        rate = answer.figures.ride.wheel_rate
        assert rate + other.Quantity(0.0, "lbf/in") == rate
        assert bw.in_units(answer, "inch").figures is not None


def test_what_the_host_made_of_its_registry_of_before_is_taken_after() -> None:
    own: Quantity = present().Quantity(25.0, "mm")
    with_another()

    assert make_bar(diameter=own).diameter == quantity_of_unit(25.0, "mm")
    assert (shown(own), unit_spelling(own), si(own, LENGTH)) == ("25 mm", "mm", 0.025)


# -- A registry of our units alone -------------------------------------------------------


def test_a_process_of_its_own_has_our_units_alone_and_all_as_pint_has_them() -> None:
    pint.set_application_registry(LazyRegistry())  # type: ignore[no-untyped-call]

    use_short_definitions()

    short = present()
    assert "furlong" not in short
    for unit in UNITS.values():
        mine, pints = (one.Quantity(1.0, unit.pint_name) for one in (short, plain_registry()))
        assert f"{mine:~C} {mine:P}" == f"{pints:~C} {pints:P}"
        root, pints_root = mine.to_root_units(), pints.to_root_units()
        assert str(root.units) == str(pints_root.units)
        assert root.magnitude == pytest.approx(pints_root.magnitude, rel=1e-15)
    assert EARLIER[0] + quantity_of_unit(1.0, "in") == quantity_of_unit(50.4, "mm")


def test_a_registry_that_a_host_has_set_stays() -> None:
    other = with_another()

    use_short_definitions()

    assert present() is other


# -- Registries that do not know our units ---------------------------------------------


def refused() -> QuantityError:
    """The error that all uses of the present registry end with."""
    with pytest.raises(QuantityError) as caught:
        to_kind("25 mm", LENGTH, key="field").to("in")
    with pytest.raises(QuantityError) as other:
        EARLIER[0] + EARLIER[0]
    assert str(caught.value) == str(other.value)
    return caught.value


def test_a_registry_without_metre_is_refused() -> None:
    set_registry(pint.UnitRegistry(None))

    error = refused()
    assert error.code == "Q402"
    assert "pint.set_application_registry" in error.remedy
    with_another()
    assert EARLIER[0] == quantity_of_unit(2.5, "cm")


def test_a_registry_without_a_base_unit_of_ours_is_refused() -> None:
    scanty: pint.UnitRegistry[Any] = pint.UnitRegistry(None)
    for definition in ("meter = [length]", "milli- = 1e-3"):
        scanty.define(definition)
    set_registry(scanty)

    error = refused()
    assert (error.code, error.key) == ("Q402", "cm")


@pytest.mark.parametrize(
    ("definition", "spelling", "value"),
    [
        ("pound = 0.5 kilogram", "lb", "1 lb = 0.5 kilogram"),
        ("inch = 2.5 centimeter", "in", "1 in = 0.025 meter"),
        ("degree = 1 radian", "deg", "1 deg = 1 radian"),
        ("foot_pound = 1 kilogram", "ft*lbf", ""),
    ],
)
def test_a_registry_in_which_a_unit_is_something_else_is_refused(
    definition: str, spelling: str, value: str
) -> None:
    with_another(definition, on_redefinition="ignore")

    error = refused()
    assert (error.code, error.key) == ("Q402", spelling)
    assert value in error.value


def test_a_registry_that_computes_with_other_numbers_is_refused() -> None:
    with_another(non_int_type=Decimal)

    assert refused().value == "numbers of type Decimal"


def test_units_of_the_hosts_own_are_welcome() -> None:
    other = with_another("hand = 4 inch")

    assert make_bar(length=other.Quantity(8.0, "hand")).length.m_as("mm") == pytest.approx(812.8)


def test_a_unit_that_is_of_another_kind_there_is_refused() -> None:
    found: Any = made_anew()
    with pytest.raises(bw.QuantityError) as caught:
        _refuse_another_meaning(found, found.kilogram, "mm", LENGTH)
    assert (caught.value.code, caught.value.key) == ("Q402", "mm")


def test_numbers_that_are_given_away_are_not_copied_and_cannot_be_changed() -> None:
    numbers = np.array([[1.0, 2.0], [3.0, 4.0]])
    made = taken_over(numbers, "mm")

    assert np.shares_memory(made.magnitude, numbers)
    assert made.m_as("m").tolist() == [[0.001, 0.002], [0.003, 0.004]]
    with pytest.raises(ValueError, match="WRITEABLE"):
        made.magnitude.flags.writeable = True
    assert taken_over(np.zeros(0), "mm").magnitude.shape == (0,)
