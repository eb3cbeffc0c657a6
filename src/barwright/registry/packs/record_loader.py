"""The records of a pack's files, kind by kind, and all that is wrong with them."""

from __future__ import annotations

import contextlib
import re
from collections import ChainMap
from collections.abc import Iterator, Mapping
from typing import Any, cast

import attrs

from barwright.errors import BarwrightError, FileError, SchemaError
from barwright.parts.claim import Claim
from barwright.parts.common.record import Part
from barwright.registry.files.file_limits import MOST_INHERITED, MOST_PROBLEMS
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.claims import read_claims
from barwright.registry.packs.format.entry import Entry
from barwright.registry.packs.format.pack import KINDS, PackHeader
from barwright.registry.packs.supersession import newest_replacements, replacements
from barwright.registry.packs.tables.complete import completed, identified
from barwright.registry.packs.tables.families import Families, ListedTables, Whole
from barwright.registry.packs.tables.part_maker import PartMaker
from barwright.registry.packs.tables.refusals import not_a_list, problems_of
from barwright.registry.packs.tables.sided import each_side

__all__ = ["NAME", "RecordLoader", "check_name"]

NAME = re.compile(r"[a-z0-9][a-z0-9.-]{0,63}")
"""What an id looks like."""

# What is no slip of the pen, but stands in the wrong place.
_OVERLAYS_ONLY = {"correction": "lay the folder on top, and say overlay = true in its pack.toml"}


class RecordLoader:
    """Collects a pack's records kind by kind, so that each can refer to those before.

    Parameters
    ----------
    header : PackHeader
        What the pack says of itself.
    known : mapping
        Records of others that it may refer to, by class and id.
    beside : set of str
        Tables that may stand beside records.
    version : str
        Version of the pack.
    """

    def __init__(
        self,
        header: PackHeader,
        known: Mapping[type, Mapping[str, Part]],
        *,
        beside: set[str],
        version: str,
    ) -> None:
        self._pack = header.id
        self._version = version
        self._sources = header.source
        self._beside = beside
        self._by_class: dict[type, ChainMap[str, Part]] = {
            cls: ChainMap({}, cast("dict[str, Part]", known[cls])) for cls in KINDS.values()
        }
        self._makers: dict[str, PartMaker] = {}
        self.parts: dict[str, Part] = {}
        self.entries: dict[str, Entry] = {}
        self.claims: list[Claim] = []
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
        self._supersede()

    def _supersede(self) -> None:
        """Tell each record what supersedes it; what is not in the pack is told by the lint."""
        newest = newest_replacements(replacements(self.parts.values()))
        for old in newest.keys() & self.parts.keys():
            for side in each_side(self.parts[old]):
                completed(side, replaced_by=newest[old])
            self.entries[old] = attrs.evolve(self.entries[old], replaced_by=newest[old])

    def _steps(self, files: Mapping[str, dict[str, Any]]) -> Iterator[None]:
        for name, tables in files.items():
            self._problems += _unknown_tables(name, tables, self._beside)
            yield
        families, inherited = Families(self._pack, ListedTables(files)), 0
        for kind in KINDS:
            found: list[tuple[Whole, Entry]] = []
            for name, tables in files.items():
                for index, table in enumerate(self._entries(name, tables, kind)):
                    entry = Entry(id="", kind=kind, file=name, key=f"{kind}[{index}]", table=table)
                    with self._keeping_problems(entry):
                        found.append((_whole(families, entry), entry))
                        inherited += found[-1][0].count
                    if inherited > MOST_INHERITED:
                        self._problems.append(_too_much(name))
                        return
                    yield
            # A record comes after those that it is like: what is wrong with these is told there.
            for whole, entry in sorted(found, key=lambda one: len(one[0].bases)):
                with self._keeping_problems(entry):
                    self._add(whole, entry)
                yield
        for claim in read_claims(files, self._pack, self._sources, self.parts.keys()):
            kept: list[Any] = self.claims if isinstance(claim, Claim) else self._problems
            kept.append(claim)
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

    @contextlib.contextmanager
    def _keeping_problems(self, entry: Entry) -> Iterator[None]:
        """Go on where a record is wrong, and keep what is wrong with it."""
        try:
            yield
        except (BarwrightError, ExceptionGroup) as error:
            self._problems += problems_of(error)
            self._break(entry)

    def _break(self, entry: Entry) -> None:
        """Remember a record as broken: what refers to it only follows."""
        name = entry.table.get("id") if isinstance(entry.table, dict) else None
        short = f"{entry.kind}/{name}" if isinstance(entry.table, dict) else ""
        self._broken |= {short, f"{self._pack}:{short}"}

    def _add(self, whole: Whole, entry: Entry) -> None:
        if not self._broken.isdisjoint(whole.bases):
            self._break(entry)
            return
        part = self._maker(entry.file).made(whole.table, KINDS[entry.kind], key=entry.key)
        self._check_part(part, entry.file, entry.key)
        short = f"{entry.kind}/{part.id}"
        full = f"{self._pack}:{short}"
        for side in each_side(part):
            identified(side, full, pack_version=self._version)
        self.parts[full] = part
        self.entries[full] = Entry(
            id=full, kind=entry.kind, file=entry.file, key=entry.key, table=entry.table
        )
        self._by_class[KINDS[entry.kind]].update({short: part, full: part})

    def _maker(self, file: str) -> PartMaker:
        if file not in self._makers:
            self._makers[file] = PartMaker(
                file=file, sources=self._sources, pack=self._pack, parts=self._by_class
            )
        return self._makers[file]

    def _check_part(self, part: Part, file: str, key: str) -> None:
        check_name(part.id, f"{key}.id", file)
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


def _whole(families: Families, entry: Entry) -> Whole:
    try:
        return families.whole(entry.table, kind=entry.kind)
    except BarwrightError as error:
        raise error.within(key=entry.key, file=entry.file) from None


def _too_much(file: str) -> FileError:
    return FileError(
        "F107",
        value=f"more than {MOST_INHERITED} values in records that are like others",
        expected=f"at most {MOST_INHERITED} in a pack, with all that they take from others",
        remedy="make two packs of it",
        file=file,
    )


def check_name(name: str, key: str, file: str) -> None:
    """Refuse what is no name of a record, a source or a pack.

    Parameters
    ----------
    name : str
        The name.
    key : str
        Under which it stands.
    file : str
        File that it stands in.

    Raises
    ------
    SchemaError
        S205.
    """
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
