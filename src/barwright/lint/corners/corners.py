"""Corners of a pack's vehicles as they left the works, and what barwright answers for them."""

from __future__ import annotations

import functools
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from typing import Any, TypeVar

import attrs

from barwright.analysis.fit.length_fit import LengthFit, length_fit
from barwright.computed_once import cached_property
from barwright.errors import BarwrightError
from barwright.lint.content import as_written
from barwright.lint.rule import Remark, said_where_known
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.bar import Side
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.setup import Setup

__all__ = [
    "Said",
    "StandardAxle",
    "StandardCorner",
    "each_axle",
    "reported_of_each",
    "reported_once",
    "reported_where_it_fits",
]

T = TypeVar("T")


@attrs.frozen
class Said:
    """What is to be said of a corner, which may be true of many.

    Parameters
    ----------
    message : str
        What was found.
    remedy : str
        What to do about it; what the rule always says if left out.
    key : str
        Field of the axle that it is about, if it is about one.
    """

    message: str
    remedy: str = ""
    key: str = ""


@attrs.frozen(eq=False, slots=False)
class StandardCorner:
    """One corner with its standard parts.

    Parameters
    ----------
    chassis : Chassis
        The vehicle.
    axle : Axle
        One of its axles.
    side : Side
        The corner's side.
    answers : dict
        What was found of this corner, and of all that have the same figures.
    """

    chassis: Chassis
    axle: Axle
    side: Side
    answers: dict[Callable[[StandardCorner], Any], Any]

    @cached_property
    def setup(self) -> Setup:
        """The corner."""
        return Setup.standard(self.chassis, axle=self.axle, side=self.side)

    def once(self, find: Callable[[StandardCorner], T]) -> T:
        """Ask something once of all corners that have the same figures.

        Parameters
        ----------
        find : callable
            A function of a module, from a corner to what is to be known of it, in which
            neither the vehicle nor its id may appear.

        Returns
        -------
        object
            What was found.
        """
        if find not in self.answers:
            self.answers[find] = find(self)
        found: T = self.answers[find]
        return found

    @property
    def fit(self) -> LengthFit | BarwrightError:
        """How its bar lies, or why that cannot be said."""
        return self.once(_fit)

    @property
    def fits(self) -> bool:
        """Whether its bar fits without any change, as far as that is known."""
        fit = self.fit
        return isinstance(fit, LengthFit) and not (fit.reasons or fit.changes)


def _fit(corner: StandardCorner) -> LengthFit | BarwrightError:
    try:
        return length_fit(corner.setup)
    except BarwrightError as error:
        return error


@attrs.frozen(eq=False)
class StandardAxle:
    """An axle with both its corners, and where it stands."""

    place: PackPlace
    axle: Axle
    corners: tuple[StandardCorner, ...]


@functools.lru_cache(maxsize=1)
def _standard_axles(subject: Subject) -> tuple[StandardAxle, ...]:
    """List the axles of a pack's vehicles, the same to each rule that asks."""
    return tuple(_axles(subject))


def _axles(subject: Subject) -> Iterator[StandardAxle]:
    answers: dict[tuple[object, ...], dict[Callable[[StandardCorner], Any], Any]] = {}
    for place, chassis in subject.records_of(Chassis):
        for index, axle in enumerate(chassis.axles):
            written = as_written(axle)
            corners = []
            for side in Side:
                _, own = chassis.corner(axle, side)
                key = (written if own is axle else as_written(own), side)
                corners.append(StandardCorner(chassis, axle, side, answers.setdefault(key, {})))
            yield StandardAxle(place.within(f"axles[{index}]"), axle, tuple(corners))


def each_axle(subject: Subject) -> Iterator[StandardAxle]:
    """Go through the axles of a pack's vehicles, and tell how far that is.

    Parameters
    ----------
    subject : Subject
        The pack.

    Yields
    ------
    StandardAxle
    """
    axles = _standard_axles(subject)
    for done, axle in enumerate(axles, 1):
        yield axle
        subject.progress(done, len(axles))


def reported_once(
    place: PackPlace, reported: Iterable[tuple[StandardCorner, Said]]
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
    corners: dict[Said, list[str]] = defaultdict(list)
    for corner, said in reported:
        corners[said].append(corner.setup.corner)
    for said, names in corners.items():
        within = place.within(said.key) if said.key else place
        yield Remark(within, f"{', '.join(names)}: {said.message}", said.remedy)


def reported_where_it_fits(
    subject: Subject, reported: Callable[[StandardCorner], Iterable[Said]]
) -> Iterator[Remark]:
    """Say what there is to say of each corner that fits; of others another rule tells.

    Parameters
    ----------
    subject : Subject
        The pack.
    reported : callable
        From a corner to what is to be said of it; asked as :meth:`StandardCorner.once` does.

    Yields
    ------
    Remark
    """
    return reported_of_each(subject, reported, lambda corner: corner.fits)


def reported_of_each(
    subject: Subject,
    reported: Callable[[StandardCorner], Iterable[Said]],
    is_meant: Callable[[StandardCorner], bool] = lambda _: True,
) -> Iterator[Remark]:
    """Say what there is to say of each corner, and nothing where a figure is not known.

    Parameters
    ----------
    subject : Subject
        The pack.
    reported : callable
        From a corner to what is to be said of it; asked as :meth:`StandardCorner.once` does.
    is_meant : callable
        Which corners are looked at; all if left out.

    Yields
    ------
    Remark
    """

    def listed(corner: StandardCorner) -> tuple[Said, ...]:
        return tuple(said_where_known([corner], reported))

    for axle in each_axle(subject):
        meant = [corner for corner in axle.corners if is_meant(corner)]
        yield from reported_once(axle.place, ((c, said) for c in meant for said in c.once(listed)))
