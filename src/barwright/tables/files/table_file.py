"""A file of a table, written in chunks: it appears whole or not at all."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any, BinaryIO, TypeAlias

from barwright.errors import BarwrightError, FileError, SchemaError
from barwright.registry.files.unwritable import refuse_unwritable
from barwright.registry.files.whole_file import refuse_input, whole_file
from barwright.registry.importing.arrow import Arrow, arrow
from barwright.tables.unit_of import heading_of_field

__all__ = ["FORMS", "Write", "check_form", "check_output", "not_calculated", "table_file"]

Write: TypeAlias = Callable[[Any], None]
"""Writes a chunk: an Arrow table or record batch with the columns of the file."""

_Writer: TypeAlias = contextlib.AbstractContextManager[Write]

# How a text begins that a spreadsheet would calculate.
_FORMULA = r"^[=+\-@\t\r]"
_NUMBER = r"^[+\-]?[0-9.]+$"


@contextlib.contextmanager
def table_file(
    path: Path,
    schema: Any,  # noqa: ANN401 - of Arrow
    *,
    inputs: Iterable[Path] = (),
) -> Iterator[Write]:
    """Open a file of a table: Parquet, Arrow or CSV by the end of its name.

    Only the chunk that is written is held in memory.

    Parameters
    ----------
    path : Path
        Where it is to be.
    schema : pyarrow.Schema
        Its columns.
    inputs : iterable of Path
        What the call reads, over which nothing is written.

    Yields
    ------
    callable
        Takes a chunk: an Arrow table or record batch of that schema.  Of Parquet, each is a
        group of rows.

    Raises
    ------
    FileError
        F110 for another end of the name; F201 or F202, and what was there before is still there.
    SchemaError
        S203 for a column that does not go into such a file.
    MissingExtraError
        X101 if ``pyarrow`` is not installed.
    """
    inputs = tuple(inputs)
    check_output(path, inputs=inputs)
    loaded, form = arrow(), FORMS[path.suffix.lower()]
    with (
        whole_file(path, inputs=inputs) as stream,
        _told_of(path, loaded),
        form(loaded, stream, schema) as write,
    ):
        yield write


@contextlib.contextmanager
def _told_of(path: Path, loaded: Arrow) -> Iterator[None]:
    """Tell of a column that it does not go into this form of file."""
    try:
        yield
    except (BarwrightError, OSError):
        raise  # of what is being written, or of the disk
    except loaded.core.ArrowException as error:
        raise SchemaError(
            "S203",
            value=str(error).partition("\n")[0],
            expected="columns of numbers and texts",
            remedy="leave the column out, or choose another form of file",
            key="keep",
            file=str(path),
        ) from None


def check_output(path: Path, *, inputs: Iterable[Path]) -> None:
    """Refuse an output that is an input, or whose name says no form of a table.

    Parameters
    ----------
    path : Path
        Where a table is to be.
    inputs : iterable of Path
        What the call reads.

    Raises
    ------
    FileError
        F110, F201 or F202.
    """
    try:
        refuse_input(path, inputs)
    except ValueError as error:  # a name may hold what no name can
        raise refuse_unwritable(error, str(path)) from None
    check_form(path)


def check_form(path: Path) -> None:
    """Refuse a name that says no form of a table.

    Parameters
    ----------
    path : Path
        Name of a file.

    Raises
    ------
    FileError
        F110.
    """
    if path.suffix.lower() not in FORMS:
        raise FileError(
            "F110",
            value=path.name,
            expected=f"a name that ends in {' or '.join(FORMS)}",
            remedy="name the file by its form",
            file=str(path),
        )


def not_calculated(text: str) -> str:
    """Put a quotation mark before a text that a spreadsheet would calculate.

    Parameters
    ----------
    text : str
        What is to stand in a cell or in a heading.

    Returns
    -------
    str

    Examples
    --------
    >>> not_calculated("=1+1"), not_calculated("Long van")
    ("'=1+1", 'Long van')
    """
    return f"'{text}" if re.match(_FORMULA, text) else text


# -- Forms ---------------------------------------------------------------------------------


@contextlib.contextmanager
def _parquet(loaded: Arrow, stream: BinaryIO, schema: Any) -> Iterator[Write]:  # noqa: ANN401
    """Write Parquet; figures, which hardly repeat, are kept as they are."""
    is_floating = loaded.core.types.is_floating
    repeating = [field.name for field in schema if not is_floating(field.type)]
    with loaded.parquet.ParquetWriter(stream, schema, use_dictionary=repeating) as writer:
        yield writer.write


@contextlib.contextmanager
def _arrow(loaded: Arrow, stream: BinaryIO, schema: Any) -> Iterator[Write]:  # noqa: ANN401
    with loaded.core.ipc.new_file(stream, schema) as writer:
        yield writer.write


@contextlib.contextmanager
def _csv(loaded: Arrow, stream: BinaryIO, schema: Any) -> Iterator[Write]:  # noqa: ANN401
    """Write CSV, the unit of a column in brackets behind its name."""
    pa = loaded.core
    is_text = [not _is_number(pa, field.type) for field in schema]
    types = [
        pa.string() if text else field.type for text, field in zip(is_text, schema, strict=True)
    ]
    headings = [not_calculated(heading_of_field(field)) for field in schema]
    plain = pa.schema(zip(headings, types, strict=True))
    with loaded.csv.CSVWriter(stream, plain) as writer:

        def write(chunk: Any) -> None:  # noqa: ANN401 - of Arrow
            is_batch = isinstance(chunk, pa.RecordBatch)
            for batch in [chunk] if is_batch else chunk.to_batches():
                columns = zip(batch.columns, is_text, strict=True)
                cells = [_as_text(loaded, c) if text else c for c, text in columns]
                writer.write(pa.record_batch(cells, schema=plain))

        yield write


def _is_number(pa: Any, kind: Any) -> bool:  # noqa: ANN401 - of Arrow
    return bool(pa.types.is_floating(kind) or pa.types.is_integer(kind))


def _as_text(loaded: Arrow, cells: Any) -> Any:  # noqa: ANN401 - of Arrow
    """Write cells as texts; of lists, with semicolons between the items."""
    pa, compute = loaded.core, loaded.compute
    if pa.types.is_fixed_size_list(cells.type):
        lists = cells.cast(pa.list_(pa.string()))
        items = compute.fill_null(lists.values, "")
        whole = pa.ListArray.from_arrays(lists.offsets, items, mask=lists.is_null())
        return compute.binary_join(whole, ";")
    return _no_formula(compute, cells.cast(pa.string()))


def _no_formula(compute: Any, texts: Any) -> Any:  # noqa: ANN401 - of Arrow
    """Put a quotation mark before each text that a spreadsheet would calculate."""
    has_sign = compute.match_substring_regex(texts, _FORMULA)
    is_number = compute.match_substring_regex(texts, _NUMBER)
    marked = compute.binary_join_element_wise("'", texts, "")
    return compute.if_else(compute.and_not(has_sign, is_number), marked, texts)


FORMS: dict[str, Callable[[Arrow, BinaryIO, Any], _Writer]] = {
    ".parquet": _parquet,
    ".arrow": _arrow,
    ".csv": _csv,
}
"""Forms of a table, each by the end of its name."""
