"""Records by their ids, and the one corner that words name."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TypeVar

from barwright.errors import UnknownNameError
from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar, Side
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.claim import Claim
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.record import Part
from barwright.parts.damper import Damper
from barwright.parts.material import Material
from barwright.parts.tube import Tube
from barwright.registry.discovery.shipped import WAYS_TO_DATA
from barwright.registry.nearest_name import closest, nearest
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.packs.store import Store

__all__ = ["PartLookup", "absent_pack", "corner_of", "is_chassis", "records"]

_MOST_PACKS = 8
# The library's own pack, which is always read and not among the others.
_STANDARDS = "standards"

F = TypeVar("F", bound=Callable[..., Part])
P = TypeVar("P", bound=Part)

_KINDS_OF_PARTS = tuple(kind for kind in KINDS if kind != "chassis")


def is_chassis(full_id: str) -> bool:
    """Tell whether a full id is that of a chassis."""
    return _kind(full_id) == "chassis"


def records(store: Store, full_ids: Iterable[str]) -> Iterator[Part]:
    """Make records whose ids are known to exist."""
    return filter(None, map(store.part, full_ids))


def _find_of(store: Store, name: str, cls: type[P]) -> P:
    """Return the one part of a class that a full or a short id names."""
    kinds = [kind for kind, known in KINDS.items() if known is cls]
    article = "an" if kinds[0][0] in "aeiou" else "a"
    expected = f"the id of {article} {kinds[0].replace('-', ' ')}"
    return _find(store, name, kinds, cls, code="L102", expected=expected)


def _kind(full_id: str) -> str:
    return full_id.partition(":")[2].partition("/")[0]


def _find(
    store: Store, name: str, kinds: Sequence[str], cls: type[P], *, code: str, expected: str
) -> P:
    pack, is_full, _ = name.partition(":")
    full_ids = [name] if is_full else store.full_ids(name)
    matches = [full for full in full_ids if _kind(full) in kinds]
    found = [part for part in records(store, matches) if isinstance(part, cls)]
    if len(found) == 1:
        return found[0]
    known = [full for kind in kinds for full in store.ids(kind)]
    # Where the pack is known, only its own ids can be meant.
    known = [full for full in known if full.startswith(f"{pack}:")] or known
    near = [part.id for part in found] or sorted(known)
    remedy = absent_pack(store, name) or (nearest(name, near) if known else WAYS_TO_DATA)
    raise UnknownNameError(code, value=name, expected=expected, remedy=remedy)


def absent_pack(store: Store, name: str) -> str:
    """Say that the pack of an id is not among those that are read.

    Parameters
    ----------
    store : Store
        The records of those that are.
    name : str
        The id, full or without its pack.

    Returns
    -------
    str
        A remedy for a message; empty if the pack is read, misspelled or not named.
    """
    pack, is_full, _ = name.partition(":")
    read = sorted(info.id for info in store.packs)
    if not is_full or not read or pack in (*read, _STANDARDS) or closest(pack, read):
        return ""
    named = ", ".join(read[:_MOST_PACKS]) + ", …" * (len(read) > _MOST_PACKS)
    return (
        f"no pack {pack!r} is read, only: {named}; install it, or name its folder too "
        "(--pack, Registry.from_folders)"
    )


def _by_id(look_up: F) -> F:
    """Check the argument of a look-up, and add to its docstring what is the same for all."""
    kind, cls = look_up.__name__.replace("_", "-"), look_up.__annotations__["return"]
    code = "L101" if kind == "chassis" else "L102"
    look_up.__doc__ = f"{look_up.__doc__}{_SECTIONS.format(kind=kind, cls=cls, code=code)}"
    return checks_arguments(look_up)


_SECTIONS = """

        Parameters
        ----------
        name : str
            ``pack:{kind}/name``; the pack may be left out where only one has it.

        Returns
        -------
        {cls}

        Raises
        ------
        UnknownNameError
            {code}, with the nearest ids.
        """


class PartLookup:
    """Parts and vehicles by their ids, each of its own class."""

    store: Store

    @checks_arguments
    def claims(self, *, on: str = "", part: str = "") -> tuple[Claim, ...]:
        """Return what packs say their parts fit, by the packs' ids and in the order of files.

        Parameters
        ----------
        on : str
            Full id of a chassis, whether it is installed or not; of any if left out.
        part : str
            Full id of a part; any if left out.

        Returns
        -------
        tuple of Claim

        Examples
        --------
        >>> import barwright as bw
        >>> bw.Registry.demo().claims(on="hodmule:chassis/standard")
        ()
        """
        return tuple(
            claim
            for claim in self.store.claims()
            if on in ("", *claim.on) and part in ("", *claim.parts)
        )

    @checks_arguments
    def offered(self, name: str) -> tuple[Part, ...]:
        """Return the parts that packs say fit a chassis, by id.

        Parameters
        ----------
        name : str
            Id of the chassis; the pack may be left out where only one has it.

        Returns
        -------
        tuple of Part

        Raises
        ------
        UnknownNameError
            L101 for the chassis.

        Examples
        --------
        >>> import barwright as bw
        >>> bw.Registry.demo().offered("hodmule:chassis/short")
        ()
        """
        claims = self.claims(on=self.chassis(name).id)
        return tuple(records(self.store, sorted({id_ for one in claims for id_ in one.parts})))

    @checks_arguments
    def part(self, name: str) -> Part:
        """Return a part of any kind by its id; :meth:`bar` and its like know their kind.

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

        Examples
        --------
        >>> import barwright as bw
        >>> bw.Registry.discover().part("fells:bar/short-firm").title
        'Firm bar, short van'
        """
        expected = "the id of a part"
        return _find(self.store, name, _KINDS_OF_PARTS, Part, code="L102", expected=expected)

    @_by_id
    def arm(self, name: str) -> Arm:
        """Return an arm by its id."""
        return _find_of(self.store, name, Arm)

    @_by_id
    def bar(self, name: str) -> Bar:
        """Return a bar by its id."""
        return _find_of(self.store, name, Bar)

    @_by_id
    def tube(self, name: str) -> Tube:
        """Return a torque tube by its id."""
        return _find_of(self.store, name, Tube)

    @_by_id
    def key_lever(self, name: str) -> KeyLever:
        """Return a key lever by its id."""
        return _find_of(self.store, name, KeyLever)

    @_by_id
    def fixed_socket(self, name: str) -> FixedSocket:
        """Return a fixed socket by its id."""
        return _find_of(self.store, name, FixedSocket)

    @_by_id
    def adjuster(self, name: str) -> Adjuster:
        """Return an adjuster by its id."""
        return _find_of(self.store, name, Adjuster)

    @_by_id
    def damper(self, name: str) -> Damper:
        """Return a damper by its id."""
        return _find_of(self.store, name, Damper)

    @_by_id
    def material(self, name: str) -> Material:
        """Return a steel by its id."""
        return _find_of(self.store, name, Material)

    @_by_id
    def chassis(self, name: str) -> Chassis:
        """Return a chassis by its id."""
        expected = "the id of a vehicle"
        return _find(self.store, name, ("chassis",), Chassis, code="L101", expected=expected)


def corner_of(chassis: Chassis, corner: str) -> tuple[Axle, Side]:
    """Return the axle and the side that words like "front left" name.

    Parameters
    ----------
    chassis : Chassis
        The vehicle.
    corner : str
        Axle and side.

    Returns
    -------
    (Axle, Side)

    Raises
    ------
    UnknownNameError
        L103.
    """
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
