"""The stress in a bar's body over the travel of its corner."""

from __future__ import annotations

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.rates.corner_state import SolvedStates
from barwright.mechanics.bar import torsion
from barwright.mechanics.common import solve
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real
from barwright.mechanics.strength import fatigue
from barwright.units import Quantity

__all__ = ["StressedCorner", "Swing"]


@attrs.frozen(eq=False)
class Swing:
    """A travel of the wheel, and mean and amplitude of the stress in the bar's body [Pa]."""

    travel: Quantity
    mean: float
    amplitude: float


@attrs.frozen(eq=False)
class StressedCorner:
    """A corner as it is rated, and the stress in its bar's body over the travel."""

    corner: Corner
    states: SolvedStates

    @property
    def at_stops_and_ride(self) -> dict[str, float]:
        """Shear stress [Pa] at full droop, at rest and at full bump."""
        states = {"droop": self.states.droop, "ride": self.states.ride, "bump": self.states.bump}
        return {place: state.shear_stress for place, state in states.items()}

    @property
    def greatest_torque(self) -> float:
        """Torque [N·m] at full droop or full bump, whichever is the larger either way."""
        return max(self.states.droop.torque, self.states.bump.torque, key=abs)

    @property
    def travel_left(self) -> tuple[float, float]:
        """Travel of the hub [m] from ride height to full droop, below 0, and to full bump."""
        height, ride = self.corner.height, self.states.ride.angle
        droop, bump = (
            float(height(ride) - height(state.angle))
            for state in (self.states.droop, self.states.bump)
        )
        return droop, bump

    def stresses(self, travel: NDArray[np.float64]) -> NDArray[np.float64]:
        """Shear stress [Pa] where the hub has moved from ride height [m], bump positive."""
        ride, bar = self.states.ride, self.corner.setup.bar
        height = plain(self.corner.height(ride.angle))
        twist = self._arm_angle(height - travel) - (ride.angle - ride.twist)
        torque, _ = self.corner.hold(twist, rate=self.states.system_rate)
        diameter, bore = metres(bar.diameter), metres(bar.bore)
        return np.asarray(torsion.shear_stress(torque, diameter=diameter, bore=bore))

    def swing(self, travel: Quantity) -> Swing:
        """Find mean and amplitude of that stress for a travel to either side."""
        one, other = self.stresses(np.array([-metres(travel), metres(travel)]))
        mean, amplitude = fatigue.mean_and_amplitude(one=float(one), other=float(other))
        return Swing(travel, float(mean), float(amplitude))

    def _arm_angle(self, height: NDArray[np.float64]) -> Real:
        """Arm angle [rad] at a hub-to-arch height [m]; beyond a stop, that of the stop."""

        def below(angle: Real) -> tuple[Real, Real]:
            hub = self.corner.motion(angle).hub
            return height - self.corner.arch_height + hub.height, hub.slope

        low, high = self.corner.travel
        return solve.rising_root(below, low=low, high=high)
