"""An overlay: a folder of one's own on top of the packs, with records and corrections."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import attrs

from barwright.errors import BarwrightError, PackError, SchemaError
from barwright.parts.common.facts import as_stated
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import Part, Record
from barwright.parts.common.source import Fact, Figure, SourceKind
from barwright.registry.files.file_limits import MOST_PROBLEMS
from barwright.registry.files.key_lines import located
from barwright.registry.files.snapshot import HEADER, Snapshot
from barwright.registry.nearest_name import nearest
from barwright.registry.overlays.correction import (
    CORRECTIONS,
    Change,
    Correction,
    can_be_corrected,
    changed,
    differs_by_side,
    figure_paths,
    holder_of,
)
from barwright.registry.overlays.preference import OverlayHeader
from barwright.registry.overlays.store import Overlay
from barwright.registry.packs.format.pack import KINDS, Pack
from barwright.registry.packs.load import Loaded, load_over
from barwright.registry.packs.store import Store
from barwright.registry.packs.tables.refusals import not_a_list, problems_of
from barwright.registry.packs.tables.structure import Structurer, read_fact
from barwright.units import read_figure

__all__ = ["OverlayRead", "load_overlay", "read_overlay"]


@attrs.frozen(kw_only=True)
class OverlayRead:
    """What could be read of an overlay, and all that is wrong with it.

    Parameters
    ----------
    loaded : Loaded
        Its own records and its files; its problems are those of the whole overlay.
    changes : tuple of Change
        Corrections that fit their records.
    """

    loaded: Loaded
    changes: tuple[Change, ...] = ()


def load_overlay(snapshot: Snapshot, store: Store, wrong: Sequence[SchemaError] = ()) -> Overlay:
    """Read an overlay.

    Parameters
    ----------
    snapshot : Snapshot
        Files of a folder like that of a pack.
    store : Store
        The records that it may refer to and correct.
    wrong : sequence of SchemaError
        What is wrong with its preferences.

    Returns
    -------
    Overlay

    Raises
    ------
    PackError
        With every problem of every file.
    """
    read = read_overlay(snapshot, store, wrong)
    loaded = read.loaded
    if loaded.pack is None or loaded.problems:
        raise PackError("P101", problems=loaded.problems, file=str(snapshot.folder))
    return Overlay(loaded.pack, read.changes)


def read_overlay(
    snapshot: Snapshot, store: Store, wrong: Sequence[SchemaError] = ()
) -> OverlayRead:
    """Read of an overlay what can be read.

    Parameters
    ----------
    snapshot : Snapshot
        Its files.
    store : Store
        The records that it may refer to and correct.
    wrong : sequence of SchemaError
        What is wrong with its preferences.

    Returns
    -------
    OverlayRead
    """
    known = {cls: _Records(store, kind) for kind, cls in KINDS.items()}
    loaded = load_over(
        snapshot,
        origin=str(snapshot.folder),
        known=known,
        beside={CORRECTIONS},
        header=OverlayHeader,
    )
    if loaded.pack is None:
        return OverlayRead(loaded=loaded)
    reader = _Reader(loaded.pack, store)
    own = [*wrong, *_claimed(loaded.pack, store), *reader.read(loaded.tables)]
    problems = (*loaded.problems, *located(own, snapshot.text))
    return OverlayRead(
        loaded=attrs.evolve(loaded, problems=problems), changes=tuple(reader.changes)
    )


def _claimed(pack: Pack, store: Store) -> Iterator[SchemaError]:
    """Refuse the id of a pack below."""
    if store.header(pack.id) is not None:
        yield SchemaError(
            "P301",
            value=pack.id,
            expected="an id that no pack below the overlay claims",
            remedy="give the overlay another id",
            key="id",
            file=HEADER,
        )


class _Reader:
    """Collects the corrections of an overlay, and all that is wrong with them."""

    def __init__(self, pack: Pack, store: Store) -> None:
        self._pack = pack
        self._store = store
        self._sources: Mapping[str, SourceKind] = {s.id: s.kind for s in pack.header.source}
        self._parts: dict[str, Part] = {}
        self.changes: list[Change] = []

    def read(self, tables: Mapping[str, Mapping[str, Any]]) -> list[BarwrightError]:
        """Read all corrections of all files; return the problems."""
        problems: list[BarwrightError] = []
        for file, table in tables.items():
            listed = table.get(CORRECTIONS, []) if file != HEADER else []
            if not isinstance(listed, list):
                problems.append(not_a_list(CORRECTIONS, file))
                continue
            for index, one in enumerate(listed):
                key = f"{CORRECTIONS}[{index}]"
                try:
                    self._add(one, file, key)
                except (BarwrightError, ExceptionGroup) as error:
                    problems += [p.within(file=file) for p in problems_of(error)]
                if len(problems) > MOST_PROBLEMS:
                    return problems
        return problems

    def _add(self, table: object, file: str, key: str) -> None:
        correction = Structurer(file=file).structure(table, Correction, key=key)
        try:
            change = self._change(correction, file, key)
            self._parts[change.of] = self._changed(change)
        except (BarwrightError, ExceptionGroup) as error:
            problems = [problem.within(key=key) for problem in problems_of(error)]
            raise ExceptionGroup(key, problems) from None
        self.changes.append(change)

    def _changed(self, change: Change) -> Part:
        """Return the corrected record; what no such record can have is wrong with the value."""
        try:
            return changed(self._part(change.of), [change])
        except BarwrightError as error:
            if error.key == change.figure.rpartition(".")[2]:
                error.key = "is"
            raise

    def _change(self, correction: Correction, file: str, key: str) -> Change:
        problems = list(self._unknown_source(correction.source))
        try:
            change = self._read(correction, file, key)
        except (BarwrightError, ExceptionGroup) as error:
            problems += problems_of(error)
        if problems:
            raise ExceptionGroup(key, problems)
        return change

    def _read(self, correction: Correction, file: str, key: str) -> Change:
        """Read what a correction says as the record's field has it."""
        part = self._part(correction.of)
        if not can_be_corrected(part, correction.figure):
            paths = list(figure_paths(part))
            raise _unknown(correction.figure, paths, "figure", "a figure or a fact of the record")
        if differs_by_side(part, correction.figure):
            raise _both_sides(correction.figure)
        self._refuse_second(correction)
        origin = {
            "source": f"{self._pack.id}:{correction.source}",
            "source_kind": self._sources.get(correction.source),
            "at": correction.at,
            "file": file,
            "key": f"{key}.is",
            "why": correction.why,
        }
        try:
            value, known = _as_field(correction.is_, *holder_of(part, correction.figure), origin)
        except (BarwrightError, ExceptionGroup) as error:
            problems = [problem.within(key="is") for problem in problems_of(error)]
            raise ExceptionGroup(key, problems) from None
        return Change(of=correction.of, figure=correction.figure, value=value, known=known)

    def _unknown_source(self, name: str) -> Iterator[BarwrightError]:
        if name not in self._sources:
            expected = "a [[source]] of the overlay"
            yield _unknown(name, list(self._sources), "source", expected)

    def _part(self, name: str) -> Part:
        """Return a record as it is with the corrections so far."""
        part = self._parts.get(name) or self._pack.parts.get(name) or self._store.part(name)
        if part is None:
            known = [*self._store.ids(), *self._pack.parts]
            raise _unknown(name, known, "of", "the full id of a record")
        return part

    def _refuse_second(self, correction: Correction) -> None:
        wanted = correction.of, correction.figure
        if wanted in {(change.of, change.figure) for change in self.changes}:
            raise SchemaError(
                "S207",
                value=" ".join(wanted),
                expected="only one correction of a figure",
                remedy="leave one out",
                key="figure",
            )


def _both_sides(figure: str) -> SchemaError:
    return SchemaError(
        "S207",
        value=figure,
        expected="the figure of one side, because left and right differ",
        remedy=f"write {figure}.left or {figure}.right, each in a correction of its own",
        key="figure",
    )


def _as_field(
    raw: object, holder: Record, field: str, origin: Mapping[str, Any]
) -> tuple[Any, Figure]:
    """Return what a field is to hold, and what is known of that."""
    figures = figure_fields(type(holder))
    if field in figures:
        kind, allowed = figures[field]
        read = read_figure(raw, kind, key="", allowed=allowed, one_limit=True)
        return read.value, Figure(
            value=read.value, tolerance=read.tolerance, written=read.written, **origin
        )
    value = read_fact(raw, type(holder), field)
    return value, Fact(value=as_stated(value), **origin)


class _Records(Mapping[str, Any]):
    """Records of one kind that lie below an overlay, by full id, made when they are asked for."""

    def __init__(self, store: Store, kind: str) -> None:
        self._store = store
        self._kind = kind

    def __getitem__(self, name: str) -> Part:
        """Return the record of a full id."""
        part = self._store.part(name) if name in self else None
        if part is None:
            raise KeyError(name)
        return part

    def __contains__(self, name: object) -> bool:
        """Tell whether there is such a record; it is not made."""
        entry = self._store.entry(name) if isinstance(name, str) and ":" in name else None
        return entry is not None and entry.kind == self._kind

    def __iter__(self) -> Iterator[str]:
        """Full ids."""
        return iter(self._store.ids(self._kind))

    def __len__(self) -> int:
        """Count of the ids."""
        return len(self._store.ids(self._kind))


def _unknown(name: str, known: Sequence[str], key: str, expected: str) -> SchemaError:
    return SchemaError("S206", value=name, expected=expected, remedy=nearest(name, known), key=key)
