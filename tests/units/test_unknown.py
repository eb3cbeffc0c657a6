"""Tests of `barwright.units.unknown`: a figure that nobody knows tells so wherever it is used."""

from __future__ import annotations

import copy
import operator
import pickle
from collections.abc import Callable
from typing import Any

import pytest

from barwright.errors import ExitCode, NeedsError
from barwright.units import (
    LENGTH,
    in_system,
    is_quantity,
    is_unknown,
    quantity,
    shown,
    si,
    to_kind,
    unit_spelling,
    unknown,
    unknown_count,
)
from each_case import each_case

ONE = quantity(0.001, LENGTH)
USES: dict[str, Callable[[Any], Any]] = {
    "its number": lambda figure: figure.magnitude,
    "its SI number": lambda figure: si(figure, LENGTH),
    "its unit": unit_spelling,
    "in another unit": lambda figure: figure.to("m"),
    "as a number of a unit": lambda figure: figure.m_as("m"),
    "less": lambda figure: figure < ONE,
    "more": lambda figure: figure > ONE,
    "the other way round": lambda figure: figure >= ONE,
    "sum": lambda figure: figure + ONE,
    "difference": lambda figure: ONE - figure,
    "negative": operator.neg,
}
COUNTS: dict[str, Callable[[Any], Any]] = {
    "range": range,
    "share": lambda count: 360.0 / count,
    "product": lambda count: 2 * count,
    "remainder": lambda count: 3 % count,
    "less": lambda count: abs(-1) >= count,
    "whole": int,
    "number": float,
    "truth": bool,
}


@each_case("use", USES.values())
def test_whatever_asks_for_an_unknown_figure_learns_what_is_needed(use: Any) -> None:
    figure = unknown()
    with pytest.raises(NeedsError) as caught:
        use(figure)
    assert caught.value.needed is figure
    assert (caught.value.code, caught.value.exit_code) == ("N301", ExitCode.NO)
    assert caught.value.within(key="bar").needed is figure


@pytest.mark.parametrize("use", COUNTS.values(), ids=COUNTS)
def test_whatever_asks_for_an_unknown_count_learns_what_is_needed(use: Any) -> None:
    count = unknown_count()
    with pytest.raises(NeedsError) as caught:
        use(count)
    assert caught.value.needed is count


def test_a_reader_is_told_that_it_is_unknown() -> None:
    figure: Any = unknown()
    for value in (figure, unknown_count()):
        assert (str(value), repr(value), f"{value:.1f}") == ("unknown", "<unknown>", "unknown")
    assert shown(figure, 1) == "unknown"
    assert in_system(figure, "inch") is figure


def test_it_is_a_quantity_that_equals_only_what_is_unknown_too() -> None:
    figure: Any = unknown()
    assert is_quantity(figure)
    assert (figure == unknown(), figure == ONE, hash(figure)) == (True, False, hash(unknown()))
    count: Any = unknown_count()
    assert (count == unknown_count(), count == 0, hash(count)) == (True, False, hash(figure))
    assert not is_unknown(ONE)


def test_it_survives_pickling() -> None:
    for value in (unknown(), unknown_count()):
        assert is_unknown(pickle.loads(pickle.dumps(value)))  # noqa: S301 - our own


def test_it_can_be_copied_and_looked_into() -> None:
    for value in (unknown(), unknown_count()):
        assert is_unknown(copy.copy(value))
        assert is_unknown(copy.deepcopy(value))
        assert not hasattr(value, "fit")


def test_the_reader_of_figures_takes_it_as_it_is() -> None:
    figure = unknown()
    assert to_kind(figure, LENGTH, key="length") is figure
