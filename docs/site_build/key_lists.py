"""Every table and key of a pack's files, as the JSON Schema has them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypeAlias

from barwright.registry.authoring.schema import overlay_schema, pack_schema

__all__ = ["of_overlays", "of_packs"]

Schema: TypeAlias = dict[str, Any]

_REFERENCE = "#/$defs/"
_FIGURE = "figure-"
_RECORDS = "records"
_WORDS = {
    "array": "list",
    "boolean": "`true` or `false`",
    "integer": "whole number",
    "number": "number",
    "object": "table",
    "string": "text",
}


def of_packs() -> str:
    """List every table of a pack under a heading of its own, as Markdown."""
    return _markdown(pack_schema()["$defs"])


def of_overlays() -> str:
    """List the tables that only an overlay has."""
    ours = overlay_schema()["$defs"]
    return _markdown({name: ours[name] for name in ours if name not in pack_schema()["$defs"]})


def _markdown(definitions: dict[str, Schema]) -> str:
    lines: list[str] = []
    for name, table in definitions.items():
        if table.get("type") == "object" and not name.startswith(_FIGURE) and name != _RECORDS:
            lines += _table(name, table)
    return "\n".join(lines)


def _table(name: str, table: Schema) -> Iterator[str]:
    yield from (f"## `{name}`", "", _cell(table.get("description", "")), "")
    yield from ("| key | value | meaning |", "| --- | --- | --- |")
    for key, value in table.get("properties", {}).items():
        meaning = _cell(value.get("description", ""))
        yield f"| `{key}`{_need(key, table)} | {_kind(value)} | {meaning} |"
    yield ""


def _need(key: str, table: Schema) -> str:
    if key in table.get("required", ()):
        return ", required"
    return ", required without `like`" if key in table.get("else", {}).get("required", ()) else ""


def _kind(value: Schema) -> str:
    """Say what may be written as a value."""
    if "$ref" in value:
        return _named(value["$ref"].removeprefix(_REFERENCE))
    if "enum" in value or "const" in value:
        return ", ".join(f"`{word}`" for word in value.get("enum", [value.get("const")]))
    if choices := value.get("anyOf", value.get("oneOf")):
        return " or ".join(dict.fromkeys(map(_kind, choices)))
    if "items" in value:
        return f"list of {_kind(value['items'])}"
    return _of_type(value)


def _of_type(value: Schema) -> str:
    if "is" in value.get("properties", {}):
        return "the same as `is` of a table"
    types = value.get("type", "object")
    return " or ".join(_WORDS[one] for one in ([types] if isinstance(types, str) else types))


def _named(name: str) -> str:
    if name.startswith(_FIGURE):
        return name.removeprefix(_FIGURE).replace("-", " ")
    return f"table `{name}`"


def _cell(text: str) -> str:
    return " ".join(text.split()).replace("|", r"\|").replace("*", r"\*").replace("<", r"\<")
