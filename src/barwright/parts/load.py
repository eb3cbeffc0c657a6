"""What a corner carries."""

from __future__ import annotations

import enum

import attrs

from barwright.errors import QuantityError
from barwright.parts.chassis import Axle
from barwright.parts.common.fields import as_far_as_known, mass, named
from barwright.parts.common.record import Record
from barwright.parts.common.source import About
from barwright.units import MASS, Quantity, shown, si

__all__ = ["Load", "LoadKind", "refuse_too_light", "standard_load"]


class LoadKind(enum.Enum):
    """Kind of a load figure: a scale reading includes the unsprung mass."""

    SCALE_READING = "scale reading"
    SPRUNG = "sprung mass"


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Load(Record):
    """What a corner carries.

    Parameters
    ----------
    kind : LoadKind
        Whether the figure is a scale's reading or the sprung mass.
    mass : Quantity
        The figure.
    """

    kind: LoadKind
    mass: Quantity = attrs.field(converter=mass)


def standard_load(axle: Axle) -> Load:
    """Return the load of standard trim, with what is known of its figure.

    Parameters
    ----------
    axle : Axle
        The axle that carries it at each end.

    Returns
    -------
    Load
    """
    known = axle.about.get("standard_mass")
    about = About({} if known is None else {"mass": known})
    return Load(kind=LoadKind.SPRUNG, mass=axle.standard_mass, about=about)


@as_far_as_known
def refuse_too_light(load: Load, axle: Axle) -> None:
    """Refuse a scale's reading that leaves nothing for the spring to carry.

    Parameters
    ----------
    load : Load
        What a corner carries.
    axle : Axle
        Its axle.

    Raises
    ------
    QuantityError
        Q302.
    """
    unsprung = axle.unsprung_mass
    reads = load.kind is LoadKind.SCALE_READING
    if reads and si(load.mass, MASS) <= si(unsprung, MASS):
        raise QuantityError(
            "Q302",
            value=shown(load.mass),
            expected=f"more than the unsprung mass of {shown(unsprung)}",
            remedy="give the scale's reading under the tyre, or the sprung mass",
            key="load.mass",
        )
