"""A question put to all rows of a file, and answered in another: chunk by chunk."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial
from os import PathLike
from pathlib import Path

from barwright.analysis.strength.strength_limits import StrengthLimits
from barwright.columns.batch import QuestionName
from barwright.errors import BarwrightError, FileError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.parts.setup import Setup
from barwright.registry.files.user_cache import Progress
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.files.read_file import open_table
from barwright.tables.files.summary import BatchSummary, Tally
from barwright.tables.files.table_file import check_output, table_file
from barwright.tables.table_question import TableQuestion
from barwright.units import ArrayWithUnit, System

__all__ = ["answer_file", "batch_file", "no_rows"]


@checks_arguments
def batch_file(
    setup: Setup,
    path: str | PathLike[str],
    output: str | PathLike[str],
    *,
    asked: QuestionName = "rates",
    keep: Sequence[str] = (),
    system: System = "metric",
    limits: StrengthLimits | None = None,
    travel: FigureLike | None = None,
    history: Sequence[FigureLike] | ArrayWithUnit | None = None,
    progress: Progress | None = None,
) -> BatchSummary:
    """Answer one question for all rows of a file, and write them to another with the answers.

    Parameters
    ----------
    setup : Setup
        The corner.
    path : path
        The table: Parquet, Arrow or CSV by the end of its name.  Its columns are those of
        :func:`barwright.batch_table`.
    output : path
        Where the answers are to be, in the same order: Parquet, Arrow or CSV by the end of its
        name.  The file appears when it is complete.
    asked : str
        What is asked of each, as for :func:`barwright.batch`.
    keep : sequence of str
        Names of columns that are carried over unread.
    system : {"metric", "inch"}
        Units of the answers.
    limits, travel, history : optional
        Of the strength, for all rows alike, as :func:`barwright.batch` takes them.
    progress : callable, optional
        Called with two counts after each chunk: how much is done, and of how much.

    Returns
    -------
    BatchSummary
        How many rows have which verdict or error.

    Raises
    ------
    FileError
        F101, F102 or F110 for a file that cannot be read, F201 or F202 for one that cannot be
        written; then nothing is written.
    SchemaError, QuantityError, TableError
        For columns that are wrong, as :func:`barwright.batch_table`.
    MissingExtraError
        X101 if the extra ``frames`` is not installed.
    """
    to_ask = AskedOfRows(asked, system, {"limits": limits, "travel": travel, "history": history})
    return answer_file(
        Path(path),
        Path(output),
        partial(TableQuestion, setup=setup, asked=to_ask, keep=keep),
        progress=progress,
    )


def answer_file(
    path: Path,
    output: Path,
    question_of: Callable[..., TableQuestion],
    *,
    inputs: Iterable[Path] = (),
    progress: Progress | None,
) -> BatchSummary:
    """Answer a question for all rows of a file.

    Parameters
    ----------
    path, output, progress
        As for :func:`batch_file`.
    question_of : callable
        From the columns of the file, as ``schema``, to the question.
    inputs : iterable of Path
        What else the call reads, over which nothing is written.

    Returns
    -------
    BatchSummary

    Raises
    ------
    BarwrightError
        As :func:`batch_file`.
    """
    inputs = (path, *inputs)
    check_output(output, inputs=inputs)
    with open_table(path) as table:
        try:
            question = question_of(schema=table.schema)
            tally = Tally(asked=question.asked.name)
            with table_file(output, question.answered_schema, inputs=inputs) as write:
                for chunk in table.chunks:
                    answered = question(chunk.rows, chunk.refused)
                    write(answered)
                    tally.add(answered, chunk.numbers)
                    if progress is not None:
                        progress(chunk.done, table.length)
                if not len(tally.summary):
                    raise no_rows(path)
        except BarwrightError as error:
            if error.file:
                raise
            raise error.within(file=str(path)) from None
    return tally.summary


def no_rows(path: Path) -> FileError:
    """Make the error of a table without rows."""
    return FileError(
        "F110",
        value="no rows",
        expected="a heading and a row below it",
        remedy="check the file",
        file=str(path),
    )
