"""A weighed vehicle on its springs: how it stands with its nuts at other places.

It stands as it was read; what its springs carry there follows from the readings, and how
they follow a turn of a nut from their figures.  Its body is rigid, and only its small tilts
are linear; the springs of its bars are taken with their whole curve.
"""

from __future__ import annotations

from collections.abc import Mapping

import attrs
import numpy as np

from barwright.analysis.balancing.corner_law import CornerLaw
from barwright.analysis.balancing.weighed_vehicle import (
    PLACES,
    WeighedVehicle,
    masses,
    sprung_load,
)
from barwright.analysis.corner.corner import Corner, metres
from barwright.errors import NotConvergedError, QuantityError
from barwright.mechanics.bar.torsion import torsional_rate
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.ride import anti_roll_bar
from barwright.mechanics.vehicle.roll import NO_BAR, AntiRollBar
from barwright.mechanics.vehicle.static_equilibrium import Stance, settle
from barwright.mechanics.vehicle.vehicle import CORNERS, Array, Vehicle
from barwright.parts.measurements.whole_vehicle import AxleAntiRollBar, WeighedAxle
from barwright.parts.setup import Reading, Setup
from barwright.units import (
    LENGTH,
    MASS,
    SHEAR_MODULUS,
    TORSIONAL_RATE,
    WHEEL_RATE,
    quantity,
    shown,
    si,
)

__all__ = ["Resting", "StandingVehicle", "anti_roll_bar_of", "loads_of", "tracks", "wanting"]


def wanting(weighed: WeighedVehicle) -> list[str]:
    """List the figures without which no turn of a nut can be told, as keys of a job.

    Parameters
    ----------
    weighed : WeighedVehicle
        The vehicle.

    Returns
    -------
    list of str
    """
    keys = [
        f"{_keyed(corner)}.scale_reading"
        for corner, mass in zip(CORNERS, masses(weighed), strict=True)
        if mass is None
    ]
    keys += [
        f"{_keyed(setup.corner)}.height"
        for setup in weighed.setups
        if weighed.wheel(setup.corner).height is None
    ]
    keys += [
        f"{place}.wheel_rate"
        for place in PLACES
        if not weighed.on_bars(place) and weighed.axle(place).wheel_rate is None
    ]
    if all(weighed.axle(place).track is None for place in PLACES):
        keys.append("front.track")
    return keys


def _keyed(corner: str) -> str:
    """Name a corner as the keys of a job do."""
    return corner.replace(" ", ".")


def tracks(weighed: WeighedVehicle) -> list[float]:
    """Return the track of both axles [m]; one that is not known is the other's."""
    known = [weighed.axle(place).track for place in PLACES]
    given = [one for one in known if one is not None]
    return [metres(given[0] if one is None else one) for one in known]


def anti_roll_bar_of(bar: AxleAntiRollBar | None, *, track: float) -> AntiRollBar:
    """Return an axle's anti-roll bar, however its record gives it."""
    if bar is None:
        return NO_BAR
    if bar.one_wheel_rate is not None:
        return AntiRollBar(one_wheel_rate=si(bar.one_wheel_rate, WHEEL_RATE))
    if bar.both_wheels_rate is not None:
        return AntiRollBar.of_both_wheels(si(bar.both_wheels_rate, WHEEL_RATE))
    if bar.roll_rate is not None:
        return AntiRollBar.of_roll(si(bar.roll_rate, TORSIONAL_RATE), track=track)
    return _of_sizes(bar)


def _of_sizes(bar: AxleAntiRollBar) -> AntiRollBar:
    """Return an anti-roll bar by its own sizes, all of which the record has."""
    assert bar.shear_modulus is not None  # noqa: S101 - the usual one has been filled in
    ratio = 1.0
    if bar.link_distance is not None:
        ratio = metres(bar.link_distance) / metres(bar.wheel_distance)
    body = torsional_rate(
        shear_modulus=si(bar.shear_modulus, SHEAR_MODULUS),
        active_length=metres(bar.length),
        diameter=metres(bar.diameter),
    )
    return anti_roll_bar(
        torsional_rate=body, arm_length=metres(bar.lever_length), motion_ratio=ratio
    )


def loads_of(weighed: WeighedVehicle) -> Array:
    """Return the load of each tyre [N]; every reading must be there."""
    return np.array([mass or 0.0 for mass in masses(weighed)]) * STANDARD_GRAVITY


@attrs.frozen(kw_only=True, eq=False)
class Resting:
    """The vehicle at rest, with its nuts at some places.

    Parameters
    ----------
    stance : Stance
        Its pose, heights and loads.
    vehicle : Vehicle
        Its equations there.
    """

    stance: Stance
    vehicle: Vehicle


class StandingVehicle:
    """A weighed vehicle of which all figures are known that :func:`wanting` lists.

    Parameters
    ----------
    weighed : WeighedVehicle
        The vehicle.
    """

    def __init__(self, weighed: WeighedVehicle) -> None:
        self.weighed = weighed
        self.tracks = tracks(weighed)
        self.bars = tuple(
            anti_roll_bar_of(weighed.axle(place).anti_roll_bar, track=track)
            for place, track in zip(PLACES, self.tracks, strict=True)
        )
        self.loads = loads_of(weighed)
        self.unsprung = np.array([self._unsprung(corner) for corner in CORNERS])
        self.heights = self._heights()
        # What the anti-roll bars take over while the sides of their axle differ.
        self.own = self.loads - self.unsprung * STANDARD_GRAVITY - self._tied()
        self._refuse_light()
        self.laws = {
            CORNERS.index(setup.corner): self._law(CORNERS.index(setup.corner))
            for setup in weighed.setups
        }
        self.rates = np.array([self._rate(number) for number in range(len(CORNERS))])
        self.vehicle = self._vehicle()

    @property
    def movable(self) -> list[int]:
        """Corners whose nut can be turned."""
        return [n for n, law in self.laws.items() if law.corner.setup.adjuster is not None]

    @property
    def turns(self) -> Array:
        """Where the nuts are now, in turns from mid-thread, of the corners that have one."""
        return np.array([self.laws[corner].turns for corner in self.movable])

    def rest(self, turns: Array) -> Resting:
        """Find how it stands with its nuts at some places, by Newton's method."""
        nuts = dict(zip(self.movable, turns.tolist(), strict=True))
        heights = self.heights
        for _ in range(_ITERATIONS):
            loads, rates = self._springs(heights, nuts)
            vehicle = attrs.evolve(self.vehicle, wheel_rates=rates)
            stance = settle(vehicle, heights + loads / rates)
            if np.max(np.abs(stance.heights - heights)) < _SETTLED:
                return Resting(stance=stance, vehicle=vehicle)
            heights = stance.heights
        raise NotConvergedError(
            "N101",
            value="a vehicle that does not come to rest",
            expected="a rest",
            remedy="report this vehicle",
        )

    def _springs(self, heights: Array, nuts: Mapping[int, float]) -> tuple[Array, Array]:
        """Load and rate of each spring at heights [m] of the body."""
        loads = self.own + self.rates * (self.heights - heights)
        rates = self.rates.copy()
        for corner, law in self.laws.items():
            state = law.at(float(heights[corner]), turns=nuts.get(corner, law.turns))
            loads[corner], rates[corner] = state.load, state.wheel_rate
        return loads, rates

    @property
    def hub_heights(self) -> list[float]:
        """Height of the hubs of both axles above the road [m]: the radius of known tyres."""
        known = {one.axle.place.value: one.axle.tyre_radius for one in self.weighed.setups}
        return [metres(known.get(place, self._first.axle.tyre_radius)) for place in PLACES]

    def roll_centres(self) -> list[float | None]:
        """Return the height of both roll centres above the road [m], as far as it is known."""
        return [self._roll_centre(number) for number in range(len(PLACES))]

    def _roll_centre(self, number: int) -> float | None:
        given = self.weighed.axle(PLACES[number]).roll_centre
        law = self.laws.get(2 * number)
        if given is not None or law is None:
            return None if given is None else metres(given)
        return law.roll_centre(half_track=self.tracks[number] / 2.0)

    # -- What it is made of ------------------------------------------------------------

    def _axle(self, number: int) -> WeighedAxle:
        return self.weighed.axle(PLACES[number // 2])

    def _unsprung(self, corner: str) -> float:
        """Unsprung mass of a wheel [kg]: of an axle that says nothing, the other axle's."""
        setup = self.weighed.setup(corner)
        if setup is not None:
            return si(setup.axle.unsprung_mass, MASS)
        given = self._axle(CORNERS.index(corner)).unsprung_mass
        return si(self._first.axle.unsprung_mass if given is None else given, MASS)

    def _tyre(self, number: int) -> float:
        """Rate of a tyre [N/m]: of an axle that says nothing, the other axle's."""
        setup = self.weighed.setup(CORNERS[number])
        given = setup.axle.tyre_rate if setup is not None else self._axle(number).tyre_rate
        return si(self._first.axle.tyre_rate if given is None else given, WHEEL_RATE)

    @property
    def _first(self) -> Setup:
        return self.weighed.setups[0]

    def _heights(self) -> Array:
        """Hub to arch [m]; of an axle without a reading, alike on both sides."""
        given = [self.weighed.wheel(corner).height for corner in CORNERS]
        for left in (0, 2):
            if given[left] is None or given[left + 1] is None:
                given[left : left + 2] = [None, None]
        return np.array([_NOMINAL if one is None else metres(one) for one in given])

    def _tied(self) -> Array:
        """Return what the anti-roll bars carry as it stands [N]."""
        across = self.heights[0::2] - self.heights[1::2]
        ties = np.array([float(bar.one_wheel_rate) for bar in self.bars]) * across
        return np.stack([-ties, ties], axis=-1).ravel()

    def _refuse_light(self) -> None:
        for corner, mass in zip(CORNERS, self.own / STANDARD_GRAVITY, strict=True):
            if mass <= 0.0:
                raise QuantityError(
                    "Q302",
                    value=f"{shown(quantity(float(mass), MASS), 0)} on the spring",
                    expected="more than the unsprung mass, and what an anti-roll bar takes over",
                    remedy="check the scale reading, the unsprung mass and both heights",
                    key=f"balance.{_keyed(corner)}.scale_reading",
                )

    def _law(self, number: int) -> CornerLaw:
        """Law of a corner that is known to carry its load at the height that was read."""
        setup = self.weighed.setup(CORNERS[number])
        wheel = self.weighed.wheel(CORNERS[number])
        assert setup is not None  # noqa: S101 - a corner with a bar
        turns = "0 turn" if wheel.nut_turns is None else wheel.nut_turns
        load = sprung_load(float(self.own[number]) / STANDARD_GRAVITY)
        height = quantity(float(self.heights[number]), LENGTH)
        try:
            there = attrs.evolve(setup, nut_turns=turns, pin_distance=wheel.pin_distance, load=load)
            corner = Corner(there.with_readings([Reading(setup=there, height=height)]))
            corner.check_nut()
            spring = corner.torsional_rates
            assert spring is not None  # noqa: S101 - the question has refused what does not fit
            return CornerLaw(corner, spring, height=height)
        except QuantityError as error:
            error.key = f"balance.{_keyed(setup.corner)}.{error.key.rpartition('.')[2]}"
            raise

    def _rate(self, number: int) -> float:
        if number in self.laws:
            law = self.laws[number]
            return law.at(law.height, turns=law.turns).wheel_rate
        rate = self._axle(number).wheel_rate
        assert rate is not None  # noqa: S101 - the question has asked for it
        return si(rate, WHEEL_RATE)

    def _vehicle(self) -> Vehicle:
        """Body, springs and tyres, level as it stands now."""
        base = metres(self._first.chassis.wheelbase)
        wheels = [
            (forward, side * track / 2.0)
            for forward, track in zip((base, 0.0), self.tracks, strict=True)
            for side in (1, -1)
        ]
        sprung = self.loads / STANDARD_GRAVITY - self.unsprung
        middle = sprung @ np.array(wheels) / np.sum(sprung)
        tyres = np.array([self._tyre(number) for number in range(len(CORNERS))])
        height = self.weighed.vehicle.centre_of_gravity_height
        known = height is not None
        return Vehicle(
            mass=float(np.sum(sprung)),
            # Without its height the leaning weight is left out: the axes go through it.
            centre_of_gravity=(*middle, metres(height)),
            wheels=wheels,
            wheel_rates=self.rates,
            tyre_rates=tyres,
            front_bar=self.bars[0],
            rear_bar=self.bars[1],
            unsprung_masses=self.unsprung,
            roll_centres=[centre or 0.0 for centre in self.roll_centres()] if known else 0.0,
            arches=self.heights - self.loads / tyres,
        )


_ITERATIONS = 50
# A height that has come to rest [m].
_SETTLED = 1e-10
# Of an axle whose heights nobody read: only their change counts [m].
_NOMINAL = 0.4
