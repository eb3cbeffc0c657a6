"""A pack made of a table and a map, or all that is wrong with its rows."""

from __future__ import annotations

import tempfile
from collections import Counter
from collections.abc import Container, Iterable, Iterator, Mapping
from pathlib import Path

import attrs

from barwright.errors import BarwrightError, TableError
from barwright.registry.authoring.new_folder import write_new_folder
from barwright.registry.authoring.scaffold import distribution_around
from barwright.registry.files.snapshot import snapshot_of
from barwright.registry.importing.draft import OF_THE_MAP, Draft
from barwright.registry.importing.table import Table, read_table
from barwright.registry.importing.table_map import TableMap, read_map
from barwright.registry.packs.load import load_partly
from barwright.registry.packs.tables.refusals import problems_of

__all__ = ["Imported", "import_table"]


@attrs.frozen
class Imported:
    """What became of a table.

    Parameters
    ----------
    files : tuple of Path
        All files that were written.
    rows : int
        Rows that were used.
    left_out : tuple of int
        Numbers of the rows that were left out; the heading is row 1.
    counts : mapping of str to int
        How many records there are of each kind.
    problems : tuple of BarwrightError
        What is wrong with the rows that were left out, each problem once.
    """

    files: tuple[Path, ...]
    rows: int
    left_out: tuple[int, ...]
    counts: Mapping[str, int]
    problems: tuple[BarwrightError, ...] = ()


def import_table(
    table: Path, mapping: Path, folder: Path, *, skip_bad_rows: bool = False
) -> Imported:
    """Make a pack of a table, in a new folder.

    Parameters
    ----------
    table : Path
        The table, CSV or Parquet.
    mapping : Path
        What becomes of each row.
    folder : Path
        Where the pack is to be.
    skip_bad_rows : bool
        Whether to leave out rows that cannot be used; otherwise one of them is enough, and
        nothing is written.

    Returns
    -------
    Imported

    Raises
    ------
    TableError
        T101 with all problems, if nothing is written for them.
    FileError
        If the table or the map cannot be read, or the folder is there or cannot be written.
    SchemaError
        If the map is wrong, or two columns have one name.
    MissingExtraError
        X101 if the table is Parquet and ``pyarrow`` is not installed.
    """
    read_as = read_map(mapping)
    content = read_table(table, separator=read_as.separator)
    try:
        read_as.check_columns(content)
    except ExceptionGroup as error:
        raise TableError("T101", problems=tuple(problems_of(error)), file=read_as.name) from None
    told: dict[int, list[BarwrightError]] = {}
    while True:
        draft, problems = _drafted(content, read_as, without=told)
        if not problems:
            break
        told |= problems
        if not skip_bad_rows or OF_THE_MAP in told or len(told) == len(content.rows):
            raise TableError("T101", problems=tuple(_each_once(told)), file=content.name)
    files = write_new_folder(folder, distribution_around(draft.files, read_as.header))
    return Imported(
        files=files,
        rows=len(content.rows) - len(told),
        left_out=tuple(sorted(told)),
        counts=Counter(record.kind for record in draft.records),
        problems=tuple(_each_once(told)),
    )


def _each_once(told: Mapping[int, Iterable[BarwrightError]]) -> Iterator[BarwrightError]:
    """Tell a problem that many rows have for the first of them, with a count of the others."""
    alike: dict[tuple[str, ...], list[BarwrightError]] = {}
    for row in sorted(told):
        for problem in told[row]:
            place = problem.key.removeprefix(f"row {row}")
            key = problem.code, problem.value, problem.expected, place
            alike.setdefault(key, []).append(problem)
    for first, *others in alike.values():
        count = f"; the same in {len(others)} more row(s)" if others else ""
        yield type(first)(**first.fields | {"remedy": first.remedy + count})


def _drafted(
    table: Table, read_as: TableMap, *, without: Container[int] = ()
) -> tuple[Draft, dict[int, list[BarwrightError]]]:
    """Make the files of a pack, and tell what is wrong by the number of the row."""
    draft = Draft(table, read_as)
    for row in table.rows:
        if row.number not in without:
            draft.add(row)
    for problem in _problems_of(draft.files):
        draft.blame(problem)
    return draft, draft.problems


def _problems_of(files: Mapping[str, str]) -> tuple[BarwrightError, ...]:
    """Read the files of a pack as if they were installed, and tell what is wrong with them."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made) / "pack"
        write_new_folder(folder, files)
        return load_partly(snapshot_of(folder), origin=str(folder)).problems
