"""Which single slip of the pen would best explain a corner that does not stand as it should."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

import attrs

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.rates.ride_height import free_angle_for
from barwright.analysis.tolerance.figure_shifter import FigureShifter
from barwright.analysis.tolerance.figures import (
    HeldFigure,
    TolerancedFigure,
    held_figures,
    read_places,
)
from barwright.analysis.tolerance.plan_tolerance import PlanUncertainty
from barwright.errors import BarwrightError
from barwright.lint.corners.slips import written_otherwise
from barwright.lint.subject.place import short
from barwright.parts.adjuster import LeverSide
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import Part
from barwright.parts.setup import Setup
from barwright.units import ANGLE, Quantity, quantity_of_unit, shown, si, unit_spelling

__all__ = ["MOST_EXPLAINED", "figure_name", "off_middle", "off_tolerance", "suspects"]

MOST_EXPLAINED = 20
"""Corners of a pack of which a rule says what may explain them: it takes long to find."""

_MOST_SLIPS = 3
_MOST_FIGURES = 10

# Beyond this share of a length or a mass, or these angles, no single figure is so wrong by
# anything but a slip that the first list would hold.
_LARGEST_SHARE = 0.3
_LARGEST_ANGLE = math.radians(30.0)

# Figures that move the height much, those that are most often wrong first (common practice, no
# source).
_WEIGHTY = (
    "arm.socket.key_angle",
    "anchor.socket.key_angle",
    "axle.standard_mass",
    "bar.diameter",
    "arm.radius",
    "axle.standard_height",
    "axle.measured_height",
    "axle.measured_angle",
    "bar.blank_angle",
    "anchor.anchor_angle",
    "anchor.lever_radius",
    "anchor.outside_diameter",
    "anchor.face_offset",
    "adjuster.mounting.pivot_distance",
    "adjuster.mounting.pivot_angle",
    "adjuster.mounting.line_distance",
    "adjuster.mounting.foot_angle",
    "adjuster.mounting.foot_position",
    "adjuster.thread_start",
    "adjuster.thread_end",
    "bar.material.shear_modulus",
)

# What a slip may be in besides.
_TRIED = (
    *_WEIGHTY,
    "bar.length",
    "damper.open_length",
    *(
        f"axle.suspension.{name}"
        for name in ("top_outboard", "top_up", "mount_outboard", "mount_up", "foot_along")
    ),
)


def off_middle(corner: Corner) -> float | None:
    """Find what the standard height asks of the lever, from the middle of its thread.

    Parameters
    ----------
    corner : Corner
        With both blanks on their keys.

    Returns
    -------
    float or None
        Angle [rad], the short way round; none where no such height can be.
    """
    spring = corner.torsional_rates
    if spring is None or not corner.lever_closes:
        return None
    angle = corner.angle_at_height(metres(corner.setup.axle.standard_height))
    if angle is None:
        return None
    off = free_angle_for(corner, spring, angle) - corner.keyed_angle - corner.lever_middle
    return math.remainder(off, math.tau)


def off_tolerance(corner: Corner) -> float:
    """Find how much of that tolerances explain [rad].

    Parameters
    ----------
    corner : Corner
        With a standard height within its travel.

    Returns
    -------
    float
    """
    height = metres(corner.setup.axle.standard_height)
    return PlanUncertainty(corner, height=height).lever_angle()


def figure_name(setup: Setup, path: str) -> str:
    """Name a figure as its pack does: the part's id, or the axle's own key.

    Parameters
    ----------
    setup : Setup
        The corner.
    path : str
        Fields of the setup that lead to it.

    Returns
    -------
    str
    """
    names = path.split(".")
    holder: object = setup
    name = ".".join(names[1:])
    for index, step in enumerate(names[:-1], 1):
        holder = getattr(holder, step)
        if isinstance(holder, Part):
            name = f"{short(holder.id)}.{'.'.join(names[index:])}"
    return name


def suspects(corner: Corner, *, within: float) -> str:
    """Say which single figure, written otherwise, would put the lever into its middle.

    Parameters
    ----------
    corner : Corner
        With both blanks on their keys.
    within : float
        How near the middle is near enough [rad].

    Returns
    -------
    str
        For a reader; empty where there is none.
    """
    trial = _Trial(corner)
    slips = sorted(trial.slips(within), key=lambda one: one.rank)[:_MOST_SLIPS]
    figures = sorted(trial.figures(), key=lambda one: one.rank)[:_MOST_FIGURES]
    told = [one.text for one in (*slips, *figures)]
    return f"one of these alone would explain it: {'; '.join(told)}" if told else ""


@attrs.frozen
class _Suspect:
    """A figure written otherwise; the likelier, the less its rank."""

    text: str
    rank: float


class _Trial:
    """A corner whose figures are tried otherwise, one at a time."""

    def __init__(self, corner: Corner) -> None:
        self._corner = corner
        self._off = off_middle(corner)
        setup = corner.setup
        pack = setup.chassis.id.partition(":")[0]
        read = read_places(setup)
        self._shifter = FigureShifter(setup, read)
        self._own: dict[str, HeldFigure] = {}
        for held in held_figures(setup):
            # A record of another pack is not this pack's to correct.
            if held.path in _TRIED and str(held.key[0]).startswith(f"{pack}:"):
                self._own[held.path] = held

    def slips(self, within: float) -> Iterator[_Suspect]:
        """List the slips of the pen that would explain it."""
        setup = self._corner.setup
        for path, held in self._own.items():
            name = figure_name(setup, path)
            for number, why in written_otherwise(held, setup):
                off = self._off_with(held, number)
                if off is not None and abs(off) <= within:
                    value = shown(_value(held, number))
                    yield _Suspect(
                        f"{name} {value}, not {shown(held.value)} ({why})", _rounded(off)
                    )
        yield from self._lever_on_the_other_side(within)

    def _lever_on_the_other_side(self, within: float) -> Iterator[_Suspect]:
        adjuster = self._corner.setup.adjuster
        if adjuster is None:
            return
        here = adjuster.lever_lies
        other = next(side for side in LeverSide if side is not here)
        setup = self._corner.setup
        off = self._off_of(
            # Against a key lever there is no other side.
            lambda: attrs.evolve(setup, adjuster=attrs.evolve(adjuster, lever_lies=other))
        )
        if off is not None and abs(off) <= within:
            text = f"{short(adjuster.id)}.lever_lies {other.value!r}, not {here.value!r}"
            yield _Suspect(text, _rounded(off))

    def figures(self) -> Iterator[_Suspect]:
        """List figures that would explain it if they were a little larger or smaller."""
        for path in _WEIGHTY if self._off is not None else ():
            held = self._own.get(path)
            # A bar without an angle between its blanks has none on either side.
            is_none = held is None or (path == "bar.blank_angle" and not held.value.magnitude)
            number = None if is_none or held is None else self._solved(held)
            if held is not None and number is not None:
                name = figure_name(self._corner.setup, path)
                value = shown(_value(held, float(f"{number:.4g}")))
                share = abs(number - float(held.value.magnitude)) / _room(held)
                yield _Suspect(f"{name} of about {value}", _rounded(share))

    def _solved(self, held: HeldFigure) -> float | None:
        """Find the number of a figure that puts the lever into its middle, if it is near."""
        start, off = float(held.value.magnitude), self._off
        room = _room(held)
        last, number = start, start + room / 100.0
        for _ in range(_ROUNDS):
            here = self._off_with(held, number)
            if here is not None and abs(here) < _SOLVED:
                return number
            if here is None or off is None or here == off:
                return None
            last, off, number = number, here, number - here * (number - last) / (here - off)
            if abs(number - start) > room:
                return None
        return None

    def _off_with(self, held: HeldFigure, number: float) -> float | None:
        unit = unit_spelling(held.value)
        way = TolerancedFigure(
            figure=held.path, value=held.value, half_width=quantity_of_unit(1.0, unit), key=held.key
        )
        share = number - float(held.value.magnitude)
        if held.path == _MASS:
            mass = _value(held, number)
            return self._off_of(lambda: _loaded(self._shifter.moved({way: share}), mass))
        return self._off_of(lambda: self._shifter.moved({way: share}))

    def _off_of(self, make: Callable[[], Setup]) -> float | None:
        try:
            return off_middle(self._corner.beside(make()))
        except BarwrightError:
            return None


_ROUNDS = 6

# Nearer than this [rad], the lever is in its middle.
_SOLVED = 1e-3

_MASS = "axle.standard_mass"


def _loaded(setup: Setup, mass: Quantity) -> Setup:
    """Put the standard mass on a corner, which carries it as its load."""
    return attrs.evolve(setup, load=attrs.evolve(setup.load, mass=mass))


def _rounded(share: float) -> float:
    """Leave out what left and right differ by."""
    return round(abs(share), 4)


def _value(held: HeldFigure, number: float) -> Quantity:
    return quantity_of_unit(number, unit_spelling(held.value))


def _room(held: HeldFigure) -> float:
    """How far a figure may be changed, in its own unit."""
    kind, _ = figure_fields(type(held.holder))[held.field]
    if kind is ANGLE:
        return _LARGEST_ANGLE / si(_value(held, 1.0), ANGLE)
    return abs(float(held.value.magnitude)) * _LARGEST_SHARE
