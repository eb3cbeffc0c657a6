"""An overlay: a folder of one's own on top of the packs, with records and corrections."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from barwright.errors import BarwrightError, PackError, SchemaError
from barwright.parts.source import Figure, Part, SourceKind, figure_fields
from barwright.registry.correction import Change, Correction, changed, figure_paths, holder_of
from barwright.registry.load import load_over
from barwright.registry.locate import located
from barwright.registry.overlaid import OverlaidStore, Overlay
from barwright.registry.pack import KINDS, Pack
from barwright.registry.snapshot import HEADER, snapshot_of
from barwright.registry.store import Store
from barwright.registry.structure import Structurer, nearest, problems_of
from barwright.units import read_figure

__all__ = ["load_overlay", "overlaid"]

_TABLE = "correction"


def overlaid(store: Store, folders: Iterable[Path]) -> tuple[Store, tuple[PackError, ...]]:
    """Lay overlays on top of packs, each on top of those before it.

    Parameters
    ----------
    store : Store
        The records of the packs.
    folders : iterable of Path
        The overlays.

    Returns
    -------
    tuple
        The store of all, and a problem for each overlay that is left out.
    """
    base, kept, problems = store, list[Overlay](), list[PackError]()
    for folder in folders:
        try:
            kept.append(load_overlay(folder, store))
        except PackError as error:
            problems.append(error)
        else:
            store = OverlaidStore(base, tuple(kept))
    return store, tuple(problems)


def load_overlay(folder: Path, store: Store) -> Overlay:
    """Read an overlay.

    Parameters
    ----------
    folder : Path
        A folder like that of a pack.
    store : Store
        The records that it may refer to and correct.

    Returns
    -------
    Overlay

    Raises
    ------
    PackError
        With every problem of every file.
    """
    known = {cls: _Records(store, kind) for kind, cls in KINDS.items()}
    snapshot = snapshot_of(folder)
    loaded = load_over(snapshot, origin=str(folder), known=known, beside={_TABLE})
    if loaded.pack is None:
        raise PackError("P101", problems=loaded.problems, file=str(folder))
    reader = _Reader(loaded.pack, store)
    own = [*_claimed(loaded.pack, store), *reader.read(loaded.tables)]
    problems = (*loaded.problems, *located(own, snapshot.folder))
    if problems:
        raise PackError("P101", problems=problems, file=str(folder))
    return Overlay(loaded.pack, tuple(reader.changes))


def _claimed(pack: Pack, store: Store) -> Iterator[SchemaError]:
    """Refuse the id of a pack below."""
    if store.header(pack.id) is not None:
        yield SchemaError(
            "P301",
            value=pack.id,
            expected="an id that no pack below the overlay claims",
            remedy="give the overlay an id of its own",
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
            listed = table.get(_TABLE, []) if file != HEADER else []
            if not isinstance(listed, list):
                problems.append(_no_list(file))
                continue
            for index, one in enumerate(listed):
                key = f"{_TABLE}[{index}]"
                try:
                    self._add(one, file, key)
                except (BarwrightError, ExceptionGroup) as error:
                    problems += [p.within(file=file) for p in problems_of(error)]
        return problems

    def _add(self, table: object, file: str, key: str) -> None:
        correction = Structurer(file=file).structure(table, Correction, key=key)
        try:
            change = self._change(correction, file, key)
            self._parts[change.of] = changed(self._part(change.of), [change])
        except BarwrightError as error:
            raise error.within(key=key) from None
        self.changes.append(change)

    def _change(self, correction: Correction, file: str, key: str) -> Change:
        part = self._part(correction.of)
        figures, sources = list(figure_paths(part)), list(self._sources)
        if correction.figure not in figures:
            raise _unknown(correction.figure, figures, "figure", "a figure of the record")
        if correction.source not in sources:
            raise _unknown(correction.source, sources, "source", "a [[source]] of the overlay")
        self._refuse_second(correction)
        holder, field = holder_of(part, correction.figure)
        kind, allowed = figure_fields(type(holder))[field]
        reading = read_figure(correction.is_, kind, key="is", allowed=allowed)
        known = Figure(
            value=reading.value,
            tolerance=reading.tolerance,
            source=f"{self._pack.id}:{correction.source}",
            source_kind=self._sources[correction.source],
            at=correction.at,
            file=file,
            key=f"{key}.is",
            why=correction.why,
        )
        return Change(of=correction.of, figure=correction.figure, known=known)

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
                expected="one correction of a figure",
                remedy="leave one out",
                key="figure",
            )


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


def _no_list(file: str) -> SchemaError:
    return SchemaError(
        "S203",
        value=f"[{_TABLE}]",
        expected=f"a list of tables, [[{_TABLE}]]",
        remedy="double the brackets",
        key=_TABLE,
        file=file,
    )
