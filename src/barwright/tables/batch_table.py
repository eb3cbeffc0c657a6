"""A question put to all rows of a table in memory."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Any

from barwright.analysis.strength.strength_limits import StrengthLimits
from barwright.columns.batch import QuestionName
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.parts.setup import Setup
from barwright.registry.importing.arrow import arrow
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.files.read_file import CHUNK
from barwright.tables.frames import frame_of
from barwright.tables.table_question import TableQuestion
from barwright.units import ArrayWithUnit, System

__all__ = ["batch_table"]


@checks_arguments
def batch_table(
    setup: Setup,
    table: object,
    *,
    asked: QuestionName = "rates",
    keep: Sequence[str] = (),
    system: System = "metric",
    limits: StrengthLimits | None = None,
    travel: FigureLike | None = None,
    history: Sequence[FigureLike] | ArrayWithUnit | None = None,
) -> Any:  # noqa: ANN401 - as it is given: a table of Arrow, or a frame of some library
    """Answer one question for all rows of a table, each a corner that differs in some figures.

    Parameters
    ----------
    setup : Setup
        The corner.
    table : pyarrow.Table, RecordBatch or RecordBatchReader, or data frame
        Columns of figures that take the place of the setup's, by their names, like
        ``bar.diameter`` or ``load.mass``.  The unit stands in the metadata of an Arrow field,
        under ``unit``, or in brackets behind the name: ``load.mass [kg]``.  A column of texts may
        give the unit in each cell.
    asked : str
        What is asked of each, as for :func:`barwright.batch`.
    keep : sequence of str
        Names of columns that are carried over unread.
    system : {"metric", "inch"}
        Units of the answers.
    limits, travel, history : optional
        Of the strength, for all rows alike, as :func:`barwright.batch` takes them.

    Returns
    -------
    pyarrow.Table, RecordBatchReader or data frame
        Of the same kind and library; of a record batch, a table.  First the columns that are kept
        and the figures as they were read, then ``verdict``, ``error_code``, ``error`` and the
        figures of the answers.  Units stand in the metadata of Arrow fields; in a data frame, in
        brackets behind the names.  A reader answers chunk by chunk as it is read.

    Raises
    ------
    SchemaError
        S201 for a name that no figure has; S202 for a table without figures; S203 for what is no
        table; S205 for a name that another column has; S206 for a column to keep that is not there.
    QuantityError
        Q104, Q105 or Q202 for a column that holds no figures of its kind.
    TableError
        T101 for several columns that are wrong.
    MissingExtraError
        X101 if the extra ``frames`` is not installed.

    Examples
    --------
    >>> import pyarrow as pa
    >>> from barwright.registry.registry import Registry
    >>> van = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> answer = batch_table(van, pa.table({"load.mass [kg]": [260.0, 291.0, -1.0]}))
    >>> [f"{rate:.1f}" for rate in answer["ride.wheel_rate"].to_pylist()[:2]]
    ['20.7', '21.1']
    >>> answer.schema.field("ride.wheel_rate").metadata[b"unit"], answer["error_code"][2].as_py()
    (b'N/mm', 'Q302')
    """
    loaded = arrow()
    pa = loaded.core
    to_ask = AskedOfRows(asked, system, {"limits": limits, "travel": travel, "history": history})
    question_of = partial(TableQuestion, setup=setup, asked=to_ask, keep=keep)
    if isinstance(table, pa.RecordBatchReader):
        question = question_of(schema=table.schema)
        return pa.RecordBatchReader.from_batches(
            question.answered_schema, _answered_batches(question, table)
        )

    def answered(rows: Any) -> Any:  # noqa: ANN401 - of Arrow
        question = question_of(schema=rows.schema)
        pieces = [question(rows.slice(at, CHUNK)) for at in range(0, max(rows.num_rows, 1), CHUNK)]
        return pa.concat_tables(pieces)

    if isinstance(table, pa.RecordBatch):
        return answered(pa.Table.from_batches([table]))
    if isinstance(table, pa.Table):
        return answered(table)
    frame = frame_of(loaded, table)
    return frame.like(answered(frame.table()))


def _answered_batches(question: TableQuestion, batches: Any) -> Iterator[Any]:  # noqa: ANN401
    pa = question.loaded.core
    for one in batches:
        yield from question(pa.Table.from_batches([one])).to_batches()
