"""Tests of `barwright.registry.measuring.catalogue`: a row for each figure, and no other."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

import attrs
import pytest

import barwright as bw
from barwright.parts.common.fields import known_or_not
from barwright.parts.common.record import Record
from barwright.registry.measuring.catalogue import (
    FIGURES,
    AskedFor,
    figure_at,
    figures_of,
    needed_paths,
    unknown_and_needed,
)
from barwright.units import is_quantity, unknown

ROWS = tomllib.loads(FIGURES.read_text(encoding="utf-8"))["figure"]


def descendants(cls: type[Any]) -> Iterator[type[Any]]:
    for inner in cls.__subclasses__():
        yield inner
        yield from descendants(inner)


@pytest.fixture(scope="module")
def corners() -> list[bw.Setup]:
    registry = bw.Registry.demo()
    return [
        registry.setup(id_, corner=f"{axle.place.value} right")
        for id_ in registry.ids("chassis")
        for axle in registry.chassis(id_).axles
    ]


def test_each_figure_stands_in_one_row() -> None:
    paths = [row["path"] for row in ROWS]
    assert len(set(paths)) == len(paths)
    fields = {name for cls in descendants(Record) for name in known_or_not(cls)}
    assert {path.rpartition(".")[2] for path in paths} <= fields


def figures(record: Any, path: str = "") -> Iterator[str]:
    for field in attrs.fields(type(record)):
        value = getattr(record, field.name)
        if field.name in ("about", "chassis", "left", "right", "reading"):
            continue
        if is_quantity(value) or field.name == "teeth":
            yield f"{path}{field.name}"
        elif isinstance(value, Record):
            yield from figures(value, f"{path}{field.name}.")


def test_every_figure_of_the_demo_corners_has_its_row(corners: list[bw.Setup]) -> None:
    for setup in corners:
        assert sorted(one.path for one in figures_of(setup)) == sorted(figures(setup))


def test_only_what_is_unknown_is_missing(corners: list[bw.Setup]) -> None:
    for setup in corners:
        gap = attrs.evolve(setup, arm=attrs.evolve(setup.arm, radius=unknown()))
        for question in AskedFor:
            assert unknown_and_needed(setup, question) == ()
            is_needed = "arm.radius" in needed_paths(gap, question)
            assert unknown_and_needed(gap, question) == (("arm.radius",) if is_needed else ())


def test_a_place_that_a_corner_does_not_have_holds_nothing(corners: list[bw.Setup]) -> None:
    trailer = corners[-1]
    assert figure_at(trailer, "adjuster.mounting.pivot_distance") is None
    assert needed_paths(trailer, AskedFor.NUT) == ()
