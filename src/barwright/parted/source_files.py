"""Parquet files that a work reads: their columns, and the stretches of rows that they hold."""

from __future__ import annotations

import contextlib
import hashlib
import os
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import attrs

from barwright.errors import FileError, SchemaError
from barwright.registry.importing.arrow import arrow

__all__ = ["Rows", "SourceFiles"]

_FORM = ".parquet"


@attrs.frozen
class Rows:
    """A stretch of rows.

    Parameters
    ----------
    file : int
        Which file, counted from 0.
    group : int
        Which group of its rows.
    begin, end : int
        Rows of the group, from the first of them to before the last.
    """

    file: int
    group: int
    begin: int
    end: int


@attrs.frozen
class SourceFiles:
    """Parquet files with the same columns.

    Parameters
    ----------
    paths : tuple of Path
        The files, by name.
    schema : pyarrow.Schema
        Their columns.
    digest : str
        Digest of the files' names, sizes and footers.
    rows_of_groups : tuple of tuple of int
        Of each file, how many rows each group has.
    """

    paths: tuple[Path, ...]
    schema: Any
    digest: str
    rows_of_groups: tuple[tuple[int, ...], ...]

    @classmethod
    def of(cls, source: Path) -> SourceFiles:
        """Look at a file, or at all files of a folder.

        Parameters
        ----------
        source : Path
            A Parquet file, or a folder of them.

        Returns
        -------
        SourceFiles

        Raises
        ------
        FileError
            F101 for a file that cannot be read, F110 for one that is no Parquet file or is cut.
        SchemaError
            S207 for a file with other columns than the first.
        """
        paths = tuple(_listed(source))
        looked_at = [_look_at(path) for path in paths]
        schema = looked_at[0].schema
        digest = hashlib.sha256()
        for path, file in zip(paths, looked_at, strict=True):
            if not file.schema.equals(schema):
                raise _other_columns(path, paths[0])
            digest.update(f"{path.name} {file.size} ".encode() + file.footer)
        groups = tuple(file.rows_of_groups for file in looked_at)
        return cls(paths, schema, digest.hexdigest(), groups)

    def stretches(self, *, at_a_time: int) -> tuple[Rows, ...]:
        """Divide all rows into stretches, in order.

        Parameters
        ----------
        at_a_time : int
            The most rows of a stretch.

        Returns
        -------
        tuple of Rows
        """
        return tuple(
            Rows(file, group, begin, min(begin + at_a_time, number))
            for file, groups in enumerate(self.rows_of_groups)
            for group, number in enumerate(groups)
            for begin in range(0, number, at_a_time)
        )

    def read(self, rows: Rows) -> Any:  # noqa: ANN401 - of Arrow
        """Read a stretch of rows.

        Parameters
        ----------
        rows : Rows
            Which.

        Returns
        -------
        pyarrow.Table

        Raises
        ------
        FileError
            F101 for a file that cannot be read, F110 for one that is damaged.
        """
        path = self.paths[rows.file]
        with _readable(path), path.open("rb") as stream:
            group = arrow().parquet.ParquetFile(stream).read_row_group(rows.group)
        return group.slice(rows.begin, rows.end - rows.begin)


def _listed(source: Path) -> Sequence[Path]:
    """List the files; a folder without any is told."""
    with _readable(source):
        if not source.is_dir():
            return [source]
        found = sorted(path for path in source.iterdir() if path.suffix.lower() == _FORM)
    if not found:
        raise FileError(
            "F101",
            value="a folder without Parquet files",
            expected=f"files whose names end in {_FORM}",
            remedy="check its name",
            file=str(source),
        )
    return found


@attrs.frozen
class _File:
    """What a Parquet file says of itself."""

    schema: Any
    rows_of_groups: tuple[int, ...]
    size: int
    footer: bytes


def _look_at(path: Path) -> _File:
    with _readable(path), path.open("rb") as stream:
        file = arrow().parquet.ParquetFile(stream)
        groups = (file.metadata.row_group(group) for group in range(file.metadata.num_row_groups))
        rows = tuple(group.num_rows for group in groups)
        size = stream.seek(0, os.SEEK_END)
        # The end of the file, in front of its last 8 bytes, says what is in it.
        stream.seek(-8 - file.metadata.serialized_size, os.SEEK_END)
        return _File(file.schema_arrow, rows, size, stream.read())


@contextlib.contextmanager
def _readable(path: Path) -> Iterator[None]:
    """Say what is wrong with a file that cannot be read."""
    try:
        yield
    except (OSError, ValueError, arrow().core.ArrowException) as error:
        # What the system says has a number; all else is said of what is in the file.
        unread = getattr(error, "errno", None) is not None
        raise FileError(
            "F101" if unread else "F110",
            value=getattr(error, "strerror", None)
            or "no Parquet file, or one that is cut or damaged",
            expected="a file that can be read" if unread else "a whole Parquet file",
            remedy="check its name and permissions" if unread else "write or copy it again",
            file=str(path),
        ) from None


def _other_columns(path: Path, first: Path) -> SchemaError:
    return SchemaError(
        "S207",
        value="other columns",
        expected=f"those of {first.name}",
        remedy="ask of files with the same columns",
        key="source",
        file=str(path),
    )
