"""Figures of a setup, each with its origin."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

import attrs

from barwright.analysis.tolerance.figures import HeldFigure
from barwright.analysis.tolerance.unmeasured import is_left_out, is_of_part
from barwright.analysis.trail_facts import stated_at
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.source import Figure, Source, SourceKind
from barwright.units import Quantity

__all__ = ["LEFT_OUT", "TrailLine", "trail_lines"]

LEFT_OUT = "left out"
"""Stands for the source of a figure that counts because a record does not give it."""


@attrs.frozen(kw_only=True, repr=False)
class TrailLine(Summarised):
    """A figure of a setup, and its origin.

    Parameters
    ----------
    figure : str
        Its name, by the fields of the setup that lead to it.
    value : Quantity
        Its value.
    tolerance : Quantity, optional
        Half width of the interval that it lies in.
    written : str
        What its file says, where value and tolerance do not say the same, like ``742 mm +0.4 mm
        0``.
    source : str
        ``pack:source``; ``caller`` for a program or a job, ``left out`` for what counts
        where a record leaves it out.
    source_kind : SourceKind, optional
        How the source came to its figures.
    note : str
        What finds the source again; empty if it is not known.
    at : str
        Place in the source.
    file : str
        File that it was read from, within its pack.
    key : str
        Record and figure within that file, like ``bar/standard: arm_end.length``; of a
        correction, where it stands.
    taken_by : str
        Record that takes the figure from the one that it is like; empty if it states it itself.
    replaces : Figure, optional
        What a pack says, where an overlay corrects it.
    why : str
        Why it was corrected.
    step : Quantity, optional
        Step of this figure for which the effect is given.
    effect : Quantity, optional
        Effect of that step on the answer's figure, to first order; none if it is not known, or
        if no figure was requested.
    """

    figure: str
    value: Quantity
    tolerance: Quantity | None
    written: str = ""
    source: str
    source_kind: SourceKind | None
    note: str
    at: str
    file: str
    key: str
    replaces: Figure | None
    why: str
    taken_by: str = ""
    step: Quantity | None = None
    effect: Quantity | None = None


def trail_lines(
    held: Iterable[HeldFigure], source: Callable[[str], Source | None] | None
) -> tuple[TrailLine, ...]:
    """Say of each figure of a setup where it comes from.

    Parameters
    ----------
    held : iterable of HeldFigure
        The figures.
    source : callable, optional
        Returns a source by its name.

    Returns
    -------
    tuple of TrailLine
        In the same order.
    """
    figures = tuple(held)
    keys = _keys(figures)
    return tuple(_line(one, keys, source) for one in figures)


def _line(
    held: HeldFigure,
    keys: Mapping[int, tuple[str, str]],
    source: Callable[[str], Source | None] | None,
) -> TrailLine:
    known = held.known or Figure(value=held.value)
    stated = keys.get(id(held.known))
    found = source(known.source) if source else None
    return TrailLine(
        figure=held.path,
        value=held.value,
        tolerance=known.tolerance,
        written=known.written,
        source=LEFT_OUT if is_left_out(held) else known.source,
        source_kind=known.source_kind,
        note=found.note if found else "",
        at=known.at,
        file=known.file,
        key=stated[1] if stated else known.key,
        taken_by=stated[0] if stated else "",
        replaces=known.replaces,
        why=known.why,
    )


def _keys(held: Iterable[HeldFigure]) -> dict[int, tuple[str, str]]:
    """Record and figure in a pack's file, by what is known of the figure, and who else has it.

    The load of standard trim is a figure of its axle, and stands where that one stands.
    A correction stands elsewhere, and says where.
    """
    read = [(one.known, one) for one in held if is_of_part(one)]
    return {
        id(known): _key(one, known) for known, one in read if known and known.key and not known.why
    }


def _key(held: HeldFigure, known: Figure) -> tuple[str, str]:
    """Return the record that takes a figure of another one, and where it stands."""
    *fields, _ = held.key[1:]
    return stated_at(str(held.key[0]), ".".join(map(str, fields)), known)
