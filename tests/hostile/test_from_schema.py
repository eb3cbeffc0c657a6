"""Whatever the published schema allows, the loader reads, or says all that is wrong with it."""

from __future__ import annotations

import functools
import itertools
from typing import Any, TypeAlias

import pytest
import tomli_w
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from barwright.errors import BarwrightError
from barwright.registry.authoring.schema import pack_schema
from barwright.registry.files.snapshot import HEADER
from barwright.registry.packs.load import load_over
from draws import draws
from fuzz.seeds import HEADER as SHORT_HEADER
from fuzz.seeds import seeds
from fuzz.targets import snapshot_of_files

Schema: TypeAlias = dict[str, Any]

_SCHEMA = pack_schema()
_DEFINITIONS: Schema = _SCHEMA["$defs"]
_LEAST, _MOST = -10_000, 10_000


def _named(reference: str) -> st.SearchStrategy[Any]:
    return st.deferred(lambda: _of_definition(reference.rpartition("/")[2]))


@functools.cache
def _of_definition(name: str) -> st.SearchStrategy[Any]:
    return drawn(_DEFINITIONS[name])


def drawn(schema: Schema) -> st.SearchStrategy[Any]:
    """Values that a piece of the schema allows, as far as JSON Schema is used in it."""
    if "$ref" in schema:
        return _named(schema["$ref"])
    if "const" in schema or "enum" in schema:
        return st.sampled_from(schema.get("enum", [schema.get("const")]))
    for word in ("anyOf", "oneOf"):
        if word in schema:
            return st.one_of([drawn(inner) for inner in schema[word]])
    found: st.SearchStrategy[Any] = _BY_TYPE[schema["type"]](schema)
    return found


def _table(schema: Schema) -> st.SearchStrategy[Any]:
    """Tables of a schema; if it asks for more unless a key is there, with the key and without."""
    if "else" not in schema:
        return _plain_table(schema)
    alone = _with(schema, schema["else"])
    [key] = schema["if"]["required"]
    others = {name: inner for name, inner in alone["properties"].items() if name != key}
    return _plain_table(_with(schema, schema["if"])) | _plain_table(alone | {"properties": others})


def _plain_table(schema: Schema) -> st.SearchStrategy[Any]:
    fields = {name: drawn(inner) for name, inner in schema.get("properties", {}).items()}
    if "source" in fields:
        fields["source"] = st.sampled_from(["desk", "desk", "bench"])
    conditions = schema.get("allOf", [])
    # Keys of which just one is to be there, and keys that are not all there.
    either = [[one["required"][0] for one in c["oneOf"]] for c in conditions if "oneOf" in c]
    apart = [c["not"]["required"] for c in conditions if "not" in c]
    others = {name: fields.pop(name) for names in either for name in names}
    needed = {name: fields.pop(name) for name in schema.get("required", [])}
    tables = st.one_of(
        [
            st.fixed_dictionaries(needed | {name: others[name] for name in chosen}, optional=fields)
            for chosen in itertools.product(*either)
        ]
    )
    least = schema.get("minProperties", 0)
    return tables.filter(
        lambda table: len(table) >= least and not any(table.keys() >= {*names} for names in apart)
    )


def _with(schema: Schema, asked: Schema) -> Schema:
    """A schema that asks for more: keys of a table, and in turn of what lies in it."""
    if "$ref" in schema:
        return _with(_DEFINITIONS[schema["$ref"].rpartition("/")[2]], asked)
    if "anyOf" in schema:
        return schema | {"anyOf": [_with(inner, asked) for inner in schema["anyOf"]]}
    found = dict(schema)
    if schema.get("type") == "array" and "items" in asked:
        found["items"] = _with(schema["items"], asked["items"])
    if schema.get("type") == "object":
        found["required"] = [*schema.get("required", []), *asked.get("required", [])]
        found["allOf"] = [*schema.get("allOf", []), *asked.get("allOf", [])]
        inside = asked.get("properties", {})
        found["properties"] = {
            name: _with(inner, inside[name]) if name in inside else inner
            for name, inner in schema["properties"].items()
        }
        found |= {word: asked[word] for word in ("if", "else") if word in asked}
    return found


def _list(schema: Schema) -> st.SearchStrategy[Any]:
    least, most = schema.get("minItems", 0), schema.get("maxItems", 2)
    return st.lists(drawn(schema["items"]), min_size=least, max_size=max(least, min(most, 3)))


def _text(schema: Schema) -> st.SearchStrategy[Any]:
    if "pattern" in schema:
        texts = st.from_regex(schema["pattern"], alphabet=st.characters(codec="utf-8"))
        most = schema.get("maxLength")
        return texts.filter(lambda text: len(text) <= most) if most else texts
    return st.text(st.characters(codec="utf-8"), min_size=schema.get("minLength", 0), max_size=20)


def _number(kind: Any, schema: Schema) -> st.SearchStrategy[Any]:
    found: st.SearchStrategy[Any] = kind(
        schema.get("minimum", _LEAST), schema.get("maximum", _MOST)
    )
    return found


_BY_TYPE: dict[str, Any] = {
    "object": _table,
    "array": _list,
    "string": _text,
    "boolean": lambda _: st.booleans(),
    "integer": functools.partial(_number, st.integers),
    "number": functools.partial(_number, st.floats),
}


@pytest.mark.rare
@settings(max_examples=draws(100), suppress_health_check=list(HealthCheck))
@given(_of_definition("records"))
def test_records_that_the_schema_allows_are_read_or_told(records: dict[str, Any]) -> None:
    data = tomli_w.dumps(records).encode()
    snapshot = snapshot_of_files({HEADER: SHORT_HEADER, "data.toml": data})
    loaded = load_over(snapshot, origin="drawn", known=seeds().known, beside=set())
    assert loaded.pack is not None or loaded.problems
    for problem in loaded.problems:
        assert isinstance(problem, BarwrightError)
        # Spelling and types are the schema's business; what is left is not for it to see.
        assert problem.code not in {"S201", "S202", "F103", "Q201", "Q202"}, problem


@settings(max_examples=draws(40), suppress_health_check=list(HealthCheck))
@given(_of_definition("pack"))
def test_a_header_that_the_schema_allows_is_read_or_told(header: dict[str, Any]) -> None:
    snapshot = snapshot_of_files({HEADER: tomli_w.dumps(header).encode()})
    loaded = load_over(snapshot, origin="drawn", known=seeds().known, beside=set())
    assert loaded.pack is not None or loaded.problems
    assert all(problem.code not in {"S201", "S202", "F103"} for problem in loaded.problems)
