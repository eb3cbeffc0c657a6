"""Tests of `barwright.report.forms.answer_schema`: it holds what is written, and nothing else."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

import barwright as bw
from barwright.report.forms.answer_schema import answer_schema_text
from each_case import each_case
from sample_packs import discovered_once

ROOT = Path(__file__).parents[3]
SCHEMA = bw.answer_schema()

Table = dict[str, Any]


def validator(word: str) -> Draft202012Validator:
    """What holds a document of one answer to the schema; that of all says little of a mistake."""
    (one,) = (found for found in SCHEMA["oneOf"] if found["$ref"] == f"#/$defs/{word}")
    return Draft202012Validator(one | {"$schema": SCHEMA["$schema"], "$defs": SCHEMA["$defs"]})


@pytest.fixture(scope="module")
def fit() -> Table:
    setup = discovered_once().setup("fells:chassis/short", corner="front left")
    found: Table = json.loads(bw.to_json(bw.length_fit(setup)))
    return found


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(SCHEMA)


def test_the_published_file_is_of_today() -> None:
    published = (ROOT / "docs" / "answer.schema.json").read_text(encoding="utf-8")

    assert published == answer_schema_text(), (
        "run: barwright schema --answers --output docs/answer.schema.json"
    )


def test_everything_in_it_is_described() -> None:
    for name, definition in SCHEMA["$defs"].items():
        if "properties" in definition and not name.startswith("figure"):
            assert definition["description"], name


def test_a_document_is_told_by_its_word(fit: Table) -> None:
    assert Draft202012Validator(SCHEMA).is_valid(fit)
    assert not Draft202012Validator(SCHEMA).is_valid(fit | {"answer": "Rates"})


def without(name: str) -> Callable[[Table], Table]:
    return lambda table: {key: value for key, value in table.items() if key != name}


def with_end(**changed: object) -> Callable[[Table], Table]:
    """The table with other values at the first end."""
    return lambda table: table | {"ends": [table["ends"][0] | changed, *table["ends"][1:]]}


WRONG: dict[str, Callable[[Table], Table]] = {
    "another version": lambda table: table | {"schema": 99},
    "no version": without("schema"),
    "a field too few": without("verdict"),
    "a field too many": lambda table: table | {"judgement": "fits"},
    "a word that there is not": lambda table: table | {"verdict": "fits well"},
    "an outcome that there is not": lambda table: table | {"outcome": "good"},
    "a bare number": with_end(engagement=37.0),
    "a unit of another kind": with_end(engagement={"value": 37.0, "unit": "kg"}),
    "a figure without its unit": with_end(engagement={"value": 37.0}),
    "a number as text": with_end(engagement={"value": "37.0", "unit": "mm"}),
    "text instead of a list": lambda table: table | {"findings": "none"},
}


@each_case("change", WRONG.items(), called=lambda case: case[0])
def test_a_wrong_document_is_refused(change: tuple[str, Callable[[Table], Table]]) -> None:
    setup = discovered_once().setup("fells:chassis/short", corner="front left")
    table = json.loads(bw.to_json(bw.length_fit(setup)))
    held = validator("LengthFit")

    assert held.is_valid(table)
    assert not held.is_valid(change[1](table))


def test_an_unknown_figure_is_a_figure(fit: Table) -> None:
    assert validator("LengthFit").is_valid(with_end(engagement="unknown")(fit))
