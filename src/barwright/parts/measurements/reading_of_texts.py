"""A reading of a corner from texts, each with its ±."""

from __future__ import annotations

from collections.abc import Mapping

import attrs

from barwright.errors import SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.parts.common.source import About, Figure
from barwright.parts.load import Load, LoadKind
from barwright.parts.setup import Reading, Setup
from barwright.units import ANGLE, LENGTH, MASS, TURNS, Kind, Range, read_figure, to_kind

__all__ = ["measured"]


@checks_arguments
def measured(
    setup: Setup,
    *,
    height: FigureLike | None = None,
    arm_angle: FigureLike | None = None,
    scale_reading: FigureLike | None = None,
    sprung_mass: FigureLike | None = None,
    nut_turns: FigureLike | None = None,
    pin_distance: FigureLike | None = None,
) -> Reading:
    """Return what was measured of a corner at one time; in a text the ± may stand.

    Parameters
    ----------
    setup : Setup
        The corner with the parts and teeth that it then had.
    height, arm_angle : str or Quantity, optional
        Hub to arch, or the angle of the arm above the horizontal; one of the two.
    scale_reading, sprung_mass : str or Quantity, optional
        What the corner then carried, by a scale under the tyre or without the unsprung
        mass; that of the setup, if neither is given.
    nut_turns, pin_distance : str or Quantity, optional
        Where the nut then stood, by turns from the middle of its thread or as measured;
        where the setup has it, if neither is given.

    Returns
    -------
    Reading

    Raises
    ------
    QuantityError
        For a figure that is none of its kind.
    SchemaError
        S207 if one of these pairs is given twice, or neither height nor angle is.

    Examples
    --------
    >>> import barwright as bw
    >>> van = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> reading = measured(van, height="391 mm ± 2 mm", scale_reading="326 kg ± 1 kg")
    >>> f"{reading.about['height'].tolerance:~P}"
    '2.0 mm'
    """
    given: dict[str, tuple[FigureLike | None, Kind, Range]] = {
        "height": (height, LENGTH, "positive"),
        "arm_angle": (arm_angle, ANGLE, "any"),
        "nut_turns": (nut_turns, TURNS, "any"),
        "pin_distance": (pin_distance, LENGTH, "any"),
    }
    figures = _figures(given)
    masses = {"scale_reading": scale_reading, "sprung_mass": sprung_mass}
    loads = _figures({name: (mass, MASS, "positive") for name, mass in masses.items()})
    there = attrs.evolve(setup, reading=None, further_readings=(), load=_load(loads, setup.load))
    values = {name: figure.value for name, figure in figures.items()}
    return Reading(setup=there, about=About(figures), **values)


def _load(given: Mapping[str, Figure], otherwise: Load) -> Load:
    """Return the load that was measured, or the one that the setup has."""
    if len(given) > 1:
        raise SchemaError(
            "S207",
            value=" and ".join(given),
            expected="only one of them, because both say what the corner carried",
            remedy="leave one out",
            key="scale_reading",
        )
    for name, figure in given.items():
        kind = LoadKind.SCALE_READING if name == "scale_reading" else LoadKind.SPRUNG
        return Load(kind=kind, mass=figure.value, about=About({"mass": figure}))
    return otherwise


def _figures(
    given: Mapping[str, tuple[FigureLike | None, Kind, Range]],
) -> dict[str, Figure]:
    """Read the figures that are given."""
    return {
        name: _figure(name, value, kind, allowed)
        for name, (value, kind, allowed) in given.items()
        if value is not None
    }


def _figure(name: str, value: FigureLike, kind: Kind, allowed: Range) -> Figure:
    """Read a figure, of a text its ± too."""
    if isinstance(value, str):
        read = read_figure(value, kind, key=name, allowed=allowed)
        return Figure(value=read.value, tolerance=read.tolerance, written=read.written)
    return Figure(value=to_kind(value, kind, key=name, allowed=allowed))
