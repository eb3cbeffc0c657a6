"""The catalogue of what is measured, read as strictly as any pack."""

from __future__ import annotations

import enum
import functools
from collections.abc import Iterator, Mapping
from pathlib import Path

import attrs

from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.chassis import LoadPoint
from barwright.parts.common.in_short import Summarised
from barwright.parts.load import LoadKind
from barwright.parts.setup import Setup
from barwright.registry.files.document import read_toml
from barwright.registry.packs.tables.structure import Structurer
from barwright.units import is_unknown

__all__ = [
    "FIGURES",
    "AskedFor",
    "MeasuredFigure",
    "figure_at",
    "figures_of",
    "needed_paths",
    "readings_of",
    "typed_key",
    "unknown_and_needed",
]

FIGURES = Path(__file__).parents[2] / "measuring" / "figures.toml"
"""File of the catalogue."""


class AskedFor(enum.Enum):
    """What a figure may be needed for: one for each question about a corner.

    Of a clocking, at the height at which the corner stands.
    """

    FIT = "fit"
    RATES = "rates"
    HEIGHT = "height"
    STRENGTH = "strength"
    PLAN = "plan"
    NUT = "nut"
    CLOCKING = "clocking"


@attrs.frozen(kw_only=True, repr=False)
class MeasuredFigure(Summarised):
    """A figure of a corner, and how it is measured.

    Parameters
    ----------
    path : str
        Fields of a setup that lead to it, such as ``bar.arm_end.length``.
    needed_for : tuple of AskedFor
        What cannot be answered without it.
    tool : str
        What it is measured with.
    where : str
        Where, and from where to where.
    """

    path: str
    needed_for: tuple[AskedFor, ...]
    tool: str
    where: str


@attrs.frozen(kw_only=True)
class _Catalogue:
    """The file."""

    figure: tuple[MeasuredFigure, ...]


@functools.cache
def _all() -> Mapping[str, MeasuredFigure]:
    read = Structurer(file=FIGURES.name).structure(read_toml(FIGURES), _Catalogue)
    return {one.path: one for one in read.figure}


def figures_of(setup: Setup) -> Iterator[MeasuredFigure]:
    """List the figures that a corner has, known or not, in the order in which one measures.

    Parameters
    ----------
    setup : Setup
        The corner.

    Yields
    ------
    MeasuredFigure

    Examples
    --------
    >>> import barwright as bw
    >>> van = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> print(next(figures_of(van)).tool)
    micrometer
    """
    return (one for path, one in _all().items() if figure_at(setup, path) is not None)


def readings_of(setup: Setup) -> Iterator[MeasuredFigure]:
    """List what is read of a corner as it stands: height, place of the nut, load.

    Parameters
    ----------
    setup : Setup
        The corner.

    Yields
    ------
    MeasuredFigure
        Whether anybody has read it or not.
    """
    yield _all()["reading.height"]
    if setup.adjuster is not None:
        yield _all()["pin_distance"]
    yield _all()["load.mass"]


def typed_key(path: str) -> str:
    """Say how a figure is typed into a pack or a job: its table, and its key in it.

    Parameters
    ----------
    path : str
        Fields of a setup that lead to it.

    Returns
    -------
    str

    Examples
    --------
    >>> typed_key("bar.arm_end.length"), typed_key("load.mass")
    ('[bar.arm_end] length', '[load] scale_reading')
    """
    table, _, key = _TYPED.get(path, path).rpartition(".")
    # A steel is a record of its own, which bars and tubes name.
    return f"[{'material' if table.endswith('.material') else table}] {key}"


# Where a job has what its setups call otherwise.
_TYPED = {
    "reading.height": "measured.height",
    "load.mass": "load.scale_reading",
    "nut_turns": "present.nut_turns",
    "pin_distance": "present.pin_distance",
}


def figure_at(setup: Setup, path: str) -> object:
    """Return what stands at a place of a setup; none where it has no such place.

    Parameters
    ----------
    setup : Setup
        The corner.
    path : str
        Fields that lead to it.

    Returns
    -------
    object
    """
    found: object = setup
    for step in path.split("."):
        found = getattr(found, step, None)
    return found


def needed_paths(setup: Setup, question: AskedFor) -> tuple[str, ...]:
    """List the figures without which a question about a corner cannot be answered.

    Parameters
    ----------
    setup : Setup
        The corner.
    question : AskedFor
        The question.

    Returns
    -------
    tuple of str
        Fields that lead to them.
    """
    if question in _OF_ADJUSTERS and isinstance(setup.anchor, FixedSocket):
        return ()
    spared, further = set(_spared(setup, question)), _further(setup, question)
    return tuple(
        one.path
        for one in figures_of(setup)
        if (question in one.needed_for and one.path not in spared) or one.path in further
    )


def unknown_and_needed(setup: Setup, question: AskedFor) -> tuple[str, ...]:
    """List the figures that a question about a corner needs and that nobody knows.

    Parameters
    ----------
    setup : Setup
        The corner.
    question : AskedFor
        The question.

    Returns
    -------
    tuple of str
        Fields that lead to them.
    """
    return tuple(p for p in needed_paths(setup, question) if is_unknown(figure_at(setup, p)))


def _further(setup: Setup, question: AskedFor) -> tuple[str, ...]:
    """List what this corner needs for a question, and others do not."""
    is_weighed = setup.load.kind is LoadKind.SCALE_READING
    return ("axle.unsprung_mass",) if is_weighed and question in _UNDER_LOAD else ()


_UNDER_LOAD = (
    AskedFor.RATES,
    AskedFor.HEIGHT,
    AskedFor.STRENGTH,
    AskedFor.PLAN,
    AskedFor.NUT,
)


def _spared(setup: Setup, question: AskedFor) -> Iterator[str]:
    """List what other corners need for a question, and this one does not."""
    # A wheel that is free to roll has its load at the hub, wherever the ground is.
    if setup.axle.load_at is LoadPoint.HUB:
        yield "axle.tyre_radius"
    # What a reading shows counts, not where keys and blanks should be.
    if setup.reading is not None:
        keys = ("arm.socket.key_angle", "anchor.socket.key_angle", "bar.blank_angle")
        there = setup.reading.setup
        yield from (key for key in keys if figure_at(setup, key) is figure_at(there, key))
    gas = setup.damper.gas
    if gas is not None and not is_unknown(gas.slope) and not gas.slope.magnitude:
        yield "damper.gas.at_length"
    if isinstance(setup.anchor, KeyLever):
        if question not in (AskedFor.PLAN, AskedFor.NUT):
            yield "adjuster.spacer"
        if question is not AskedFor.FIT:
            yield "anchor.lever_position"


# Questions that nobody asks where there is nothing to turn.
_OF_ADJUSTERS = (AskedFor.NUT, AskedFor.CLOCKING)
