"""Problems of a pack as plain tables, to keep and report again."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from barwright import errors
from barwright.errors import BarwrightError, PackError

__all__ = ["pack_error", "tables_of"]


def tables_of(error: PackError) -> list[dict[str, Any]]:
    """Write the problems of a pack as tables.

    Parameters
    ----------
    error : PackError
        All problems of the pack.

    Returns
    -------
    list of dict
    """
    return [{"class": type(p).__name__, **p.fields} for p in error.problems]


def pack_error(tables: Iterable[Mapping[str, Any]], *, origin: str) -> PackError:
    """Make the error of a pack from its problems' tables.

    Parameters
    ----------
    tables : iterable of mapping
        What :func:`tables_of` returned.
    origin : str
        What to call the pack.

    Returns
    -------
    PackError
    """
    return PackError("P101", problems=tuple(map(_problem, tables)), file=origin)


def _problem(table: Mapping[str, Any]) -> BarwrightError:
    cls: type[BarwrightError] = getattr(errors, table["class"])
    return cls(**{key: value for key, value in table.items() if key != "class"})
