"""Models of one corner with some figures elsewhere, sharing what rests on none of these."""

from __future__ import annotations

import functools
import operator
from collections.abc import Callable
from typing import cast

import attrs

from barwright.analysis.corner.model import CornerModel
from barwright.analysis.fit.length_fit import seated_length
from barwright.analysis.rates.ride_height import springing_along
from barwright.analysis.tolerance.figures import (
    HeldFigure,
    Leeway,
    Mover,
    figure_places,
    leeways_among,
)
from barwright.errors import BarwrightError
from barwright.parts.chassis import Axle
from barwright.parts.setup import Setup

__all__ = ["Ends", "Neighbour", "ends_of"]


@attrs.frozen(eq=False)
class Neighbour:
    """A corner with figures elsewhere within their tolerances.

    Parameters
    ----------
    model : CornerModel
        The corner.
    rate : float
        Of bar and tube in series [N·m/rad].
    """

    model: CornerModel
    rate: float


@attrs.frozen(eq=False)
class Ends:
    """A corner at both ends of every tolerance that its figures have.

    Parameters
    ----------
    ways : tuple of Leeway
        The figures with a tolerance.
    corners : tuple of Neighbour, each optional
        The corner with the first of them at its lower end, then at its upper end, and so on,
        and last the corner as it is; none where no such corner can be.
    """

    ways: tuple[Leeway, ...]
    corners: tuple[Neighbour | None, ...]

    @property
    def there(self) -> list[Neighbour]:
        """Those corners that can be."""
        return [corner for corner in self.corners if corner is not None]

    @property
    def nominal(self) -> Neighbour:
        """The corner as it is."""
        # Whoever asks has found that its bar lies in both sockets.
        return cast("Neighbour", self.corners[-1])


def ends_of(setup: Setup) -> Ends:
    """Return a corner at both ends of every tolerance.

    Parameters
    ----------
    setup : Setup
        The corner, whose bar lies in both sockets.

    Returns
    -------
    Ends
    """
    return _ends_of(_Same(setup))


@attrs.frozen
class _Same:
    """A setup that is the same as itself alone, since an equal one may know other tolerances."""

    setup: Setup = attrs.field(eq=id)


# A question asks of one corner again and again: as it is to be, and as it is now.
@functools.lru_cache(maxsize=2)
def _ends_of(same: _Same) -> Ends:
    setup = same.setup
    places = figure_places(setup)
    ways = leeways_among(places, {})
    mover = Mover(setup, filter(_is_read, places))
    rate = springing_along(setup, cast("float", seated_length(setup))).system
    nominal = Neighbour(CornerModel(setup), rate)
    moved = (_neighbour(nominal, mover, {way: side}) for way in ways for side in (-1.0, 1.0))
    return Ends(ways, (*moved, nominal))


def _is_read(place: HeldFigure) -> bool:
    """Whether a corner is computed from the figure at a place of its setup.

    Of the parts that the vehicle left the works with, only the arm's radius is: it belongs to
    the geometry of the chassis.
    """
    first, *rest = place.path.split(".")
    return first != "chassis" and (
        first != "axle" or rest[0] not in ("left", "right") or rest[1:] == ["arm", "radius"]
    )


def _neighbour(nominal: Neighbour, mover: Mover, shares: dict[Leeway, float]) -> Neighbour | None:
    """Return a corner with figures elsewhere; none where that cannot be."""
    try:
        setup = mover.moved(shares)
        model = _model(nominal.model, setup)
        rate = _rate(nominal, setup)
        if rate is None or not model.lever_closes:
            return None
        # What cannot be is refused as it is computed.
        _ = model.linkage, model.springs, model.travel
    except BarwrightError:
        return None
    return Neighbour(model, rate)


def _model(nominal: CornerModel, setup: Setup) -> CornerModel:
    """Model of a setup, with what it shares with another one taken from there."""
    model = CornerModel(setup)
    for names, records in _RESTS_ON.items():
        if _are_same(records, nominal.setup, setup):
            model.__dict__.update({name: getattr(nominal, name) for name in names})
    return model


def _rate(nominal: Neighbour, setup: Setup) -> float | None:
    """Rate of bar and tube; none where the bar does not lie in both sockets."""
    if _are_same(_seating, nominal.model.setup, setup):
        return nominal.rate
    length = seated_length(setup)
    return None if length is None else springing_along(setup, length).system


def _are_same(records: _Records, one: Setup, other: Setup) -> bool:
    return all(map(operator.is_, records(one), records(other)))


def _own(axle: Axle) -> tuple[object, ...]:
    """Figures that an axle states of itself, without those of its standard parts."""
    return tuple(getattr(axle, name) for name in _AXLE_FIELDS)


def _guiding(setup: Setup) -> tuple[object, ...]:
    """Figures that guide the wheel: the axle's own, and the radii of its arms."""
    usual = setup.axle.standard(setup.side).arm.radius
    return *_own(setup.axle), setup.arm.radius, usual


def _seating(setup: Setup) -> tuple[object, ...]:
    """List the records that the rate of bar and tube rests on."""
    return *_own(setup.axle), setup.bar, setup.anchor, setup.arm.socket


def _keys(setup: Setup) -> tuple[object, ...]:
    """Angles of keys and blanks, and what says in which sense they count."""
    sockets = setup.arm.socket, setup.anchor.socket
    keys = (socket.key_angle for socket in sockets)
    return *_own(setup.axle), *keys, setup.bar.blank_angle


def _holding(setup: Setup) -> tuple[object, ...]:
    """Parts that hold the anchor end."""
    return setup.anchor, setup.adjuster


_Records = Callable[[Setup], tuple[object, ...]]

_AXLE_FIELDS = [
    field.name for field in attrs.fields(Axle) if field.name not in ("about", "left", "right")
]

_RESTS_ON: dict[tuple[str, ...], _Records] = {
    ("plane", "sense", "linkage", "arch_height", "stops"): _guiding,
    ("springs", "damper_span", "damper_fits", "travel"): lambda setup: (
        *_guiding(setup),
        setup.damper,
    ),
    ("sprung_mass", "load"): lambda setup: (setup.load, setup.axle.unsprung_mass),
    ("keyed_angle",): _keys,
    ("anchorage", "lever_closes", "setting_middle", "lever_span"): _holding,
}
"""What of a model rests on which records of its setup."""
