"""How the bars of a column come out and go in, with the damper on and with it off."""

from __future__ import annotations

from typing import Any, cast

import attrs
import numpy as np

from barwright.analysis.assembly.unloading import FURTHEST_BELOW_STOP, GREATEST_JOINT_FORCE
from barwright.analysis.corner.suspension import metres
from barwright.analysis.corner.unloading_reserve import unloading_reserve
from barwright.columns.column_corner import Flags
from barwright.columns.planning.ends import ColumnEnds, Open
from barwright.computed_once import cached_property
from barwright.parts.suspension import SwingArmMounting

__all__ = ["Fitting", "Way"]

# Rounding of an angle that is made of several others [rad].
_ROUNDING = 1e-9


@attrs.frozen(eq=False, slots=False)
class Way:
    """One way to fit the bars of a column.

    Parameters
    ----------
    reserve : array of float
        Unloading reserve [rad].
    open_by : Open
        How far that is left open [rad].
    """

    reserve: Any
    open_by: Open

    @property
    def slides(self) -> Flags:
        """Whether a bar carries no torque."""
        return np.asarray(np.greater_equal(self.reserve, -_ROUNDING))

    @property
    def is_sure(self) -> Flags:
        """Whether it carries none at every value within the tolerances."""
        return np.asarray(self.slides & np.greater_equal(self.reserve, self.open_by.by))


@attrs.frozen(eq=False, slots=False)
class Fitting:
    """Both ways to fit the bars of a column at some clockings.

    Parameters
    ----------
    ends : ColumnEnds
        The corners, at both ends of every tolerance.
    clocked : array of float
        Free angle beyond the lever's [rad].
    """

    ends: ColumnEnds
    clocked: Any

    @cached_property
    def damper_on(self) -> Way:
        """With the damper on."""
        return self._way(damper_on=True)

    @cached_property
    def damper_off(self) -> Way:
        """With the damper off."""
        return self._way(damper_on=False)

    def _way(self, *, damper_on: bool) -> Way:
        corner, asked = self.ends.corner, {"damper_on": damper_on}
        return Way(
            unloading_reserve(corner, clocked_angle=self.clocked, **asked),
            self.ends.reserve(self.clocked, **asked),
        )

    @property
    def slides(self) -> Flags:
        """Whether a bar goes in by hand."""
        return self.damper_on.slides | self.damper_off.slides

    @property
    def is_little(self) -> Flags:
        """Whether the reserve of the way that is chosen is smaller than its uncertainty."""
        on, off = self.damper_on, self.damper_off
        is_on = on.is_sure | (on.slides & np.less_equal(off.reserve, on.reserve))
        return np.where(is_on, on.slides & ~on.is_sure, off.slides & ~off.is_sure)

    @property
    def is_unknown(self) -> Flags:
        """Whether some tolerance lets no such corner be at either of its ends."""
        return self.damper_on.open_by.is_unknown | self.damper_off.open_by.is_unknown

    def can_be_unloaded(self) -> Flags:
        """Tell whether the bars come out safely, with a joint parted where nothing else helps."""
        return np.asarray(self.slides | ~self._is_against_parting())

    def _is_against_parting(self) -> Any:  # noqa: ANN401 - one flag or a column
        corner, held = self.ends.corner, self.damper_off.reserve
        if isinstance(corner.setup.axle.suspension, SwingArmMounting):
            return np.asarray(True)
        hang, highest = corner.stops
        lifted = np.minimum(np.maximum(corner.lever_span[1] + self.clocked, hang), highest)
        lift = corner.height(hang) - corner.height(cast("float", lifted))
        reach = metres(corner.setup.arm.radius) * np.cos(hang) * corner.plane.vertical_share
        torque = corner.spring.system * -held
        return (
            np.greater(lift, 0.0)
            | np.greater(torque, GREATEST_JOINT_FORCE * reach)
            | np.greater(-held, FURTHEST_BELOW_STOP)
        )
