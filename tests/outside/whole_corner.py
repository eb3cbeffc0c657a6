"""One corner, built again from its sizes alone: shafts, teeth in space, an arm on a hinge.

Rates are those of a chain of shafts, the lever's angle that of a tendon, the arm's rest that of
a multibody engine whose arm turns on a sprung hinge; where the arm points without torque
follows from teeth turned in space.  The records of the same corner are :data:`SETUP`.
"""

from __future__ import annotations

import functools
import math

import attrs
import mujoco
import numpy as np
import scipy.constants
from scipy.optimize import brentq

from barwright.mechanics.anchorage.bolts_with_pin import SwivellingBolt
from outside.anchorages import Tied, tied
from outside.shafts import Piece, chain_rate
from sample_records import make_bar, make_setup, swing_arm_mounting
from teeth import built_free_angle

_TRAVEL = {"open_length": "700 mm", "closed_length": "400 mm"}
_AXLE = {"suspension": swing_arm_mounting()}

SETUP = make_setup(bar=make_bar(bore="6 mm"), axle=_AXLE, damper=_TRAVEL)
SETUP_BOUND = make_setup(
    bar=make_bar(bore="6 mm"), axle=_AXLE, damper=_TRAVEL, anchor_key="-192 deg"
)
"""The same with a socket whose key has the bar twisted at full droop, however the nut stands."""

WORDS = (
    "bar of 23.3 mm with a bore of 6 mm, 904 mm over heads of 39 and 42 teeth, in a tube of 90 × "
    "5 mm; swing arm of 338 mm, 291 kg"
)


@attrs.frozen(kw_only=True)
class Corner:
    """The corner at one clocking.

    Parameters
    ----------
    arm_tooth, anchor_tooth : int
        On the keys.
    turns : float
        Of the nut, clockwise from its middle.
    anchor_key : float
        Angle of the key in the tube's socket [deg].
    """

    arm_tooth: int = 0
    anchor_tooth: int = 0
    turns: float = 0.0
    anchor_key: float = -181.0

    @functools.cached_property
    def free(self) -> float:
        """Arm angle without torque [rad]."""
        return built_free_angle(
            heading=math.pi / 2.0,
            handed=1,
            lever=self.lever,
            arm_key=math.radians(17.5),
            anchor_key=math.radians(self.anchor_key),
            blank=0.0,
            arm_turn=math.tau * self.arm_tooth / 39.0,
            anchor_turn=math.tau * self.anchor_tooth / 42.0,
        )

    @functools.cached_property
    def lever(self) -> float:
        """Angle of the lever [rad], of which a tendon ties the pin to the pivot."""
        return lever_of(self.turns)

    @functools.cached_property
    def rest(self) -> float:
        """Arm angle at which the engine's arm bears the load [rad]."""
        load = 291.0 * float(scipy.constants.g)

        def unbalanced(angle: float) -> float:
            return self.torque(angle) - load * lift(angle)

        return float(brentq(unbalanced, -0.4, 0.3, xtol=1e-14))

    def torque(self, angle: float) -> float:
        """Torque of the sprung hinge [N·m]."""
        data = placed(angle)
        data.model.jnt_stiffness[0] = system_rate()
        data.model.qpos_spring[0] = self.free
        mujoco.mj_fwdVelocity(data.model, data)
        return -float(data.qfrc_passive[0])

    def wheel_load(self, angle: float) -> float:
        """Vertical load at the contact that the hinge bears [N]."""
        return self.torque(angle) / lift(angle)

    @property
    def wheel_rate(self) -> float:
        """Change of that load with the contact's height at rest [N/m], by differences."""

        def ratio(step: float) -> float:
            angles = (self.rest - step, self.rest + step)
            low, high = (self.wheel_load(angle) for angle in angles)
            bottom, top = (float(placed(angle).site("contact").xpos[2]) for angle in angles)
            return (high - low) / (top - bottom)

        # Errors go with the square of the step.
        return (4.0 * ratio(1e-3) - ratio(2e-3)) / 3.0


def lever_of(turns: float) -> float:
    """Angle of the lever [rad] for a place of the nut, clockwise from its middle."""
    # The nut's face stands on 150 to 181 mm, and the pin 6 mm nearer.
    length = 0.1595 - 0.00175 * turns
    return _bolt().lever(length, math.radians(98.0), math.radians(276.0))


def nut_turns_for(lever: float) -> float:
    """Place of the nut for an angle of the lever [rad]."""
    return (0.1595 - _bolt().length(lever)) / 0.00175


def height(angle: float) -> float:
    """Hub to arch [mm]: 404 mm with the arm 5° below the level."""
    there, measured = (float(placed(a).site("hub").xpos[2]) for a in (angle, math.radians(-5.0)))
    return 404.0 - 1e3 * (there - measured)


def lift(angle: float) -> float:
    """Rise of the contact with the arm's angle [m/rad]."""
    data = placed(angle)
    jacobian = np.zeros((3, 1))
    mujoco.mj_jacSite(data.model, data, jacobian, None, data.site("contact").id)
    return float(jacobian[2, 0])


def placed(angle: float) -> mujoco.MjData:
    """Turn the engine's arm to an angle."""
    data = mujoco.MjData(_arm())
    data.qpos[0] = angle
    mujoco.mj_fwdPosition(data.model, data)
    return data


@functools.cache
def _arm() -> mujoco.MjModel:
    """Arm along x; hub and contact stand where they are with the arm at its reference angle."""
    sites = ""
    turn = math.radians(5.0)
    for name, out, up in (("hub", 0.092, 0.048), ("contact", 0.092, 0.048 - 0.283)):
        x = 0.338 + out * math.cos(turn) - up * math.sin(turn)
        z = out * math.sin(turn) + up * math.cos(turn)
        sites += f'<site name="{name}" pos="{x!r} 0 {z!r}"/>'
    return mujoco.MjModel.from_xml_string(f"""
    <mujoco><compiler angle="radian"/><option gravity="0 0 0"/><worldbody><body>
      <joint type="hinge" axis="0 -1 0" stiffness="1"/>
      <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>{sites}
    </body></worldbody></mujoco>""")


@functools.cache
def _bolt() -> Tied:
    bolt = SwivellingBolt(
        pivot_distance=0.142, pivot_angle=math.radians(97.0), lever_radius=0.118, lever_side=1
    )
    return tied(bolt, tension=1.0, lever=2.0)


# -- Rates -------------------------------------------------------------------------------

# The arm's head lies in its socket whole, the anchor's but for 1 mm: 0.75 mm a tooth over roots.
BAR = [
    Piece(0.020, 0.028125, 0.0233, 0.006),
    Piece(0.790, 0.0233, 0.0233, 0.006),
    Piece(0.020, 0.0233, 0.030375, 0.006),
    Piece(0.001, 0.030375, 0.030375, 0.006),
]
TUBE = [Piece(0.741, 0.090, 0.090, 0.080)]


@functools.cache
def system_rate(modulus: float = 77e9) -> float:
    """Rate of bar and tube as one chain of shafts [N·m/rad]."""
    return chain_rate([*BAR, *TUBE], shear_modulus=modulus)


@functools.cache
def bar_rate() -> float:
    """Rate of the bar alone [N·m/rad]."""
    return chain_rate(BAR, shear_modulus=77e9)
