"""The units that figures are given in change no answer; nor do those they are shown in."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings

import barwright as bw
from barwright.parts.common.fields import figure_fields
from barwright.units import KINDS, is_quantity
from draws import draws
from rare_cases import rarely_after
from setup_strategies import corners

# Each kind's units other than its first, by SI dimension and angle.
OTHERS = {"mm": "in", "deg": "rad", "kg": "lb", "N": "lbf", "N/mm": "lbf/in", "GPa": "ksi"}

QUESTIONS: dict[str, Any] = {
    "length_fit": lambda setup, _: bw.length_fit(setup),
    "ride": lambda setup, _: bw.ride(setup),
    "nut_table": lambda setup, height: bw.nut_table(setup, wanted=bw.Wanted(height=height)),
    "rates": lambda setup, height: bw.rates(setup, wanted=bw.Wanted(height=height)),
    "reindex": lambda setup, height: bw.reindex(setup, wanted=bw.Wanted(height=height)),
    "donors": lambda setup, _: bw.donors(setup, parts=[]),
    "compare": lambda setup, _: bw.compare(setup, setup),
}


def in_other_units(value: Any) -> Any:
    """A record with every figure in another unit of its kind."""
    if isinstance(value, tuple):
        return tuple(in_other_units(item) for item in value)
    if not attrs.has(type(value)):
        return value
    kinds = figure_fields(type(value))
    fields: dict[str, Any] = {}
    for field in attrs.fields(type(value)):
        inner = getattr(value, field.name)
        if field.name in kinds and inner is not None:
            unit = OTHERS.get(kinds[field.name][0].units[0])
            fields[field.name] = (
                inner if unit is None else inner.to(unit.replace("lbf", "force_pound"))
            )
        else:
            fields[field.name] = in_other_units(inner)
    fields.pop("about", None)
    return attrs.evolve(value, **fields)


def in_unit(value: bw.Quantity, unit: str) -> bw.Quantity:
    """By pint's own conversion, which calls a pound-force by another name."""
    converted: bw.Quantity = value.to(unit.replace("lbf", "force_pound"))
    return converted


def leaves(value: Any, name: str = "") -> Iterator[tuple[str, Any]]:
    """Every figure, count and word of an answer, in SI."""
    if is_quantity(value):
        yield name, np.ravel(value.to_base_units().magnitude)
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from leaves(item, f"{name}[{index}]")
    elif attrs.has(type(value)):
        for field in attrs.fields(type(value)):
            yield from leaves(getattr(value, field.name), f"{name}.{field.name}")
    else:
        yield name, value


def assert_alike(one: Any, other: Any) -> None:
    mine, its = dict(leaves(one)), dict(leaves(other))
    assert mine.keys() == its.keys()
    for name, value in mine.items():
        if isinstance(value, np.ndarray):
            assert np.allclose(value, its[name], rtol=1e-9, atol=1e-9), name
        elif isinstance(value, float):
            assert math.isclose(value, its[name], rel_tol=1e-9, abs_tol=1e-7), name
        else:
            assert value == its[name], name


@pytest.mark.parametrize("question", rarely_after(2, QUESTIONS))
@settings(max_examples=draws(15), suppress_health_check=[HealthCheck.too_slow])
@given(drawn=corners())
def test_answers_do_not_depend_on_the_units_of_the_figures(
    question: str, drawn: tuple[bw.Setup, str]
) -> None:
    setup, height = drawn
    other = in_other_units(setup)
    assert str(other.bar.diameter.units) == "inch"
    inches = f"{float(height[:-3]) / 25.4:.12f} in"
    assert_alike(QUESTIONS[question](setup, height), QUESTIONS[question](other, inches))


@pytest.mark.parametrize("question", rarely_after(2, QUESTIONS))
@settings(max_examples=draws(10), suppress_health_check=[HealthCheck.too_slow])
@given(drawn=corners())
def test_answers_in_inches_are_the_same_answers(question: str, drawn: tuple[bw.Setup, str]) -> None:
    setup, height = drawn
    answer = QUESTIONS[question](setup, height)
    inches = bw.in_units(answer, "inch")
    assert_alike(answer, inches)
    assert_alike(answer, bw.in_units(inches, "metric"))
    units = {str(v.units) for v in quantities(inches)}
    assert not units & {"millimeter", "newton", "megapascal", "kilogram"}


def quantities(value: Any) -> Iterator[bw.Quantity]:
    if is_quantity(value):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from quantities(item)
    elif attrs.has(type(value)):
        for field in attrs.fields(type(value)):
            yield from quantities(getattr(value, field.name))


def test_the_other_units_are_units_of_their_kinds() -> None:
    for first, other in OTHERS.items():
        assert all(other in kind.units for kind in KINDS if kind.units[0] == first)


def test_a_part_in_inches_keeps_its_tolerances_and_sources() -> None:
    bar = bw.Registry.discover().part("fells:bar/short-standard")
    known = bw.in_units(bar, "inch").about["diameter"]
    assert known.source == "fells:drawing-board"
    assert known.tolerance is not None
    assert str(known.tolerance.units) == "inch"
    assert math.isclose(known.tolerance.m_as("millimeter"), 0.05)
