"""A file of a table, read in chunks: Parquet, Arrow or CSV."""

from __future__ import annotations

import contextlib
import csv
import itertools
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, TextIO, TypeAlias

import attrs

from barwright.errors import BarwrightError, FileError, SchemaError
from barwright.registry.files.find_files import is_file
from barwright.registry.importing.arrow import Arrow, arrow
from barwright.tables.files.table_file import check_form

__all__ = ["CHUNK", "Chunk", "TableFile", "open_table"]

CHUNK = 131_072
"""Rows that are read, answered and written at a time; of a wide table, fewer."""

FIRST = 2
"""Number of the first row below the heading, as a spreadsheet counts."""

# What is read ahead of one column, whatever a group of rows holds.
_BUFFER = 1 << 20

_LONGEST_LINE = 1 << 20
_MOST_COLUMNS = 2_000

# Columns from which a table is wide, and characters of CSV that are held at a time.
_WIDE = 16
_MOST_CHARACTERS = 1 << 26


@attrs.frozen(eq=False)
class Chunk:
    """Some rows of a table.

    Parameters
    ----------
    rows : pyarrow.Table
        The rows.
    numbers : sequence of int
        Number of each, as a spreadsheet counts.
    done : int
        How much of the file is read with them.
    refused : mapping of int to BarwrightError
        What is wrong with rows that have too many or too few cells, by their place in the chunk.
    """

    rows: Any
    numbers: Sequence[int]
    done: int
    refused: Mapping[int, BarwrightError] = attrs.field(factory=dict)


@attrs.frozen(eq=False)
class TableFile:
    """A file of a table that is open.

    Parameters
    ----------
    schema : pyarrow.Schema
        Its columns; of CSV, all texts.
    length : int
        How much there is to read: rows, or bytes of CSV.
    chunks : iterator of Chunk
        Its rows.
    """

    schema: Any
    length: int
    chunks: Iterator[Chunk]


_Opened: TypeAlias = contextlib.AbstractContextManager[TableFile]


@contextlib.contextmanager
def open_table(path: Path) -> Iterator[TableFile]:
    """Open a file of a table: Parquet, Arrow or CSV by the end of its name.

    Parameters
    ----------
    path : Path
        The file.

    Yields
    ------
    TableFile
        Of which one chunk at a time is held in memory.

    Raises
    ------
    FileError
        F101 if it cannot be read, F102 if it is not UTF-8, F110 if it is no table or damaged.
    MissingExtraError
        X101 if ``pyarrow`` is not installed.
    """
    check_form(path)
    loaded = arrow()
    with contextlib.ExitStack() as stack:
        with _told_of(path, loaded):
            # A pipe would be waited for.
            if path.exists() and not is_file(path):
                raise _damaged(path, "no regular file")
            found = stack.enter_context(_FORMS[path.suffix.lower()](path, loaded))
            # Names are read when they are asked for, and may be no text.
            names = list(found.schema.names)
            if not 0 < len(names) <= _MOST_COLUMNS:
                raise _damaged(path, f"{len(names)} columns")
        yield attrs.evolve(found, chunks=_each(found.chunks, path, loaded))


def _each(chunks: Iterator[Chunk], path: Path, loaded: Arrow) -> Iterator[Chunk]:
    """Read chunk by chunk, and tell what is wrong with the file."""
    while True:
        with _told_of(path, loaded):
            chunk = next(chunks, None)
            if chunk is None:
                return
            # What is not what it says would end the program later.
            chunk.rows.validate(full=True)
        yield chunk


@contextlib.contextmanager
def _told_of(path: Path, loaded: Arrow) -> Iterator[None]:
    """Tell of a file what its reader says of it."""
    try:
        yield
    except BarwrightError:
        raise
    except UnicodeDecodeError as error:
        raise FileError(
            "F102",
            value=f"byte 0x{error.object[error.start]:02x}",
            expected="UTF-8 text",
            remedy="save the file as UTF-8",
            file=str(path),
        ) from None
    except OSError as error:
        # pyarrow says so of what is damaged, and the system of what it cannot read.
        if error.errno is None:
            raise _damaged(path, str(error)) from None
        raise FileError(
            "F101",
            value=error.strerror or str(error),
            expected="a file that can be read",
            remedy="check the name and the permissions",
            file=str(path),
        ) from None
    except (loaded.core.ArrowException, csv.Error, MemoryError, ValueError) as error:
        raise _damaged(path, str(error)) from None


def _damaged(path: Path, reason: str, *, line: int = 0) -> FileError:
    form = path.suffix.lower().removeprefix(".")
    return FileError(
        "F110",
        value=reason.partition("\n")[0],
        expected=f"a whole table as {_WORDS[form]}",
        remedy="write the file again; it may be cut short",
        file=str(path),
        line=line,
    )


# -- Forms ---------------------------------------------------------------------------------


@contextlib.contextmanager
def _parquet(path: Path, loaded: Arrow) -> Iterator[TableFile]:
    with (
        path.open("rb") as stream,
        loaded.parquet.ParquetFile(stream, buffer_size=_BUFFER, pre_buffer=False) as file,
    ):
        batches = file.iter_batches(batch_size=_at_a_time(file.schema_arrow))
        yield TableFile(file.schema_arrow, file.metadata.num_rows, _numbered(batches, loaded))


@contextlib.contextmanager
def _arrow(path: Path, loaded: Arrow) -> Iterator[TableFile]:
    pa = loaded.core
    with pa.memory_map(str(path)) as mapped, pa.ipc.open_file(mapped) as reader:
        count = reader.num_record_batches
        batches = (reader.get_batch(number) for number in range(count))
        size = _at_a_time(reader.schema)
        pieces = (
            batch.slice(at, size) for batch in batches for at in range(0, batch.num_rows, size)
        )
        length = sum(reader.get_batch(number).num_rows for number in range(count))
        yield TableFile(reader.schema, length, _numbered(pieces, loaded))


def _at_a_time(schema: Any) -> int:  # noqa: ANN401 - of Arrow
    """Rows that are read at a time."""
    return max(CHUNK * _WIDE // max(len(schema), _WIDE), 1)


def _numbered(batches: Iterator[Any], loaded: Arrow) -> Iterator[Chunk]:
    done = 0
    for batch in batches:
        numbers = range(FIRST + done, FIRST + done + batch.num_rows)
        done += batch.num_rows
        yield Chunk(loaded.core.Table.from_batches([batch]), numbers, done)


@contextlib.contextmanager
def _csv(path: Path, loaded: Arrow) -> Iterator[TableFile]:
    pa = loaded.core
    with path.open(encoding="utf-8-sig", newline="") as stream:
        lines = csv.reader(_lines(stream, path), strict=True)
        names = next(lines, [])
        schema = pa.schema([pa.field(name, pa.string()) for name in names])
        yield TableFile(schema, path.stat().st_size, _csv_chunks(lines, stream, schema, loaded))


def _lines(stream: TextIO, path: Path) -> Iterator[str]:
    number = 0
    while line := stream.readline(_LONGEST_LINE):
        number += 1
        if len(line) == _LONGEST_LINE:
            raise _damaged(path, f"a line of {_LONGEST_LINE} characters", line=number)
        yield line


def _csv_chunks(
    lines: Iterator[list[str]],
    stream: TextIO,
    schema: Any,  # noqa: ANN401 - of Arrow
    loaded: Arrow,
) -> Iterator[Chunk]:
    filled = ((n, cells) for n, cells in enumerate(lines, FIRST) if any(map(str.strip, cells)))
    pa, width = loaded.core, len(schema)
    while some := list(_some(filled, _at_a_time(schema))):
        refused = {
            place: _ragged(len(cells), width)
            for place, (_, cells) in enumerate(some)
            if len(cells) != width
        }
        empty = [None] * width
        rows = [empty if place in refused else cells for place, (_, cells) in enumerate(some)]
        columns = [pa.array(list(column), pa.string()) for column in zip(*rows, strict=True)]
        table = pa.table(columns, schema=schema)
        yield Chunk(table, [number for number, _ in some], stream.buffer.tell(), refused)


def _some(filled: Iterator[tuple[int, list[str]]], most: int) -> Iterator[tuple[int, list[str]]]:
    """Take so many rows, or fewer if they are long."""
    characters = 0
    for number, cells in itertools.islice(filled, most):
        yield number, cells
        characters += sum(map(len, cells))
        if characters >= _MOST_CHARACTERS:
            return


def _ragged(cells: int, width: int) -> SchemaError:
    return SchemaError(
        "S203",
        value=f"{cells} cells",
        expected=f"{width}, one for each heading",
        remedy="put a text with a separator in it into quotes",
    )


_FORMS: Mapping[str, Callable[[Path, Arrow], _Opened]] = {
    ".parquet": _parquet,
    ".arrow": _arrow,
    ".csv": _csv,
}
_WORDS = {"parquet": "Parquet", "arrow": "an Arrow file", "csv": "CSV"}
