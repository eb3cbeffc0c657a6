"""How the sprung masses and the wheels of a column of corners oscillate."""

from __future__ import annotations

from typing import cast

import attrs
import numpy as np

from barwright.analysis.rates.corner_state import SolvedState
from barwright.columns.asked.question import Found
from barwright.columns.column_corner import ColumnCorner, Flags
from barwright.columns.verdicts import where
from barwright.computed_once import cached_property
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import damping
from barwright.mechanics.vehicle import ride
from barwright.mechanics.vehicle.quarter_vehicle import quarter_vehicle_modes
from barwright.units import DAMPING_RATE, MASS, si

__all__ = ["Oscillation"]


@attrs.frozen(eq=False, slots=False)
class Oscillation:
    """A column of corners at rest on their springs; none where there is no stiffness.

    Parameters
    ----------
    corner : ColumnCorner
        The corners.
    at_rest : SolvedState
        Where they rest.
    """

    corner: ColumnCorner
    at_rest: SolvedState

    def of_body(self) -> Found:
        """Frequency of the sprung mass [Hz] and its damping ratio."""
        rate = ride.ride_rate(wheel_rate=self._rate, tyre_rate=self.corner.tyre_rate)
        frequency = ride.natural_frequency(rate=rate, mass=self.corner.sprung_mass)
        ratio = None
        if self._damping is not None:
            ratio = damping.damping_ratio(
                damping=self._damping, rate=self._rate, mass=self.corner.sprung_mass
            )
        return {
            "ride_frequency": where(self._is_stiff, frequency),
            "damping_ratio": where(self._is_stiff, ratio),
        }

    def of_wheel(self) -> Found:
        """Frequency of wheel hop [Hz] and its damping ratio."""
        hop = quarter_vehicle_modes(
            sprung_mass=self.corner.sprung_mass,
            unsprung_mass=si(self.corner.setup.axle.unsprung_mass, MASS),
            wheel_rate=self._rate,
            tyre_rate=self.corner.tyre_rate,
            damping=0.0 if self._damping is None else self._damping,
        ).hop
        ratio = None if self._damping is None else hop.damping_ratio
        return {
            "wheel_hop_frequency": where(self._is_stiff, hop.frequency),
            "wheel_hop_damping": where(self._is_stiff, ratio),
        }

    @cached_property
    def _is_stiff(self) -> Flags:
        return np.asarray(np.greater(self.at_rest.wheel_rate, 0.0))

    @cached_property
    def _rate(self) -> float:
        """Wheel rate [N/m]; that of no corner where there is none."""
        return cast("float", np.where(self._is_stiff, self.at_rest.wheel_rate, 1.0))

    @cached_property
    def _damping(self) -> Real | None:
        """Damping at the wheel [N·s/m]; none where the damper's is not known."""
        known = self.corner.setup.damper.damping_rate
        if known is None:
            return None
        motion_ratio = self.corner.linkage.motion(self.at_rest.angle).motion_ratio
        return damping.wheel_damping(damper_rate=si(known, DAMPING_RATE), motion_ratio=motion_ratio)
