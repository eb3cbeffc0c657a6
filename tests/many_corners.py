"""Many random corners at once: usual ones, and such as snap through or come near to locking."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.interval import direction
from barwright.mechanics.common.many import at_rows
from barwright.mechanics.corner.settle_many import LoadedCorners
from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring, Spring
from barwright.mechanics.linkage.algebraic import algebraic
from barwright.mechanics.linkage.algebraic_linkage import AlgebraicLinkage
from barwright.mechanics.linkage.arm_and_strut import Linkage
from linkages import ARM, CROSSED, STRUT, WISHBONE

__all__ = ["KINDS", "many_corners", "places_of_rest", "varied"]

KINDS: dict[str, Linkage] = {
    "swing arm": ARM,
    "strut": STRUT,
    "wishbone": WISHBONE,
    "crossed": CROSSED,
}

_Chance = np.random.Generator
_Array = NDArray[np.float64]


def many_corners(
    kind: str,
    number: int,
    *,
    chance: _Chance,
    harsh: bool,
    springs: Sequence[str] | None = None,
) -> LoadedCorners:
    """Draw corners of a kind: usual ones, or harsh ones, of which not all can be."""
    linkage = varied(KINDS[kind], number, chance, share=0.12 if harsh else 0.02)
    soft = chance.uniform(100.0, 2500.0, number) if harsh else chance.uniform(2500, 5000, number)
    droop = chance.uniform(-0.9 if harsh else -0.35, -0.1, number)
    bump = chance.uniform(0.1, 1.2 if harsh else 0.35, number)
    corners = LoadedCorners(
        linkage=algebraic(linkage),
        free_angle=chance.uniform(-0.8, 0.4, number),
        rate=soft,
        load=chance.uniform(500.0, 9000.0 if harsh else 3500.0, number),
        droop=droop,
        bump=bump,
        springs=_springs(number, chance, harsh=harsh, only=springs),
        holds_both_ways=bool(chance.random() < 0.2),
    )
    return at_rows(corners, _meets(linkage, droop, bump))


def places_of_rest(corners: LoadedCorners, *, looks: int) -> NDArray[np.intp]:
    """Count how often the torque comes up to zero, or begins there, over a fine search."""
    low, high = corners.droop, corners.bump
    was_above, count = np.zeros(np.shape(low), dtype=bool), np.zeros(np.shape(low), dtype=np.intp)
    for share in np.linspace(0.0, 1.0, looks):
        above = np.asarray(corners.unbalanced(low * (1.0 - share) + high * share)[0]) >= 0.0
        count += above & ~was_above
        was_above = above
    return count


def varied(thing: Any, number: int, chance: _Chance, *, share: float) -> Any:
    """Vary every length of a linkage, each by itself."""
    if isinstance(thing, tuple):
        return tuple(varied(part, number, chance, share=share) for part in thing)
    if isinstance(thing, float):
        return thing * (1.0 + share * chance.uniform(-1.0, 1.0, number))
    if not attrs.has(type(thing)):
        return thing
    return attrs.evolve(
        thing,
        **{
            field.name: varied(getattr(thing, field.name), number, chance, share=share)
            for field in attrs.fields(type(thing))
        },
    )


def _springs(
    number: int, chance: _Chance, *, harsh: bool, only: Sequence[str] | None
) -> tuple[Spring, ...]:
    most = 10.0 if harsh else 1.0
    springs: dict[str, Spring] = {
        "gas": GasForce(
            force=chance.uniform(100.0, 400.0 * most, number),
            at_length=0.5,
            slope=-chance.uniform(0.0, 1000.0, number),
        ),
        "bushing": Bushing(rate=chance.uniform(0.0, 200.0, number), tightened_at=0.0),
        "coil": HelperSpring(
            rate=chance.uniform(1000.0, 20_000.0 * most, number),
            free_length=0.3,
            seat_offset=chance.uniform(0.15, 0.3, number),
        ),
        "stop on the damper": BumpStop(
            compressions=(0.0, 0.02, 0.03, 0.05),
            forces=(0.0, 800.0, 900.0, 6000.0),
            at_length=chance.uniform(0.4, 0.6, number),
        ),
        "stop under the hub": BumpStop(
            compressions=(0.0, 0.02),
            forces=(0.0, 2000.0),
            at_height=chance.uniform(0.0, 0.1, number),
        ),
        "stop on the arm": BumpStop(
            compressions=(0.0, 0.02),
            forces=(0.0, 2000.0),
            at_angle=chance.uniform(0.0, 0.3, number),
            radius=0.3,
        ),
    }
    if only is not None:
        return tuple(springs[name] for name in only)
    return tuple(spring for spring in springs.values() if chance.random() < 0.4)


def _meets(linkage: Linkage, droop: _Array, bump: _Array) -> NDArray[np.intp]:
    """Rows whose links meet over the whole travel, and whose damper shortens all the way."""
    rows = _meeting(linkage, bump, _meeting(linkage, droop, np.arange(droop.size)))
    own = cast("AlgebraicLinkage", algebraic(at_rows(linkage, rows)))
    meets = np.broadcast_to(own.meets_between(low=droop[rows], high=bump[rows]), rows.shape)
    found: NDArray[np.intp] = rows[meets]
    return found


def _meeting(linkage: Linkage, angle: _Array, rows: NDArray[np.intp]) -> NDArray[np.intp]:
    """Rows whose links meet at an angle, and whose damper shortens there."""
    own: Any = algebraic(at_rows(linkage, rows))
    turned = direction(angle[rows])
    with np.errstate(invalid="ignore"):
        # What the linkage itself asks, of each row by itself.
        closing = own._closing(turned)  # noqa: SLF001 - as above
        damper = own._damper(turned, closing)  # noqa: SLF001 - as above
        load = own._guided(turned, closing, damper).path(own._points[0])  # noqa: SLF001 - as above
    found: NDArray[np.intp] = rows[(closing > 0.0) & (damper[1] < 0.0) & np.isfinite(load.slope)]
    return found
