"""From a pack's folder to its records, all problems at once."""

from __future__ import annotations

import functools
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import attrs

from barwright.errors import BarwrightError, FileError, PackError
from barwright.parts.common.record import Part
from barwright.registry.files.document import parse_toml
from barwright.registry.files.key_lines import located
from barwright.registry.files.snapshot import HEADER, Snapshot, snapshot_of
from barwright.registry.files.toml_limits import check_records
from barwright.registry.packs.checks import PROOFS
from barwright.registry.packs.claims import CLAIMS
from barwright.registry.packs.format.migrate import migrated, version_of
from barwright.registry.packs.format.pack import KINDS, SCHEMA, Pack, PackHeader, PackInfo
from barwright.registry.packs.format.requirement import check_requirement
from barwright.registry.packs.header import read_header
from barwright.registry.packs.record_loader import RecordLoader
from barwright.registry.packs.tables.refusals import problems_of

__all__ = [
    "BESIDE_THE_HEADER",
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
    written_for : int
        Version of the format that it says it is written for.
    """

    pack: Pack | None
    tables: Mapping[str, Mapping[str, Any]] = attrs.field(repr=False)
    problems: tuple[BarwrightError, ...]
    written_for: int = SCHEMA


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
        check_requirement(whole)
        written_for = version_of(whole)
        whole = migrated(HEADER, whole, version=written_for)
        table = {key: value for key, value in whole.items() if key not in BESIDE_THE_HEADER}
        header = read_header(table, header_class)
        tables, unreadable = _tables(snapshot)
        check_records({HEADER: whole, **tables})
    except (BarwrightError, ExceptionGroup) as error:
        problems = located(problems_of(error), snapshot.text)
        return Loaded(pack=None, tables={}, problems=problems)
    tables = {name: migrated(name, held, version=written_for) for name, held in tables.items()}
    loader = RecordLoader(
        header, known, beside={*PROOFS, CLAIMS, *beside}, version=header.version or version
    )
    loader.load(tables)
    info = PackInfo(
        header=header,
        folder=snapshot.folder,
        origin=origin,
        distribution_version=version,
        digest=snapshot.digest,
        counts=Counter(entry.kind for entry in loader.entries.values()),
    )
    return Loaded(
        pack=Pack(
            info=info,
            table=table,
            parts=loader.parts,
            entries=loader.entries,
            claims=tuple(loader.claims),
        ),
        tables={HEADER: whole, **tables},
        # What a file that cannot be read holds is missed in all others.
        problems=located(unreadable or loader.problems, snapshot.text),
        written_for=written_for,
    )


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
