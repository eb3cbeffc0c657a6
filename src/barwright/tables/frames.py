"""Data frames of any library as Arrow tables, and answers as frames of the same library."""

from __future__ import annotations

from typing import Any

import attrs

from barwright.errors import MissingExtraError, QuantityError, SchemaError
from barwright.first_use import FIRST_USE
from barwright.registry.importing.arrow import Arrow
from barwright.tables.unit_of import heading_of_field

__all__ = ["Frame", "frame_of"]


@attrs.frozen(eq=False)
class Frame:
    """A data frame.

    Parameters
    ----------
    loaded : Arrow
        Modules of pyarrow.
    narwhals : module
        What knows data frames.
    frame : narwhals.DataFrame
        The frame.
    """

    loaded: Arrow
    narwhals: Any
    frame: Any

    def table(self) -> Any:  # noqa: ANN401 - of Arrow
        """Return it as an Arrow table.

        Raises
        ------
        QuantityError
            Q104 for a column that holds more than one kind of thing.
        """
        pa = self.loaded.core
        names, arrays = [], []
        for column in self.frame.iter_columns():
            names.append(str(column.name))
            try:
                arrays.append(pa.chunked_array(column.to_arrow()))
            except (pa.ArrowException, TypeError, ValueError) as error:
                raise QuantityError(
                    "Q104",
                    value=str(error).partition("\n")[0],
                    expected="a column of numbers, or of texts",
                    remedy="convert the column before it is asked about",
                    key=names[-1],
                ) from None
        return pa.table(arrays, names=names)

    def like(self, answered: Any) -> Any:  # noqa: ANN401 - of Arrow; of whatever library
        """Return an Arrow table as a frame of the same library, with the same index.

        Parameters
        ----------
        answered : pyarrow.Table
            Answers to the same rows; units are put in brackets behind the names of its columns.
        """
        headed = answered.rename_columns([heading_of_field(field) for field in answered.schema])
        own = self.frame.implementation
        native = self.narwhals.from_arrow(headed, backend=own).to_native()
        if own.is_pandas_like():
            native.index = self.frame.to_native().index
        return native


def frame_of(loaded: Arrow, table: object) -> Frame:
    """Take a data frame of any library that narwhals knows; a lazy one is collected.

    Parameters
    ----------
    loaded : Arrow
        Modules of pyarrow.
    table : data frame
        The frame.

    Returns
    -------
    Frame

    Raises
    ------
    SchemaError
        S203 for anything else.
    MissingExtraError
        X101 if ``narwhals`` is not installed.
    """
    narwhals: Any = _narwhals()
    try:
        frame = narwhals.from_native(table)
    except TypeError:
        raise SchemaError(
            "S203",
            value=type(table).__name__,
            expected="an Arrow table, record batch or reader, or a data frame",
            remedy="give arrays to bw.batch",
            key="table",
        ) from None
    if isinstance(frame, narwhals.LazyFrame):
        frame = frame.collect()
    return Frame(loaded, narwhals, frame)


def _narwhals() -> object:
    try:
        with FIRST_USE:
            import narwhals  # noqa: PLC0415 - an extra; the name is kept
    except ImportError:
        raise MissingExtraError(
            "X101",
            value="narwhals",
            expected="the extra 'frames'",
            remedy="pip install 'barwright[frames]'",
        ) from None
    return narwhals
