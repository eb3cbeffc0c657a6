"""What a pack's files state, each with its place."""

from __future__ import annotations

import attrs

from barwright.lint.finding import LintFinding
from barwright.lint.place import Place, short
from barwright.lint.quantities import Computable
from barwright.parts.setup import Setup
from barwright.parts.source import Figure, Part, Record
from barwright.registry.proofs import Check, Waiver
from barwright.units import Quantity, Reading

__all__ = ["StatedCheck", "StatedFigure", "StatedWaiver"]


@attrs.frozen
class StatedFigure:
    """A figure that a pack's file states.

    Parameters
    ----------
    place : Place
        Where.
    record : Record
        That it belongs to.
    name : str
        Its field there.
    about : Figure
        What is known of it.
    """

    place: Place
    record: Record
    name: str
    about: Figure

    @property
    def source(self) -> str:
        """Id of its source, as the pack's own files name it."""
        return short(self.about.source)


@attrs.frozen
class StatedWaiver:
    """A waiver, and where it stands.

    Parameters
    ----------
    place : Place
        Where.
    waiver : Waiver
        As it was written.
    """

    place: Place
    waiver: Waiver

    def covers(self, finding: LintFinding) -> bool:
        """Tell whether a finding is one that it lets stand."""
        begins = finding.of.startswith
        of = short(self.waiver.of)
        concerns = finding.of == of or begins((f"{of}.", f"{of}["))
        return concerns and (finding.rule, finding.file) == (self.waiver.rule, self.place.file)


@attrs.frozen(eq=False)
class StatedCheck:
    """A check, what it is of, and where it stands.

    Parameters
    ----------
    place : Place
        Where.
    check : Check
        As it was written.
    quantity : Computable
        What it computes.
    target : Setup or Part
        What it is computed of.
    stated : Reading
        What it should come to.
    """

    place: Place
    check: Check
    quantity: Computable
    target: Setup | Part
    stated: Reading

    def computed(self) -> Quantity | None:
        """Compute it; none where there is no answer."""
        record = "chassis" if isinstance(self.target, Setup) else short(self.target.id)
        return self.quantity.ways[record.partition("/")[0]](self.target)
