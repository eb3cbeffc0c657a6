"""The one record that an id names, and the one corner that words name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TypeVar

from barwright.errors import UnknownNameError
from barwright.parts.bar import Side
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.record import Part
from barwright.registry.discovery.shipped import WAYS_TO_DATA
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.pack import KINDS
from barwright.registry.packs.store import Store

__all__ = ["corner_of", "find_chassis", "find_part", "is_chassis", "records"]

P = TypeVar("P", bound=Part)

_KINDS_OF_PARTS = tuple(kind for kind in KINDS if kind != "chassis")


def is_chassis(full_id: str) -> bool:
    """Tell whether a full id is that of a chassis."""
    return _kind(full_id) == "chassis"


def records(store: Store, full_ids: Iterable[str]) -> Iterator[Part]:
    """Make records whose ids are known to exist."""
    return filter(None, map(store.part, full_ids))


def find_part(store: Store, name: str) -> Part:
    """Return the one part that a full or a short id names.

    Parameters
    ----------
    store : Store
        Where it is looked up.
    name : str
        ``pack:kind/name``, or without the pack.

    Returns
    -------
    Part

    Raises
    ------
    UnknownNameError
        L102 if none or several have the id.
    """
    return _find(store, name, _KINDS_OF_PARTS, Part, code="L102", expected="the id of a part")


def find_chassis(store: Store, name: str) -> Chassis:
    """Return the one chassis that a full or a short id names.

    Parameters
    ----------
    store : Store
        Where it is looked up.
    name : str
        ``pack:chassis/name``, or without the pack.

    Returns
    -------
    Chassis

    Raises
    ------
    UnknownNameError
        L101 if none or several have the id.
    """
    return _find(store, name, ("chassis",), Chassis, code="L101", expected="the id of a vehicle")


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
    raise UnknownNameError(
        code,
        value=name,
        expected=expected,
        remedy=nearest(name, near) if known else WAYS_TO_DATA,
    )


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
