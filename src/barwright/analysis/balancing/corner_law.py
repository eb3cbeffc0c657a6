"""What a corner with a bar carries at a height, with its nut at a place."""

from __future__ import annotations

import attrs

from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner, metres, radians
from barwright.mechanics.common import solve
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import statics
from barwright.mechanics.linkage.arm_and_strut import Strut, SwingArm
from barwright.mechanics.linkage.double_wishbone import DoubleWishbone
from barwright.mechanics.linkage.wheel_carrier import Point, turned
from barwright.units import Quantity

__all__ = ["CornerLaw", "SpringState"]


@attrs.frozen(kw_only=True)
class SpringState:
    """What a corner carries, SI floats.

    Parameters
    ----------
    load : float [N]
        Of the spring at the wheel.
    wheel_rate : float [N/m]
        Its rate there; never so small that a search for rest goes astray.
    angle : float [rad]
        Of the arm.
    torque : float [N·m]
        Of the bar; 0 where it is slack.
    """

    load: float
    wheel_rate: float
    angle: float
    torque: float


class CornerLaw:
    """Load and rate of a corner, by its height and its nut.

    Parameters
    ----------
    corner : Corner
        The corner with a reading of the height at which it carries its load.
    spring : TorsionalRates
        Its rates.
    height : Quantity
        Hub to arch, as read.
    """

    def __init__(self, corner: Corner, spring: TorsionalRates, *, height: Quantity) -> None:
        self.corner = corner
        self.spring = spring
        self.height = metres(height)
        self.turns = corner.turns_now
        angle = plain(corner.nearest_angle(self.height))
        self._place = float(corner.linkage.motion(angle).load.height)
        rate = self._state(angle, corner.free_angle)[1]
        self._least, self._stop = _LEAST * rate, _STOP * rate

    def at(self, height: float, *, turns: float) -> SpringState:
        """Return load and rate at a height [m] of the body, with the nut at a place [turns]."""
        corner = self.corner
        angle = self._angle(height)
        free = plain(corner.lever_at_turns(turns)) + corner.clocked_angle
        load, rate, torque = self._state(angle, free)
        # What a stop holds: next to nothing gives way there.
        beyond = self._wheel(height) - float(corner.linkage.motion(angle).load.height)
        if abs(beyond) > _ROUNDING:
            load, rate = load + self._stop * beyond, self._stop
        return SpringState(load=load, wheel_rate=max(rate, self._least), angle=angle, torque=torque)

    def free_height_per_turn(self, height: float, *, turns: float) -> float:
        """Return the change of free height [m] with a clockwise turn, at a place of the nut."""
        low, high = (self.at(height, turns=turns + step) for step in (-_STEP, _STEP))
        return (high.load - low.load) / (2.0 * _STEP) / self.at(height, turns=turns).wheel_rate

    def roll_centre(self, *, half_track: float) -> float | None:
        """Return the height of the roll centre above the road [m], with the body upright.

        None where the bar is inclined; on the road where it lies across, and wheels only trail.
        """
        corner, axle = self.corner, self.corner.setup.axle
        along = abs(axle.bar_axis[0])
        if along < _SQUARE:
            return 0.0
        linkage = corner.linkage
        if not isinstance(linkage, Strut | SwingArm | DoubleWishbone):
            return None
        up = metres(axle.hub_up) - metres(axle.tyre_radius)
        contact: Point = (metres(axle.hub_outboard), up)
        if isinstance(linkage, SwingArm):
            # The carrier is the arm, and its ball joint the bar axis.
            reference = radians(axle.reference_angle)
            along_arm, above = turned(contact, -reference)
            contact = (metres(corner.setup.arm.radius) + along_arm, above)
        carrier = linkage.carrier(self.at(self.height, turns=self.turns).angle)
        return plain(carrier.roll_centre_height(contact, half_track=half_track))

    def is_on_stop(self, height: float) -> bool:
        """Whether the arm rests on a stop at a height [m]."""
        low, high = self.corner.travel
        return not low < self._angle(height) < high

    def _angle(self, height: float) -> float:
        """Return the arm angle [rad] at which the wheel lies at a height [m] of the body."""
        wanted = self._wheel(height)

        def above(angle: Real) -> tuple[Real, Real]:
            path = self.corner.linkage.motion(angle).load
            return path.height - wanted, path.slope

        low, high = self.corner.travel
        return plain(solve.rising_root(above, low=low, high=high))

    def _wheel(self, height: float) -> float:
        """Height of the wheel above the bar axis [m] at a height of the body."""
        return self._place + self.height - height

    def _state(self, angle: float, free: float) -> tuple[float, float, float]:
        corner = self.corner
        motion = corner.linkage.motion(angle)
        torque, stiffness = (plain(x) for x in corner.hold(angle - free, rate=self.spring.system))
        load = plain(statics.wheel_load(motion, torque=torque, springs=corner.springs))
        rate = statics.wheel_rate(motion, rate=stiffness, load=load, springs=corner.springs)
        return load, plain(rate), torque


# A bar lies across where its direction has less than this forward.
_SQUARE = 0.5
# Share of its rate as it stands that a corner keeps in a search, slack or not.
_LEAST = 0.05
# A stop is so much stiffer than the spring.
_STOP = 20.0
# Of a height that is found again [m].
_ROUNDING = 1e-9
# Of the nut, for its effect [turns].
_STEP = 1e-3
