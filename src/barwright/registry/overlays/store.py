"""Records of packs with overlays on top: corrected, and joined by those of the overlays."""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import Any

import attrs

from barwright.errors import BarwrightError, PackError
from barwright.parts.claim import Claim
from barwright.parts.common.record import Part
from barwright.parts.common.source import Source
from barwright.registry.overlays.correction import Change, can_be_corrected, changed
from barwright.registry.packs.build import RecordBuilder
from barwright.registry.packs.format.entry import Entry
from barwright.registry.packs.format.pack import Pack, PackHeader, PackInfo
from barwright.registry.packs.search_terms import Condition
from barwright.registry.packs.store import MemoryStore, Store
from barwright.registry.packs.supersession import newest_replacements, replacements
from barwright.registry.packs.tables.lineage import lineage, says_like
from barwright.registry.packs.tables.refusals import problems_of

__all__ = ["OverlaidStore", "Overlay"]


@attrs.frozen(eq=False)
class Overlay:
    """An overlay as loaded.

    Parameters
    ----------
    pack : Pack
        Its own records, and what it says of itself.
    changes : tuple of Change
        What it corrects.
    """

    pack: Pack
    changes: tuple[Change, ...]


class OverlaidStore:
    """Records of packs and of overlays, each made anew so that it holds what is corrected.

    Parameters
    ----------
    base : Store
        The packs.
    overlays : tuple of Overlay
        From the lowest to the uppermost, one at least.
    """

    def __init__(self, base: Store, overlays: tuple[Overlay, ...]) -> None:
        self._base = base
        self._overlays = overlays
        packs = [overlay.pack for overlay in overlays]
        self._own = MemoryStore(packs[0], packs[1:])
        self._infos = tuple(pack.info for pack in packs)
        self._changes: dict[str, list[Change]] = defaultdict(list)
        for change in (change for overlay in overlays for change in overlay.changes):
            self._changes[change.of].append(change)
        own = (part for pack in packs for part in pack.parts.values())
        self._newest = newest_replacements(replacements(own))
        self._maker = RecordBuilder(
            entry=self.entry,
            sources=self._sources,
            version=self.version,
            finish=self._corrected,
        )

    def __reduce__(self) -> tuple[type[OverlaidStore], tuple[Any, ...]]:
        """Survive pickling: records are made again."""
        return OverlaidStore, (self._base, self._overlays)

    @property
    def packs(self) -> tuple[PackInfo, ...]:
        """The packs and then the overlays."""
        return (*self._base.packs, *self._infos)

    def header(self, pack: str) -> PackHeader | None:
        """Return what a pack says of itself, by its id; none if there is none."""
        return self._own.header(pack) or self._base.header(pack)

    def version(self, pack: str) -> str:
        """Return the version of a pack, by its id; empty if it has none."""
        return self._own.version(pack) or self._base.version(pack)

    def numbered(self, number: str) -> Sequence[str]:
        """Return the full ids of all records with a part number, sorted."""
        return sorted([*self._base.numbered(number), *self._own.numbered(number)])

    def numbers(self) -> Iterator[tuple[str, str, str]]:
        """List number system, compact number and full id of all records with numbers."""
        return itertools.chain(self._base.numbers(), self._own.numbers())

    def entry(self, full_id: str) -> Entry | None:
        """Return a record as it stands in its file; none if there is none."""
        found = self._own.entry(full_id) or self._base.entry(full_id)
        return attrs.evolve(found, replaced_by=self._newest_of(found)) if found else None

    def _newest_of(self, entry: Entry) -> tuple[str, ...]:
        """List what supersedes a record, by a pack or by an overlay."""
        own = self._newest.get(entry.id, ())
        ends = (self._newest.get(one, (one,)) for one in entry.replaced_by)
        return tuple(sorted({*own, *itertools.chain(*ends)} - {entry.id}))

    def part(self, full_id: str) -> Part | None:
        """Return a record as it is corrected, by its full id; none if there is none.

        Raises
        ------
        PackError
            If a correction leaves a record that cannot be, such as one that holds the
            corrected one.
        """
        try:
            return self._maker.part(full_id)
        except (BarwrightError, ExceptionGroup) as error:
            origins = ", ".join(info.origin for info in self._infos)
            raise PackError("P101", problems=tuple(problems_of(error)), file=origins) from None

    def ids(self, kind: str | None = None) -> Sequence[str]:
        """Return the full ids of all records, or of one kind, sorted."""
        return sorted([*self._base.ids(kind), *self._own.ids(kind)])

    def full_ids(self, short: str) -> Sequence[str]:
        """Return the full ids of all records with one short id, sorted."""
        return sorted([*self._base.full_ids(short), *self._own.full_ids(short)])

    def having(self, conditions: Sequence[Condition]) -> Sequence[str]:
        """Return the full ids of all vehicles that meet all conditions, sorted."""
        return sorted([*self._base.having(conditions), *self._own.having(conditions)])

    def knows(self, condition: Condition) -> bool:
        """Tell whether any vehicle meets a condition."""
        return self._own.knows(condition) or self._base.knows(condition)

    def words(self, attribute: str = "") -> Sequence[str]:
        """Return every word that a vehicle has, or has as one attribute, sorted."""
        return sorted({*self._base.words(attribute), *self._own.words(attribute)})

    def claims(self) -> Sequence[Claim]:
        """Return what all packs and overlays say their parts fit, by their ids."""
        return sorted([*self._base.claims(), *self._own.claims()], key=lambda claim: claim.pack)

    def _corrected(self, part: Part) -> Part:
        return changed(part, (*self._inherited(part), *self._changes.get(part.id, ())))

    def _inherited(self, part: Part) -> Iterator[Change]:
        """List the corrections of what a record takes of those that it is like, theirs first."""
        entry = self.entry(part.id)
        if entry is None or not says_like(entry.table):
            return
        corrected = {change.figure for change in itertools.chain(*self._changes.values())}
        for figure in sorted(corrected):
            if not can_be_corrected(part, figure):
                continue
            _, *bases = lineage(part.id, figure, self.entry)
            for base in reversed(bases):
                for change in self._changes.get(base, ()):
                    if change.figure == figure:
                        yield _taken(change, part)

    def _sources(self, pack: str) -> Sequence[Source]:
        header = self.header(pack)
        return header.source if header else ()


def _taken(change: Change, part: Part) -> Change:
    """Return a correction as a record takes it that is like the corrected one."""
    why = f"{change.known.why} (corrected in {change.of}, which {part.id} is like)"
    return attrs.evolve(change, of=part.id, known=attrs.evolve(change.known, why=why))
