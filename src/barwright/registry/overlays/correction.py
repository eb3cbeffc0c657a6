"""Figures and facts of records, found by their path within the record, and put right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, TypeVar

import attrs

from barwright.parts.bar import Side
from barwright.parts.chassis import Chassis
from barwright.parts.common.facts import fact_fields
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import NOT_IN_FILES, Part, Record
from barwright.parts.common.source import About, Figure
from barwright.registry.packs.tables.sided import may_differ

__all__ = [
    "CORRECTIONS",
    "Change",
    "Correction",
    "can_be_corrected",
    "changed",
    "differs_by_side",
    "figure_paths",
    "holder_of",
]

CORRECTIONS = "correction"
"""Name of the table that each correction is one of."""

# A vehicle is found by these as its pack states them.
_FOUND_BY = {
    *("maker", "model", "body", "trim", "drive", "markets", "codes"),
    *("first_built", "last_built"),
}

P = TypeVar("P", bound=Part)


@attrs.frozen(kw_only=True)
class Correction:
    """A figure or a fact of another pack's record as an overlay has it.

    Parameters
    ----------
    of : str
        Full id of the record.
    figure : str
        Field of it, or the fields that lead to it, such as "arm_end.length".
    is_ : str, int, bool or list
        The figure, with its unit and, where known, its tolerance; or the count, the word or the
        list, as the field has it.
    source : str
        Id of the source of the overlay that says so.
    at : str
        Place in that source.
    why : str
        Why the pack is corrected.
    """

    of: str
    figure: str
    is_: Any
    source: str
    at: str = ""
    why: str


@attrs.frozen(kw_only=True)
class Change:
    """A correction that was found to fit its record.

    Parameters
    ----------
    of : str
        Full id of the record.
    figure : str
        Path of the figure or fact within it.
    value : object
        What the field is to hold.
    known : Figure
        What takes the place of what the pack says.
    """

    of: str
    figure: str
    value: Any
    known: Figure


def figure_paths(value: Any, path: str = "") -> Iterator[str]:  # noqa: ANN401 - any part of a record
    """List what can be corrected of a record, also what it leaves out, by the fields to it.

    Parameters
    ----------
    value : record
        The record; parts that it refers to are records of their own.
    path : str
        What leads to it.

    Yields
    ------
    str
    """
    if isinstance(value, Record):
        facts = fact_fields(type(value)) - (_FOUND_BY if isinstance(value, Chassis) else set())
        yield from (f"{path}{name}" for name in (*figure_fields(type(value)), *sorted(facts)))
    for label, inner in _branches(value):
        if not isinstance(inner, Part):
            yield from figure_paths(inner, f"{path}{label}.")


def holder_of(value: Any, path: str) -> tuple[Any, str]:  # noqa: ANN401 - as above
    """Return the record in a record that holds a figure or fact, and its field.

    Parameters
    ----------
    value : record
        The outer record.
    path : str
        One of :func:`figure_paths`; of a vehicle's corners, ``.left`` or ``.right`` may follow.

    Returns
    -------
    tuple
    """
    path, side = _parted(path)
    value = _of_side(value, side)
    *outer, field = path.split(".")
    for step in outer:
        value = dict(_branches(value))[step]
    return value, field


def changed(part: P, changes: Sequence[Change]) -> P:
    """Return a record with figures and facts corrected, each with what it replaces.

    Parameters
    ----------
    part : Part
        The record as its pack has it.
    changes : sequence of Change
        Those of this record, the last of a figure being the one that counts.

    Returns
    -------
    Part

    Raises
    ------
    BarwrightError
        If no such record can be.
    """
    for change in changes:
        part = _changed(part, change)
    return part


def _changed(part: P, change: Change) -> P:
    """Return a record with one change, of a vehicle on the side that it is said of, or on both."""
    path, side = _parted(change.figure)
    steps = path.split(".")
    if not isinstance(part, Chassis) or (side is None and part.right_side is None):
        made: P = _with(part, steps, change)
        return made
    right: Chassis = _of_side(part, Side.RIGHT)
    right = right if side is Side.LEFT else _with(right, steps, change)
    left = part if side is Side.RIGHT else _with(part, steps, change)
    return attrs.evolve(left, right_side=attrs.evolve(right, right_side=None))


def can_be_corrected(part: Part, figure: str) -> bool:
    """Tell whether a record has a figure or a fact that can be corrected.

    Parameters
    ----------
    part : Part
        The record.
    figure : str
        One of :func:`figure_paths`; of a vehicle's corners, ``.left`` or ``.right`` may follow.

    Returns
    -------
    bool
    """
    path, side = _parted(figure)
    if path not in figure_paths(part):
        return False
    return side is None or may_differ(type(holder_of(part, path)[0]), path.rpartition(".")[2])


def differs_by_side(part: Part, figure: str) -> bool:
    """Tell whether what is said to be corrected is not one figure but that of each side.

    Parameters
    ----------
    part : Part
        The record.
    figure : str
        For which :func:`can_be_corrected` answers yes.

    Returns
    -------
    bool
    """
    if not isinstance(part, Chassis) or part.right_side is None or _parted(figure)[1]:
        return False
    sides = [holder_of(part, f"{figure}.{side.value}") for side in Side]
    left, right = ((getattr(holder, field), holder.about.get(field)) for holder, field in sides)
    return left != right


def _parted(figure: str) -> tuple[str, Side | None]:
    """Return the path of a figure, and the side that is named after it."""
    path, _, last = figure.rpartition(".")
    sides = {side.value: side for side in Side}
    return (path, sides[last]) if path and last in sides else (figure, None)


def _of_side(value: Any, side: Side | None) -> Any:  # noqa: ANN401 - as above
    """Return a vehicle with the figures of one side."""
    has_sides = isinstance(value, Chassis) and side is Side.RIGHT
    return value.right_side or value if has_sides else value


def _with(value: Any, steps: Sequence[str], change: Change) -> Any:  # noqa: ANN401 - as above
    """Set one figure or fact in a record or in what it holds."""
    step, *rest = steps
    if isinstance(value, tuple):
        items = _branches(value)
        return tuple(_with(one, rest, change) if label == step else one for label, one in items)
    if rest:
        return attrs.evolve(value, **{step: _with(getattr(value, step), rest, change)})
    corrected = attrs.evolve(change.known, replaces=value.about.get(step))
    about = About({**value.about, step: corrected})
    return attrs.evolve(value, **{step: change.value, "about": about})


def _branches(value: Any) -> Iterator[tuple[str, Any]]:  # noqa: ANN401 - as above
    """Fields of a record, or items of a tuple: axles by their place, others by number."""
    if isinstance(value, tuple):
        for number, item in enumerate(value):
            place = getattr(item, "place", None)
            yield getattr(place, "value", str(number)), item
    elif isinstance(value, Record):
        for field in attrs.fields(type(value)):
            if field.name not in NOT_IN_FILES:
                yield field.name, getattr(value, field.name)
