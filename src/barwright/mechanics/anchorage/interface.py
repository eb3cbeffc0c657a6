"""Interface of all anchorages: from a setting to the lever's angle, and the effort there.

Whatever a mechanic sets, be it the place of a nut or of a bolt's end, an
:class:`Anchorage` answers alike: the lever's angle at a setting and the
setting at an angle, how one changes with the other, what range there is, and the
effort that holds the bar's torque there.  The effort follows from virtual work alone.
"""

from __future__ import annotations

import abc
from typing import Any, ClassVar

import numpy as np

from barwright.mechanics.common.types import Real

__all__ = ["Anchorage"]


class Anchorage(abc.ABC):
    """Interface of every adjuster and fixed anchor.

    A *setting* is what the mechanic changes: a distance along a bolt [m].
    """

    holds_both_ways: ClassVar[bool] = False
    """Whether it holds a torque of either sense, or lets go of the lever in one."""

    @property
    @abc.abstractmethod
    def reach(self) -> tuple[float, float]:
        """Least and greatest setting that the lever allows."""

    @abc.abstractmethod
    def lever_angle(self, setting: Real, /) -> Real:
        """Angle of the lever at a setting.

        Parameters
        ----------
        setting : float or array [m]
            What the mechanic sets.

        Returns
        -------
        float or array [rad]
        """

    @abc.abstractmethod
    def setting(self, lever_angle: Real) -> Real:
        """Return the setting that gives an angle of the lever.

        Parameters
        ----------
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array [m]
        """

    @abc.abstractmethod
    def slope(self, lever_angle: Real) -> Real:
        """Change of the setting with the lever's angle.

        Parameters
        ----------
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array [m/rad]
        """

    def effort(self, torque: Real, *, lever_angle: Real) -> Real:
        r"""Effort at the setting that balances the bar's torque, by virtual work.

        .. math:: Q = T \left/ \frac{\mathrm{d}q}{\mathrm{d}\alpha} \right.

        Parameters
        ----------
        torque : float or array [N·m]
            Torque :math:`T` of the bar, which turns the lever in the bump sense.
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array [N]
            Positive if the torque drives the setting :math:`q` to grow: along a
            bolt, tension.
        """
        return torque / self.slope(lever_angle)


# -- Shared inside this package, and public to nobody else ------------------------------


def first_not(is_right: Any, *values: Real) -> list[float]:  # noqa: ANN401
    """Return values where the first of them is wrong, for a refusal to show."""
    right, *arrays = np.broadcast_arrays(is_right, *values)
    place = int(np.argmin(right))
    return [float(array.flat[place]) for array in arrays]
