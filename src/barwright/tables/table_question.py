"""A question put to tables of one layout: a chunk of rows in, the same rows answered out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import attrs
import numpy as np

from barwright.analysis.answer import Verdict
from barwright.columns.asked.catalogue import QUESTIONS
from barwright.columns.batch import Batch, QuestionName, batch
from barwright.columns.given import kinds_of
from barwright.errors import BarwrightError
from barwright.parts.setup import Setup
from barwright.registry.importing.arrow import Arrow, arrow
from barwright.registry.importing.heading import Heading
from barwright.tables.layout import Layout, layout_of
from barwright.tables.numbers import Numbers, numbers_of
from barwright.tables.unit_of import UNIT
from barwright.units import is_quantity, unit_spelling

__all__ = ["TableQuestion"]

_OWN = ("verdict", "error_code", "error")


@attrs.frozen(eq=False, kw_only=True)
class TableQuestion:
    """Puts a question to tables.

    Parameters
    ----------
    setup : Setup
        The corner whose figures the tables take the place of.
    asked : str
        The question.
    keep : sequence of str
        Columns that are carried over unread.
    schema : pyarrow.Schema
        Columns of all tables.

    Raises
    ------
    SchemaError, QuantityError, TableError
        If the columns cannot be what they are named; as :func:`layout_of`.
    """

    setup: Setup
    asked: QuestionName
    keep: Sequence[str]
    schema: Any
    loaded: Arrow = attrs.field(init=False, factory=arrow)
    layout: Layout = attrs.field(init=False)

    @layout.default
    def _layout(self) -> Layout:
        answered = {*_OWN, *QUESTIONS[self.asked].kinds}
        return layout_of(self.schema, kinds_of(self.setup), keep=self.keep, answered=answered)

    @property
    def answered_schema(self) -> Any:  # noqa: ANN401 - of Arrow
        """Columns of an answered table."""
        return self(self.schema.empty_table()).schema

    def __call__(self, rows: Any) -> Any:  # noqa: ANN401 - of Arrow
        """Answer some rows.

        Parameters
        ----------
        rows : pyarrow.Table
            Of the schema.

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
        found = batch(
            self.setup,
            {str(Heading(path, one.unit)): one.numbers for path, one in given.items()},
            asked=self.asked,
        )
        pa = self.loaded.core
        kept = [(self.schema.field(i).with_name(name), cells[i]) for i, name in self.layout.kept]
        answer = answer_columns(self.loaded, found, _refused(given.values()))
        figures = [self._given(path, one, found) for path, one in given.items()]
        fields, arrays = zip(*kept, *figures, *answer, strict=True)
        return pa.table(list(arrays), schema=pa.schema(fields))

    def _given(self, path: str, one: Numbers, found: Batch) -> tuple[Any, Any]:
        """Return a figure as it was read; of a name that an answer has too, as the setup's."""
        name = f"setup.{path}" if path in found.columns else path
        return figure_column(self.loaded, name, one.numbers, one.unit)


def figure_column(loaded: Arrow, name: str, numbers: Any, unit: str) -> tuple[Any, Any]:  # noqa: ANN401
    """Make a column of figures, empty where there is no number; of curves, one of lists.

    Parameters
    ----------
    loaded : Arrow
        Its modules.
    name : str
        Name of the column.
    numbers : array
        Its numbers.
    unit : str
        Their unit, for the metadata; empty for none.

    Returns
    -------
    pyarrow.Field, pyarrow.Array
    """
    array = loaded.core.array(np.ravel(numbers), from_pandas=True)
    if np.ndim(numbers) > 1:
        array = loaded.core.FixedSizeListArray.from_arrays(array, numbers.shape[1])
    metadata = {UNIT: unit} if unit else None
    return loaded.core.field(name, array.type, metadata=metadata), array


def answer_columns(
    loaded: Arrow, found: Batch, refused: Mapping[int, BarwrightError]
) -> list[tuple[Any, Any]]:
    """Make the columns of answers: verdict, error code, error, and figures.

    Parameters
    ----------
    loaded : Arrow
        Its modules.
    found : Batch
        The answers.
    refused : mapping of int to BarwrightError
        What is wrong with rows that could not even be read.

    Returns
    -------
    list of (pyarrow.Field, pyarrow.Array)
    """
    pa = loaded.core
    codes = found.error_codes.astype(object)
    codes[codes == ""] = None
    texts = np.full(len(found), None, dtype=object)
    for row, text in found.error_texts.items():
        texts[row] = text
    for row, error in refused.items():
        codes[row], texts[row] = error.code, str(error)
    own = zip(_OWN[1:], (codes, texts), strict=True)
    return [
        (pa.field("verdict", pa.dictionary(pa.int8(), pa.string())), _verdicts(loaded, found)),
        *((pa.field(name, pa.string()), pa.array(cells, pa.string())) for name, cells in own),
        *(_figure(loaded, name, figures) for name, figures in found.columns.items()),
    ]


def _verdicts(loaded: Arrow, found: Batch) -> Any:  # noqa: ANN401 - of Arrow
    """Verdicts as numbers of words, the same numbers for every chunk."""
    pa, words = loaded.core, loaded.core.array([verdict.value for verdict in Verdict])
    numbers = loaded.compute.index_in(pa.array(found.verdicts, pa.string()), value_set=words)
    return pa.DictionaryArray.from_arrays(numbers.cast(pa.int8()), words)


def _figure(loaded: Arrow, name: str, figures: Any) -> tuple[Any, Any]:  # noqa: ANN401
    if is_quantity(figures):
        return figure_column(loaded, name, figures.magnitude, unit_spelling(figures))
    return figure_column(loaded, name, figures, "")


def _refused(columns: Iterable[Numbers]) -> dict[int, BarwrightError]:
    """Say what is wrong with rows that could not be read, of each its first column."""
    refused: dict[int, BarwrightError] = {}
    for one in columns:
        refused = one.refused | refused
    return refused
