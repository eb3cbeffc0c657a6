"""JSON Schemas of the tables of files, made of the classes that these are read into.

Nothing of a format is written down here: kinds, ranges, words, defaults and meanings
are those of the fields.  What relates several values to each other cannot be said in
such a schema and is left to the loader.
"""

from __future__ import annotations

import enum
import types
import typing
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, TypeAlias

import attrs

from barwright.parts.common.facts import fact_fields
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.identity import LONGEST_NUMBER, SYSTEM, PartNumber
from barwright.parts.common.record import NOT_IN_FILES, Record
from barwright.registry.authoring.docstrings import descriptions, summary
from barwright.registry.authoring.required_keys import further_fields
from barwright.registry.packs.format.keys import key_of, kinds_of
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.packs.record_loader import NAME
from barwright.registry.packs.tables.values import LARGEST_WHOLE
from barwright.units import UNKNOWN, Kind, Range, a_kind, listed, pattern_of

__all__ = [
    "DIALECT",
    "ID",
    "PLACE",
    "TEXT",
    "UNKNOWN_FIGURE",
    "Schema",
    "TableSchemas",
    "of_words",
    "reference",
    "refused_together",
    "text_of",
    "types_of",
]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
"""Version of JSON Schema that is written."""

Schema: TypeAlias = dict[str, Any]

UNKNOWN_FIGURE: Schema = {"const": UNKNOWN, "description": "A figure that nobody knows yet."}
TEXT: Schema = {"type": "string", "pattern": r"\S"}
ID: Schema = {"type": "string", "pattern": f"^{NAME.pattern}$"}
_LONGEST_FIGURE = 64

PLACE: Schema = {
    "source": {
        "type": "string",
        "minLength": 1,
        "description": "Id of the source that the figures of this table come from.",
    },
    "at": {"type": "string", "description": "Place in that source: page, table, sheet."},
}
"""Keys of every table that holds figures, beside its own."""


class TableSchemas:
    """Writes a definition for each class and each kind of figure that it comes across.

    Parameters
    ----------
    names : mapping
        Names of the definitions, by class.
    definitions : dict, optional
        Definitions that there are already, to be added to.
    """

    place: Schema = PLACE
    """Keys of a table that says where its figures come from."""

    kind_is_required = True
    """Whether a table of one of several kinds says which it is."""

    def __init__(
        self, names: Mapping[type[Any], str], definitions: dict[str, Schema] | None = None
    ) -> None:
        self._names = names
        self.definitions: dict[str, Schema] = {} if definitions is None else definitions

    def table(self, cls: type[Any]) -> Schema:
        """Describe the table that a class is read from.

        Parameters
        ----------
        cls : type
            The class.

        Returns
        -------
        dict
        """
        return self.table_of_fields(cls, required=[])

    def table_of_fields(
        self, cls: type[Any], *, required: list[str], left_out: Iterable[str] = ()
    ) -> Schema:
        """Describe a table with the keys of a class, as far as its fields say what it has.

        Parameters
        ----------
        cls : type
            The class.
        required : list of str
            Keys that it must have.
        left_out : iterable of str
            Fields that such a table does not have.

        Returns
        -------
        dict
        """
        none = {*NOT_IN_FILES, *left_out}
        fields = [field for field in attrs.fields(cls) if field.name not in none]
        properties = {key_of(field.name): self.property(cls, field) for field in fields}
        properties |= {name: properties[key_of(name)] for name in further_fields(cls)}
        return {
            "description": summary(cls),
            "type": "object",
            "properties": properties,
            "required": required,
            "additionalProperties": False,
        } | refused_together(further_fields(cls))

    def defined(self, cls: type[Any]) -> Schema:
        """Refer to the definition of a class, which is written when it is first needed.

        Parameters
        ----------
        cls : type
            The class.

        Returns
        -------
        dict
        """
        name = self._names[cls]
        if name not in self.definitions:
            self.definitions[name] = {}
            self.definitions[name] |= self.table(cls)
        return {"$ref": f"#/$defs/{name}"}

    def property(self, cls: type[Any], field: attrs.Attribute[Any]) -> Schema:
        """Describe a key of a table.

        Parameters
        ----------
        cls : type
            Class that the table is read into.
        field : attrs.Attribute
            Its field.

        Returns
        -------
        dict
        """
        described = {"description": descriptions(cls)[field.name]}
        return self.written(cls, field, described) | described | _default(field)

    def written(self, cls: type[Any], field: attrs.Attribute[Any], described: Schema) -> Schema:
        """Describe what may be written as the value of a field."""
        figures = figure_fields(cls)
        if field.name in figures:
            return self.figure(cls, *figures[field.name])
        hint = _without_none(typing.get_type_hints(cls)[field.name])
        schema = _or_unknown(self.value(hint) | _bounds(field.metadata), field.metadata)
        if issubclass(cls, Record) and field.name in fact_fields(cls):
            return self._or_with_source(schema, described)
        return schema

    def value(self, hint: Any) -> Schema:  # noqa: ANN401 - any annotation
        """Describe a value that is no figure."""
        if hint == tuple[PartNumber, ...]:
            return _numbers()
        if typing.get_origin(hint) is tuple:
            return self._list(typing.get_args(hint))
        if typing.get_origin(hint) is dict:
            return _by_id(self.value(typing.get_args(hint)[1]))
        return _scalar(hint) or self._table(hint)

    def named(self, kinds: list[str]) -> Schema:
        """Describe how a table names a record of some kinds."""
        return reference(kinds)

    def _table(self, hint: Any) -> Schema:  # noqa: ANN401 - any annotation
        """Describe a table, or the id of one that stands elsewhere."""
        kinds = [kind for kind, cls in KINDS.items() if cls in types_of(hint)]
        if kinds:
            return self.named(kinds)
        words = kinds_of(hint)
        if words:
            either = [self.of_kind(word, cls) for word, cls in sorted(words.items())]
            return {"oneOf" if self.kind_is_required else "anyOf": either}
        return self.defined(hint)

    def _list(self, items: tuple[Any, ...]) -> Schema:
        schema: Schema = {"type": "array", "items": self.value(items[0])}
        if items[-1] is not Ellipsis:
            schema |= {"minItems": len(items), "maxItems": len(items)}
        return schema

    def of_kind(self, word: str, cls: type[Any]) -> Schema:
        """Describe one of the tables that a key ``kind`` tells apart."""
        name = self._names[cls]
        schema = self.table(cls)
        kind = {"const": word, "description": f"Which kind of table this is: '{word}'."}
        schema["properties"] = {"kind": kind} | schema["properties"]
        says = ["kind"] if self.kind_is_required else []
        self.definitions[name] = schema | {"required": [*says, *schema["required"]]}
        return {"$ref": f"#/$defs/{name}"}

    def figure(self, cls: type[Any], kind: Kind, allowed: Range) -> Schema:  # noqa: ARG002 - for others
        """Refer to the definition of a figure that a class has."""
        return self.defined_figure(
            kind, allowed, {"anyOf": [text_of(kind, allowed), UNKNOWN_FIGURE]}
        )

    def defined_figure(
        self, kind: Kind, allowed: Range, value: Schema, *, suffix: str = ""
    ) -> Schema:
        """Refer to the definition of a figure that is written as some value."""
        range_of = "" if allowed == "any" else f"-{allowed}"
        name = f"figure-{kind.name}{range_of}{suffix}".replace(" ", "-")
        said = a_kind(kind) if allowed == "any" else f"{a_kind(kind)}, {allowed}"
        described = {"description": f"{said[0].upper()}{said[1:]}."}
        self.definitions[name] = described | self._or_with_source(value, described)
        return {"$ref": f"#/$defs/{name}"}

    def _or_with_source(self, value: Schema, described: Schema) -> Schema:
        """Describe a value, or a table that gives it a source of its own."""
        table = {
            "type": "object",
            "properties": {"is": value | described, **self.place},
            "required": ["is"],
            "additionalProperties": False,
        }
        return {"anyOf": [*value.get("anyOf", [value]), table]}


_PLAIN: Mapping[Any, Schema] = {
    str: TEXT,
    bool: {"type": "boolean"},
    int: {"type": "integer", "minimum": -LARGEST_WHOLE, "maximum": LARGEST_WHOLE},
    float: {"type": "number"},
    # What a correction says is of the type of the field that it corrects.
    Any: {"anyOf": [TEXT, {"type": ["integer", "boolean", "array"]}]},
}


def of_words(words: type[enum.Enum]) -> Schema:
    """Describe one of some words."""
    return {"enum": [member.value for member in words]}


def reference(kinds: list[str]) -> Schema:
    """Describe the id of a record of some kinds, of this pack or of another."""
    pattern = f"^(?:{NAME.pattern}:)?(?:{'|'.join(kinds)})/{NAME.pattern}$"
    return {"type": "string", "pattern": pattern}


def refused_together(fields: list[str]) -> Schema:
    """Refuse a field that may be written in two ways if it is written in both."""
    both = [{"not": {"required": [key_of(name), name]}} for name in fields]
    return {"allOf": both} if both else {}


def types_of(hint: Any) -> Iterator[Any]:  # noqa: ANN401 - any annotation
    """Go through the types of a union, or the one type."""
    if typing.get_origin(hint) in (typing.Union, types.UnionType):
        yield from typing.get_args(hint)
    else:
        yield hint


def text_of(kind: Kind, allowed: Range) -> Schema:
    """Describe the text of a figure."""
    return {
        "type": "string",
        "maxLength": _LONGEST_FIGURE,
        "pattern": pattern_of(kind, allowed),
        "description": f"One decimal number and one unit: {listed(kind)}; where known, "
        f"a tolerance: '12.5 {kind.units[0]} ± 0.5 {kind.units[0]}'.",
    }


def _scalar(hint: Any) -> Schema:  # noqa: ANN401 - any annotation
    """Describe what is no table and no list; nothing for those that are."""
    if isinstance(hint, type) and issubclass(hint, enum.Enum):
        return of_words(hint)
    if hasattr(hint, "PATTERN"):
        return {"type": "string", "pattern": f"^(?:{hint.PATTERN})$"}
    return dict(_PLAIN.get(hint, {}))


def _numbers() -> Schema:
    """Describe a table of part numbers by their systems."""
    number = TEXT | {"maxLength": LONGEST_NUMBER}
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
        "patternProperties": {ID["pattern"]: value},
        "additionalProperties": False,
    }


def _or_unknown(schema: Schema, metadata: Mapping[Any, Any]) -> Schema:
    """Take the word for a count that is not known, where a field does."""
    return {"anyOf": [schema, UNKNOWN_FIGURE]} if metadata.get("may_be_unknown") else schema


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
    if value is attrs.NOTHING or value == "":  # an empty text is not written
        return {}
    if isinstance(value, enum.Enum):
        value = value.value
    if isinstance(value, tuple):
        value = list(value)
    return {"default": value} if isinstance(value, str | int | float | list) else {}


def _without_none(hint: Any) -> Any:  # noqa: ANN401 - any annotation
    """Return what a field holds if it is there at all."""
    members = [member for member in types_of(hint) if member is not types.NoneType]
    return typing.Union[tuple(members)]  # noqa: UP007 - made at run time
