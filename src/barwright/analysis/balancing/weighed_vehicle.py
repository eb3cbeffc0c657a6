"""A vehicle as it was weighed: its corners with bars, and what was read at every wheel."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any, TypeVar

import attrs
import numpy as np

from barwright.analysis.finding import Finding, Topic
from barwright.analysis.tolerance.shifted_answers import uncertainty
from barwright.errors import JobError
from barwright.mechanics.vehicle.vehicle import CORNERS
from barwright.parts.common.record import Record
from barwright.parts.common.source import Figure
from barwright.parts.load import Load, LoadKind
from barwright.parts.measurements.whole_vehicle import (
    AxleAntiRollBar,
    WeighedAxle,
    WeighedWheel,
    WholeVehicle,
)
from barwright.parts.setup import Setup
from barwright.registry.usual.catalogue import usual_error_of, usual_ranges
from barwright.units import MASS, Quantity, quantity, si

__all__ = [
    "PLACES",
    "WeighedVehicle",
    "contradictions",
    "masses",
    "sprung_load",
    "weighed_vehicle",
]

R = TypeVar("R", bound=Record)

PLACES = ("front", "rear")
_SIDES = ("left", "right")
_TOOLS = {"height": "tape", "scale_reading": "scales", "total": "scales"}


@attrs.frozen(kw_only=True)
class WeighedVehicle:
    """Corners with bars, and the whole vehicle that stands on them.

    Parameters
    ----------
    setups : tuple of Setup
        Corners with torsion bars, without readings of their own.
    vehicle : WholeVehicle
        What was read at all wheels, each with its ±, and what is known of both axles.
    """

    setups: tuple[Setup, ...]
    vehicle: WholeVehicle

    def axle(self, place: str) -> WeighedAxle:
        """Return the front or the rear axle."""
        found: WeighedAxle = getattr(self.vehicle, place)
        return found

    def wheel(self, corner: str) -> WeighedWheel:
        """Return what was read at a wheel."""
        place, side = corner.split()
        found: WeighedWheel = getattr(self.axle(place), side)
        return found

    def setup(self, corner: str) -> Setup | None:
        """Return a corner with a bar; none where there is no bar."""
        return next((one for one in self.setups if one.corner == corner), None)

    def on_bars(self, place: str) -> bool:
        """Whether an axle has torsion bars."""
        return any(setup.axle.place.value == place for setup in self.setups)


def weighed_vehicle(setups: Sequence[Setup], vehicle: WholeVehicle) -> WeighedVehicle:
    """Put together what was read of corners and what was read of the whole vehicle.

    Parameters
    ----------
    setups : sequence of Setup
        Corners with bars, both of an axle; their own readings count where the vehicle has none.
    vehicle : WholeVehicle
        What was read at the wheels.

    Returns
    -------
    WeighedVehicle

    Raises
    ------
    JobError
        S207 if they are not both corners of one or two axles of one vehicle.
    """
    _refuse_others(setups)
    ordered = tuple(sorted(setups, key=lambda one: CORNERS.index(one.corner)))
    for setup in ordered:
        place, side = setup.corner.split()
        axle = getattr(vehicle, place)
        wheel = _joined(getattr(axle, side), setup)
        vehicle = attrs.evolve(vehicle, **{place: attrs.evolve(axle, **{side: wheel})})
    return WeighedVehicle(
        setups=tuple(one.with_readings(()) for one in ordered), vehicle=_with_errors(vehicle)
    )


def _refuse_others(setups: Sequence[Setup]) -> None:
    corners = [one.corner for one in setups]
    whole = {f"{corner.split()[0]} {side}" for corner in corners for side in _SIDES}
    one_vehicle = len({one.chassis.id for one in setups}) == 1
    if not one_vehicle or len(corners) != len(whole) or set(corners) != whole:
        raise JobError(
            "S207",
            value=", ".join(corners) or "no corner",
            expected="both corners of each axle with torsion bars, of one vehicle",
            remedy="write corners = ['front left', 'front right']",
            key="corners",
        )


def _joined(wheel: WeighedWheel, setup: Setup) -> WeighedWheel:
    """Take what a corner's own reading says where the wheel itself says nothing."""
    about = dict(wheel.about.items())
    given: dict[str, Any] = {}
    reading = next((one for one in setup.readings if one.height is not None), None)
    if reading is not None:
        about |= {"height": reading.about["height"]} if wheel.height is None else {}
        given["height"] = reading.height
        load = reading.setup.load
        if load.kind is LoadKind.SCALE_READING and wheel.scale_reading is None:
            given["scale_reading"] = load.mass
            about["scale_reading"] = load.about["mass"]
    there = setup if reading is None else reading.corner
    if wheel.nut_turns is None and wheel.pin_distance is None and setup.adjuster is not None:
        field = "nut_turns" if there.pin_distance is None else "pin_distance"
        given[field] = getattr(there, field)
        known = None if reading is None else reading.about.get(field)
        about |= {field: known} if known else {}
    own = {name: value for name, value in given.items() if getattr(wheel, name) is None}
    return attrs.evolve(wheel, **own).described(about)


def _with_errors(vehicle: WholeVehicle) -> WholeVehicle:
    """Give each reading without a ± the usual error of its tool."""
    axles = {}
    for place in PLACES:
        axle = getattr(vehicle, place)
        wheels = {side: _described(getattr(axle, side)) for side in _SIDES}
        bar = _with_steel(axle.anti_roll_bar)
        axles[place] = _described(attrs.evolve(axle, **wheels, anti_roll_bar=bar))
    return _described(attrs.evolve(vehicle, **axles))


def _with_steel(bar: AxleAntiRollBar | None) -> AxleAntiRollBar | None:
    """Give an anti-roll bar that is known by its sizes the usual steel."""
    if bar is None or bar.diameter is None or bar.shear_modulus is not None:
        return bar
    (usual,) = (one.usual for one in usual_ranges() if one.field == "shear_modulus")
    steel = attrs.evolve(bar, shear_modulus=usual.value)
    return steel.described({"shear_modulus": usual})


def _described(record: R) -> R:
    known: dict[str, Figure] = {}
    for field, tool in _TOOLS.items():
        figure = record.about.get(field)
        if figure is not None and figure.tolerance is None:
            known[field] = attrs.evolve(figure, tolerance=usual_error_of(tool).within)
    return record.described(known)


# -- Masses ------------------------------------------------------------------------------


def masses(weighed: WeighedVehicle) -> list[float | None]:
    """Return what each wheel carries [kg], as read or as left over from a sum.

    Parameters
    ----------
    weighed : WeighedVehicle
        The vehicle.

    Returns
    -------
    list of float or None
        In the order of the corners; none where no reading says.
    """
    found = [_kilograms(weighed.wheel(corner).scale_reading) for corner in CORNERS]
    for number, place in enumerate(PLACES):
        _fill(found, _kilograms(weighed.axle(place).scale_reading), [2 * number, 2 * number + 1])
    _fill(found, _kilograms(weighed.vehicle.total), [0, 1, 2, 3])
    return found


def _fill(found: list[float | None], total: float | None, of: Sequence[int]) -> None:
    """Find the one reading that is missing of a sum."""
    missing = [wheel for wheel in of if found[wheel] is None]
    if total is not None and len(missing) == 1:
        found[missing[0]] = total - sum(found[wheel] or 0.0 for wheel in of)


def _kilograms(mass: Quantity | None) -> float | None:
    return None if mass is None else si(mass, MASS)


def contradictions(weighed: WeighedVehicle) -> Iterator[Finding]:
    """Say which sums of scale readings disagree by more than their ± explain.

    Parameters
    ----------
    weighed : WeighedVehicle
        The vehicle.

    Yields
    ------
    Finding
    """
    for place in PLACES:
        axle = weighed.axle(place)
        wheels: list[Record] = [weighed.wheel(f"{place} {side}") for side in _SIDES]
        yield from _differ(axle, "scale_reading", wheels, f"the {place} wheels weighed together")
    parts: list[Record] = [weighed.wheel(corner) for corner in CORNERS]
    yield from _differ(weighed.vehicle, "total", parts, "the whole vehicle weighed by itself")


def _differ(whole: Record, field: str, parts: Sequence[Record], what: str) -> Iterator[Finding]:
    figures = [whole.about.get(field), *(part.about.get("scale_reading") for part in parts)]
    known = [one for one in figures if one is not None]
    if len(known) < len(figures):
        return
    total, *rest = (si(one.value, MASS) for one in known)
    halves = [si(one.tolerance, MASS) for one in known if one.tolerance is not None]
    explained = float(uncertainty(np.array(halves)))
    off = math.fsum(rest) - total
    if abs(off) > explained:
        yield Finding(
            topic=Topic.LOAD,
            text=f"scale readings do not add up: {what} differs from the sum of its wheels. Zero "
            "the scales and weigh again, nobody leaning on the vehicle",
            figure=quantity(off, MASS),
            limit=quantity(explained, MASS),
        )


def sprung_load(mass: float) -> Load:
    """Return a load by the sprung mass [kg]."""
    return Load(kind=LoadKind.SPRUNG, mass=quantity(mass, MASS))
