"""An axle in a curve and an anti-roll bar, built in a general multibody engine."""

from __future__ import annotations

import attrs
import mujoco
from scipy.optimize import brentq

from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from outside.whole_vehicle import settled

# -- An axle in a curve -------------------------------------------------------------------


@attrs.frozen(kw_only=True)
class CurvingAxle:
    """A body hinged to an axle at its roll centre, in a field that pulls to the right too."""

    mass: float
    height: float
    roll_centre: float
    roll_rate: float
    unsprung_mass: float = 1e-9
    unsprung_height: float = 0.0
    acceleration: float = 1e-3

    def _at_rest(self) -> mujoco.MjData:
        model = self._model
        return settled(model, mujoco.MjData(model))

    @property
    def _model(self) -> mujoco.MjModel:
        return mujoco.MjModel.from_xml_string(f"""
        <mujoco>
          <compiler angle="radian"/>
          <option gravity="0 {-self.acceleration!r} {-STANDARD_GRAVITY!r}"/>
          <worldbody>
            <body name="axle">
              <inertial pos="0 0 {self.unsprung_height!r}" mass="{self.unsprung_mass!r}"
                        diaginertia="1 1 1"/>
              <site name="road"/>
              <body>
                <joint name="roll" type="hinge" axis="1 0 0" pos="0 0 {self.roll_centre!r}"
                       stiffness="{self.roll_rate!r}"/>
                <inertial pos="0 0 {self.height!r}" mass="{self.mass!r}" diaginertia="1 1 1"/>
              </body>
            </body>
          </worldbody>
          <sensor><torque name="moment" site="road"/></sensor>
        </mujoco>
        """)

    @property
    def roll(self) -> float:
        """Angle of the body, left side up positive."""
        return float(self._at_rest().joint("roll").qpos[0])

    @property
    def moment(self) -> float:
        """Moment about the middle of the axle on the road, greater load on the right positive."""
        # The sensor has what the road does to the axle: a push up on its right turns it about -x.
        return -float(self._at_rest().sensor("moment").data[0])


# -- A torsion rod with two levers --------------------------------------------------------


@attrs.frozen(kw_only=True)
class Rod:
    """A rod across a body, its levers as long as `lever`, their ends at both hubs."""

    torsional_rate: float
    lever: float
    track: float

    def energy(self, *, left: float = 0.0, right: float = 0.0, roll: float = 0.0) -> float:
        """Energy with the hubs lifted and the body rolled."""
        model = mujoco.MjModel.from_xml_string(f"""
        <mujoco>
          <compiler angle="radian"/>
          <option gravity="0 0 0"><flag energy="enable"/></option>
          <worldbody>
            <body>
              <joint name="roll" type="hinge" axis="1 0 0"/>
              <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
              {self._lever("left", self.track / 2.0)}{self._lever("right", -self.track / 2.0)}
            </body>
          </worldbody>
          <tendon>
            <fixed stiffness="{self.torsional_rate!r}" springlength="0 0">
              <joint joint="left" coef="1"/><joint joint="right" coef="-1"/>
            </fixed>
          </tendon>
        </mujoco>
        """)
        data = mujoco.MjData(model)
        data.joint("roll").qpos[0] = roll
        for side, height in (("left", left), ("right", right)):
            data.joint(side).qpos[0] = brentq(self._miss, -0.1, 0.1, (model, data, side, height))
        mujoco.mj_forward(model, data)
        return float(data.energy[0])

    def _lever(self, side: str, left: float) -> str:
        return f"""
        <body pos="0 {left!r} 0">
          <joint name="{side}" type="hinge" axis="0 -1 0"/>
          <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
          <site name="{side}" pos="{self.lever!r} 0 0"/>
        </body>
        """

    @staticmethod
    def _miss(
        angle: float, model: mujoco.MjModel, data: mujoco.MjData, side: str, height: float
    ) -> float:
        data.joint(side).qpos[0] = angle
        mujoco.mj_kinematics(model, data)
        return float(data.site(side).xpos[2]) - height
