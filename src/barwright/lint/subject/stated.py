"""What the files of a pack or an overlay state, each with its place."""

from __future__ import annotations

from typing import Any

import attrs

from barwright.errors import NeedsError
from barwright.lint.finding import LintFinding
from barwright.lint.subject.place import PackPlace, holders, short
from barwright.lint.subject.quantities import Computable
from barwright.parts.common.facts import as_stated
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import Part, Record
from barwright.parts.common.source import Fact, Figure
from barwright.parts.setup import Setup
from barwright.registry.overlays.preference import Preference
from barwright.registry.packs.checks import Check, Waiver
from barwright.units import Kind, Quantity, WrittenFigure, is_unknown, unknown

__all__ = [
    "StatedCheck",
    "StatedCorrection",
    "StatedFigure",
    "StatedPreference",
    "StatedWaiver",
]


@attrs.frozen
class StatedFigure:
    """A figure or a fact that a pack's file states.

    Parameters
    ----------
    place : PackPlace
        Where.
    record : Record
        That it belongs to.
    name : str
        Its field there.
    about : Figure
        What is known of it.
    """

    place: PackPlace
    record: Record
    name: str
    about: Figure

    @property
    def source(self) -> str:
        """Id of its source, as the pack's own files name it."""
        return short(self.about.source)

    @property
    def is_fact(self) -> bool:
        """Whether it is a count, a word, a list or a direction, and no quantity."""
        return isinstance(self.about, Fact)


@attrs.frozen(eq=False)
class StatedCorrection(StatedFigure):
    """A figure or a fact that takes the place of one of a record below the overlay.

    The record is as it stands below.
    """

    @property
    def kind(self) -> Kind:
        """Kind of quantity of a figure; a fact has none."""
        return figure_fields(type(self.record))[self.name][0]

    @property
    def before(self) -> Any:  # noqa: ANN401 - a quantity, or a fact as a file states it
        """What counts below; none if the record leaves it out or does not know it."""
        value = getattr(self.record, self.name)
        if is_unknown(value):
            return None
        return as_stated(value) if self.is_fact else value

    @property
    def replaces(self) -> Figure | None:
        """What is known of that; none if the record leaves it out."""
        return self.record.about.get(self.name)


@attrs.frozen
class StatedPreference:
    """A preference of an overlay, and whether packs clash without it.

    Parameters
    ----------
    place : PackPlace
        Where.
    preference : Preference
        As it was read.
    is_needed : bool
        Whether its packs are left out where nothing is preferred.
    """

    place: PackPlace
    preference: Preference
    is_needed: bool


@attrs.frozen
class StatedWaiver:
    """A waiver, and where it stands.

    Parameters
    ----------
    place : PackPlace
        Where.
    waiver : Waiver
        As it was written.
    others : frozenset of str
        Ids that begin like what it names, but are of other records: an id may hold points.
    """

    place: PackPlace
    waiver: Waiver
    others: frozenset[str] = frozenset()

    def covers(self, finding: LintFinding) -> bool:
        """Tell whether a finding of its rule and its file is one that it lets stand."""
        of = self.waiver.of.removeprefix(f"{finding.pack}:")
        around = set(holders(finding.of))
        return of in around and self.others.isdisjoint(around)


@attrs.frozen(eq=False)
class StatedCheck:
    """A check, what it is of, and where it stands.

    Parameters
    ----------
    place : PackPlace
        Where.
    check : Check
        As it was written.
    quantity : Computable
        What it computes.
    target : Setup or Part
        What it is computed of.
    stated : WrittenFigure
        What it should come to.
    """

    place: PackPlace
    check: Check
    quantity: Computable
    target: Setup | Part
    stated: WrittenFigure

    def computed(self) -> Quantity | None:
        """Compute it; none where there is no answer, unknown where a figure is missing."""
        record = "chassis" if isinstance(self.target, Setup) else short(self.target.id)
        try:
            return self.quantity.ways[record.partition("/")[0]](self.target)
        except NeedsError:
            return unknown()
