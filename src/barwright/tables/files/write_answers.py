"""Answers written to a file as they are read."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from barwright.tables.files.read_file import FIRST
from barwright.tables.files.summary import BatchSummary, Tally
from barwright.tables.files.table_file import table_file

__all__ = ["write_answers"]


def write_answers(
    answers: Any,  # noqa: ANN401 - of Arrow
    output: Path,
    *,
    asked: str,
    inputs: Iterable[Path],
) -> BatchSummary:
    """Write answers to a file, and count them.

    Parameters
    ----------
    answers : pyarrow.RecordBatchReader
        The answers.
    output : Path
        Where they are to be: Parquet, Arrow or CSV by the end of its name.
    asked : str
        The question.
    inputs : iterable of Path
        What the call reads, over which nothing is written.

    Returns
    -------
    BatchSummary

    Raises
    ------
    FileError
        F110, F201 or F202, and nothing is written.
    """
    tally, number = Tally(asked=asked), FIRST
    with table_file(output, answers.schema, inputs=inputs) as write:
        for batch in answers:
            write(batch)
            tally.add(batch, range(number, number + batch.num_rows))
            number += batch.num_rows
    return tally.summary
