"""Tests of `units.reader`: the range of a figure is checked once, and for each range anew."""

from __future__ import annotations

import pickle
from collections import Counter
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright import units
from barwright.units import LENGTH, Quantity, read_figure, reader, to_kind
from sample_records import make_setup


@pytest.fixture
def checked(monkeypatch: pytest.MonkeyPatch) -> list[Quantity]:
    """Figures whose range has been checked, one after the other."""
    seen: list[Quantity] = []
    check = units.check_range

    def checking(value: Quantity, **named: Any) -> None:
        seen.append(value)
        check(value, **named)

    monkeypatch.setattr(reader, "check_range", checking)
    return seen


def test_a_figure_of_a_pack_is_checked_once(checked: list[Quantity]) -> None:
    registry = bw.Registry.demo(cache=False)
    setup = registry.setup("fells:chassis/short", corner="front left")
    assert set(Counter(map(id, checked)).values()) == {1}
    # What is put together anew is looked at no more.
    before = len(checked)
    attrs.evolve(setup, bar=attrs.evolve(setup.bar, title="Other"))
    assert len(checked) == before


def test_a_figure_in_another_range_is_checked_again() -> None:
    below = read_figure("-3 mm", LENGTH, key="cap").value
    assert to_kind(below, LENGTH, key="cap") is below
    with pytest.raises(bw.QuantityError, match="Q302"):
        to_kind(below, LENGTH, key="cap", allowed="positive")
    with pytest.raises(bw.QuantityError, match="Q302"):
        to_kind(below, LENGTH, key="cap", allowed="positive")


def test_what_is_computed_or_pickled_is_checked_again(checked: list[Quantity]) -> None:
    length = make_setup().bar.length
    with pytest.raises(bw.QuantityError, match="Q302"):
        to_kind(-length, LENGTH, key="length", allowed="positive")
    again = pickle.loads(pickle.dumps(length))  # noqa: S301 - our own
    before = len(checked)
    assert to_kind(again, LENGTH, key="length", allowed="positive") == length
    assert len(checked) == before + 1
