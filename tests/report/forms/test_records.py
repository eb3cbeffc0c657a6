"""Tests of `barwright.report.forms.records`: a document says each record once."""

from __future__ import annotations

import functools
import itertools
import json
import typing
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from barwright.parts.common.record import Part
from barwright.report.forms.documents import OF_SETUPS, class_of, documents
from sample_packs import discovered_once
from sample_records import make_setup

JOBS = Path(__file__).parents[3] / "docs" / "examples"

Table = dict[str, Any]


@functools.cache
def job(name: str = "shorter-dampers") -> bw.Job:
    return bw.load_job(JOBS / f"{name}.toml", discovered_once())


def document() -> Table:
    found: Table = json.loads(bw.to_json(job()))
    return found


def classes_in(cls: Any, seen: set[Any]) -> set[Any]:
    """All classes with fields that a class is made of, itself too."""
    if not (isinstance(cls, type) and attrs.has(cls)):
        for member in typing.get_args(cls):
            classes_in(member, seen)
    elif cls not in seen:
        seen.add(cls)
        for hint in typing.get_type_hints(cls).values():
            classes_in(hint, seen)
    return seen


def test_exactly_the_documents_with_setups_name_their_records() -> None:
    with_setups = {word for word in documents() if bw.Setup in classes_in(class_of(word), set())}

    assert with_setups == set(OF_SETUPS)


@pytest.mark.parametrize("name", ["shorter-dampers", "firmer-bars", "loaded-trailer"])
def test_the_json_of_a_demo_job_is_small(name: str) -> None:
    assert len(bw.to_json(job(name))) < 33_000


def parts_of(setup: bw.Setup) -> Iterator[object]:
    """Every record of a setup, as often as it is there."""
    axle = setup.axle
    places = [setup, axle.left, axle.right]
    yield from (setup.chassis, axle, *setup.chassis.axles)
    for place, part in itertools.product(places, ("arm", "bar", "anchor", "adjuster", "damper")):
        yield getattr(place, part, None)


def test_a_record_that_was_shared_is_shared_after_reading() -> None:
    def groups(found: bw.Job) -> list[int]:
        records = [r for c in found.corners for s in (c.setup, c.present) for r in parts_of(s)]
        return [[id(other) for other in records].index(id(record)) for record in records]

    again = bw.from_json(bw.to_json(job()))

    assert again == job()
    assert groups(again) == groups(job())


def test_a_record_stands_under_its_id_and_wherever_it_belongs_is_that_id() -> None:
    told = document()
    (bar,) = {corner["setup"]["bar"] for corner in told["corners"]}

    assert bar == job().corners[0].setup.bar.id
    assert told["records"][bar]["title"] == job().corners[0].setup.bar.title
    assert told["records"][told["corners"][0]["setup"]["axle"]]["left"]["bar"] == bar


def test_the_document_of_a_record_has_what_belongs_to_it() -> None:
    told = json.loads(bw.to_json(job().corners[0].setup.bar))

    assert told["material"]["title"] == job().corners[0].setup.bar.material.title
    assert "records" not in told


@given(lengths=st.lists(st.integers(700, 1200), min_size=1, max_size=4))
def test_records_of_one_id_and_other_figures_are_kept_apart(lengths: list[int]) -> None:
    setup = make_setup()
    bars = [attrs.evolve(setup.bar, length=f"{length} mm") for length in lengths]
    corners = tuple(
        bw.JobCorner(setup=setup.with_parts(bar=bar), present=setup, wanted=bw.Wanted())
        for bar in bars
    )
    found = bw.Job(title="Bars", corners=corners)

    text = bw.to_json(found)

    names = {name for name in json.loads(text)["records"] if name.startswith(setup.bar.id)}
    assert len(names) == len({*lengths, int(setup.bar.length.to("mm").magnitude)})
    assert names <= {setup.bar.id, *(f"{setup.bar.id} ({number})" for number in range(2, 6))}
    assert bw.from_json(text) == found


def test_records_that_are_alike_become_one() -> None:
    setup = make_setup()
    copy = attrs.evolve(setup.bar)
    again = bw.from_json(bw.to_json(setup.with_parts(bar=copy)))

    assert copy is not setup.bar
    assert again.bar is again.axle.left.bar


def with_setup(**fields: object) -> Callable[[Table], None]:
    return lambda told: told["corners"][0]["setup"].update(fields)


def with_records(change: Callable[[Table], object]) -> Callable[[Table], object]:
    return lambda told: change(told["records"])


BAR = "fells:bar/short-standard"
SPOILT: dict[str, tuple[Callable[[Table], object], str]] = {
    "a name of nothing": (with_setup(bar="fells:bar/spoke"), "corners[0].setup.bar"),
    "a record of another kind": (with_setup(bar="fells:arm/standard"), "corners[0].setup.bar"),
    "an arm that was a bar": (with_setup(arm=BAR), "corners[0].setup.arm"),
    "records that are a list": (lambda told: told.update(records=[1]), ""),
    "no records": (lambda told: told.pop("records"), "corners[0].setup.chassis"),
    "a record that is a name": (
        with_records(lambda records: records.update({BAR: "fells:bar/long-standard"})),
        "corners[0].setup.chassis.axles[0].left.bar",
    ),
    "a record of itself": (
        with_records(lambda records: records[BAR].update(material=BAR)),
        "corners[0].setup.chassis.axles[0].left.bar.material",
    ),
    "a record that nothing names": (
        with_records(lambda records: records.update(spare=records[BAR])),
        "records",
    ),
    "a record with a bare number": (
        with_records(lambda records: records[BAR].update(length=874)),
        "corners[0].setup.chassis.axles[0].left.bar.length",
    ),
}


@pytest.mark.parametrize("name", SPOILT)
def test_a_document_whose_records_are_spoilt_is_refused(name: str) -> None:
    told = document()
    spoil, place = SPOILT[name]
    spoil(told)

    with pytest.raises(bw.SchemaError) as caught:
        bw.from_json(json.dumps(told))

    assert (caught.value.code, caught.value.key) == ("S208", place)


def test_the_document_of_a_record_names_none() -> None:
    told = json.loads(bw.to_json(job().corners[0].setup.bar))
    named = told | {"material": "steel", "records": {"steel": told["material"]}}

    with pytest.raises(bw.SchemaError):
        bw.from_json(json.dumps(named))
    with pytest.raises(bw.SchemaError):
        bw.from_json(json.dumps(told | {"material": "steel"}))


def test_a_figure_says_of_itself_what_there_is_to_say() -> None:
    bar = job().corners[0].setup.bar
    about = json.loads(bw.to_json(bar))["about"]

    assert about["length"].keys() == {"value", "tolerance", "source", "source_kind", "file", "key"}
    assert bw.from_json(bw.to_json(bar)).about == bar.about


def test_every_part_is_a_record() -> None:
    setup = job().corners[0].setup

    names = json.loads(bw.to_json(setup))["records"]
    assert {part.id for part in parts_of(setup) if isinstance(part, Part)} <= names.keys()
