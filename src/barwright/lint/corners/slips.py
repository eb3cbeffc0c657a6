"""How else a figure may have been meant: slips of the pen, other units, another datum."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

from barwright.analysis.tolerance.figures import HeldFigure
from barwright.parts.common.fields import figure_fields
from barwright.parts.setup import Setup
from barwright.units import ANGLE, LENGTH, MASS, is_unknown, si

__all__ = ["digits_exchanged", "written_otherwise"]

_POUND = 0.45359237
_GRAVITY = 9.80665
_INCH = 25.4
_QUARTER = math.pi / 2.0


def written_otherwise(held: HeldFigure, setup: Setup) -> Iterator[tuple[float, str]]:
    """List what may have been meant by a figure.

    Parameters
    ----------
    held : HeldFigure
        The figure.
    setup : Setup
        The corner that it belongs to.

    Yields
    ------
    tuple of float, str
        The number in the figure's own unit, and what was then written wrong.
    """
    kind, allowed = figure_fields(type(held.holder))[held.field]
    number = float(held.value.magnitude)
    yield from ((other, "two digits exchanged") for other in digits_exchanged(number))
    if number == 0.0:
        return
    if allowed == "any":
        yield -number, "the sign"
    yield number * 10.0, "the decimal point"
    yield number / 10.0, "the decimal point"
    if kind is ANGLE:
        if held.path.startswith("axle."):
            # Counted from the horizontal, and small.
            return
        yield from _angles(number, quarter=_QUARTER / si(held.value, ANGLE) * number)
        return
    yield number * 2.0, "half of it was given"
    yield number / 2.0, "twice of it was given"
    if kind is LENGTH:
        yield number * _INCH, "inches given as mm"
    if kind is MASS:
        yield from _masses(number, held, setup)
    if held.field in ("standard_height", "measured_height"):
        yield from _heights(number, held, setup)


def digits_exchanged(number: float) -> Iterator[float]:
    """List the numbers that exchanging two neighbouring digits gives.

    Parameters
    ----------
    number : float
        The number as written.

    Yields
    ------
    float
    """
    written = f"{number:.8g}"
    if "e" in written:
        return
    places = [place for place, letter in enumerate(written) if letter.isdigit()]
    for one, other in itertools.pairwise(places):
        if written[one] != written[other]:
            letters = list(written)
            letters[one], letters[other] = letters[other], letters[one]
            yield float("".join(letters))


def _angles(number: float, *, quarter: float) -> Iterator[tuple[float, str]]:
    """Other lines that an angle may be counted from."""
    yield number + quarter, "counted from a line 90° off"
    yield number - quarter, "counted from a line 90° off"
    yield 2.0 * quarter - number, "the other way round from the line opposite"


def _masses(number: float, held: HeldFigure, setup: Setup) -> Iterator[tuple[float, str]]:
    yield number * _POUND, "pounds given as kg"
    yield number / _GRAVITY, "newtons given as kg"
    unsprung = setup.axle.unsprung_mass
    if held.field == "standard_mass" and not is_unknown(unsprung):
        less = number - float(unsprung.m_as(held.value.units))
        yield less, "a scale reading, with the unsprung mass in it"


def _heights(number: float, held: HeldFigure, setup: Setup) -> Iterator[tuple[float, str]]:
    radius = setup.axle.tyre_radius
    if not is_unknown(radius):
        less = number - float(radius.m_as(held.value.units))
        yield less, "from the ground, not from the hub"
