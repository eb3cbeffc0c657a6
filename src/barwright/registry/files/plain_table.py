"""Tables that a program gives instead of a file, held to what a file may contain."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from barwright.errors import SchemaError
from barwright.registry.files.file_limits import DEEPEST
from barwright.registry.files.toml_limits import check_table

__all__ = ["plain_table"]

_PLAIN = (str, bool, int, float)


def plain_table(table: Mapping[str, Any], *, shown_as: str) -> dict[str, Any]:
    """Copy a table of tables, lists, texts, numbers and truths; refuse anything else in it.

    Parameters
    ----------
    table : mapping
        What a program gives.
    shown_as : str
        What to call it in messages.

    Returns
    -------
    dict
        As the reader of files would make it.

    Raises
    ------
    SchemaError
        S203 for a value of another type, or a key that is no text.
    FileError
        F104 or F106 beyond the limits of a file.
    """
    copied: dict[str, Any] = _plain(table, key="", depth=0)
    check_table(copied, shown_as=shown_as)
    return copied


def _plain(value: Any, *, key: str, depth: int) -> Any:  # noqa: ANN401 - whatever is given
    if type(value) in _PLAIN:
        return value
    # One level more than a file may have: the limits are then told as those of a file.
    if isinstance(value, Mapping) and depth <= DEEPEST + 1:
        return {
            _name(name, key): _plain(item, key=f"{key}.{name}".lstrip("."), depth=depth + 1)
            for name, item in value.items()
        }
    if isinstance(value, list | tuple) and depth <= DEEPEST + 1:
        return [_plain(item, key=key, depth=depth + 1) for item in value]
    raise _no_table(value, key)


def _name(name: object, key: str) -> str:
    if isinstance(name, str):
        return name
    raise _no_table(name, key)


def _no_table(value: object, key: str) -> SchemaError:
    return SchemaError(
        "S203",
        value=type(value).__name__,
        expected="tables, lists, text, numbers, true or false, as a job file contains them",
        remedy="write a figure as text with its unit, like '349 mm'",
        key=key,
    )
