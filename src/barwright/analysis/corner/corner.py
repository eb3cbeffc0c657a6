"""A corner in SI floats, made once for a setup and a call: every question starts here."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import cast

import attrs
import numpy as np

from barwright.analysis.corner.anchorage import Span, anchorage_of, change_per_turn, setting_span
from barwright.analysis.corner.bar.seating import seated_length, seating_of
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates, torsional_rates
from barwright.analysis.corner.geometry import CornerGeometry
from barwright.analysis.corner.measured_point import (
    MeasuredPoint,
    angle_error,
    change_over,
    measured_angle,
    out_of_travel,
    setting_error,
    standard_error,
)
from barwright.analysis.corner.suspension import metres, radians
from barwright.computed_once import cached_property
from barwright.errors import GeometryError, QuantityError
from barwright.mechanics.anchorage.interface import Anchorage
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import statics
from barwright.mechanics.spline import clocking
from barwright.mechanics.spline.seating import Seating
from barwright.mechanics.uncertainty import calibration
from barwright.parts.load import LoadKind
from barwright.parts.setup import Reading
from barwright.units import (
    LENGTH,
    MASS,
    TURNS,
    WHEEL_RATE,
    Quantity,
    is_quantity,
    quantity,
    shown,
    si,
)

__all__ = ["TURNS_ROUNDING", "Corner", "Span", "metres", "radians"]


@attrs.frozen(eq=False, slots=False)
class Corner(CornerGeometry):
    """A setup in SI floats; each is computed on first use and kept.

    A public question makes one of its setup and hands it to all that it asks in turn.
    A corner whose bar does not fit still has a geometry.

    Parameters
    ----------
    setup : Setup
        The corner's records.
    """

    # -- The bar where it lies ------------------------------------------------

    @cached_property
    def seat(self) -> Seating:
        """Position of the bar in its sockets."""
        return seating_of(self.setup)

    @cached_property
    def seated_length(self) -> float | None:
        """Active length of the bar [m]; none if it does not lie in both sockets."""
        return seated_length(self.setup, self.seat)

    @cached_property
    def torsional_rates(self) -> TorsionalRates | None:
        """Rates of bar and tube; none if the bar does not lie in both sockets."""
        return torsional_rates(self.setup, active_length=self.seated_length)

    @cached_property
    def anchorage(self) -> Anchorage:
        """What holds the anchor end: a lever on its bolt, or a fixed socket."""
        return anchorage_of(self.setup)

    def hold(self, twist: Real, *, rate: float) -> tuple[Real, Real]:
        """Torque [N·m] of the bar at a twist [rad], and its change with arm angle [N·m/rad].

        Every answer asks here: an adjuster's lever holds the bar one way, a fixed socket
        both ways.
        """
        return statics.bar_hold(twist, rate=rate, holds_both_ways=self.anchorage.holds_both_ways)

    def is_slack(self, twist: float) -> bool:
        """Whether the bar carries no torque at a twist [rad]."""
        _, stiffness = self.hold(twist, rate=1.0)
        return not stiffness

    # -- Load -----------------------------------------------------------------

    @cached_property
    def sprung_mass(self) -> float:
        """Mass that the corner carries [kg]."""
        mass = si(self.setup.load.mass, MASS)
        if self.setup.load.kind is LoadKind.SCALE_READING:
            mass = mass - si(self.setup.axle.unsprung_mass, MASS)  # a new array, not the kept one
        return mass

    @cached_property
    def load(self) -> float:
        """Sprung load [N]."""
        return self.sprung_mass * statics.STANDARD_GRAVITY

    @cached_property
    def tyre_rate(self) -> float:
        """Vertical rate of the tyre [N/m]."""
        return si(self.setup.axle.tyre_rate, WHEEL_RATE)

    # -- Adjuster -------------------------------------------------------------

    @cached_property
    def setting_span(self) -> Span:
        """Least and greatest place of the lever's pin, or of the bolt's end [m]."""
        return setting_span(self.setup.adjuster)

    @cached_property
    def setting_middle(self) -> float:
        """Its place in the middle of the thread [m]."""
        return sum(self.setting_span) / 2.0

    @cached_property
    def setting_per_turn(self) -> float:
        """Its change with a clockwise turn [m]; 0 where there is nothing to turn."""
        return change_per_turn(self.setup.adjuster)

    @cached_property
    def lever_closes(self) -> bool:
        """Whether the lever reaches its pin, or its bolt's end, over the whole thread."""
        if self.setup.adjuster is None:
            return True
        low, high = self.anchorage.reach
        return bool(low < self.setting_span[0] and self.setting_span[1] < high)

    @cached_property
    def lever_span(self) -> Span:
        """Least and greatest angle of the lever [rad]."""
        one, other = (float(self.anchorage.lever_angle(end)) for end in self.setting_span)
        return min(one, other), max(one, other)

    @cached_property
    def lever_middle(self) -> float:
        """Angle of the lever in the middle of the thread [rad]."""
        return plain(self.anchorage.lever_angle(self.setting_middle))

    @cached_property
    def turns_span(self) -> Span:
        """Turns from the middle at both ends of the thread, clockwise positive."""
        if self.setup.adjuster is None:
            return 0.0, 0.0
        low, high = self.setting_span
        half = (high - low) / 2.0 / abs(self.setting_per_turn)
        return -half, half

    def setting_at_turns(self, turns: Real) -> Real:
        """Place of the lever's pin or of the bolt's end [m], turned clockwise from the middle."""
        return self.setting_middle + turns * self.setting_per_turn

    def lever_at_turns(self, turns: Real) -> Real:
        """Lever angle [rad], turned clockwise from the middle."""
        return self.anchorage.lever_angle(self.setting_at_turns(turns))

    def turns_at_lever(self, lever_angle: float) -> float:
        """Count the turns from the middle, clockwise positive, at a lever angle [rad].

        Infinite where no turn leads there.
        """
        try:
            setting = float(self.anchorage.setting(lever_angle))
        except GeometryError:
            return math.inf
        if self.setup.adjuster is None:
            return 0.0
        return (setting - self.setting_middle) / self.setting_per_turn

    # -- Clocking -------------------------------------------------------------

    @cached_property
    def keyed_angle(self) -> float:
        """Free angle beyond the lever's with both blanks on their keys [rad].

        What a reading shows counts, not where keys and blanks should be.
        """
        if self.setup.reading is None:
            return self._keyed_angle_by(self._keys)
        there = self.beside(self.setup.reading.corner)
        # A key that is still there cancels, known or not; that of another part counts.
        pairs = zip(self._keys, there._keys, strict=True)  # noqa: SLF001 - of the same class
        moved = [
            (0.0, 0.0) if here is then else (radians(here), radians(then)) for here, then in pairs
        ]
        here, then = (self._keyed_angle_by(keys) for keys in zip(*moved, strict=True))
        return self.read_angle - there.clocking_steps * there.step + (here - then)

    @property
    def _keys(self) -> tuple[Quantity, Quantity, Quantity]:
        """Angles of both keys and between the blanks."""
        setup = self.setup
        return setup.arm.socket.key_angle, setup.anchor.socket.key_angle, setup.bar.blank_angle

    def _keyed_angle_by(self, keys: Iterable[Quantity | float]) -> float:
        """Free angle beyond the lever's [rad] with both blanks on keys at some angles."""
        arm, anchor, blank = (radians(key) if is_quantity(key) else float(key) for key in keys)
        found = clocking.free_angle(
            0.0, arm_key=arm, anchor_key=anchor, blank_angle=blank, sense=self.sense, rotation=0.0
        )
        return plain(found)

    @cached_property
    def read_angle(self) -> float:
        """Free angle beyond the lever's that the readings show [rad], in the teeth of then.

        Of several readings the mean counts, each weighted by its own ±, if all have one.
        """
        readings = self.setup.readings
        corners = [self.beside(reading.corner) for reading in readings]
        points = list(map(Corner.point_at, corners, readings))
        rate = cast("TorsionalRates", corners[0].torsional_rates).system
        errors = np.array([point.error(rate) for point in points])
        found, _ = calibration.clocked_angle(
            np.array([point.twist for point in points]),
            torque=np.array([point.torque for point in points]),
            rate=rate,
            uncertainty=errors if np.all(errors > 0.0) else 1.0,
        )
        return float(found)

    def point_at(self, reading: Reading) -> MeasuredPoint:
        """Where a corner, as it was at a reading, stood, and what its bar carried.

        Parameters
        ----------
        reading : Reading
            What was measured of it.

        Raises
        ------
        QuantityError
            Q302 for a height or an angle at which no corner with these parts stands.

        References
        ----------
        Its free angle is ``φ_free = φ - T(φ) / k``; derived in this project.
        """
        angle, rates = measured_angle(self, reading), self.torsional_rates
        if angle is None or rates is None:
            raise out_of_travel(self, reading)
        motion = self.motion(angle)
        load, springs = self.load, self.springs
        followed = statics.arm_per_free_angle(motion, rate=rates.system, load=load, springs=springs)
        read = angle_error(reading, hub_slope=float(motion.hub.slope))
        set_to = setting_error(reading, per_turn=self.setting_per_turn)
        lever = change_over(self.anchorage.lever_angle, at=self.setting_now, by=set_to)
        mass = standard_error(self.setup.load, "mass", MASS)
        return MeasuredPoint(
            arm_angle=angle,
            lever_angle=self.nut_lever,
            torque=float(statics.bar_torque(motion, load=load, springs=springs)),
            # The less the arm follows the free angle, the more of its error falls on that.
            angle_error=math.hypot(read / float(followed), lever),
            torque_error=mass * statics.STANDARD_GRAVITY * abs(float(motion.load.slope)),
            hub_slope=float(motion.hub.slope),
            followed=float(followed),
        )

    @cached_property
    def step(self) -> float:
        """Smallest step of clocking [rad]."""
        bar = self.setup.bar
        return clocking.smallest_step(
            arm_teeth=bar.arm_end.teeth, anchor_teeth=bar.anchor_end.teeth
        )

    @cached_property
    def clocking_steps(self) -> int:
        """Steps of clocking from both blanks on their keys to the teeth that lie there."""
        bar = self.setup.bar
        return int(
            clocking.rotation_steps(
                arm_tooth=self.setup.arm_tooth,
                anchor_tooth=self.setup.anchor_tooth,
                arm_teeth=bar.arm_end.teeth,
                anchor_teeth=bar.anchor_end.teeth,
            )
        )

    @cached_property
    def clocked_angle(self) -> float:
        """Free angle beyond the lever's as the bar is now clocked [rad].

        Taken the short way round, since a rotation by a whole turn is none.
        """
        turned = self.keyed_angle + self.clocking_steps * self.step
        middle = sum(self.travel) / 2.0 - self.lever_middle
        return middle + plain(np.remainder(turned - middle + np.pi, 2.0 * np.pi)) - np.pi

    def holds_turns(self, turns: float) -> bool:
        """Whether the thread holds so many turns from its middle."""
        low, high = self.turns_span
        return low - TURNS_ROUNDING <= turns <= high + TURNS_ROUNDING

    @cached_property
    def turns_now(self) -> float:
        """Turns of what is turned from the middle of its thread, as it is now set."""
        distance = self.setup.pin_distance
        if distance is None:
            return si(self.setup.nut_turns, TURNS)
        return (metres(distance) - self.setting_middle) / self.setting_per_turn

    def check_nut(self) -> None:
        """Refuse a setting of the nut that its thread does not hold."""
        if self.holds_turns(self.turns_now):
            return
        distance = self.setup.pin_distance
        if distance is None:
            low, high = self.turns_span
            raise QuantityError(
                "Q302",
                value=shown(self.setup.nut_turns),
                expected=f"{low:.3f} to {high:.3f} turns, the range of the thread",
                remedy="count the turns from the middle of the thread, clockwise positive",
                key="nut_turns",
            )
        start, end = (shown(quantity(end, LENGTH), 1) for end in self.setting_span)
        raise QuantityError(
            "Q302",
            value=shown(distance),
            expected=f"{start} to {end}, the range of the thread",
            remedy="measure from the bolt's pivot or head to the middle of the lever's pin, or "
            "from the cross-member to the end of a bolt that pushes",
            key="pin_distance",
        )

    @cached_property
    def nut_lever(self) -> float:
        """Lever angle as the nut is now set [rad]."""
        self.check_nut()
        return plain(self.lever_at_turns(self.turns_now))

    @cached_property
    def setting_now(self) -> float:
        """Place of the lever's pin or of the bolt's end, as it is now set [m]."""
        return plain(self.setting_at_turns(self.turns_now))

    @cached_property
    def free_angle(self) -> float:
        """Arm angle without torque, as clocked and set now [rad]."""
        return self.nut_lever + self.clocked_angle


TURNS_ROUNDING = 1e-6
"""Rounding of nut turns that were themselves found from a lever angle."""
