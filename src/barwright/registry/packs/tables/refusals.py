"""What is refused in a table, and every refusal of a document as a list."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import attrs
from cattrs.errors import (
    AttributeValidationNote,
    ForbiddenExtraKeysError,
    IterableValidationNote,
)

from barwright.errors import BarwrightError, SchemaError, UnknownNameError
from barwright.parts.common.record import NOT_IN_FILES
from barwright.registry.files.user_cache import DamagedIndexError
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.format.keys import key_of

__all__ = ["not_a_list", "problems_of", "unknown_key", "wrong_keys", "wrong_type"]


def problems_of(error: BaseException) -> list[BarwrightError]:
    """Flatten an exception (group) into errors of ours, each with its path.

    Parameters
    ----------
    error : BaseException
        What a :class:`Structurer` or a record has raised.

    Returns
    -------
    list of BarwrightError

    Raises
    ------
    DamagedIndexError
        If there is one among them: it is no problem of the record.
    """
    return list(_walk(error))


def _walk(error: BaseException) -> Iterator[BarwrightError]:
    if isinstance(error, ExceptionGroup):
        for inner in error.exceptions:
            key = _step(inner)
            for problem in _walk(inner):
                yield problem.within(key=key) if key else problem
    elif isinstance(error, ForbiddenExtraKeysError):
        fields = (field.name for field in attrs.fields(error.cl))
        names = [key_of(name) for name in fields if name not in NOT_IN_FILES]
        for extra in sorted(error.extra_fields):
            yield unknown_key(extra, names)
    elif isinstance(error, KeyError) and not isinstance(error, UnknownNameError):
        yield SchemaError(
            "S202",
            value="nothing",
            expected="a value",
            remedy="add the key",
            key=str(error.args[0]),
        )
    elif isinstance(error, BarwrightError):
        yield error
    elif isinstance(error, DamagedIndexError):
        raise error
    else:
        yield wrong_type(str(error), "a value of another type")


def _step(error: BaseException) -> str:
    """Key or index that cattrs has noted on an error; none for a missing key."""
    if isinstance(error, KeyError) and not isinstance(error, BarwrightError):
        return ""
    notes = getattr(error, "__notes__", ())
    steps = [key_of(n.name) for n in notes if isinstance(n, AttributeValidationNote)]
    steps += [f"[{n.index}]" for n in notes if isinstance(n, IterableValidationNote)]
    return steps[0] if steps else ""


def wrong_type(value: object, expected: str, key: str = "") -> SchemaError:
    """Refuse a value of another type."""
    return SchemaError(
        "S203",
        value=value,
        expected=expected,
        remedy="barwright explain job-file, or pack-file, lists all keys",
        key=key,
    )


def not_a_list(name: str, file: str = "") -> SchemaError:
    """Refuse what stands in the place of a list of tables."""
    return SchemaError(
        "S203",
        value=f"[{name}]",
        expected=f"a list of tables, [[{name}]]",
        remedy="use double brackets",
        key=name,
        file=file,
    )


def wrong_keys(extra: Sequence[str], raw: Mapping[str, Any]) -> SchemaError:
    """Refuse the table of a figure for its keys."""
    if extra:
        return unknown_key(extra[0], ["is", "source", "at"])
    return SchemaError(
        "S202", value=dict(raw), expected="a key 'is'", remedy="write { is = '12.5 mm', … }"
    )


def unknown_key(key: str, names: Sequence[str]) -> SchemaError:
    """Refuse a key that is on no list, and name the nearest."""
    return SchemaError(
        "S201", value=key, expected="a key on the list", remedy=nearest(key, names), key=key
    )
