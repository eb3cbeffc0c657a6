"""Tests of reading answers: each figure by the kind of its field, and nothing that cannot be."""

from __future__ import annotations

import functools
import json
import typing
from collections.abc import Iterator
from typing import Any

import attrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.registry.authoring.definition_names import DEFINITION_NAMES
from barwright.report.forms.documents import class_of
from barwright.report.forms.documents import documents as words
from barwright.report.forms.field_kinds import OF_ANY_KIND, are_of_one_kind, kind_of
from barwright.report.forms.json import is_choice
from barwright.units import KINDS, is_quantity_type, quantity_of_unit
from draws import draws
from sample_packs import SPECIMENS, discovered_once

KeyPath: typing.TypeAlias = tuple[str | int, ...]


def answers() -> Iterator[object]:
    """Answers to all questions about a demo corner, whose figures have tolerances."""
    setup = discovered_once().setup("fells:chassis/short", corner="front left")
    firm = setup.with_parts(bar=attrs.evolve(setup.bar, diameter="25 mm"))
    limits = bw.StrengthLimits(permissible_shear="900 MPa", ultimate_shear="1005 MPa")
    road = ("0 mm", "45 mm", "-30 mm", "10 mm")
    planned = bw.reindex(setup)
    yield from (bw.length_fit(setup), bw.rates(setup), bw.ride(setup), planned, planned.plans[0])
    yield planned.plans[0].fitting[0]
    yield bw.donors(setup, parts=discovered_once().parts())
    yield from (bw.compare(setup, firm), bw.tolerance(bw.rates, setup, draws=100))
    yield bw.trail(setup, figure="bar_rate")
    yield bw.strength(setup, limits=limits, travel="40 mm", history=road)
    job = bw.load_job(SPECIMENS / "jobs" / "every-key.toml", discovered_once())
    yield from (bw.bench_sheet(job), job, setup.bar, setup.chassis)


@functools.cache
def documents() -> dict[str, Any]:
    """The answers as JSON, by their classes."""
    return {type(one).__name__: json.loads(bw.to_json(one)) for one in answers()}


def tables(value: Any, place: KeyPath = ()) -> Iterator[KeyPath]:
    """Places of all figures of a document, those in ``about`` left out."""
    if isinstance(value, dict):
        if value.keys() in ({"value", "unit"}, {"values", "unit"}):
            yield place
        for key, item in value.items():
            if key != "about":
                yield from tables(item, (*place, key))
    elif isinstance(value, list):
        for index, item in enumerate(value[:2]):
            yield from tables(item, (*place, index))


def changed(document: Any, place: KeyPath, change: Any) -> str:
    """The document as text, with another value at one place."""
    copied = json.loads(json.dumps(document))
    at = copied
    for step in place[:-1]:
        at = at[step]
    at[place[-1]] = change(at[place[-1]])
    return json.dumps(copied)


def refused(text: str) -> bw.SchemaError:
    with pytest.raises(bw.SchemaError) as caught:
        bw.from_json(text)
    assert caught.value.code == "S208"
    assert caught.value.remedy == "write it again with this version"
    return caught.value


@functools.cache
def figures() -> list[tuple[str, KeyPath]]:
    """Places of all figures of all answers."""
    return [(name, place) for name, doc in documents().items() for place in tables(doc)]


# Only the process that runs these tests asks the questions.
ANY_FIGURE = st.deferred(lambda: st.sampled_from(figures()))
DEAF = {"figure", "limit", "upper", "value", "change", "nominal", "expected", "effect", "step"}
"""Fields of any kind that may stand alone in their object."""


@pytest.mark.rare
def test_there_are_figures_in_most_answers() -> None:
    assert len({name for name, _ in figures()}) > 10


@settings(max_examples=draws(25))
@given(figure=ANY_FIGURE)
def test_a_figure_of_another_kind_is_refused(figure: tuple[str, KeyPath]) -> None:
    name, place = figure
    if place[-1] in DEAF or isinstance(place[-1], int):
        return
    text = changed(documents()[name], place, lambda table: table | {"unit": "kg/m**3"})

    refused(text)


@pytest.mark.parametrize(
    "number", [float("nan"), float("inf"), 10**400, 1e300, -(10**19), "5", None, True, [1.0]]
)
@settings(max_examples=draws(25))
@given(figure=ANY_FIGURE)
def test_a_figure_that_is_no_number_is_refused(figure: tuple[str, KeyPath], number: object) -> None:
    name, place = figure

    def change(table: dict[str, Any]) -> dict[str, Any]:
        key, held = ("value", number) if "value" in table else ("values", [number])
        return table | {key: held}

    refused(changed(documents()[name], place, change))


@settings(max_examples=draws(25))
@given(figure=ANY_FIGURE)
def test_an_array_is_no_number_and_a_number_no_array(figure: tuple[str, KeyPath]) -> None:
    name, place = figure

    def change(table: dict[str, Any]) -> dict[str, Any]:
        if "value" in table:
            return {"values": [table["value"]], "unit": table["unit"]}
        return {"value": table["values"][0], "unit": table["unit"]}

    refused(changed(documents()[name], place, change))
    both = changed(documents()[name], place, lambda t: {"value": 1.0, "values": [1.0]} | t)
    refused(both)


@pytest.mark.parametrize(
    ("name", "place"),
    [
        ("Comparison", ("rows", 0, "other")),
        ("Tolerance", ("rows", 0, "uncertainty")),
        ("Tolerance", ("inputs", 0, "half_width")),
        ("Bar", ("about", "diameter", "tolerance")),
    ],
)
def test_what_is_told_of_a_figure_is_of_its_kind(name: str, place: KeyPath) -> None:
    document = documents()[name]

    refused(changed(document, place, lambda _: {"value": 1.0, "unit": "kg/m**3"}))


@pytest.mark.parametrize("numbers", [["5"], [True], [1e16], [10**400], "12", [[1.0]], None])
def test_an_array_is_of_numbers(numbers: object) -> None:
    place = ("figures", "curve", "height")

    refused(changed(documents()["Rates"], place, lambda table: table | {"values": numbers}))


def test_a_refusal_says_where_it_is() -> None:
    text = changed(documents()["Ride"], ("state", "height"), lambda _: {"value": 1.0, "unit": "kg"})

    assert refused(text).key == "state.height"


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999"])
def test_what_is_no_json_is_no_number(number: str) -> None:
    document = json.loads(json.dumps(documents()["Rates"]))
    assert isinstance(document["figures"]["curve"]["motion_ratio"][0], float)
    document["figures"]["curve"]["motion_ratio"][0] = "here"

    refused(json.dumps(document).replace('"here"', number))


def test_a_count_is_no_larger_than_a_figure() -> None:
    refused(changed(documents()["Plan"], ("cuts",), lambda _: 10**400))


# -- The table of kinds ------------------------------------------------------------------


def classes(cls: Any, seen: dict[type, None]) -> dict[type, None]:
    """All classes that an answer may hold."""
    if isinstance(cls, type) and attrs.has(cls) and cls not in seen:
        seen[cls] = None
        for hint in typing.get_type_hints(cls).values():
            classes(hint, seen)
    for member in typing.get_args(cls):
        classes(member, seen)
    return seen


EVERY_CLASS: dict[type, None] = {}
for one in words():
    classes(class_of(one), EVERY_CLASS)


def figures_of(cls: type[Any]) -> Iterator[Any]:
    hints = typing.get_type_hints(cls)
    for field in attrs.fields(cls):
        members = (hints[field.name], *typing.get_args(hints[field.name]))
        if any(map(is_quantity_type, members)):
            yield field


OF_ANY = {
    *("AssumedError", "FatigueLife", "LifeBand", "OddFigure", "Selection", "TravelSpectrum"),
    *(
        "ComparisonRow",
        "EstimatedFigure",
        "Fact",
        "Figure",
        "GivenFigure",
        "Finding",
        "NeedsRow",
        "Trail",
        "TrailLine",
    ),
    *("ToleranceGap", "ToleranceInput", "ToleranceRow", "ToleranceShare"),
}
"""Classes that tell of any figure."""


def test_every_figure_has_a_kind_or_may_be_of_any() -> None:
    without = {
        (cls.__name__, field.name)
        for cls in EVERY_CLASS
        for field in figures_of(cls)
        if "kind" not in field.metadata and kind_of(field.name) is None
    }

    assert {cls for cls, _ in without} == OF_ANY
    assert {name for _, name in without} == OF_ANY_KIND


def test_a_name_means_one_kind_in_answers_and_in_records() -> None:
    other = {
        f"{cls.__name__}.{field.name}"
        for cls in EVERY_CLASS
        for field in figures_of(cls)
        if "kind" in field.metadata and kind_of(field.name) not in (None, field.metadata["kind"])
    }

    assert other == set()


def test_figures_of_one_kind_are_told_from_others() -> None:
    for kind in KINDS:
        assert are_of_one_kind([quantity_of_unit(1.0, unit) for unit in kind.units])
    every = [quantity_of_unit(1.0, kind.units[0]) for kind in KINDS]
    assert not are_of_one_kind(every)
    assert are_of_one_kind([])


def union_members() -> Iterator[tuple[Any, type[Any]]]:
    """Unions of classes in records, each with every one of its members."""
    for cls in DEFINITION_NAMES:
        for hint in typing.get_type_hints(cls).values():
            if is_choice(hint):
                yield from ((hint, member) for member in typing.get_args(hint))


@pytest.mark.parametrize(
    ("union", "member"), [*union_members()], ids=lambda one: getattr(one, "__name__", "")
)
def test_the_classes_of_a_union_are_told_apart_by_their_fields(
    union: Any, member: type[Any]
) -> None:
    """The first one that has all fields of a document is made of it."""
    names = {field.name for field in attrs.fields(member)}
    able = [c for c in typing.get_args(union) if names <= {f.name for f in attrs.fields(c)}]

    assert able[0] is member
