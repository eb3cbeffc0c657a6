"""From a pack's folder to its records, all problems at once."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import attrs

from barwright.errors import BarwrightError, FileError, PackError, SchemaError
from barwright.parts.source import Part
from barwright.registry.document import read_toml
from barwright.registry.entry import Entry
from barwright.registry.locate import located
from barwright.registry.pack import KINDS, SCHEMA, Pack, PackHeader
from barwright.registry.structure import Structurer, nearest, problems_of

__all__ = ["load_pack", "standards"]

_STANDARDS = Path(__file__).parents[1] / "standards"

_NAME = re.compile(r"[a-z0-9][a-z0-9.-]{0,63}")
_MOST_FILES = 4096


@functools.cache
def standards() -> Pack:
    """Return the pack that ships with this library, which every other may refer to.

    Returns
    -------
    Pack
    """
    return _load(_STANDARDS, "barwright", known={})


def load_pack(folder: Path, *, origin: str) -> Pack:
    """Read a pack: ``pack.toml`` and every other TOML file beside it.

    Parameters
    ----------
    folder : Path
        The pack's folder.
    origin : str
        What to call it in messages: distribution and version, or the folder.

    Returns
    -------
    Pack

    Raises
    ------
    PackError
        With every problem of every file.
    """
    return _load(folder, origin, known=standards().parts)


def _load(folder: Path, origin: str, *, known: Mapping[str, Part]) -> Pack:
    try:
        header = _header(folder)
        loader = _Loader(header, known)
        loader.load(_files(folder))
    except (BarwrightError, ExceptionGroup) as error:
        problems = located(problems_of(error), folder)
        raise PackError("P101", problems=problems, file=origin) from None
    return Pack(
        header=header, folder=folder, origin=origin, parts=loader.parts, entries=loader.entries
    )


def _header(folder: Path) -> PackHeader:
    table = read_toml(folder / "pack.toml", shown_as="pack.toml")
    schema = table.get("schema")
    if type(schema) is int and schema != SCHEMA:
        raise _other_schema(schema)
    header = Structurer(file="pack.toml").structure(table, PackHeader)
    _check_name(header.id, "id", "pack.toml")
    _check_sources(header)
    return header


def _files(folder: Path) -> list[tuple[str, dict[str, Any]]]:
    """Every data file's name and tables, in an order that no file system changes."""
    root = folder.resolve()
    paths = sorted(folder.rglob("*.toml"))[:_MOST_FILES]
    problems: list[BarwrightError] = []
    tables = []
    for path in paths:
        name = path.relative_to(folder).as_posix()
        if name == "pack.toml":
            continue
        try:
            if not _is_inside(path, root):
                raise _outside(name)
            tables.append((name, read_toml(path, shown_as=name)))
        except BarwrightError as error:
            problems.append(error)
    if problems:
        raise ExceptionGroup("files", problems)
    return tables


def _is_inside(path: Path, root: Path) -> bool:
    try:
        return path.resolve().is_relative_to(root)
    except RuntimeError:  # a link that leads to itself
        return False


class _Loader:
    """Collects a pack's records kind by kind, so that each can refer to those before."""

    def __init__(self, header: PackHeader, known: Mapping[str, Part]) -> None:
        self._pack = header.id
        self._sources = header.source
        self._by_class: dict[type, dict[str, Part]] = {
            cls: {full: part for full, part in known.items() if isinstance(part, cls)}
            for cls in KINDS.values()
        }
        self.parts: dict[str, Part] = {}
        self.entries: dict[str, Entry] = {}
        self._problems: list[BarwrightError] = []
        self._broken: set[str] = set()

    def load(self, files: list[tuple[str, dict[str, Any]]]) -> None:
        """Make all records of all files."""
        for name, tables in files:
            self._problems += _unknown_tables(name, tables)
        for kind in KINDS:
            for name, tables in files:
                for index, table in enumerate(self._entries(name, tables, kind)):
                    self._add(kind, table, name, f"{kind}[{index}]")
        if self._problems:
            raise ExceptionGroup("pack", list(filter(self._is_cause, self._problems)))

    def _is_cause(self, problem: BarwrightError) -> bool:
        """Tell a problem from one that only follows: a reference to a broken record."""
        return problem.code != "S206" or problem.value not in self._broken

    def _entries(self, file: str, tables: dict[str, Any], kind: str) -> Iterator[Any]:
        entries = tables.get(kind, [])
        if isinstance(entries, list):
            yield from entries
            return
        self._problems.append(
            SchemaError(
                "S203",
                value=f"[{kind}]",
                expected=f"a list of tables, [[{kind}]]",
                remedy="double the brackets",
                key=kind,
                file=file,
            )
        )

    def _add(self, kind: str, table: Any, file: str, key: str) -> None:  # noqa: ANN401 - as read
        structurer = Structurer(
            file=file, sources=self._sources, pack=self._pack, parts=self._by_class
        )
        try:
            part = structurer.structure(table, KINDS[kind], key=key)
            self._check_part(part, file, key)
        except (BarwrightError, ExceptionGroup) as error:
            self._problems += problems_of(error)
            short = f"{kind}/{table.get('id')}" if isinstance(table, dict) else ""
            self._broken |= {short, f"{self._pack}:{short}"}
            return
        short = f"{kind}/{part.id}"
        full = f"{self._pack}:{short}"
        part = attrs.evolve(part, id=full)
        self.parts[full] = part
        self.entries[full] = Entry(id=full, kind=kind, file=file, key=key, table=table)
        self._by_class[KINDS[kind]] |= {short: part, full: part}

    def _check_part(self, part: Part, file: str, key: str) -> None:
        _check_name(part.id, f"{key}.id", file)
        kind = key.partition("[")[0]
        if f"{self._pack}:{kind}/{part.id}" in self.parts:
            raise SchemaError(
                "S205",
                value=part.id,
                expected=f"an id that no other {kind} of the pack has",
                remedy="rename one of the two",
                key=f"{key}.id",
                file=file,
            )


def _check_sources(header: PackHeader) -> None:
    known: set[str] = set()
    for index, source in enumerate(header.source):
        if source.id in known:
            raise SchemaError(
                "S205",
                value=source.id,
                expected="an id that no other source of the pack has",
                remedy="rename one of the two",
                key=f"source[{index}].id",
                file="pack.toml",
            )
        known.add(source.id)


def _check_name(name: str, key: str, file: str) -> None:
    if not _NAME.fullmatch(name):
        raise SchemaError(
            "S205",
            value=name,
            expected="small letters, digits, points and hyphens, at most 64",
            remedy="write it like 'short-wheelbase'",
            key=key,
            file=file,
        )


def _unknown_tables(file: str, tables: dict[str, Any]) -> list[BarwrightError]:
    return [
        SchemaError(
            "S201",
            value=key,
            expected="a kind of record",
            remedy=nearest(key, KINDS),
            key=key,
            file=file,
        )
        for key in sorted(set(tables) - set(KINDS))
    ]


def _other_schema(schema: int) -> SchemaError:
    newer = schema > SCHEMA
    return SchemaError(
        "P401",
        value=schema,
        expected=f"schema = {SCHEMA}",
        remedy="install a newer barwright" if newer else "write schema = 1",
        key="schema",
        file="pack.toml",
    )


def _outside(name: str) -> FileError:
    return FileError(
        "F101",
        value=name,
        expected="a file inside the pack's folder",
        remedy="copy the file instead of linking to it",
        file=name,
    )
