"""The JSON Schemas of packs and overlays."""

from __future__ import annotations

import functools
import json
from collections.abc import Mapping
from typing import Any

import attrs

from barwright.parts.chassis import Axle
from barwright.parts.common.facts import fact_fields
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import Part, Record
from barwright.registry.authoring.definition_names import DEFINITION_NAMES
from barwright.registry.authoring.docstrings import summary
from barwright.registry.authoring.required_keys import (
    LIKE_OTHERS,
    always_required,
    unless_like,
)
from barwright.registry.authoring.table_schemas import (
    DIALECT,
    ID,
    PLACE,
    TEXT,
    Schema,
    TableSchemas,
    reference,
)
from barwright.registry.overlays.correction import CORRECTIONS, Correction
from barwright.registry.overlays.preference import OverlayHeader
from barwright.registry.packs.checks import PROOFS
from barwright.registry.packs.claims import CLAIMS, Fits
from barwright.registry.packs.format.pack import KINDS, SCHEMA, PackHeader
from barwright.registry.packs.format.requirement import REQUIREMENT
from barwright.registry.packs.header import VERSION
from barwright.registry.packs.load import BESIDE_THE_HEADER
from barwright.registry.packs.tables.inherited import LIKE, WITHOUT
from barwright.registry.packs.tables.sided import SIDES, may_differ

__all__ = ["overlay_schema", "pack_schema", "schema_text"]


@functools.cache
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
    return _document("pack", _PackSchemas(PackHeader, {**KINDS, CLAIMS: Fits, **PROOFS}))


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
    return _document("overlay", _PackSchemas(OverlayHeader, tables))


def _document(of: str, writer: _PackSchemas) -> Schema:
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


class _PackSchemas(TableSchemas):
    """Writes the definitions of a pack's tables."""

    def __init__(self, header: type[PackHeader], tables: Mapping[str, type[Any]]) -> None:
        super().__init__(DEFINITION_NAMES)
        self._header = header
        self._tables = tables

    def pack(self) -> Schema:
        """Describe ``pack.toml``."""
        header = self.table(self._header)
        properties = header["properties"]
        said = properties["schema"]["description"]
        properties["schema"] = {"const": SCHEMA, "description": said}
        properties["id"] |= ID
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
        listed_as = {"type": "array", "items": self.defined(cls)}
        return listed_as | {"description": summary(cls)}

    def table(self, cls: type[Any]) -> Schema:
        """Describe a table, which may take what it does not give of another record."""
        table = self.table_of_fields(cls, required=always_required(cls))
        properties = table["properties"]
        if issubclass(cls, Record):
            properties = dict(PLACE) | properties
        if cls in LIKE_OTHERS:
            properties = _relation(cls) | properties
        if issubclass(cls, Part):
            properties["id"] |= ID
        table["properties"] = properties
        return table | (unless_like(cls) if issubclass(cls, Part) else {})

    def written(self, cls: type[Any], field: attrs.Attribute[Any], described: Schema) -> Schema:
        """Describe the value of a field, or one of each side."""
        value = super().written(cls, field, described)
        is_told = field.name in figure_fields(cls) or (
            issubclass(cls, Record) and field.name in fact_fields(cls)
        )
        return self._by_side(value) if is_told and may_differ(cls, field.name) else value

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


def _relation(cls: type[Any]) -> Schema:
    """Describe the keys by which a table takes what it does not give of another record."""
    kind = "chassis" if cls is Axle else next(word for word, of in KINDS.items() if of is cls)
    taken = "whose axle in the same place this one is like" if cls is Axle else "that it is like"
    return {
        LIKE: reference([kind])
        | {"description": f"Id of the {kind} of this pack {taken}: only what differs is given."},
        WITHOUT: {
            "type": "array",
            "items": TEXT,
            "description": "Fields that are stated there and that this table does not have.",
        },
    }
