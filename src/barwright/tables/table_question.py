"""A question put to tables of one layout: a chunk of rows in, the same rows answered out."""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence
from typing import Any

import attrs
import numpy as np

from barwright.columns.batch import Batch
from barwright.columns.given import WANTED_HEIGHT, kinds_of
from barwright.errors import BarwrightError
from barwright.parts.setup import Setup
from barwright.registry.importing.arrow import Arrow, arrow
from barwright.registry.importing.heading import Heading
from barwright.tables.answer_columns import OWN, Refused, answer_columns, figure_column
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.layout import Layout, layout_of
from barwright.tables.numbers import Numbers, numbers_of
from barwright.units import LENGTH, Quantity, quantity_of_units, si

__all__ = ["TableQuestion"]


@attrs.frozen(eq=False, kw_only=True)
class TableQuestion:
    """Puts a question to tables.

    Parameters
    ----------
    setup : Setup
        The corner whose figures the tables take the place of.
    asked : AskedOfRows
        The question.
    keep : sequence of str
        Columns that are carried over unread.
    schema : pyarrow.Schema
        Columns of all tables.
    height : Quantity, optional
        Height at which rows are asked about that give none; for questions that take one.

    Raises
    ------
    SchemaError, QuantityError, TableError
        If the columns cannot be what they are named; as :func:`layout_of`.
    """

    setup: Setup
    asked: AskedOfRows
    keep: Sequence[str]
    schema: Any
    height: Quantity | None = None
    loaded: Arrow = attrs.field(init=False, factory=arrow)
    layout: Layout = attrs.field(init=False)

    @layout.default
    def _layout(self) -> Layout:
        answered = {*OWN, *self.asked.question.kinds}
        return layout_of(self.schema, kinds_of(self.setup), keep=self.keep, answered=answered)

    @property
    def answered_schema(self) -> Any:  # noqa: ANN401 - of Arrow
        """Columns of an answered table."""
        return self(self.schema.empty_table()).schema

    def __call__(self, rows: Any, refused: Refused | None = None) -> Any:  # noqa: ANN401 - of Arrow
        """Answer some rows.

        Parameters
        ----------
        rows : pyarrow.Table
            Of the schema.
        refused : mapping of int to BarwrightError, optional
            What is wrong with rows already, by their place.

        Returns
        -------
        pyarrow.Table
            The columns kept, the figures given, then verdict, error code, error and the figures of
            the answers.
        """
        cells = [column.combine_chunks() for column in rows.columns]
        given = {
            column.path: numbers_of(self.loaded, cells[column.place], column)
            for column in self.layout.figures
        }
        table = {str(Heading(path, one.unit)): one.numbers for path, one in given.items()}
        found = self.asked(self.setup, self._height(rows.num_rows, given) | table)
        pa = self.loaded.core
        kept = [(self.schema.field(i).with_name(name), cells[i]) for i, name in self.layout.kept]
        answer = answer_columns(
            self.loaded,
            found,
            {**_refused(given.values()), **(refused or {})},
            system=self.asked.system,
        )
        figures = [self._given(path, one, found) for path, one in given.items()]
        fields, arrays = zip(*kept, *figures, *answer, strict=True)
        return pa.table(list(arrays), schema=pa.schema(fields))

    def _height(self, rows: int, given: Container[str]) -> dict[str, Any]:
        """Make a column of the height at which all rows are asked about."""
        is_wanted = self.asked.question.takes_height and WANTED_HEIGHT not in given
        if self.height is None or not is_wanted:
            return {}
        metres = np.full(rows, si(self.height, LENGTH))
        return {WANTED_HEIGHT: quantity_of_units(metres, "m")}

    def _given(self, path: str, one: Numbers, found: Batch) -> tuple[Any, Any]:
        """Return a figure as it was read; of a name that an answer has too, as the setup's."""
        name = f"setup.{path}" if path in found.columns else path
        return figure_column(self.loaded, name, one.numbers, one.unit)


def _refused(columns: Iterable[Numbers]) -> dict[int, BarwrightError]:
    """Say what is wrong with rows that could not be read, of each its first column."""
    refused: dict[int, BarwrightError] = {}
    for one in columns:
        refused = one.refused | refused
    return refused
