"""Corners of a pack's vehicles as they left the works, and what barwright answers for them."""

from __future__ import annotations

import functools
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator

import attrs

from barwright.analysis.fit.length_fit import LengthFit, length_fit
from barwright.errors import BarwrightError
from barwright.first_use import cached_property
from barwright.lint.place import PackPlace
from barwright.lint.rule import Remark
from barwright.lint.subject import Subject
from barwright.parts.bar import Side
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.setup import Setup

__all__ = [
    "StandardAxle",
    "StandardCorner",
    "reported_once",
    "reported_where_it_fits",
    "standard_axles",
]


@attrs.frozen(eq=False, slots=False)
class StandardCorner:
    """One corner with its standard parts.

    Parameters
    ----------
    setup : Setup
        The corner.
    """

    setup: Setup

    @cached_property
    def fit(self) -> LengthFit | BarwrightError:
        """How its bar lies, or why that cannot be said."""
        try:
            return length_fit(self.setup)
        except BarwrightError as error:
            return error

    @property
    def fits(self) -> bool:
        """Whether its bar fits without any change, as far as that is known."""
        fit = self.fit
        return isinstance(fit, LengthFit) and not (fit.reasons or fit.changes)


@attrs.frozen(eq=False)
class StandardAxle:
    """An axle with both its corners, and where it stands."""

    place: PackPlace
    axle: Axle
    corners: tuple[StandardCorner, ...]


@functools.lru_cache(maxsize=1)
def standard_axles(subject: Subject) -> tuple[StandardAxle, ...]:
    """List the axles of a pack's vehicles, the same to each rule that asks.

    Parameters
    ----------
    subject : Subject
        The pack.

    Returns
    -------
    tuple of StandardAxle
    """
    return tuple(_axles(subject))


def _axles(subject: Subject) -> Iterator[StandardAxle]:
    for place, chassis in subject.records_of(Chassis):
        for index, axle in enumerate(chassis.axles):
            corners = (
                StandardCorner(Setup.standard(chassis, axle=axle, side=side)) for side in Side
            )
            yield StandardAxle(place.within(f"axles[{index}]"), axle, tuple(corners))


def reported_once(
    place: PackPlace, reported: Iterable[tuple[StandardCorner, str]]
) -> Iterator[Remark]:
    """Say the same of both corners once.

    Parameters
    ----------
    place : PackPlace
        Of the axle.
    reported : iterable of pair
        Corner, and what is said of it.

    Yields
    ------
    Remark
    """
    corners: dict[str, list[str]] = defaultdict(list)
    for corner, text in reported:
        corners[text].append(corner.setup.corner)
    for text, names in corners.items():
        yield Remark(place, f"{', '.join(names)}: {text}")


def reported_where_it_fits(
    subject: Subject, reported: Callable[[StandardCorner], Iterable[str]]
) -> Iterator[Remark]:
    """Say what there is to say of each corner that fits; of others another rule tells.

    Parameters
    ----------
    subject : Subject
        The pack.
    reported : callable
        From a corner to what is to be said of it.

    Yields
    ------
    Remark
    """
    for axle in standard_axles(subject):
        fitting = [corner for corner in axle.corners if corner.fits]
        yield from reported_once(axle.place, ((c, text) for c in fitting for text in reported(c)))
