"""Records from the tables in which a job file describes parts itself."""

from __future__ import annotations

import contextlib
from collections.abc import Collection, Iterator, Mapping
from typing import Any, TypeVar

import attrs

from barwright.errors import BarwrightError, UnknownNameError
from barwright.parts.chassis import Axle
from barwright.parts.common.record import NOT_IN_FILES, Part, Record
from barwright.parts.common.source import JOB, JOB_SOURCES, SourceKind
from barwright.parts.material import Material
from barwright.registry.jobs.collector import Collector
from barwright.registry.jobs.inline.inline_table import completed_table
from barwright.registry.packs.format.keys import key_of
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.packs.tables.complete import completed
from barwright.registry.packs.tables.refusals import unknown_key
from barwright.registry.packs.tables.structure import Structurer
from barwright.registry.registry import Registry
from barwright.units import UNKNOWN

__all__ = ["NOT_IN_A_JOB", "InlineRecords", "id_of"]

P = TypeVar("P", bound=Part)
R = TypeVar("R", bound=Record)

# Keys of a pack that a job has no use for: what they say follows from the job itself.
NOT_IN_A_JOB = {"id", "place", "left", "replaces"}


def id_of(cls: type[Part]) -> str:
    """Return the id of a part that only a job describes.

    Parameters
    ----------
    cls : type
        Class of the part.

    Returns
    -------
    str
    """
    kind = next(word for word, known in KINDS.items() if known is cls)
    return f"{JOB}:{kind}/this"


@attrs.frozen
class InlineRecords:
    """Makes records of inline tables: what they leave out is unknown.

    Parameters
    ----------
    file : str
        Name of the job file.
    registry : Registry
        Where steels are looked up.
    """

    file: str
    registry: Registry

    def part(self, table: Mapping[str, Any], cls: type[P], *, key: str) -> P:
        """Make a part.

        Parameters
        ----------
        table : mapping
            The table, as parsed.
        cls : type
            Class of the part.
        key : str
            Where it stands in the job.

        Returns
        -------
        Part
        """
        own = {"id": key, "title": f"{key} of this vehicle".capitalize()}
        steels = _steels(self.registry, table.get("material"))
        part = self._record(own, table, cls, key, {Material: steels})
        return completed(part, id=id_of(cls))

    def axle(self, table: Mapping[str, Any], *, place: str, parts: Mapping[str, Part]) -> Axle:
        """Make an axle.

        Parameters
        ----------
        table : mapping
            The table, as parsed.
        place : str
            Front or rear.
        parts : mapping
            Its standard parts, by their place.

        Returns
        -------
        Axle
        """
        own = {"place": place, "left": {key_of(name): name for name in parts}}
        references = dict.fromkeys(KINDS.values(), parts)
        return self._record(own, table, Axle, "axle", references)

    def _record(
        self,
        own: Mapping[str, Any],
        table: Mapping[str, Any],
        cls: type[R],
        key: str,
        references: Mapping[type, Mapping[str, Any]],
    ) -> R:
        """Make a record of a table, and of what the job says of it elsewhere."""
        read = Collector()
        read.problems += _needless(table, cls, own.keys() & NOT_IN_A_JOB, key)
        structurer = Structurer(file=self.file, sources=JOB_SOURCES, pack=JOB, parts=references)
        whole = completed_table({"source": SourceKind.MEASURED.value, **own, **table}, cls)
        whole |= {name: own[name] for name in own.keys() & NOT_IN_A_JOB}
        record: R = read(lambda: structurer.structure(whole, cls, key=key))
        read.raise_problems()
        return record


def _needless(
    table: Mapping[str, Any], cls: type[Record], needless: Collection[str], key: str
) -> Iterator[BarwrightError]:
    """Refuse keys of a pack that a job has no use for."""
    known = (field.name for field in attrs.fields(cls) if field.name not in NOT_IN_FILES)
    names = [name for name in known if name not in needless]
    for extra in sorted(table.keys() & needless):
        yield unknown_key(extra, names).within(key=key)


def _steels(registry: Registry, named: object) -> dict[str, Material | None]:
    """List the steels that a part may be of, with the one that it names."""
    unknown = Material(id=id_of(Material), title="Steel not known", shear_modulus=UNKNOWN)
    steels: dict[str, Material | None] = dict.fromkeys(registry.ids("material"))
    steels[UNKNOWN] = unknown
    with contextlib.suppress(UnknownNameError):
        if isinstance(named, str) and named != UNKNOWN:
            steels[named] = registry.material(named)
    return steels
