"""`evolved`: a record with some fields changed is the one that attrs makes, in less time."""

from __future__ import annotations

from typing import Any

import attrs
import pytest
from hypothesis import given

import barwright as bw
from barwright.parts.common.record import evolved
from sample_records import make_bar
from setup_strategies import corners


@given(corners())
def test_a_changed_setup_is_that_of_attrs(given: tuple[bw.Setup, str]) -> None:
    setup, _ = given
    changes: dict[str, Any] = {"nut_turns": "1.5 turn", "bar": make_bar(length="905 mm")}
    made = evolved(setup, changes)
    assert made == attrs.evolve(setup, **changes)
    assert dict(made.about) == dict(attrs.evolve(setup, **changes).about)
    assert made.arm is setup.arm


def test_what_is_changed_is_converted_and_checked() -> None:
    bar = make_bar()
    with pytest.raises(bw.QuantityError, match="diameter"):
        evolved(bar, {"diameter": "-1 mm"})
    with pytest.raises(bw.GeometryError):
        evolved(bar, {"bore": "900 mm"})


def test_a_class_without_converters_or_checks_will_do() -> None:
    @attrs.frozen
    class Pair:
        one: int
        other: int

    assert evolved(Pair(1, 2), {"other": 3}) == Pair(1, 3)
