"""From a pack's folder to its records, all problems at once."""

from __future__ import annotations

import functools
import re
from collections import ChainMap, Counter
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, cast

import attrs

from barwright.errors import BarwrightError, FileError, PackError, SchemaError
from barwright.parts.record import Part
from barwright.registry.files.document import parse_toml
from barwright.registry.files.file_limits import MOST_PROBLEMS
from barwright.registry.files.key_lines import located
from barwright.registry.files.snapshot import HEADER, Snapshot, snapshot_of
from barwright.registry.files.toml_limits import check_records
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.checks import PROOFS
from barwright.registry.packs.complete import completed
from barwright.registry.packs.entry import Entry
from barwright.registry.packs.migrate import migrated, version_of
from barwright.registry.packs.pack import KINDS, Pack, PackHeader, PackInfo
from barwright.registry.packs.refusals import not_a_list, problems_of
from barwright.registry.packs.structure import Structurer

__all__ = [
    "BESIDE_THE_HEADER",
    "NAME",
    "STANDARDS",
    "Loaded",
    "load_over",
    "load_pack",
    "load_partly",
    "load_snapshot",
    "standards",
]

STANDARDS = Path(__file__).parents[2] / "standards"
"""Folder of the pack that ships with this library."""

# A waiver that concerns the pack's title or its sources stands where they do.
BESIDE_THE_HEADER = {"waiver"}
"""Tables of ``pack.toml`` that are no part of its header."""

# What is no slip of the pen, but stands in the wrong place.
_OVERLAYS_ONLY = {"correction": "lay the folder on top, and say overlay = true in its pack.toml"}

NAME = re.compile(r"[a-z0-9][a-z0-9.-]{0,63}")
"""What an id looks like."""


@attrs.frozen(kw_only=True)
class Loaded:
    """What could be read of a pack, and all that is wrong with it.

    Parameters
    ----------
    pack : Pack, optional
        With the records that are good; none if ``pack.toml`` is not.
    tables : mapping
        What each file holds, by its name, ``pack.toml`` first.
    problems : tuple of BarwrightError
        All that is wrong; of files that cannot be read at all, nothing else is told,
        and after a thousand problems no more is read.
    """

    pack: Pack | None
    tables: Mapping[str, Mapping[str, Any]] = attrs.field(repr=False)
    problems: tuple[BarwrightError, ...]


@functools.cache
def standards() -> Pack:
    """Return the pack that ships with this library, which every other may refer to.

    Returns
    -------
    Pack
    """
    return _load(snapshot_of(STANDARDS), "barwright", "", known={})


def load_pack(folder: Path, *, origin: str, version: str = "") -> Pack:
    """Read a pack: ``pack.toml`` and every other TOML file beside it.

    Parameters
    ----------
    folder : Path
        The pack's folder.
    origin : str
        What to call it in messages: distribution and version, or the folder.
    version : str
        Of the distribution.

    Returns
    -------
    Pack

    Raises
    ------
    PackError
        With every problem of every file.
    """
    return load_snapshot(snapshot_of(folder), origin=origin, version=version)


def load_snapshot(snapshot: Snapshot, *, origin: str, version: str = "") -> Pack:
    """Read a pack from its files as they were at one time.

    Parameters
    ----------
    snapshot : Snapshot
        The files.
    origin : str
        What to call it in messages: distribution and version, or the folder.
    version : str
        Of the distribution.

    Returns
    -------
    Pack

    Raises
    ------
    PackError
        With every problem of every file.
    """
    return _load(snapshot, origin, version, known=standards().parts)


def load_partly(snapshot: Snapshot, *, origin: str) -> Loaded:
    """Read of a pack what can be read.

    Parameters
    ----------
    snapshot : Snapshot
        The files.
    origin : str
        What to call it in messages.

    Returns
    -------
    Loaded
    """
    return _read(snapshot, origin, "", known=standards().parts)


def load_over(
    snapshot: Snapshot,
    *,
    origin: str,
    known: Mapping[type, Mapping[str, Part]],
    beside: set[str],
    header: type[PackHeader] = PackHeader,
) -> Loaded:
    """Read of a pack that lies on top of others what can be read.

    Parameters
    ----------
    snapshot : Snapshot
        The files.
    origin : str
        What to call it in messages.
    known : mapping
        Records that it may refer to, by class and id.
    beside : set of str
        Tables that may stand beside records.
    header : type
        What ``pack.toml`` is read into.

    Returns
    -------
    Loaded
    """
    return _read_with(snapshot, origin, "", known=known, beside=beside, header_class=header)


def _load(snapshot: Snapshot, origin: str, version: str, *, known: Mapping[str, Part]) -> Pack:
    loaded = _read(snapshot, origin, version, known=known)
    if loaded.problems or loaded.pack is None:
        raise PackError("P101", problems=loaded.problems, file=origin)
    return loaded.pack


def _read(snapshot: Snapshot, origin: str, version: str, *, known: Mapping[str, Part]) -> Loaded:
    by_class = {
        cls: {full: part for full, part in known.items() if isinstance(part, cls)}
        for cls in KINDS.values()
    }
    return _read_with(
        snapshot, origin, version, known=by_class, beside=set(), header_class=PackHeader
    )


def _read_with(
    snapshot: Snapshot,
    origin: str,
    version: str,
    *,
    known: Mapping[type, Mapping[str, Part]],
    beside: set[str],
    header_class: type[PackHeader],
) -> Loaded:
    try:
        whole = _table(snapshot, HEADER)
        check_records({HEADER: whole})
        written_for = version_of(whole)
        whole = migrated(HEADER, whole, version=written_for)
        table = {key: value for key, value in whole.items() if key not in BESIDE_THE_HEADER}
        header = _header(table, header_class)
        tables, unreadable = _tables(snapshot)
        check_records({HEADER: whole, **tables})
    except (BarwrightError, ExceptionGroup) as error:
        problems = located(problems_of(error), snapshot.text)
        return Loaded(pack=None, tables={}, problems=problems)
    tables = {name: migrated(name, held, version=written_for) for name, held in tables.items()}
    loader = _Loader(header, known, beside={*PROOFS, *beside})
    loader.load(tables)
    info = PackInfo(
        header=header,
        folder=snapshot.folder,
        origin=origin,
        version=version,
        digest=snapshot.digest,
        counts=Counter(entry.kind for entry in loader.entries.values()),
    )
    return Loaded(
        pack=Pack(info=info, table=table, parts=loader.parts, entries=loader.entries),
        tables={HEADER: whole, **tables},
        # What a file that cannot be read holds is missed in all others.
        problems=located(unreadable or loader.problems, snapshot.text),
    )


def _header(table: dict[str, Any], cls: type[PackHeader]) -> PackHeader:
    header = Structurer(file=HEADER).structure(table, cls)
    _check_name(header.id, "id", HEADER)
    _check_sources(header)
    return header


def _table(snapshot: Snapshot, name: str) -> dict[str, Any]:
    content = snapshot.files[name]
    if isinstance(content, FileError):
        raise content
    return parse_toml(content, shown_as=name)


def _tables(snapshot: Snapshot) -> tuple[dict[str, dict[str, Any]], list[BarwrightError]]:
    """Every data file's tables by its name, in an order that no file system changes."""
    problems: list[BarwrightError] = []
    tables = {}
    for name in snapshot.files:
        if name == HEADER:
            continue
        try:
            tables[name] = _table(snapshot, name)
        except BarwrightError as error:
            problems.append(error)
    return tables, problems


class _Loader:
    """Collects a pack's records kind by kind, so that each can refer to those before."""

    def __init__(
        self, header: PackHeader, known: Mapping[type, Mapping[str, Part]], *, beside: set[str]
    ) -> None:
        self._pack = header.id
        self._sources = header.source
        self._beside = beside
        self._by_class: dict[type, ChainMap[str, Part]] = {
            cls: ChainMap({}, cast("dict[str, Part]", known[cls])) for cls in KINDS.values()
        }
        self.parts: dict[str, Part] = {}
        self.entries: dict[str, Entry] = {}
        self._problems: list[BarwrightError] = []
        self._broken: set[str] = set()

    @property
    def problems(self) -> list[BarwrightError]:
        """All that is wrong with the records."""
        return list(filter(self._is_cause, self._problems))

    def load(self, files: Mapping[str, dict[str, Any]]) -> None:
        """Make all records of all files, until there are more problems than anybody reads."""
        for _ in self._steps(files):
            if len(self._problems) > MOST_PROBLEMS:
                return

    def _steps(self, files: Mapping[str, dict[str, Any]]) -> Iterator[None]:
        for name, tables in files.items():
            self._problems += _unknown_tables(name, tables, self._beside)
            yield
        for kind in KINDS:
            for name, tables in files.items():
                for index, table in enumerate(self._entries(name, tables, kind)):
                    self._add(kind, table, name, f"{kind}[{index}]")
                    yield

    def _is_cause(self, problem: BarwrightError) -> bool:
        """Tell a problem from one that only follows: a reference to a broken record."""
        return problem.code != "S206" or problem.value not in self._broken

    def _entries(self, file: str, tables: dict[str, Any], kind: str) -> Iterator[Any]:
        entries = tables.get(kind, [])
        if isinstance(entries, list):
            yield from entries
            return
        self._problems.append(not_a_list(kind, file))

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
        part = completed(part, id=full)
        self.parts[full] = part
        self.entries[full] = Entry(id=full, kind=kind, file=file, key=key, table=table)
        self._by_class[KINDS[kind]].update({short: part, full: part})

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
        _check_name(source.id, f"source[{index}].id", HEADER)
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
    if not NAME.fullmatch(name):
        raise SchemaError(
            "S205",
            value=name,
            expected="small letters, digits, points and hyphens, at most 64",
            remedy="write it like 'short-wheelbase'",
            key=key,
            file=file,
        )


def _unknown_tables(file: str, tables: dict[str, Any], beside: set[str]) -> list[BarwrightError]:
    return [
        SchemaError(
            "S201",
            value=key,
            expected="a kind of record",
            remedy=_OVERLAYS_ONLY.get(key) or nearest(key, [*KINDS, *sorted(beside)]),
            key=key,
            file=file,
        )
        for key in sorted(set(tables) - {*KINDS, *beside})
    ]
