"""How many rows of a table were answered in which way, and what is wrong with the others."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

import attrs

from barwright.analysis.answer import Outcome, Verdict
from barwright.errors import ExitCode
from barwright.parts.common.in_short import Summarised
from barwright.registry.importing.arrow import arrow
from barwright.tables.files.read_file import FIRST

__all__ = ["BatchSummary", "RowError", "Tally", "summary_of"]

_TOLD = 5
"""Errors of which the rows are told."""

# All other errors of a row are bad input.
_CODES = {"N301": ExitCode.NO, "N101": ExitCode.FAULT, "U101": ExitCode.FAULT}


@attrs.frozen(kw_only=True)
class RowError:
    """What is wrong with a row.

    Parameters
    ----------
    row : int
        Its number as a spreadsheet counts: the first below the heading is row 2.
    code : str
        Code of the error.
    text : str
        The error in a line.
    """

    row: int
    code: str
    text: str


@attrs.frozen(kw_only=True, repr=False)
class BatchSummary(Summarised):
    """What became of the rows of a table.

    Parameters
    ----------
    asked : str
        The question.
    verdict_counts : mapping of Verdict to int
        How many rows have each verdict, without those that none has.
    error_counts : mapping of str to int
        How many rows end with each error.
    first_errors : tuple of RowError
        The first few of these rows.
    """

    asked: str
    verdict_counts: Mapping[Verdict, int]
    error_counts: Mapping[str, int]
    first_errors: tuple[RowError, ...]

    @property
    def errors(self) -> int:
        """How many rows end with an error."""
        return sum(self.error_counts.values())

    def __len__(self) -> int:
        """Count the rows."""
        return sum(self.verdict_counts.values()) + self.errors

    @property
    def exit_code(self) -> ExitCode:
        """Exit code of a command that gives these answers: that of the worst row."""
        codes = [_CODES.get(code, ExitCode.BAD_INPUT) for code in self.error_counts]
        answers = [_outcome(verdict).exit_code for verdict in self.verdict_counts]
        return max([ExitCode.FINE, *codes, *answers])

    @property
    def headline(self) -> str:
        """The counts in a line."""
        counted = [f"{count} {verdict.value}" for verdict, count in self.verdict_counts.items()]
        wrong = [f"{self.errors} with errors"] if self.errors else []
        return f"{len(self)} row(s): {', '.join([*counted, *wrong])}"

    def _in_short(self) -> str:
        """Tell the question and the counts."""
        return f"{self.asked}, {self.headline}"


def _outcome(verdict: Verdict) -> Outcome:
    if verdict is Verdict.NEEDS_FIGURES:
        return Outcome.NEEDS_FIGURES
    return Outcome.NO if verdict.is_refusal else Outcome.FINE


@attrs.define(kw_only=True)
class Tally:
    """Counts answered rows, chunk by chunk.

    Parameters
    ----------
    asked : str
        The question.
    """

    asked: str
    _verdicts: Counter[str] = attrs.field(init=False, factory=Counter)
    _codes: Counter[str] = attrs.field(init=False, factory=Counter)
    _first: list[RowError] = attrs.field(init=False, factory=list)

    def add(self, answered: Any, numbers: Sequence[int]) -> None:  # noqa: ANN401 - of Arrow
        """Count the rows of a chunk.

        Parameters
        ----------
        answered : pyarrow.Table
            The rows with their answers.
        numbers : sequence of int
            Number of each.
        """
        self._verdicts.update(_counted(answered["verdict"]))
        codes = _counted(answered["error_code"])
        self._codes.update(codes)
        if codes and len(self._first) < _TOLD:
            self._tell(answered, numbers)

    def _tell(self, answered: Any, numbers: Sequence[int]) -> None:  # noqa: ANN401 - of Arrow
        codes = answered["error_code"].to_pylist()
        places = [place for place, code in enumerate(codes) if code is not None]
        for place in places[: _TOLD - len(self._first)]:
            text = answered["error"][place].as_py()
            self._first.append(RowError(row=numbers[place], code=codes[place], text=text))

    @property
    def summary(self) -> BatchSummary:
        """What is counted so far."""
        return BatchSummary(
            asked=self.asked,
            verdict_counts={
                v: self._verdicts[v.value] for v in Verdict if v.value in self._verdicts
            },
            error_counts=dict(sorted(self._codes.items())),
            first_errors=tuple(self._first),
        )


def summary_of(answers: Path, *, asked: str) -> BatchSummary:
    """Count the rows of a file of answers.

    Parameters
    ----------
    answers : Path
        A Parquet file.
    asked : str
        The question.

    Returns
    -------
    BatchSummary
    """
    loaded, tally, first = arrow(), Tally(asked=asked), FIRST
    with answers.open("rb") as stream:
        file = loaded.parquet.ParquetFile(stream)
        for rows in file.iter_batches(columns=["verdict", "error_code", "error"]):
            table = loaded.core.Table.from_batches([rows])
            tally.add(table, range(first, first + table.num_rows))
            first += table.num_rows
    return tally.summary


def _counted(column: Any) -> dict[str, int]:  # noqa: ANN401 - of Arrow
    counted: Iterable[Mapping[str, Any]] = column.drop_null().value_counts().to_pylist()
    return {one["values"]: one["counts"] for one in counted}
