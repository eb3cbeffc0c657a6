"""The JSON Schema of answers, records and jobs, made of the classes that they are.

Nothing of the form is written down here a second time: names, words, units and meanings are
those of the classes; :mod:`barwright.report.forms.json` writes and reads the documents.
"""

from __future__ import annotations

import enum
import functools
import json
import types
import typing
from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

import attrs

from barwright.analysis.answer import Outcome
from barwright.parts.identity import Month
from barwright.parts.source import About, Fact, Figure
from barwright.registry.authoring.docstrings import descriptions, summary
from barwright.registry.authoring.schema import DIALECT
from barwright.report.forms.field_kinds import kind_of
from barwright.report.forms.json import ANSWER_SCHEMA, class_of, documents, is_headed
from barwright.units import UNKNOWN, Kind, is_quantity_type

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
    definitions: dict[str, Schema] = {}
    words = sorted(documents())
    for word in words:
        _define(class_of(word), definitions)
    return {
        "$schema": DIALECT,
        "title": f"Answers of barwright, schema {ANSWER_SCHEMA}",
        "oneOf": [_document(word) for word in words],
        "$defs": dict(sorted(definitions.items())),
    }


def answer_schema_text() -> str:
    """Return the schema as the text of a file.

    Returns
    -------
    str
    """
    return json.dumps(answer_schema(), indent=1, ensure_ascii=False) + "\n"


def _document(word: str) -> Schema:
    """Return the schema of a whole document, which names its class and the version of the form."""
    return {
        "$ref": f"#/$defs/{word}",
        "properties": {"answer": {"const": word}, "schema": {"const": ANSWER_SCHEMA}},
        "required": ["answer", "schema"],
        "unevaluatedProperties": False,
    }


def _define(cls: type[Any], definitions: dict[str, Schema]) -> Schema:
    """Describe a class once, with all that it is made of, and return a reference to it."""
    if cls.__name__ not in definitions:
        definitions[cls.__name__] = {}  # a class may contain itself
        definitions[cls.__name__] = (
            {"enum": [member.value for member in cls]}
            if issubclass(cls, enum.Enum)
            else _of_fields(cls, definitions)
        )
    return {"$ref": f"#/$defs/{cls.__name__}"}


def _of_fields(cls: type[Any], definitions: dict[str, Schema]) -> Schema:
    hints, told = typing.get_type_hints(cls), descriptions(cls)
    head: dict[str, Schema] = {}
    if is_headed(cls):
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
        "required": [*head, *fields],
    }


def _of_field(field: Any, hint: Any, definitions: dict[str, Schema]) -> Schema:  # noqa: ANN401 - attrs' own class, and any annotation
    kind = field.metadata["kind"] if "kind" in field.metadata else kind_of(field.name)
    figure = functools.partial(_figure, kind, definitions, is_array=bool(field.eq_key))
    found = _of_type(hint, definitions, figure)
    may_be_unknown = field.metadata.get("may_be_unknown")
    return {"anyOf": [found, {"const": UNKNOWN}]} if may_be_unknown else found


def _of_type(hint: Any, definitions: dict[str, Schema], figure: Callable[[], Schema]) -> Schema:  # noqa: ANN401 - any annotation
    """Return the schema of whatever an annotation allows; `figure` makes that of its figures."""
    origin, members = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Literal:
        return {"enum": list(members)}
    inner = [_of_type(one, definitions, figure) for one in members if one is not Ellipsis]
    if origin in (typing.Union, types.UnionType):
        return {"anyOf": inner}
    if origin is tuple:
        return _tuple(hint, inner)
    return _of_class(hint, definitions, figure)


def _of_class(hint: Any, definitions: dict[str, Schema], figure: Callable[[], Schema]) -> Schema:  # noqa: ANN401 - as above
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


def _figure(kind: Kind | None, definitions: dict[str, Schema], *, is_array: bool) -> Schema:
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


def _known(definitions: dict[str, Schema]) -> Schema:
    """Return the schema of what is known of a field: a fact may take the place of a figure."""
    return {"anyOf": [_define(known, definitions) for known in (Figure, Fact)]}


def _about(definitions: dict[str, Schema]) -> Schema:
    """Return the schema of what is known of the fields of a record, by their names."""
    return {"type": "object", "additionalProperties": _known(definitions)}


_BESIDE_FIGURES: Mapping[object, Callable[[dict[str, Schema]], Schema]] = {
    About: _about,
    Figure: _known,
}
