"""The JSON Schemas of packs and overlays, made of the classes that these are read into.

Nothing of the format is written down here: kinds, ranges, words, defaults and meanings
are those of the fields.  What relates several values to each other cannot be said in
such a schema and is left to the loader.
"""

from __future__ import annotations

import enum
import json
import types
import typing
from collections.abc import Iterator, Mapping
from typing import Any, TypeAlias

import attrs

from barwright.parts.chassis import Axle
from barwright.parts.common.facts import fact_fields
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.identity import LONGEST_NUMBER, SYSTEM, PartNumber
from barwright.parts.common.record import NOT_IN_FILES, Part, Record
from barwright.registry.authoring.definition_names import DEFINITION_NAMES
from barwright.registry.authoring.docstrings import descriptions, summary
from barwright.registry.authoring.required_keys import (
    LIKE_OTHERS,
    always_required,
    further_fields,
    unless_like,
)
from barwright.registry.overlays.correction import CORRECTIONS, Correction
from barwright.registry.overlays.preference import OverlayHeader
from barwright.registry.packs.checks import PROOFS
from barwright.registry.packs.claims import CLAIMS, Fits
from barwright.registry.packs.format.keys import key_of, kinds_of
from barwright.registry.packs.format.pack import KINDS, SCHEMA, PackHeader
from barwright.registry.packs.format.requirement import REQUIREMENT
from barwright.registry.packs.header import VERSION
from barwright.registry.packs.load import BESIDE_THE_HEADER
from barwright.registry.packs.record_loader import NAME
from barwright.registry.packs.tables.inherited import LIKE, WITHOUT
from barwright.registry.packs.tables.sided import SIDES, may_differ
from barwright.registry.packs.tables.values import LARGEST_WHOLE
from barwright.units import UNKNOWN, Kind, Range, a_kind, listed, pattern_of

__all__ = ["DIALECT", "overlay_schema", "pack_schema", "schema_text"]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
"""Version of JSON Schema that is written."""

Schema: TypeAlias = dict[str, Any]

_UNKNOWN: Schema = {"const": UNKNOWN, "description": "A figure that nobody knows yet."}
_TEXT: Schema = {"type": "string", "pattern": r"\S"}
_ID: Schema = {"type": "string", "pattern": f"^{NAME.pattern}$"}
_LONGEST_FIGURE = 64

# Keys of every table that holds figures, beside its own.
_PLACE: Schema = {
    "source": {
        "type": "string",
        "minLength": 1,
        "description": "Id of the source that the figures of this table come from.",
    },
    "at": {"type": "string", "description": "Place in that source: page, table, sheet."},
}


def schema_text(*, overlay: bool = False) -> str:
    """Return the schema as the text of a file.

    Parameters
    ----------
    overlay : bool
        Whether that of overlays is wanted.

    Returns
    -------
    str
    """
    schema = overlay_schema() if overlay else pack_schema()
    return json.dumps(schema, ensure_ascii=False, indent=2) + "\n"


def pack_schema() -> Schema:
    """Return the JSON Schema of ``pack.toml`` and of every other file of a pack.

    Returns
    -------
    dict
        ``#/$defs/pack`` is that of the one, ``#/$defs/records`` that of the others.

    Examples
    --------
    >>> pack_schema()["$defs"]["arm"]["properties"]["radius"]["$ref"]
    '#/$defs/figure-length-positive'
    """
    return _document("pack", _Writer(PackHeader, {**KINDS, CLAIMS: Fits, **PROOFS}))


def overlay_schema() -> Schema:
    """Return the JSON Schema of ``pack.toml`` and of every other file of an overlay.

    Returns
    -------
    dict
        Its definitions have the names that they have in :func:`pack_schema`.

    Examples
    --------
    >>> overlay_schema()["$defs"]["correction"]["required"]
    ['of', 'figure', 'is', 'source', 'why']
    """
    tables = {**KINDS, CLAIMS: Fits, **PROOFS, CORRECTIONS: Correction}
    return _document("overlay", _Writer(OverlayHeader, tables))


def _document(of: str, writer: _Writer) -> Schema:
    pack, records = writer.pack(), writer.records()
    marks = [{"required": [key]} for key in pack["required"]]
    article = "an" if of == "overlay" else "a"
    return {
        "$schema": DIALECT,
        "title": f"A file of a barwright {of}, version {SCHEMA} of the format",
        "description": f"What has a key of {article} {of}'s header is read as pack.toml, all else "
        "as a file of records.",
        "type": "object",
        "if": {"anyOf": marks},
        "then": {"$ref": "#/$defs/pack"},
        "else": {"$ref": "#/$defs/records"},
        "$defs": {"pack": pack, "records": records, **dict(sorted(writer.definitions.items()))},
    }


class _Writer:
    """Writes a definition for each class and each kind of figure that it comes across."""

    def __init__(self, header: type[PackHeader], tables: Mapping[str, type[Any]]) -> None:
        self._header = header
        self._tables = tables
        self.definitions: dict[str, Schema] = {}

    def pack(self) -> Schema:
        """Describe ``pack.toml``."""
        header = self._object(self._header)
        properties = header["properties"]
        said = properties["schema"]["description"]
        properties["schema"] = {"const": SCHEMA, "description": said}
        properties["id"] |= _ID
        properties["version"] |= {"pattern": f"^{VERSION.pattern}$"}
        properties["requires_barwright"] |= {"pattern": f"^(?:{REQUIREMENT})$"}
        beside = {name: self._table_list(PROOFS[name]) for name in sorted(BESIDE_THE_HEADER)}
        return header | {"properties": properties | beside}

    def records(self) -> Schema:
        """Describe a file of records."""
        tables = {name: self._table_list(cls) for name, cls in self._tables.items()}
        return {
            "description": "Records, checks and waivers.",
            "type": "object",
            "properties": tables,
            "additionalProperties": False,
        }

    def _table_list(self, cls: type[Any]) -> Schema:
        listed_as = {"type": "array", "items": self._defined(cls)}
        return listed_as | {"description": summary(cls)}

    def _defined(self, cls: type[Any]) -> Schema:
        """Refer to the definition of a class, which is written when it is first needed."""
        name = DEFINITION_NAMES[cls]
        if name not in self.definitions:
            self.definitions[name] = {}
            self.definitions[name] |= self._object(cls)
        return {"$ref": f"#/$defs/{name}"}

    def _object(self, cls: type[Any]) -> Schema:
        """Describe the table that a class is read from."""
        fields = [field for field in attrs.fields(cls) if field.name not in NOT_IN_FILES]
        properties = {key_of(field.name): self._property(cls, field) for field in fields}
        properties |= {name: properties[key_of(name)] for name in further_fields(cls)}
        if issubclass(cls, Record):
            properties = dict(_PLACE) | properties
        if cls in LIKE_OTHERS:
            properties = _relation(cls) | properties
        if issubclass(cls, Part):
            properties["id"] |= _ID
        return (
            {
                "description": summary(cls),
                "type": "object",
                "properties": properties,
                "required": always_required(cls),
                "additionalProperties": False,
            }
            | _refused_together(further_fields(cls))
            | (unless_like(cls) if issubclass(cls, Part) else {})
        )

    def _property(self, cls: type[Any], field: attrs.Attribute[Any]) -> Schema:
        figures = figure_fields(cls)
        described = {"description": descriptions(cls)[field.name]}
        if field.name in figures:
            schema = self._figure(*figures[field.name])
        else:
            hint = _without_none(typing.get_type_hints(cls)[field.name])
            schema = _or_unknown(self._value(hint) | _bounds(field.metadata), field.metadata)
            if issubclass(cls, Record) and field.name in fact_fields(cls):
                schema = _or_with_source(schema, described)
        if may_differ(cls, field.name) and field.name in {*figures, *fact_fields(cls)}:
            schema = self._by_side(schema)
        return schema | described | _default(field)

    def _by_side(self, value: Schema) -> Schema:
        """Describe a value, or one of each side."""
        name = f"{value['$ref'].rpartition('/')[2]}-by-side" if "$ref" in value else ""
        sides = {
            "type": "object",
            "properties": {
                side: value | {"description": f"Of the {side} corner."} for side in SIDES
            },
            "minProperties": 1,
            "additionalProperties": False,
        }
        if not name:
            return {"anyOf": [*value.get("anyOf", [value]), sides]}
        said = "One figure for both sides, or one for each."
        self.definitions[name] = {"description": said, "anyOf": [value, sides]}
        return {"$ref": f"#/$defs/{name}"}

    def _value(self, hint: Any) -> Schema:  # noqa: ANN401 - any annotation
        """Describe a value that is no figure."""
        if hint == tuple[PartNumber, ...]:
            return _numbers()
        if typing.get_origin(hint) is tuple:
            return self._list(typing.get_args(hint))
        if typing.get_origin(hint) is dict:
            return _by_id(self._value(typing.get_args(hint)[1]))
        return _scalar(hint) or self._table(hint)

    def _table(self, hint: Any) -> Schema:  # noqa: ANN401 - any annotation
        """Describe a table, or the id of one that stands elsewhere."""
        kinds = [kind for kind, cls in KINDS.items() if cls in _members(hint)]
        if kinds:
            return _reference(kinds)
        words = kinds_of(hint)
        if words:
            return {"oneOf": [self._of_kind(word, cls) for word, cls in sorted(words.items())]}
        return self._defined(hint)

    def _list(self, items: tuple[Any, ...]) -> Schema:
        schema: Schema = {"type": "array", "items": self._value(items[0])}
        if items[-1] is not Ellipsis:
            schema |= {"minItems": len(items), "maxItems": len(items)}
        return schema

    def _of_kind(self, word: str, cls: type[Any]) -> Schema:
        """Describe one of the tables that a key ``kind`` tells apart."""
        name = DEFINITION_NAMES[cls]
        schema = self._object(cls)
        kind = {"const": word, "description": f"Which kind of table this is: '{word}'."}
        schema["properties"] = {"kind": kind} | schema["properties"]
        self.definitions[name] = schema | {"required": ["kind", *schema["required"]]}
        return {"$ref": f"#/$defs/{name}"}

    def _figure(self, kind: Kind, allowed: Range) -> Schema:
        range_of = "" if allowed == "any" else f"-{allowed}"
        name = f"figure-{kind.name}{range_of}".replace(" ", "-")
        self.definitions[name] = _figure(kind, allowed)
        return {"$ref": f"#/$defs/{name}"}


_PLAIN: Mapping[Any, Schema] = {
    str: _TEXT,
    bool: {"type": "boolean"},
    int: {"type": "integer", "minimum": -LARGEST_WHOLE, "maximum": LARGEST_WHOLE},
    float: {"type": "number"},
    # What a correction says is of the type of the field that it corrects.
    Any: {"anyOf": [_TEXT, {"type": ["integer", "boolean", "array"]}]},
}


def _scalar(hint: Any) -> Schema:  # noqa: ANN401 - any annotation
    """Describe what is no table and no list; nothing for those that are."""
    if isinstance(hint, type) and issubclass(hint, enum.Enum):
        return {"enum": [member.value for member in hint]}
    if hasattr(hint, "PATTERN"):
        return {"type": "string", "pattern": f"^(?:{hint.PATTERN})$"}
    return dict(_PLAIN.get(hint, {}))


def _figure(kind: Kind, allowed: Range) -> Schema:
    """Describe a figure: its text, or a table that gives it a source of its own."""
    said = a_kind(kind) if allowed == "any" else f"{a_kind(kind)}, {allowed}"
    text = {
        "type": "string",
        "maxLength": _LONGEST_FIGURE,
        "pattern": pattern_of(kind, allowed),
        "description": f"One decimal number and one unit: {listed(kind)}; where known, "
        f"a tolerance: '12.5 {kind.units[0]} ± 0.5 {kind.units[0]}'.",
    }
    described = {"description": f"{said[0].upper()}{said[1:]}."}
    return described | _or_with_source({"anyOf": [text, _UNKNOWN]}, described)


def _or_with_source(value: Schema, described: Schema) -> Schema:
    """Describe a value, or a table that gives it a source of its own."""
    table = {
        "type": "object",
        "properties": {"is": value | described, **_PLACE},
        "required": ["is"],
        "additionalProperties": False,
    }
    return {"anyOf": [*value.get("anyOf", [value]), table]}


def _refused_together(fields: list[str]) -> Schema:
    """Refuse a field that may be written in two ways if it is written in both."""
    both = [{"not": {"required": [key_of(name), name]}} for name in fields]
    return {"allOf": both} if both else {}


def _relation(cls: type[Any]) -> Schema:
    """Describe the keys by which a table takes what it does not give of another record."""
    kind = "chassis" if cls is Axle else next(word for word, of in KINDS.items() if of is cls)
    taken = "whose axle in the same place this one is like" if cls is Axle else "that it is like"
    return {
        LIKE: _reference([kind])
        | {"description": f"Id of the {kind} of this pack {taken}: only what differs is given."},
        WITHOUT: {
            "type": "array",
            "items": _TEXT,
            "description": "Fields that are stated there and that this table does not have.",
        },
    }


def _numbers() -> Schema:
    """Describe a table of part numbers by their systems."""
    number = _TEXT | {"maxLength": LONGEST_NUMBER}
    several = {"type": "array", "items": number}
    return {
        "type": "object",
        "patternProperties": {f"^{SYSTEM}$": {"anyOf": [number, several]}},
        "additionalProperties": False,
    }


def _by_id(value: Schema) -> Schema:
    """Describe a table whose keys are ids."""
    return {
        "type": "object",
        "patternProperties": {_ID["pattern"]: value},
        "additionalProperties": False,
    }


def _reference(kinds: list[str]) -> Schema:
    """Describe the id of a record of some kinds, of this pack or of another."""
    pattern = f"^(?:{NAME.pattern}:)?(?:{'|'.join(kinds)})/{NAME.pattern}$"
    return {"type": "string", "pattern": pattern}


def _or_unknown(schema: Schema, metadata: Mapping[Any, Any]) -> Schema:
    """Take the word for a count that is not known, where a field does."""
    return {"anyOf": [schema, _UNKNOWN]} if metadata.get("may_be_unknown") else schema


def _bounds(metadata: Mapping[Any, Any]) -> Schema:
    """Say what a field's own reader asks for beyond the type."""
    bounds: Schema = {}
    if "counts" in metadata:
        bounds |= dict(zip(("minimum", "maximum"), metadata["counts"], strict=True))
    if "differ" in metadata:
        bounds["uniqueItems"] = True
    return bounds


def _default(field: attrs.Attribute[Any]) -> Schema:
    value: Any = field.default
    if value is attrs.NOTHING or value is None or isinstance(value, attrs.Factory):  # type: ignore[arg-type]
        return {}
    if isinstance(value, enum.Enum):
        value = value.value
    return {"default": list(value) if isinstance(value, tuple) else value}


def _members(hint: Any) -> Iterator[Any]:  # noqa: ANN401 - any annotation
    """Members of a union, or the one type."""
    if typing.get_origin(hint) in (typing.Union, types.UnionType):
        yield from typing.get_args(hint)
    else:
        yield hint


def _without_none(hint: Any) -> Any:  # noqa: ANN401 - any annotation
    """Return what a field holds if it is there at all."""
    members = [member for member in _members(hint) if member is not types.NoneType]
    return typing.Union[tuple(members)]  # noqa: UP007 - made at run time
