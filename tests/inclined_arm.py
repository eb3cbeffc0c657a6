"""An arm on a bar that lies anyhow, as a general multibody engine sees it.

The engine's axes are those of the vehicle: x forward, y left, z up.  The arm's hinge is
the bar axis itself; it knows neither a plane nor a direction outboard.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any

import mujoco
import numpy as np
from numpy.typing import NDArray
from scipy.spatial.transform import Rotation

Floats = NDArray[np.float64]


class HingedArm:
    """A wheel on a rigid arm that turns about a bar through the origin.

    ``wheel`` is the wheel's place at the arm angle 0; angles are positive where it rises.
    """

    def __init__(self, bar: Iterable[float], wheel: Iterable[float]) -> None:
        axis = " ".join(repr(float(x)) for x in bar)
        place = " ".join(repr(float(x)) for x in wheel)
        self.model = mujoco.MjModel.from_xml_string(f"""
        <mujoco><compiler angle="radian"/><worldbody><body name="arm">
          <joint type="hinge" axis="{axis}"/>
          <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
          <site name="wheel" pos="{place}"/>
        </body></worldbody></mujoco>""")
        self.data = mujoco.MjData(self.model)
        mujoco.mj_fwdPosition(self.model, self.data)
        self.sense = 1 if self._jacobian()[2] > 0.0 else -1

    def at(self, angle: float) -> HingedArm:
        """Swing the arm."""
        self.data.qpos[0] = self.sense * angle
        mujoco.mj_fwdPosition(self.model, self.data)
        return self

    @property
    def wheel(self) -> Any:
        """Place of the wheel."""
        return np.array(self.data.site("wheel").xpos)

    @property
    def velocity(self) -> Any:
        """Change of that place with the arm angle."""
        return self.sense * self._jacobian()

    @property
    def bump_axis(self) -> Any:
        """Direction about which the arm rises right-handed."""
        return self.sense * np.array(self.data.xaxis[0])

    def torque(self, force: Iterable[float]) -> float:
        """Torque about the bar, in the bump sense, of a force at the wheel."""
        held = np.zeros(self.model.nv)
        pull, none = np.array(list(force), dtype=float), np.zeros(3)
        mujoco.mj_applyFT(self.model, self.data, pull, none, self.wheel, 1, held)
        return self.sense * float(held[0])

    def _jacobian(self) -> Any:
        lever = np.zeros((3, self.model.nv))
        mujoco.mj_jacSite(self.model, self.data, lever, None, self.model.site("wheel").id)
        return lever[:, 0]


def wheel_frame(*, camber: float, toe: float, side: int) -> Rotation:
    """Turn of an upright wheel: toed about the vertical, then leaned about its own length."""
    return Rotation.from_euler("ZXY", [-side * toe, -side * camber, 0.0])


def camber_and_toe(frame: Rotation, *, side: int) -> tuple[float, float]:
    """Angles of a wheel in whatever way it was turned; it may have rolled on its axle."""
    yaw, roll, _ = frame.as_euler("ZXY")
    return -side * float(roll), -side * float(yaw)


def steering_axis(*, castor: float, inclination: float, side: int) -> Floats:
    """Two points of a steering axis, one above the other by 1: the way from low to high."""
    return np.array([-math.tan(castor), -side * math.tan(inclination), 1.0])
