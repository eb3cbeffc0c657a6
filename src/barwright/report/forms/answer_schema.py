"""The JSON Schema of answers, records and jobs, made of the classes that they are.

Nothing of the form is written down here a second time: names, words, units and meanings are
those of the classes; :mod:`barwright.report.forms.json` writes and reads the documents.
"""

from __future__ import annotations

import enum
import functools
import itertools
import json
import types
import typing
from collections.abc import Callable, Iterator, Mapping
from typing import Any, TypeAlias

import attrs

from barwright.analysis.answer import Outcome
from barwright.analysis.working.expression import EXPRESSIONS, Expression
from barwright.parts.common.identity import Month
from barwright.parts.common.source import About, Fact, Figure
from barwright.registry.authoring.docstrings import descriptions, summary
from barwright.registry.authoring.table_schemas import DIALECT
from barwright.report.forms.documents import (
    ANSWER_SCHEMA,
    OF_SETUPS,
    class_of,
    documents,
    key_of_field,
)
from barwright.report.forms.field_kinds import kind_of
from barwright.report.forms.json import ALWAYS_KNOWN, has_summary
from barwright.report.forms.records import is_record
from barwright.units import KINDS, UNKNOWN, Kind, is_quantity_type

__all__ = ["answer_schema", "answer_schema_text"]

Schema: TypeAlias = dict[str, Any]

_PLAIN: Mapping[object, Schema] = {
    str: {"type": "string"},
    bool: {"type": "boolean"},
    int: {"type": "integer"},
    float: {"type": "number"},
    types.NoneType: {"type": "null"},
    Any: {},
    Month: {"type": "string", "pattern": r"^\d{4}(-\d{2})?$"},
}


def answer_schema() -> Schema:
    """Return the schema of whatever :func:`barwright.to_json` writes.

    Returns
    -------
    dict
        Of JSON Schema 2020-12.  Each document is one of ``$defs``, told by ``answer``.

    Examples
    --------
    >>> answer_schema()["$defs"]["LengthFit"]["properties"]["verdict"]["$ref"]
    '#/$defs/Verdict'
    """
    whole, of_setups = _Definitions(), _Definitions(names_records=True)
    words = sorted(documents())
    for word in words:
        _define(class_of(word), of_setups if word in OF_SETUPS else whole)
    _define_records(of_setups)
    return {
        "$schema": DIALECT,
        "title": f"Answers of barwright, schema {ANSWER_SCHEMA}",
        "oneOf": [_document(word) for word in words],
        "$defs": dict(sorted((whole | of_setups).items())),
    }


def answer_schema_text() -> str:
    """Return the schema as the text of a file.

    Returns
    -------
    str
    """
    return json.dumps(answer_schema(), indent=1, ensure_ascii=False) + "\n"


class _Definitions(dict[str, Schema]):
    """Definitions of classes, by their names."""

    def __init__(self, *, names_records: bool = False) -> None:
        super().__init__()
        self.named: set[type[Any]] | None = set() if names_records else None
        """Records that are named where they belong, if the documents do so."""


_RECORDS = "records"


def _document(word: str) -> Schema:
    """Return the schema of a whole document, which names its class and the version of the form."""
    head: dict[str, Schema] = {"answer": {"const": word}, "schema": {"const": ANSWER_SCHEMA}}
    hints = typing.get_type_hints(class_of(word))
    head |= {key_of_field(name): dict(_PLAIN[hints[name]]) for name in hints.keys() & head.keys()}
    if word in OF_SETUPS:
        head[_RECORDS] = {"$ref": f"#/$defs/{_RECORDS}"}
    return {
        "$ref": f"#/$defs/{word}",
        "properties": head,
        "required": [*head],
        "unevaluatedProperties": False,
    }


def _define_records(definitions: _Definitions) -> None:
    """Describe all records that documents name, and those that these name in turn."""
    named = definitions.named or set()
    described: dict[str, Schema] = {}
    while new := {cls.__name__: cls for cls in named if cls.__name__ not in described}:
        described |= {name: _described(cls, definitions) for name, cls in new.items()}
    definitions[_RECORDS] = {
        "description": "Each record that the document names, once.",
        "type": "object",
        "additionalProperties": {"anyOf": [described[name] for name in sorted(described)]},
    }


def _define(cls: type[Any], definitions: _Definitions) -> Schema:
    """Describe a class once, with all that it is made of, and return a reference to it."""
    if definitions.named is None or not is_record(cls):
        return _described(cls, definitions)
    definitions.named.add(cls)
    definitions["name_of_a_record"] = {
        "description": f"Name of a record, which stands under `{_RECORDS}`.",
        "type": "string",
    }
    return {"$ref": "#/$defs/name_of_a_record"}


def _described(cls: type[Any], definitions: _Definitions) -> Schema:
    name = cls.__name__
    if definitions.named is not None and name not in OF_SETUPS and _holds_records(cls):
        name = f"{name}_in_{_RECORDS}"  # elsewhere it has them whole
    if name not in definitions:
        definitions[name] = {}  # a class may contain itself
        definitions[name] = (
            {"enum": [member.value for member in cls]}
            if issubclass(cls, enum.Enum)
            else _of_fields(cls, definitions)
        )
    return {"$ref": f"#/$defs/{name}"}


def _holds_records(cls: type[Any], *within: type[Any]) -> bool:
    """Tell whether a record may stand in a class; a class may contain itself."""
    held = set(itertools.chain(*map(_classes, typing.get_type_hints(cls).values())))
    return any(is_record(one) or _holds_records(one, cls, *within) for one in held - {cls, *within})


def _classes(hint: Any) -> Iterator[type[Any]]:  # noqa: ANN401 - any annotation
    """Go through the classes with fields that an annotation names."""
    if isinstance(hint, type) and attrs.has(hint):
        yield hint
    for member in typing.get_args(hint):
        yield from _classes(member)


def _of_fields(cls: type[Any], definitions: _Definitions) -> Schema:
    hints, told = typing.get_type_hints(cls), descriptions(cls)
    head: dict[str, Schema] = {}
    if has_summary(cls):
        head = {"outcome": _define(Outcome, definitions), "headline": {"type": "string"}}
    fields = {
        field.name: _of_field(field, hints[field.name], definitions)
        | ({"description": told[field.name]} if field.name in told else {})
        for field in attrs.fields(cls)
    }
    return {
        "description": summary(cls),
        "type": "object",
        "properties": head | fields,
        "required": [*head, *(name for name in fields if name not in _left_out(cls))],
    }


def _left_out(cls: type[Any]) -> set[str]:
    """Return the fields that are written only where they say something."""
    return {*attrs.fields_dict(cls)} - {*ALWAYS_KNOWN} if issubclass(cls, Figure) else set()


def _of_field(field: Any, hint: Any, definitions: _Definitions) -> Schema:  # noqa: ANN401 - attrs' own class, and any annotation
    kind = field.metadata["kind"] if "kind" in field.metadata else kind_of(field.name)
    figure = functools.partial(_figure, kind, definitions, is_array=bool(field.eq_key))
    found = _of_type(hint, definitions, figure)
    may_be_unknown = field.metadata.get("may_be_unknown")
    return {"anyOf": [found, {"const": UNKNOWN}]} if may_be_unknown else found


def _of_type(hint: Any, definitions: _Definitions, figure: Callable[[], Schema]) -> Schema:  # noqa: ANN401 - any annotation
    """Return the schema of whatever an annotation allows; `figure` makes that of its figures."""
    origin, members = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Literal:
        return {"enum": list(members)}
    inner = [_of_type(one, definitions, figure) for one in members if one is not Ellipsis]
    if origin in (typing.Union, types.UnionType):
        return _any_of(inner)
    if origin is tuple:
        return _tuple(hint, inner)
    if origin is Mapping:
        return _mapping(*inner)
    return _of_class(hint, definitions, figure)


def _any_of(inner: list[Schema]) -> Schema:
    """Return the schema of whatever one of several allows, each said once."""
    different = [one for place, one in enumerate(inner) if one not in inner[:place]]
    return {"anyOf": different} if len(different) > 1 else different[0]


def _of_class(hint: Any, definitions: _Definitions, figure: Callable[[], Schema]) -> Schema:  # noqa: ANN401 - as above
    if hint in _PLAIN:
        return dict(_PLAIN[hint])
    if is_quantity_type(hint):
        return figure()
    if hint in _BESIDE_FIGURES:
        return _BESIDE_FIGURES[hint](definitions)
    return _define(hint, definitions)


def _tuple(hint: Any, inner: list[Schema]) -> Schema:  # noqa: ANN401 - any annotation
    """Return the schema of a list: of any length, or with one place for each item."""
    if Ellipsis in typing.get_args(hint):
        return {"type": "array", "items": inner[0]}
    return {"type": "array", "prefixItems": inner, "items": False, "minItems": len(inner)}


def _mapping(key: Schema, value: Schema) -> Schema:
    """Return the schema of a table with any keys of a kind."""
    return {"type": "object", "propertyNames": key, "additionalProperties": value}


def _figure(kind: Kind | None, definitions: _Definitions, *, is_array: bool) -> Schema:
    """Describe a figure, or a row of figures, of a kind once, and return a reference to it."""
    word = "any kind" if kind is None else kind.name
    name = f"{'figures' if is_array else 'figure'} of {word}".replace(" ", "_")
    number: Schema = {"type": "number"}
    held = {"values": {"type": "array", "items": number}} if is_array else {"value": number}
    unit: Schema = {"type": "string"} if kind is None else {"enum": list(kind.units)}
    figure: Schema = {
        "type": "object",
        "properties": {**held, "unit": unit},
        "required": [*held, "unit"],
        "additionalProperties": False,
    }
    definitions[name] = figure if is_array else {"anyOf": [figure, {"const": UNKNOWN}]}
    return {"$ref": f"#/$defs/{name}"}


def _known(definitions: _Definitions) -> Schema:
    """Return the schema of what is known of a field: a fact may take the place of a figure."""
    return {"anyOf": [_define(known, definitions) for known in (Figure, Fact)]}


def _about(definitions: _Definitions) -> Schema:
    """Return the schema of what is known of the fields of a record, by their names."""
    return {"type": "object", "additionalProperties": _known(definitions)}


def _equation(definitions: _Definitions) -> Schema:
    """Return the schema of a tree of an equation."""
    name = "equation"
    if name not in definitions:
        definitions[name] = {}  # a tree contains others
        either = [_define(tree, definitions) for tree in EXPRESSIONS]
        definitions[name] = {
            "description": "A tree of symbols and numbers, told by its keys.",
            "anyOf": either,
        }
    return {"$ref": f"#/$defs/{name}"}


def _kind(definitions: _Definitions) -> Schema:
    """Return the schema of the name of a kind of figure."""
    definitions["kind_of_figure"] = {"enum": [kind.name for kind in KINDS]}
    return {"$ref": "#/$defs/kind_of_figure"}


_BESIDE_FIGURES: Mapping[object, Callable[[_Definitions], Schema]] = {
    About: _about,
    Expression: _equation,
    Figure: _known,
    Kind: _kind,
}
