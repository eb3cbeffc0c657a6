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

from barwright.columns.batch import QuestionName
from barwright.computed_once import cached_property
from barwright.parted.run import write_parted
from barwright.parted.source_files import Rows, SourceFiles
from barwright.parted.work import ListedWork, PartTable
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.source import About
from barwright.parts.setup import Setup
from barwright.registry.files.user_cache import Progress
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.files.read_file import CHUNK
from barwright.tables.table_question import TableQuestion
from barwright.units import is_quantity, is_unknown, same
from barwright.version import VERSION

__all__ = ["BatchFile", "write_batch"]


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

    def _told(self) -> str:
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
    work = BatchWork(setup, Path(source).absolute(), asked=asked, keep=tuple(keep))
    work.check()
    written = write_parted(
        work,
        Path(output).absolute(),
        inputs=work.files.paths,
        processes=processes,
        client=client,
        progress=progress,
    )
    return BatchFile(
        file=str(output),
        row_count=written.counted["rows"],
        errors=written.counted["errors"],
        pieces=written.parts,
        earlier=written.earlier,
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
    asked : str
        The question.
    keep : tuple of str
        Columns that are carried over.
    """

    setup: Setup
    source: Path
    asked: QuestionName = attrs.field(kw_only=True)
    keep: tuple[str, ...] = attrs.field(kw_only=True)

    @cached_property
    def files(self) -> SourceFiles:
        """The files."""
        return SourceFiles.of(self.source, at_a_time=CHUNK)

    def check(self) -> None:
        """Refuse columns that cannot be what they are named, before any work."""
        _ = self._of_table

    @cached_property
    def _of_table(self) -> TableQuestion:
        asked = AskedOfRows(self.asked, "metric", {})
        return TableQuestion(
            setup=self.setup, asked=asked, keep=self.keep, schema=self.files.schema
        )

    @cached_property
    def question(self) -> Mapping[str, str | float | bool | None]:
        """What the answers depend on."""
        return {
            "library": VERSION,
            "setup": _digest(self.setup),
            "source": self.files.digest,
            "asked": self.asked,
            "keep": ", ".join(self.keep),
        }

    @property
    def pieces(self) -> Sequence[Rows]:
        """Rows of the files."""
        return self.files.stretches

    def of_pieces(self, pieces: Sequence[Rows]) -> PartTable:
        """Answer some rows."""
        tables = [self.files.read(rows) for rows in pieces]
        answered = self._of_table(tables[0] if tables else self.files.schema.empty_table())
        errors = answered.num_rows - answered["error_code"].null_count
        return PartTable(answered, {"rows": answered.num_rows, "errors": errors})


def _digest(setup: Setup) -> str:
    """Return a digest of a setup's figures, by which two with the same figures are equal."""
    return hashlib.sha256(json.dumps(_facts(setup)).encode()).hexdigest()


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
    if isinstance(value, tuple):
        return [_facts(item) for item in value]
    if isinstance(value, enum.Enum):
        return value.value
    if not attrs.has(type(value)):
        return value
    names = (field.name for field in attrs.fields(type(value)))
    return [type(value).__name__, *([name, _facts(getattr(value, name))] for name in names)]
