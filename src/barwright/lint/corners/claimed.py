"""Corners of the vehicles that a pack's parts are said to fit, with those parts on."""

from __future__ import annotations

import functools
import itertools
from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import Any

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.length_fit import LengthFit, length_fit
from barwright.computed_once import cached_property
from barwright.errors import BarwrightError
from barwright.lint.rule import Remark
from barwright.lint.subject.place import PackPlace, short
from barwright.lint.subject.subject import Subject
from barwright.parts.bar import Side
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.claim import Claim
from barwright.parts.common.record import Part
from barwright.parts.setup import PLACES, Setup
from barwright.registry.nearest_name import nearest

__all__ = [
    "INSTALL",
    "ClaimedCorner",
    "MissingTarget",
    "claimed_corners",
    "missing_targets",
    "told_once",
]


@attrs.frozen(eq=False, slots=False)
class ClaimedCorner:
    """One corner of a vehicle with parts that are said to fit it.

    Parameters
    ----------
    place : PackPlace
        Of what is said.
    claim : Claim
        What is said.
    chassis : Chassis
        The vehicle.
    axle : Axle
        One of its axles.
    side : Side
        The corner's side.
    parts : mapping of str to Part
        The parts by their place.
    """

    place: PackPlace
    claim: Claim
    chassis: Chassis
    axle: Axle
    side: Side
    parts: dict[str, Part]

    @cached_property
    def standard(self) -> Setup:
        """The corner as it left the works."""
        return Setup.standard(self.chassis, axle=self.axle, side=self.side)

    @cached_property
    def fit(self) -> LengthFit | BarwrightError:
        """How the bar lies with those parts on, or why they do not go together."""
        try:
            return length_fit(self.setup)
        except BarwrightError as error:
            return error

    @property
    def setup(self) -> Setup:
        """The corner with those parts on."""
        given: dict[str, Any] = dict(self.parts)
        return self.standard.with_parts(**given)

    @property
    def changes(self) -> tuple[Finding, ...]:
        """What has to be changed beside putting those parts on."""
        own = {topic for topic, place in _SWAPS.items() if place in self.parts}
        found = () if isinstance(self.fit, BarwrightError) else self.fit.changes
        return tuple(change for change in found if change.topic not in own)

    @property
    def can_be_judged(self) -> bool:
        """Whether the parts lie well, so that more can be asked of the corner."""
        if isinstance(self.fit, BarwrightError):
            return False
        return self.fit.verdict in (Verdict.FITS, Verdict.FITS_WITH_CHANGES)


_SWAPS = {Topic.SWAPPED_ARM: "arm", Topic.SWAPPED_ANCHOR: "anchor"}


def _place_of(claim: Claim) -> PackPlace:
    """Place of a claim, which a waiver names by its first part."""
    return PackPlace(short(claim.parts[0]), claim.file, claim.key)


@functools.lru_cache(maxsize=1)
def claimed_corners(subject: Subject) -> tuple[ClaimedCorner, ...]:
    """List the corners that a pack's parts are said to fit, of vehicles that are installed.

    Parameters
    ----------
    subject : Subject
        The pack.

    Returns
    -------
    tuple of ClaimedCorner
    """
    return tuple(
        ClaimedCorner(_place_of(claim), claim, chassis, axle, side, parts)
        for claim in subject.pack.claims
        for chassis in filter(None, (_chassis(subject, name) for name in claim.on))
        for axle in _axles(claim, chassis)
        for side in ([claim.side] if claim.side else Side)
        for parts in _together(subject, claim)
    )


def _chassis(subject: Subject, name: str) -> Chassis | None:
    found = subject.pack.parts.get(name) or subject.others.part(name)
    return found if isinstance(found, Chassis) else None


def _axles(claim: Claim, chassis: Chassis) -> list[Axle]:
    return [axle for axle in chassis.axles if claim.axle in (None, axle.place)]


def _together(subject: Subject, claim: Claim) -> Iterator[dict[str, Part]]:
    """Go through the parts that go on together: one of each kind."""
    kinds: dict[str, list[tuple[str, Part]]] = defaultdict(list)
    for name in claim.parts:
        part = subject.pack.parts[name]
        place = next(place for place, classes in PLACES.items() if isinstance(part, classes))
        kinds[place].append((place, part))
    yield from map(dict, itertools.product(*kinds.values()))


@attrs.frozen
class MissingTarget:
    """A vehicle that parts are said to fit, and that cannot be found.

    Parameters
    ----------
    remark : Remark
        Where, why, and what to do about it.
    may_exist : bool
        Whether its pack is not there, so that nothing is known of it.
    """

    remark: Remark
    may_exist: bool


def missing_targets(subject: Subject) -> Iterator[MissingTarget]:
    """List the vehicles that parts are said to fit, and that cannot be found.

    Parameters
    ----------
    subject : Subject
        The pack.

    Yields
    ------
    MissingTarget
    """
    for claim in subject.pack.claims:
        for index, name in enumerate(claim.on):
            place = attrs.evolve(_place_of(claim), key=f"{claim.key}.on[{index}]")
            chassis = _chassis(subject, name)
            if chassis is None:
                yield _missing(subject, name, place)
            elif not _axles(claim, chassis):
                axle = claim.axle.value if claim.axle else ""
                text = f"{name!r} has no torsion bars at the {axle}"
                yield MissingTarget(Remark(place, text), may_exist=False)


def _missing(subject: Subject, name: str, place: PackPlace) -> MissingTarget:
    """Say why a vehicle cannot be found."""
    pack = name.partition(":")[0]
    absent = "" if pack == subject.pack.id else subject.others.missing(name)
    if absent:
        return MissingTarget(Remark(place, absent, INSTALL), may_exist=True)
    near = nearest(name, [one for one in subject.others.ids() if ":chassis/" in one])
    return MissingTarget(Remark(place, f"there is no {name!r}", near), may_exist=False)


INSTALL = "install that pack and lint again, or name its folder with --over"
"""What to do where a pack is missing."""


def told_once(told: Iterable[tuple[ClaimedCorner, str, str]]) -> Iterator[Remark]:
    """Say the same of several corners of a vehicle once.

    Parameters
    ----------
    told : iterable of tuple
        Corner, what is said of it, and what to do about it.

    Yields
    ------
    Remark
    """
    corners: dict[tuple[PackPlace, str, str, str, str], list[str]] = defaultdict(list)
    for corner, text, remedy in told:
        # What is said of one part alone is told under its name.
        parts = corner.parts.values() if len(corner.claim.parts) > 1 else ()
        names = ", ".join(short(part.id) for part in parts)
        corners[corner.place, corner.chassis.id, names, text, remedy].append(
            f"{corner.axle.place.value} {corner.side.value}"
        )
    for (place, chassis, names, text, remedy), at in corners.items():
        of = f"{names} on" if names else "on"
        yield Remark(place, f"{of} {chassis}, {', '.join(at)}: {text}", remedy)
