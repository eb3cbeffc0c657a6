"""Every table and key of packs and jobs, as the JSON Schemas have them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, TypeAlias

from barwright.registry.authoring.job_schema import KNOWN, OF_ONE_SIDE, OR_UNKNOWN, job_schema
from barwright.registry.authoring.schema import overlay_schema, pack_schema

__all__ = ["of_jobs", "of_overlays", "of_packs"]

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
    ours, packs = overlay_schema()["$defs"], pack_schema()["$defs"]
    return _markdown({name: ours[name] for name in ours if name not in packs})


def of_jobs() -> str:
    """List the keys of a job, and its tables; what stands in tables of parts is as in a pack."""
    job = job_schema()
    tables = {name: job["$defs"][name] for name in job["properties"] if name in job["$defs"]}
    packs = pack_schema()["$defs"]
    tables |= {name: of for name, of in job["$defs"].items() if name not in tables | packs}
    ours = {name: of for name, of in tables.items() if not name.endswith(OF_ONE_SIDE)}
    return _markdown({"job": job} | ours)


def _markdown(definitions: dict[str, Schema]) -> str:
    lines: list[str] = []
    for name, table in definitions.items():
        if name.startswith(_FIGURE) or name == _RECORDS:
            continue
        for one in table.get("anyOf", [table]):
            if one.get("type") == "object":
                lines += _table(name, one)
    return "\n".join(lines)


def _table(name: str, table: Schema) -> Iterator[str]:
    kind = table.get("properties", {}).get("kind", {}).get("const")
    of_kind = f" of kind `{kind}`" if kind and "kind" not in table["required"] else ""
    yield from (f"## `{name}`{of_kind}", "", _cell(table.get("description", "")), "")
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
        return f"list of {_kind(_alone(value['items']))}"
    return _of_type(value)


def _alone(value: Schema) -> Schema:
    """Leave out that a value may also be a table with its source."""
    choices = value.get("anyOf", [])
    plain = [choice for choice in choices if "is" not in choice.get("properties", {})]
    return value | {"anyOf": plain} if choices else value


def _of_type(value: Schema) -> str:
    if "is" in value.get("properties", {}):
        return "the same as `is` of a table"
    types = value.get("type", "object")
    return " or ".join(_WORDS[one] for one in ([types] if isinstance(types, str) else types))


def _named(name: str) -> str:
    if name.startswith(_FIGURE):
        figure = name.removeprefix(_FIGURE).removesuffix(KNOWN)
        may_be_unknown = " or `unknown`" if figure.endswith(OR_UNKNOWN) else ""
        return figure.removesuffix(OR_UNKNOWN).replace("-", " ") + may_be_unknown
    if name.endswith(OF_ONE_SIDE):
        return "table of the same keys"
    return f"table `{name}`"


def _cell(text: str) -> str:
    """Make a cell of a description: what stands in it as it is to be written, as code."""
    text = re.sub(r"(?<!\w)'([^'\s][^']*)'(?!\w)", r"`\1`", text)
    return " ".join(text.split()).replace("|", r"\|").replace("*", r"\*").replace("<", r"\<")
