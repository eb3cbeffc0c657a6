"""Tests of `barwright.parts.common.facts`: which fields are facts, and how a file states them."""

from __future__ import annotations

import pytest

import barwright as bw
from barwright.parts.chassis import Axle
from barwright.parts.common.facts import as_stated, fact_fields
from barwright.parts.common.fields import figure_fields
from barwright.units import unknown, unknown_count


@pytest.mark.parametrize(
    ("cls", "facts"),
    [
        (bw.parts.Socket, {"teeth", "form", "keyed"}),
        (bw.parts.Adjuster, {"lever_lies", "property_class", "paint", "remarks"}),
        (Axle, {"bar_axis", "arm_direction", "arm_axis", "entry", "load_at"}),
    ],
)
def test_counts_words_lists_and_directions_are_facts(cls: type, facts: set[str]) -> None:
    assert fact_fields(cls) == facts
    assert not facts & figure_fields(cls).keys()


def test_what_a_record_is_called_and_what_it_refers_to_are_no_facts() -> None:
    assert not fact_fields(bw.parts.Bar) & {"id", "title", "material", "arm_end", "about"}
    assert {"made_for", "preset"} <= fact_fields(bw.parts.Bar)
    assert {"codes", "first_built", "maker"} <= fact_fields(bw.parts.Chassis)


@pytest.mark.parametrize(
    ("value", "stated"),
    [
        (None, None),
        (39, 39),
        (True, True),
        (1.5, 1.5),
        ("involute", "involute"),
        ((0.0, 1.0), (0.0, 1.0)),
        ((bw.parts.Side.LEFT, 3), ("left", 3)),
        (bw.parts.Month(2011, 3), "2011-03"),
        (unknown(), "unknown"),
        (unknown_count(), "unknown"),
    ],
)
def test_a_fact_is_stated_as_in_a_file(value: object, stated: object) -> None:
    assert as_stated(value) == stated
