"""A table of text, read from CSV or Parquet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from pathlib import Path

import attrs

from barwright.errors import FileError, SchemaError
from barwright.registry.files.document import read_bytes, read_text
from barwright.registry.files.file_limits import LARGEST_TABLE, MOST_ROWS
from barwright.registry.importing.arrow import arrow
from barwright.registry.importing.heading import Heading, heading_of

__all__ = ["Row", "Table", "read_table"]

_PARQUET = ".parquet"


@attrs.frozen
class Row:
    """A row that is not empty.

    Parameters
    ----------
    number : int
        Its number as a spreadsheet counts, where the heading is row 1.
    cells : tuple of str
        Its cells without the spaces around them.
    """

    number: int
    cells: tuple[str, ...]


@attrs.frozen
class Table:
    """A table as text.

    Parameters
    ----------
    name : str
        Name of its file, without the folder.
    columns : tuple of Heading
        In their order.
    rows : tuple of Row
        All that are not empty.
    """

    name: str
    columns: tuple[Heading, ...]
    rows: tuple[Row, ...] = attrs.field(repr=False)


def read_table(path: Path, *, separator: str = ",") -> Table:
    """Read a table: Parquet if its name ends so, or else CSV.

    Parameters
    ----------
    path : Path
        The file.
    separator : str
        Sign between the cells of a row of CSV.

    Returns
    -------
    Table

    Raises
    ------
    FileError
        F101 if it cannot be read, F102 if it is not UTF-8, F104 if it is too large, F110 if it
        is no table.
    MissingExtraError
        X101 if it is Parquet and ``pyarrow`` is not installed.
    SchemaError
        S205 if a column has no name, or the name of another.
    """
    is_parquet = path.suffix.lower() == _PARQUET
    lines = _lines_of_parquet(path) if is_parquet else _lines_of_csv(path, separator)
    columns = tuple(map(heading_of, next(lines, ())))
    _check_names(path, columns)
    numbered = enumerate((tuple(map(str.strip, line)) for line in lines), start=2)
    rows = tuple(Row(number, cells) for number, cells in numbered if any(cells))
    if not rows:
        raise _refused(path, "no rows", "a heading and a row below it")
    if len(rows) > MOST_ROWS:
        raise _refused(path, f"{len(rows)} rows", f"at most {MOST_ROWS}")
    return Table(name=path.name, columns=columns, rows=rows)


def _check_names(path: Path, columns: Sequence[Heading]) -> None:
    known: set[str] = set()
    for column in columns:
        if not column.name or column.name in known:
            raise SchemaError(
                "S205",
                value=column.name,
                expected="a heading that no other column has",
                remedy="give each column a name of its own",
                key="row 1",
                file=path.name,
            )
        known.add(column.name)


def _lines_of_csv(path: Path, separator: str) -> Iterator[Sequence[str]]:
    text = read_text(path, largest=LARGEST_TABLE)
    lines = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    try:
        yield from lines
    except csv.Error as error:
        raise _refused(path, str(error), "CSV", line=lines.line_num) from None


def _lines_of_parquet(path: Path) -> Iterator[Sequence[str]]:
    data = read_bytes(path, shown_as=str(path), largest=LARGEST_TABLE)
    loaded = arrow()
    pa = loaded.core
    try:
        table = loaded.parquet.read_table(pa.BufferReader(data))
        texts = [column.cast(pa.string()).to_pylist() for column in table.columns]
    except (pa.ArrowException, OSError, ValueError) as error:
        reason = str(error).partition("\n")[0]
        raise _refused(path, reason, "Parquet whose cells are texts and numbers") from None
    yield table.column_names
    for cells in zip(*texts, strict=True):
        yield ["" if cell is None else cell for cell in cells]


def _refused(path: Path, value: str, expected: str, *, line: int = 0) -> FileError:
    return FileError(
        "F110",
        value=value,
        expected=expected,
        remedy="save the table again, with its headings in the first row",
        file=path.name,
        line=line,
    )
