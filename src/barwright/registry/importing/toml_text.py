"""Records as the text of a TOML file."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from typing import Any

__all__ = ["record_text", "toml_value"]

_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


def record_text(table: Mapping[str, Any], name: str) -> str:
    """Write a record as a table of a list.

    Parameters
    ----------
    table : mapping
        What it holds.
    name : str
        Name of the list.

    Returns
    -------
    str
        Ends with a line of its own that is empty.

    Examples
    --------
    >>> print(record_text({"id": "long", "arm_end": {"teeth": 39}}, "bar"), end="")
    [[bar]]
    id = "long"
    arm_end = { teeth = 39 }
    <BLANKLINE>
    """
    return "\n".join([*_lines(table, name), ""])


def _lines(table: Mapping[str, Any], name: str) -> Iterator[str]:
    tables = {key: value for key, value in table.items() if _is_tables(value)}
    yield f"[[{name}]]"
    for key, value in table.items():
        if key not in tables:
            yield f"{_key(key)} = {toml_value(value)}"
    yield ""
    for key, listed in tables.items():
        for one in listed:
            yield from _lines(one, f"{name}.{_key(key)}")


def _is_tables(value: object) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(one, dict) for one in value)


def toml_value(value: Any) -> str:  # noqa: ANN401 - whatever TOML holds
    """Write a value on one line.

    Parameters
    ----------
    value : str, bool, int, float, list, dict, or a date
        The value.

    Returns
    -------
    str
    """
    if isinstance(value, dict):
        pairs = ", ".join(f"{_key(key)} = {toml_value(held)}" for key, held in value.items())
        return f"{{ {pairs} }}" if pairs else "{}"
    if isinstance(value, list):
        return f"[{', '.join(map(toml_value, value))}]"
    if isinstance(value, str):
        # Spelled as in JSON, but for the one sign that TOML alone wants escaped.
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    return str(value).lower() if isinstance(value, bool) else str(value)


def _key(key: str) -> str:
    return key if _BARE_KEY.fullmatch(key) else toml_value(key)
