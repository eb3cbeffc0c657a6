"""Arrow, which the extra ``frames`` installs, loaded on first use."""

from __future__ import annotations

from typing import Any, NamedTuple

from barwright.errors import MissingExtraError
from barwright.first_use import FIRST_USE

__all__ = ["Arrow", "arrow"]


class Arrow(NamedTuple):
    """Modules of pyarrow.

    Parameters
    ----------
    core : module
        Arrays and tables, and their files.
    compute : module
        Functions of columns.
    csv, parquet : module
        Other files of tables.
    """

    core: Any
    compute: Any
    csv: Any
    parquet: Any


def arrow() -> Arrow:
    """Load pyarrow.

    Returns
    -------
    Arrow

    Raises
    ------
    MissingExtraError
        X101 if it is not installed.
    """
    try:
        with FIRST_USE:
            import pyarrow as pa  # noqa: PLC0415 - an extra
            from pyarrow import compute, csv, parquet  # noqa: PLC0415 - as above
    except ImportError:
        raise MissingExtraError(
            "X101",
            value="pyarrow",
            expected="the extra 'frames'",
            remedy="pip install 'barwright[frames]'",
        ) from None
    return Arrow(pa, compute, csv, parquet)
