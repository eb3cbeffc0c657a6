"""The JSON Schema of job files, made of the classes that read them."""

from __future__ import annotations

import inspect
import json
from collections.abc import Mapping
from typing import Any

import attrs

from barwright.parts.chassis import Axle
from barwright.parts.common.record import Part, Record
from barwright.parts.common.source import JOB_SOURCES
from barwright.parts.measurements.whole_vehicle import AxleAntiRollBar, WeighedAxle, WeighedWheel
from barwright.parts.setup import PLACES
from barwright.registry.authoring.definition_names import DEFINITION_NAMES
from barwright.registry.authoring.docstrings import descriptions, summary
from barwright.registry.authoring.required_keys import always_required, further_fields
from barwright.registry.authoring.table_schemas import (
    DIALECT,
    PLACE,
    UNKNOWN_FIGURE,
    Schema,
    TableSchemas,
    of_words,
    reference,
    refused_together,
    text_of,
)
from barwright.registry.jobs.inline.inline_records import NOT_IN_A_JOB
from barwright.registry.jobs.inline.unknown_vehicle import WORDS_OF_AN_AXLE
from barwright.registry.jobs.keys import (
    CORNERS,
    OF_THE_WHOLE_VEHICLE,
    READ_INTO,
    JobKeys,
    PartNames,
)
from barwright.registry.jobs.measured import MOST_READINGS
from barwright.registry.jobs.sides import SIDES
from barwright.registry.packs.format.keys import key_of
from barwright.registry.packs.format.pack import KINDS
from barwright.units import Kind, Range

__all__ = ["KNOWN", "OF_ONE_SIDE", "OR_UNKNOWN", "job_schema", "job_schema_text"]

KNOWN, OR_UNKNOWN = "-known", "-or-unknown"
"""How the names of figures end of which a job must say what it is, or that nobody knows it."""

OF_ONE_SIDE = "-of-one-side"
"""How the names of tables for one side end."""

_NAMES: Mapping[type[Any], str] = {
    **DEFINITION_NAMES,
    AxleAntiRollBar: "axle-anti-roll-bar",
    WeighedAxle: "weighed-axle",
    WeighedWheel: "weighed-wheel",
}


def job_schema() -> Schema:
    """Return the JSON Schema of a job file, and of the tables that :func:`job_of` takes.

    Returns
    -------
    dict
        Of JSON Schema 2020-12.

    Examples
    --------
    >>> job_schema()["required"]
    ['corners', 'wanted']
    """
    return _Job().schema()


def job_schema_text() -> str:
    """Return the schema as the text of a file.

    Returns
    -------
    str
    """
    return json.dumps(job_schema(), ensure_ascii=False, indent=2) + "\n"


_WHERE: Schema = {
    "source": {"type": "string", "description": "Where this figure comes from."},
    "at": PLACE["at"],
}


class _OwnTables(TableSchemas):
    """Describes the tables that only a job has: what it says in them is known."""

    place = _WHERE

    def written(self, cls: type[Any], field: attrs.Attribute[Any], described: Schema) -> Schema:
        """Describe the value of a field; a name of a part by the kinds that its place may hold."""
        written = super().written(cls, field, described)
        if not issubclass(cls, PartNames) or field.name not in PLACES:
            return written
        kinds = [kind for kind, of in KINDS.items() if of in PLACES[field.name]]
        return {"anyOf": [reference(kinds), *written["anyOf"][1:]]}

    def figure(self, cls: type[Any], kind: Kind, allowed: Range) -> Schema:
        """Refer to a figure that is known, unless the table may leave it open."""
        text = text_of(kind, allowed)
        if not getattr(cls, "MAY_HAVE_GAPS", False):
            return self.defined_figure(kind, allowed, text, suffix=KNOWN)
        either = {"anyOf": [text, UNKNOWN_FIGURE]}
        return self.defined_figure(kind, allowed, either, suffix=OR_UNKNOWN)


_SOURCE: Schema = {
    "source": {
        "enum": [source.id for source in JOB_SOURCES],
        "description": "How the figures of this table were obtained; if left out, measured on "
        "this vehicle.",
    },
    "at": PLACE["at"],
}


class _PartTables(TableSchemas):
    """Describes the tables in which a job describes parts: as a pack does, and with any gap."""

    place = _SOURCE
    kind_is_required = False

    def table(self, cls: type[Any]) -> Schema:
        """Describe a table of which any key may be left out."""
        left_out = {*NOT_IN_A_JOB, *SIDES} if issubclass(cls, Part | Axle) else ()
        is_whole = issubclass(cls, Record) and not cls.MAY_HAVE_GAPS
        required = always_required(cls) if is_whole else []
        table = self.table_of_fields(cls, required=required, left_out=left_out)
        more = _words_of_an_axle() if cls is Axle else {}
        return table | {"properties": _SOURCE | table["properties"] | more}

    def property(self, cls: type[Any], field: attrs.Attribute[Any]) -> Schema:
        """Describe a key; what is left out is unknown, and not what a pack takes it for."""
        described = super().property(cls, field)
        return {key: said for key, said in described.items() if key != "default"}

    def named(self, kinds: list[str]) -> Schema:
        """Describe how a part names its steel."""
        return {"anyOf": [super().named(kinds), UNKNOWN_FIGURE]}


def _words_of_an_axle() -> dict[str, Schema]:
    """Describe the words for what a pack says otherwise."""
    return {
        key: of_words(words) | {"description": inspect.cleandoc(words.__doc__ or "")}
        for key, words in WORDS_OF_AN_AXLE.items()
    }


class _Job:
    """Describes the keys of a job, and its tables here and for one side."""

    def __init__(self) -> None:
        self._own = _OwnTables(_NAMES)
        self._parts = _PartTables(_NAMES, self._own.definitions)

    def schema(self) -> Schema:
        """Describe the whole file."""
        properties = {key_of(key.name): self._key(key) for key in attrs.fields(JobKeys)}
        properties |= {name: properties[key_of(name)] for name in further_fields(JobKeys)}
        required = [key.name for key in attrs.fields(JobKeys) if key.default is attrs.NOTHING]
        return {
            "$schema": DIALECT,
            "title": "A job file of barwright",
            "description": summary(JobKeys),
            "type": "object",
            "properties": properties,
            "required": required,
            "additionalProperties": False,
            **refused_together(further_fields(JobKeys)),
            "$defs": dict(sorted(self._own.definitions.items())),
        }

    def _key(self, key: attrs.Attribute[Any]) -> Schema:
        """Describe a key of the file."""
        if key.name in READ_INTO:
            return self._table(key) | {"description": descriptions(JobKeys)[key.name]}
        schema = self._own.property(JobKeys, key)
        if key.name == "corners":
            schema |= {"items": {"enum": [*CORNERS]}, "minItems": 1, "uniqueItems": True}
        return _one_or_several(schema) if key.name == "vehicle" else schema

    def _table(self, key: attrs.Attribute[Any]) -> Schema:
        """Refer to the definition of a table, with one for each side where it may have that."""
        name = key_of(key.name)
        tables = [self._of_class(cls) for cls in READ_INTO[key.name]]
        if key.name in OF_THE_WHOLE_VEHICLE:
            return self._defined(name, tables)
        side = self._defined(f"{name}{OF_ONE_SIDE}", tables)
        if name == "measured":
            several = {"type": "array", "items": side, "minItems": 1, "maxItems": MOST_READINGS}
            side = {"anyOf": [side, several]}
        return self._defined(name, [_with_sides(_listed(table, name), side) for table in tables])

    def _of_class(self, cls: type[Any]) -> Schema:
        if cls not in {*KINDS.values(), Axle}:
            return self._own.table(cls)
        table = self._parts.table(cls)
        if cls not in PLACES["anchor"]:
            return table
        word = next(word for word, of in KINDS.items() if of is cls)
        kind = {"const": word, "description": "What holds the bar's anchor end."}
        return table | {"properties": {"kind": kind} | table["properties"]}

    def _defined(self, name: str, tables: list[Schema]) -> Schema:
        """Refer to a definition by its name: of one table, or of either of several."""
        either = {"description": "One of several kinds of table.", "anyOf": tables}
        self._own.definitions[name] = tables[0] if len(tables) == 1 else either
        return {"$ref": f"#/$defs/{name}"}


def _listed(table: Schema, name: str) -> Schema:
    """Let each part that a job fits be a list of those that are tried."""
    if name != "parts":
        return table
    properties = {key: _one_or_several(value) for key, value in table["properties"].items()}
    return table | {"properties": properties}


def _one_or_several(value: Schema) -> Schema:
    """Describe a value, or a list of those that are tried one after the other."""
    described = {"description": value["description"]} if "description" in value else {}
    one = {key: said for key, said in value.items() if key != "description"}
    several = {"type": "array", "items": one, "minItems": 1, "uniqueItems": True}
    return {"anyOf": [*one.get("anyOf", [one]), several]} | described


def _with_sides(table: Schema, side: Schema) -> Schema:
    """Add a table for each side to a table for both."""
    sides = {name: side | {"description": f"Of the {name} side."} for name in sorted(SIDES)}
    return table | {"properties": table["properties"] | sides}
