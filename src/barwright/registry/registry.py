"""The registry: every pack that could be loaded, and the problems of the others."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Mapping, Sequence
from os import PathLike
from pathlib import Path
from typing import Literal, Self

import attrs

from barwright.errors import PackError
from barwright.parts.chassis import Chassis
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.identity import Month
from barwright.parts.common.record import Part
from barwright.parts.common.source import JOB, JOB_SOURCES, Source
from barwright.parts.setup import Setup
from barwright.registry.discovery.entry_points import LocatedPack, installed_packs
from barwright.registry.discovery.in_folders import located_in
from barwright.registry.discovery.shipped import WAYS_TO_DATA, demo_folders
from barwright.registry.files.snapshot import snapshot_of
from barwright.registry.files.user_cache import Progress
from barwright.registry.lookup import PartLookup, corner_of, is_chassis, records
from barwright.registry.open_packs import Opened, open_packs
from barwright.registry.overlays.preference import Preference
from barwright.registry.overlays.stack import open_with_overlays
from barwright.registry.packs.format.pack import PackInfo
from barwright.registry.packs.store import Store
from barwright.registry.search.parts import SharedNumber, described_by, shared_numbers
from barwright.registry.search.query import describe
from barwright.registry.search.resolve import matching, only
from barwright.registry.unchanged import keep, unchanged
from barwright.registry.usual.catalogue import usual_source
from barwright.registry.usual.fill import with_usual

__all__ = ["Registry"]


@attrs.frozen(eq=False, slots=False)
class Registry(PartLookup):
    """Vehicles and parts of all packs.

    Made by :meth:`discover` or :meth:`from_folders`; immutable afterwards.

    Parameters
    ----------
    store : Store
        The records of packs that could be read, beside the standards that ship with
        the library.
    problems : tuple of PackError
        Packs that could not, each with all its problems.
    preferences : tuple of Preference
        Which of several packs with one id was taken because an overlay or the call says so.

    Examples
    --------
    >>> registry = Registry.discover()
    >>> [chassis.id for chassis in registry.vehicles("fells")]
    ['fells:chassis/long', 'fells:chassis/middle', 'fells:chassis/short']
    """

    store: Store = attrs.field(repr=False)
    problems: tuple[PackError, ...] = ()
    preferences: tuple[Preference, ...] = ()

    @classmethod
    @checks_arguments
    def discover(
        cls,
        *,
        overlays: Sequence[str | PathLike[str]] = (),
        prefer: Mapping[str, str] | None = None,
        cache: bool = True,
        progress: Progress | None = None,
    ) -> Self:
        """Open every installed pack.

        A pack is data: none is imported and none of its code runs.

        Parameters
        ----------
        overlays : sequence of path
            Folders of one's own to lay on top, each with a ``pack.toml`` in it; the last
            one lies uppermost.
        prefer : mapping of str to str, optional
            Of packs with one id and different content, which to take: the distribution
            or the folder by the id.  It overrules what overlays prefer; of those left to
            themselves, none is taken.
        cache : bool
            Whether what is known of packs from earlier may be kept and used.
        progress : callable, optional
            Called with two counts after each pack that had to be read: of those
            that were, and of all that are to be.

        Returns
        -------
        Registry

        Raises
        ------
        SchemaError
            S206 for a preference of this call that names what is not there.
        """
        may_be_kept = cache and not overlays and not prefer
        if may_be_kept and (kept := unchanged(cls, found_by=installed_packs)):
            return kept
        since = time.time_ns()
        found = installed_packs(cache=cache)
        registry = cls._opened(
            found,
            name=f"installed {sys.prefix}",
            overlays=overlays,
            prefer=prefer,
            cache=cache,
            progress=progress,
        )
        if may_be_kept:
            folders = (pack.folder for pack in found if pack.folder)
            keep(registry, folders, found_by=installed_packs, since=since)
        return registry

    @classmethod
    @checks_arguments
    def from_folders(
        cls,
        *folders: str | PathLike[str],
        overlays: Sequence[str | PathLike[str]] = (),
        prefer: Mapping[str, str] | None = None,
        cache: bool = True,
        progress: Progress | None = None,
    ) -> Self:
        """Open only the packs in the given folders.

        Parameters
        ----------
        *folders : path
            Each with a ``pack.toml`` in it, or with packs below it.
        overlays, prefer, cache, progress
            As for :meth:`discover`.

        Returns
        -------
        Registry

        Raises
        ------
        SchemaError
            S206 for a preference of this call that names what is not there.
        """
        found = [pack for folder in folders for pack in located_in(folder)]
        name = "\n".join(sorted(str(pack.folder) for pack in found))
        return cls._opened(
            found, name=name, overlays=overlays, prefer=prefer, cache=cache, progress=progress
        )

    @classmethod
    @checks_arguments
    def demo(cls, *, overlays: Sequence[str | PathLike[str]] = (), cache: bool = True) -> Self:
        """Open only the demo packs in this library.

        Their vehicles are invented and differ in kind: a van, a truck and a trailer.

        Parameters
        ----------
        overlays : sequence of path
            Folders of one's own to lay on top, as for :meth:`discover`.
        cache : bool
            Whether what is known of packs from earlier may be kept and used.

        Returns
        -------
        Registry

        Examples
        --------
        >>> [pack.id for pack in Registry.demo().packs]
        ['fells', 'hodmule', 'trundlet']
        """
        return cls.from_folders(*demo_folders(), overlays=overlays, cache=cache)

    @classmethod
    def _opened(
        cls,
        found: Sequence[LocatedPack],
        *,
        name: str,
        overlays: Sequence[str | PathLike[str]],
        prefer: Mapping[str, str] | None,
        cache: bool,
        progress: Progress | None,
    ) -> Self:
        def opener(preferred: Mapping[str, str]) -> Opened:
            return open_packs(found, name=name, prefer=preferred, cache=cache, progress=progress)

        snapshots = [snapshot_of(Path(folder)) for folder in overlays]
        laid = open_with_overlays(opener, snapshots, prefer=prefer or {})
        return cls(laid.store, laid.problems, laid.preferences)

    def __repr__(self) -> str:
        """Show the ids of the packs, and how many were left out."""
        packs = ", ".join(pack.id for pack in self.packs)
        left_out = f", {len(self.problems)} left out" if self.problems else ""
        return f"<Registry of {packs or f'no pack: {WAYS_TO_DATA}'}{left_out}>"

    @property
    def packs(self) -> tuple[PackInfo, ...]:
        """Packs that could be read, without their records."""
        return self.store.packs

    def shared_numbers(self) -> tuple[SharedNumber, ...]:
        """List the part numbers that several records have in one system, of all packs.

        Returns
        -------
        tuple of SharedNumber
            By system and number.
        """
        return tuple(shared_numbers(self.store.numbers()))

    def resolve(
        self,
        words: str = "",
        *,
        maker: str | None = None,
        model: str | None = None,
        year: int | None = None,
        built: str | Month | None = None,
        body: str | None = None,
        trim: str | None = None,
        drive: str | None = None,
        market: str | None = None,
        code: str | None = None,
    ) -> Chassis:
        """Return the one vehicle that matches a description.

        Parameters
        ----------
        words : str
            An id, or words as people name a vehicle: each is a word of its id, its title
            or an attribute, or a year or month (``2014-05``) in which it was built.
        maker, model, body, trim, drive, code : str, optional
            The whole text of that attribute.
        year : int, optional
            In which it was built.
        built : str or Month, optional
            Month in which it was built, such as ``"2014-05"``.
        market : str, optional
            Where it was sold; a vehicle that lists no markets was sold in each.

        Returns
        -------
        Chassis

        Raises
        ------
        UnknownNameError
            L101 if there is none, with the nearest words; L104 if there are several,
            with what tells them apart.
        SchemaError
            S203 or S204 for what is no text, year or month.

        Examples
        --------
        >>> Registry.discover().resolve("fells short 2014").id
        'fells:chassis/short'
        """
        whole = {"maker": maker, "model": model, "body": body, "trim": trim, "drive": drive}
        attributes = whole | {"market": market, "code": code}
        description = describe(words, attributes=attributes, year=year, built=built)
        # A short id that several packs have needs more to be said, as words do.
        if description.id and not self.store.full_ids(description.id)[1:]:
            chassis = self.chassis(description.id)
            if not description.clauses:
                return chassis
        return only(self.store, description)

    @checks_arguments
    def source(self, name: str) -> Source | None:
        """Return a source of a pack.

        Parameters
        ----------
        name : str
            ``pack:source``, as figures name it; of a usual figure, its entry in the
            catalogue, like ``standards:usual/tyre-rate``; of a figure that a job file gives,
            ``job:measured`` or its like.

        Returns
        -------
        Source or None
            None if there is none, as for a figure that the caller has given.
        """
        pack, _, own = name.partition(":")
        header = self.store.header(pack)
        sources = JOB_SOURCES if pack == JOB else header.source if header else ()
        found = (source for source in sources if source.id == own)
        return next(found, None) or usual_source(name)

    @checks_arguments
    def ids(self, kind: str | None = None) -> tuple[str, ...]:
        """Return the full ids of all records, or of one kind, sorted; no record is built.

        Parameters
        ----------
        kind : str, optional
            Such as ``"bar"`` or ``"chassis"``.

        Returns
        -------
        tuple of str
        """
        return tuple(self.store.ids(kind))

    @checks_arguments
    def parts(self, words: str = "") -> tuple[Part, ...]:
        """Return all parts of all packs, vehicles left out, or those that words describe, by id.

        Parameters
        ----------
        words : str
            A part number of any system, with or without spaces and hyphens; or words, each a
            piece of the id, of the title, of a number or of the paint mark.

        Returns
        -------
        tuple of Part

        Examples
        --------
        >>> [bar.id for bar in Registry.discover().parts("firm short")]
        ['fells:bar/short-firm']
        """
        by_number = self._numbered(words, is_wanted=lambda full: not is_chassis(full))
        if by_number:
            return tuple(records(self.store, by_number))
        ids = (full for full in self.store.ids() if not is_chassis(full))
        return tuple(described_by(words, records(self.store, ids)))

    def _numbered(self, number: str, *, is_wanted: Callable[[str], bool]) -> list[str]:
        """List the ids of records with a part number."""
        return list(filter(is_wanted, self.store.numbered(number))) if number else []

    def vehicles(self, words: str = "") -> tuple[Chassis, ...]:
        """Return all vehicles of all packs, or those that words describe, by id.

        Parameters
        ----------
        words : str
            As for :meth:`resolve`; or a part number of the vehicle, with or without spaces and
            hyphens.

        Returns
        -------
        tuple of Chassis

        Examples
        --------
        >>> [van.id for van in Registry.discover().vehicles("panel van 2010")]
        ['fells:chassis/short']
        """
        described = describe(words)
        by_number = self._numbered(words, is_wanted=is_chassis)
        found = records(self.store, by_number or matching(self.store, described))
        return tuple(chassis for chassis in found if isinstance(chassis, Chassis))

    @checks_arguments
    def setup(self, name: str, *, corner: str, assume: Literal["usual"] | None = None) -> Setup:
        """Return a corner of a vehicle with its standard parts, load and keyed clocking.

        Parameters
        ----------
        name : str
            Id of the chassis, or words as for :meth:`resolve`.
        corner : str
            Axle and side: "front left", "front right", "rear left" or "rear right".
        assume : {"usual"}, optional
            What may take the place of figures that are unknown: usual ones, each with its
            range; left out, they stay unknown.

        Returns
        -------
        Setup

        Raises
        ------
        UnknownNameError
            L101 or L104 for the vehicle, L103 for the corner.

        Examples
        --------
        >>> Registry.discover().setup("fells short 2014", corner="front left").bar.id
        'fells:bar/short-standard'
        """
        chassis = self.resolve(name)
        axle, side = corner_of(chassis, corner)
        setup = Setup.standard(chassis, axle=axle, side=side)
        return with_usual(setup) if assume else setup
