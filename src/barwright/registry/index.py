"""The registry: every pack that could be loaded, and what became of the others."""

from __future__ import annotations

import functools
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from os import PathLike
from pathlib import Path
from typing import Self, TypeVar

import attrs

from barwright.errors import PackError, SchemaError, UnknownNameError
from barwright.parts.bar import Side
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.setup import Load, LoadKind, Setup
from barwright.parts.source import Part
from barwright.registry.discovery import Found, installed_packs
from barwright.registry.load import load_pack, standards
from barwright.registry.pack import KINDS, Pack
from barwright.registry.store import MemoryStore, Store
from barwright.registry.structure import nearest

__all__ = ["Registry"]

P = TypeVar("P", bound=Part)


@attrs.frozen(eq=False, slots=False)
class Registry:
    """Vehicles and parts of all packs.

    Made by :meth:`discover` or :meth:`from_folders`; immutable afterwards.

    Parameters
    ----------
    packs : tuple of Pack
        Those that loaded, beside the standards that ship with the library.
    problems : tuple of PackError
        Those that did not, each with all its problems.

    Examples
    --------
    >>> registry = Registry.discover()
    >>> [chassis.id for chassis in registry.vehicles()]
    ['fells:chassis/long', 'fells:chassis/middle', 'fells:chassis/short']
    """

    packs: tuple[Pack, ...]
    problems: tuple[PackError, ...] = ()

    @classmethod
    def discover(cls) -> Self:
        """Load every pack that is installed in this environment.

        A pack is data: none is imported and none of its code runs.

        Returns
        -------
        Registry
        """
        return cls._of(installed_packs())

    @classmethod
    def from_folders(cls, *folders: str | PathLike[str]) -> Self:
        """Load the packs that lie in the folders given, and no others.

        Parameters
        ----------
        *folders : path
            Each with a ``pack.toml`` in it.

        Returns
        -------
        Registry
        """
        return cls._of([Found(str(folder), folder=Path(folder)) for folder in folders])

    @classmethod
    def _of(cls, found: Iterable[Found]) -> Self:
        packs: list[Pack] = []
        problems: list[PackError] = []
        for place in found:
            if place.folder is None:
                problems += [place.problem] if place.problem else []
                continue
            try:
                packs.append(load_pack(place.folder, origin=place.origin))
            except PackError as error:
                problems.append(error)
        kept, clashes = _without_clashes(packs)
        return cls(tuple(kept), (*problems, *clashes))

    def part(self, name: str) -> Part:
        """Return a part by its id.

        Parameters
        ----------
        name : str
            ``pack:kind/name``; the pack may be left out where only one has it.

        Returns
        -------
        Part

        Raises
        ------
        UnknownNameError
            L102, with the nearest ids.
        """
        return self._named(name, _KINDS_OF_PARTS, Part, "L102", "the id of a part")

    def chassis(self, name: str) -> Chassis:
        """Return a chassis by its id.

        Parameters
        ----------
        name : str
            ``pack:chassis/name``; the pack may be left out where only one has it.

        Returns
        -------
        Chassis

        Raises
        ------
        UnknownNameError
            L101, with the nearest ids.
        """
        return self._named(name, ("chassis",), Chassis, "L101", "the id of a vehicle")

    def parts(self) -> tuple[Part, ...]:
        """Return all parts of all packs, vehicles left out, by id."""
        return tuple(self._made(f for f in self._store.ids() if _kind(f) != "chassis"))

    def vehicles(self) -> tuple[Chassis, ...]:
        """Return all vehicles of all packs, by id."""
        made = self._made(self._store.ids("chassis"))
        return tuple(chassis for chassis in made if isinstance(chassis, Chassis))

    def setup(self, name: str, *, corner: str) -> Setup:
        """Return a corner of a vehicle with its standard parts, load and keyed clocking.

        Parameters
        ----------
        name : str
            Id of the chassis.
        corner : str
            Axle and side: "front left", "front right", "rear left" or "rear right".

        Returns
        -------
        Setup

        Raises
        ------
        UnknownNameError
            L101 for the vehicle, L103 for the corner.
        """
        chassis = self.chassis(name)
        axle, side = _corner(chassis, corner)
        standard = axle.standard(side)
        return Setup(
            chassis=chassis,
            axle=axle,
            side=side,
            arm=standard.arm,
            bar=standard.bar,
            tube=standard.tube,
            adjuster=standard.adjuster,
            damper=standard.damper,
            load=Load(kind=LoadKind.SPRUNG, mass=axle.standard_mass),
        )

    @functools.cached_property
    def _store(self) -> Store:
        return MemoryStore((standards(), *self.packs))

    def _made(self, full_ids: Iterable[str]) -> Iterator[Part]:
        """Make records whose ids are known to exist."""
        return filter(None, map(self._store.part, full_ids))

    def _named(self, name: str, kinds: Sequence[str], cls: type[P], code: str, expected: str) -> P:
        """Return the one record of some kinds that a full or a short id names."""
        matches = [full for full in {name, *self._store.full_ids(name)} if _kind(full) in kinds]
        found = [part for part in self._made(sorted(matches)) if isinstance(part, cls)]
        if len(found) == 1:
            return found[0]
        known = [full for kind in kinds for full in self._store.ids(kind)]
        raise UnknownNameError(
            code,
            value=name,
            expected=expected,
            remedy=nearest(name, [part.id for part in found] or sorted(known)),
        )


_KINDS_OF_PARTS = tuple(kind for kind in KINDS if kind != "chassis")


def _kind(full_id: str) -> str:
    """Kind of a record by its full id."""
    return full_id.partition(":")[2].partition("/")[0]


def _corner(chassis: Chassis, corner: str) -> tuple[Axle, Side]:
    corners = {
        f"{axle.place.value} {side.value}": (axle, side) for axle in chassis.axles for side in Side
    }
    if corner not in corners:
        raise UnknownNameError(
            "L103",
            value=corner,
            expected=f"a corner of {chassis.id} with a torsion bar",
            remedy=nearest(corner, corners),
            key="corner",
        )
    return corners[corner]


def _without_clashes(packs: Sequence[Pack]) -> tuple[list[Pack], list[PackError]]:
    """Leave out every pack whose id another one claims too."""
    by_id: dict[str, list[Pack]] = defaultdict(list)
    for pack in (standards(), *packs):
        by_id[pack.id].append(pack)
    kept = [pack for pack in packs if len(by_id[pack.id]) == 1]
    clashes = [_clash(pack, by_id[pack.id]) for pack in packs if len(by_id[pack.id]) > 1]
    return kept, clashes


def _clash(pack: Pack, claimants: Sequence[Pack]) -> PackError:
    others = ", ".join(other.origin for other in claimants if other is not pack)
    problem = SchemaError(
        "P301",
        value=pack.id,
        expected="an id that no other pack claims",
        remedy=f"rename one, or uninstall this pack or {others}",
        key="id",
        file="pack.toml",
    )
    return PackError("P101", problems=(problem,), file=pack.origin)
