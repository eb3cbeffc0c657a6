"""Put a question to tables in Parquet files, however large they are."""

from __future__ import annotations

import enum
import hashlib
import json
from collections.abc import Mapping, Sequence
from os import PathLike
from pathlib import Path
from typing import Any

import attrs

from barwright.analysis.strength.strength_limits import StrengthLimits
from barwright.columns.batch import QuestionName
from barwright.columns.rows import is_for_one_corner
from barwright.computed_once import cached_property
from barwright.errors import BarwrightError
from barwright.parted.run import Written, write_parted
from barwright.parted.source_files import Rows, SourceFiles
from barwright.parted.work import ListedWork, PartTable
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.source import About
from barwright.parts.setup import Setup
from barwright.registry.files.user_cache import Progress
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.files.read_file import CHUNK
from barwright.tables.table_question import TableQuestion
from barwright.units import ArrayWithUnit, Quantity, System, is_quantity, is_unknown, same
from barwright.version import VERSION

__all__ = ["BatchFile", "BatchWork", "write_batch", "write_work"]

# Rows of a part of plans, which take thirty times as long as rates or longer, and of corners
# that are asked about one by one, which take hundreds of times as long.
_PLANNED, _SINGLY = 16_384, 1_024


@attrs.frozen(kw_only=True, repr=False)
class BatchFile(Summarised):
    """What :func:`write_batch` wrote.

    Parameters
    ----------
    file : str
        File with the answers.
    row_count : int
        Its rows.
    errors : int
        Rows that ended with an error.
    pieces : int
        In how many pieces they were computed.
    earlier : int
        How many of these were there before, from a run that was interrupted.
    """

    file: str
    row_count: int
    errors: int
    pieces: int
    earlier: int

    def _in_short(self) -> str:
        """Say how many rows there are, and how many are errors."""
        return f"{self.row_count:,} rows, {self.errors:,} of them errors, in {self.file}"


@checks_arguments
def write_batch(
    setup: Setup,
    source: str | PathLike[str],
    output: str | PathLike[str],
    *,
    asked: QuestionName = "rates",
    keep: Sequence[str] = (),
    system: System = "metric",
    limits: StrengthLimits | None = None,
    travel: FigureLike | None = None,
    history: Sequence[FigureLike] | ArrayWithUnit | None = None,
    processes: int | None = None,
    client: object = None,
    progress: Progress | None = None,
) -> BatchFile:
    """Answer one question for all rows of Parquet files, and write the answers into another.

    The rows are answered in parts, each a file in the folder ``OUTPUT.parts``, until the whole is
    put together.  What was interrupted goes on where it was, if it is asked again.

    Parameters
    ----------
    setup : Setup
        The corner.
    source : path
        A Parquet file, or a folder of them with the same columns, as
        :func:`barwright.batch_table` takes them.
    output : path
        The Parquet file with the answers; it appears whole or not at all.
    asked : str
        What is asked of each row, as for :func:`barwright.batch`.
    keep : sequence of str
        Names of columns that are carried over unread.
    system : {"metric", "inch"}
        Units of the answers.
    limits, travel, history : optional
        Of the strength, for all rows alike, as :func:`barwright.batch` takes them.
    processes : int, optional
        The most processes to share the work; as for :func:`check_jobs`.
    client : distributed.Client, optional
        A Dask cluster that does the work instead; its workers must see the files under the same
        names.
    progress : callable, optional
        Called with two counts after each part: of those that are done, and of all.

    Returns
    -------
    BatchFile

    Raises
    ------
    FileError
        F101 or F110 for a source that cannot be read, F110 for an output that is no Parquet file,
        F201 or F202 if it cannot be written, F203 for parts of other work beside it.
    SchemaError, QuantityError, TableError
        As :func:`barwright.batch_table`, for the columns.
    MissingExtraError
        X101 if ``pyarrow`` is not installed.
    ClusterError
        C101 if the cluster cannot do a part.

    References
    ----------
    The same rows as :func:`barwright.batch_table` gives, held against them.
    """
    to_ask = AskedOfRows(asked, system, {"limits": limits, "travel": travel, "history": history})
    work = BatchWork(setup, Path(source).absolute(), asked=to_ask, keep=tuple(keep))
    written = write_work(work, Path(output), processes=processes, client=client, progress=progress)
    return BatchFile(
        file=str(output),
        row_count=written.counted["rows"],
        errors=written.counted["errors"],
        pieces=written.parts,
        earlier=written.earlier,
    )


def write_work(
    work: BatchWork,
    output: Path,
    *,
    inputs: Sequence[Path] = (),
    processes: int | None,
    client: object = None,
    progress: Progress | None,
) -> Written:
    """Write the answers of all rows, part by part.

    Parameters
    ----------
    work : BatchWork
        Rows and question.
    output, processes, client, progress
        As for :func:`write_batch`.
    inputs : sequence of Path
        What else the call reads, over which nothing is written.

    Returns
    -------
    Written

    Raises
    ------
    BarwrightError
        As :func:`write_batch`.
    """
    work.check()
    return write_parted(
        work,
        output.absolute(),
        inputs=(*work.files.paths, *inputs),
        processes=processes,
        client=client,
        progress=progress,
    )


@attrs.frozen(slots=False, eq=False)
class BatchWork(ListedWork[Rows]):
    """A question put to Parquet files as work in parts, some rows each.

    Parameters
    ----------
    setup : Setup
        The corner.
    source : Path
        A file, or a folder of files.
    asked : AskedOfRows
        The question.
    keep : tuple of str
        Columns that are carried over.
    height : Quantity, optional
        Height at which rows are asked about that give none.
    """

    setup: Setup
    source: Path
    asked: AskedOfRows = attrs.field(kw_only=True)
    keep: tuple[str, ...] = attrs.field(kw_only=True)
    height: Quantity | None = attrs.field(default=None, kw_only=True)

    @cached_property
    def files(self) -> SourceFiles:
        """The files."""
        return SourceFiles.of(self.source)

    def check(self) -> None:
        """Refuse columns and questions that cannot be, before any work.

        Raises
        ------
        BarwrightError
            As :func:`write_batch`.
        """
        try:
            _ = self._of_table.answered_schema
        except BarwrightError as error:
            raise error.within(file=str(self.source)) from None

    @cached_property
    def _of_table(self) -> TableQuestion:
        return TableQuestion(
            setup=self.setup,
            asked=self.asked,
            keep=self.keep,
            schema=self.files.schema,
            height=self.height,
        )

    @cached_property
    def question(self) -> Mapping[str, str | float | bool | None]:
        """What the answers depend on."""
        return {
            "library": VERSION,
            "setup": _digest(self.setup),
            "source": self.files.digest,
            "asked": self.asked.name,
            "units": self.asked.system,
            "strength": _digest(tuple(self.asked.strength.items())),
            "height": None if self.height is None else _digest(self.height),
            "keep": ", ".join(self.keep),
        }

    @property
    def pieces(self) -> Sequence[Rows]:
        """Rows of the files."""
        return self.files.stretches(at_a_time=self._at_a_time)

    @property
    def _at_a_time(self) -> int:
        """Rows of a part: the fewer, the longer one takes, so that all processors have some."""
        figures = (figure.path for figure in self._of_table.layout.figures)
        if self.asked.counts_cycles or is_for_one_corner(self.setup, figures):
            return _SINGLY
        return _PLANNED if self.asked.is_planned else CHUNK

    def of_pieces(self, pieces: Sequence[Rows]) -> PartTable:
        """Answer some rows."""
        tables = [self.files.read(rows) for rows in pieces]
        answered = self._of_table(tables[0] if tables else self.files.schema.empty_table())
        errors = answered.num_rows - answered["error_code"].null_count
        return PartTable(answered, {"rows": answered.num_rows, "errors": errors})


def _digest(asked: object) -> str:
    """Return a digest of figures, by which two setups with the same figures are equal."""
    return hashlib.sha256(json.dumps(_facts(asked)).encode()).hexdigest()


def _facts(value: Any) -> Any:  # noqa: ANN401 - any part of a setup
    """Return the figures of a record as lists and texts."""
    if is_unknown(value):
        return "unknown"
    if is_quantity(value):
        unit, number = same(value)
        return [unit, number.hex()]
    if isinstance(value, About):
        # Of what is known of a figure, its tolerance alone changes an answer.
        value = tuple((name, getattr(known, "tolerance", None)) for name, known in value.items())
    if isinstance(value, (tuple, list)):
        return [_facts(item) for item in value]
    if isinstance(value, enum.Enum):
        return value.value
    if not attrs.has(type(value)):
        return value
    names = (field.name for field in attrs.fields(type(value)))
    return [type(value).__name__, *([name, _facts(getattr(value, name))] for name in names)]
