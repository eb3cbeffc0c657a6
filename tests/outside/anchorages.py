"""Anchorages built from bodies, joints and members of engines that know none of our laws.

In the multibody engine x is outboard and z up; hinges turn about -y, so that a positive
angle is bumpward.  It gives places and Jacobians; what must hold between them (a face that
is tangent to a round, a pin on a line) is all that is written here.  The frame is
statically determinate: what it gives does not depend on its stiffness.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import attrs
import mujoco
import numpy as np
from numpy.typing import NDArray
from Pynite import FEModel3D
from scipy.optimize import brentq
from shapely import LineString, Point

from barwright.mechanics.anchorage.bolts_with_pin import FixedLineBolt, SwivellingBolt
from barwright.mechanics.anchorage.levers_without_pin import FaceContact, KeyLeverBolt

Vector = NDArray[np.float64]

_INERTIAL = '<inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>'
_LEVER = f'<body name="lever"><joint type="hinge" axis="0 -1 0"/>{_INERTIAL}{{}}</body>'


def toward(angle: float, length: float = 1.0) -> Vector:
    """Vector at an angle, outboard and up."""
    return length * np.array([math.cos(angle), math.sin(angle)])


def at(vector: Vector) -> str:
    """Position or axis of the engine's text."""
    return f"{float(vector[0])!r} 0 {float(vector[1])!r}"


def _model(bodies: str, tendon: str = "") -> mujoco.MjModel:
    return mujoco.MjModel.from_xml_string(f"""
    <mujoco>
      <compiler angle="radian"/>
      <option gravity="0 0 0"/>
      <worldbody>{bodies}</worldbody>{tendon}
    </mujoco>
    """)


# -- A lever that rests on a round, or whose pin slides on a line -------------------------


@attrs.frozen(kw_only=True)
class Resting:
    """A hinged lever and a body that moves with the setting, which must stay in touch.

    The point named ``centre`` keeps a distance from the lever's centreline, on the side
    away from the lever's own; a pin on that line keeps none.
    """

    model: mujoco.MjModel
    side: int
    face_offset: float
    radius: float

    def _placed(self, lever: float, setting: float) -> mujoco.MjData:
        data = mujoco.MjData(self.model)
        data.qpos[:] = lever, setting
        mujoco.mj_fwdPosition(self.model, data)
        return data

    def centre(self, setting: float) -> Vector:
        """Place of the round's centre."""
        return np.array(self._placed(0.0, setting).site("centre").xpos[[0, 2]])

    def gap(self, lever: float, setting: float) -> float:
        """Distance from the round to the face; negative where they would overlap."""
        data = self._placed(lever, setting)
        square = data.body("lever").xmat.reshape(3, 3)[:, 2]
        above = float(square @ data.site("centre").xpos)
        return -self.side * above - self.face_offset - self.radius

    def lever(self, setting: float) -> float:
        """Angle at which the lever touches the round with its outer part."""
        across, up = (float(x) for x in self.centre(setting))
        middle, quarter = math.atan2(up, across), math.pi / 2.0
        return _root(
            lambda lever: self.gap(lever, setting),
            middle - self.side * quarter,
            middle + self.side * quarter,
        )

    def setting(self, lever: float, low: float, high: float) -> float:
        """Setting between two limits at which the round touches the lever."""
        return _root(lambda setting: self.gap(lever, setting), low, high)

    def _normal_motion(self, lever: float, setting: float) -> tuple[float, float]:
        """Motion square to the face, of the lever's point and of the round's, by their joints."""
        data = self._placed(lever, setting)
        square = data.body("lever").xmat.reshape(3, 3)[:, 2].copy()
        point = np.array(data.site("centre").xpos)
        jacobian = np.zeros((3, 2))
        mujoco.mj_jac(self.model, data, jacobian, None, point, data.body("lever").id)
        of_lever = float(square @ jacobian[:, 0])
        mujoco.mj_jac(self.model, data, jacobian, None, point, data.body("round").id)
        return of_lever, float(square @ jacobian[:, 1])

    def slope(self, lever: float, setting: float) -> float:
        """Change of the setting with the lever's angle that keeps the touch."""
        of_lever, of_round = self._normal_motion(lever, setting)
        return of_lever / of_round

    def arm(self, lever: float, setting: float) -> float:
        """Arm on which a force square to the face turns the lever."""
        return self._normal_motion(lever, setting)[0]

    def advance(self, lever: float, setting: float) -> float:
        """Motion of the round's centre square to the face, with the setting."""
        return self._normal_motion(lever, setting)[1]

    def effort(self, torque: float, lever: float, setting: float) -> float:
        """What the contact's force does at the setting when it balances a torque."""
        of_lever, of_round = self._normal_motion(lever, setting)
        return torque / of_lever * of_round


def _root(function: Callable[[float], float], low: float, high: float) -> float:
    return float(brentq(function, low, high, xtol=1e-15, rtol=1e-15))


def sliding(
    *, line_distance: float, foot_angle: float, foot_position: float, side: int, radius: float
) -> str:
    """Describe a body on a fixed line whose point lies a radius short of its end."""
    along = side * toward(foot_angle + math.pi / 2.0)
    start = toward(foot_angle, line_distance) - (foot_position + radius) * along
    return (
        f'{_LEVER.format("")}<body name="round" pos="{at(start)}">'
        f'<joint type="slide" axis="{at(along)}"/>{_INERTIAL}<site name="centre"/></body>'
    )


def resting(anchorage: FaceContact | FixedLineBolt) -> Resting:
    """Build a lever with its bolt."""
    assert isinstance(anchorage, (KeyLeverBolt, FixedLineBolt))
    offset, radius = 0.0, 0.0
    if isinstance(anchorage, KeyLeverBolt):
        offset, radius = anchorage.face_offset, anchorage.end_radius
    bodies = sliding(
        line_distance=anchorage.line_distance,
        foot_angle=anchorage.foot_angle,
        foot_position=anchorage.foot_position,
        side=anchorage.lever_side,
        radius=radius,
    )
    return Resting(
        model=_model(bodies), side=anchorage.lever_side, face_offset=offset, radius=radius
    )


# -- A lever that a bolt ties to a pivot --------------------------------------------------


@attrs.frozen
class Tied:
    """A hinged lever whose pin a tendon ties to a pivot of the chassis."""

    model: mujoco.MjModel

    def _placed(self, lever: float) -> mujoco.MjData:
        data = mujoco.MjData(self.model)
        data.qpos[0] = lever
        mujoco.mj_fwdPosition(self.model, data)
        mujoco.mj_fwdVelocity(self.model, data)
        return data

    def length(self, lever: float) -> float:
        """Length of the tendon."""
        return float(self._placed(lever).ten_length[0])

    def lever(self, length: float, low: float, high: float) -> float:
        """Angle between two limits at which the tendon has a length."""
        return _root(lambda lever: self.length(lever) - length, low, high)

    def slope(self, lever: float) -> float:
        """Change of that length with the lever's angle."""
        return float(np.ravel(self._placed(lever).ten_J)[0])

    def held(self, lever: float) -> float:
        """Torque in the bump sense that the tendon's tension balances."""
        return -float(self._placed(lever).qfrc_passive[0])


def tied(bolt: SwivellingBolt, *, tension: float, lever: float) -> Tied:
    """Build a lever and its bolt, in which there is a tension at one angle of the lever."""
    pin = f'<site name="pin" pos="{at(np.array([bolt.lever_radius, 0.0]))}"/>'
    pivot = at(toward(bolt.pivot_angle, bolt.pivot_distance))
    bodies = f'<site name="pivot" pos="{pivot}"/>{_LEVER.format(pin)}'
    slack = Tied(_model(bodies, _tendon(stiffness=0.0, free=0.0)))
    stiffness = 1e6
    free = slack.length(lever) - tension / stiffness
    return Tied(_model(bodies, _tendon(stiffness=stiffness, free=free)))


def _tendon(*, stiffness: float, free: float) -> str:
    spring = f'stiffness="{stiffness!r}" springlength="{max(free, 0.0)!r}"'
    sites = '<site site="pivot"/><site site="pin"/>'
    return f"<tendon><spatial {spring}>{sites}</spatial></tendon>"


# -- Points, lines and circles ------------------------------------------------------------


def face(lever: float, *, side: int, offset: float, length: float = 1.0) -> LineString:
    """Face of a lever, from beside the bar axis outward."""
    root = side * -offset * toward(lever + math.pi / 2.0)
    return LineString([root, root + toward(lever, length)])


def along_the_face(lever: float, centre: Vector, *, side: int, offset: float) -> float:
    """How far out the point of the face lies that is nearest to a round's centre."""
    return float(face(lever, side=side, offset=offset).project(Point(centre)))


def clearance(lever: float, centre: Vector, *, side: int, offset: float) -> float:
    """Distance from a round's centre to the face."""
    return float(face(lever, side=side, offset=offset).distance(Point(centre)))


# -- A frame in equilibrium ---------------------------------------------------------------


@attrs.frozen
class Forces:
    """What a frame's supports give: in the contact, and along and square to the bolt."""

    contact: float
    tension: float
    thrust: float


def key_lever_frame(
    bolt: KeyLeverBolt | FixedLineBolt, *, torque: float, lever: float, centre: Vector
) -> Forces:
    """Hold a lever by a bolt that is built in at its foot and touches through a strut.

    The strut, hinged at both ends, stands square to the face: a smooth contact.
    """
    along = bolt.lever_side * toward(bolt.foot_angle + math.pi / 2.0)
    square = toward(lever + math.pi / 2.0)
    frame = _frame()
    _node(frame, "axis", np.zeros(2))
    _node(frame, "contact", centre + bolt.lever_side * 0.01 * square)
    _node(frame, "end", centre)
    _node(frame, "foot", centre - 0.05 * along)
    for name, ends in {"lever": ("axis", "contact"), "bolt": ("foot", "end")}.items():
        frame.add_member(name, *ends, "steel", "round")
    frame.add_member("strut", "contact", "end", "steel", "round")
    frame.def_releases("strut", Rzi=True, Rzj=True)
    frame.def_support("axis", *[True] * 5, support_RZ=False)
    frame.def_support("foot", *[True] * 6)
    frame.add_node_load("axis", "MZ", torque)
    frame.analyze_linear()
    on_bolt = -_reaction(frame, "foot")
    return Forces(
        contact=-bolt.lever_side * float(on_bolt @ square),
        tension=float(on_bolt @ along),
        thrust=float(on_bolt @ toward(bolt.foot_angle)),
    )


def clamped_torque(torque: float, *, lever: float, radius: float) -> float:
    """Torque that a clamp on the bar axis takes from a lever with nothing at its end."""
    frame = _frame()
    _node(frame, "axis", np.zeros(2))
    _node(frame, "end", toward(lever, radius))
    frame.add_member("lever", "axis", "end", "steel", "round")
    frame.def_support("axis", *[True] * 6)
    # The same torque, as a force at the lever's end.
    force = torque / radius * toward(lever + math.pi / 2.0)
    for direction, share in zip(("FX", "FY"), force, strict=True):
        frame.add_node_load("end", direction, float(share))
    frame.analyze_linear()
    return -float(frame.nodes["axis"].RxnMZ["Combo 1"])


def _frame() -> FEModel3D:
    frame = FEModel3D()
    frame.add_material("steel", 210e9, 80e9, 0.3, 0.0)
    frame.add_section("round", 1e-3, 1e-6, 1e-6, 2e-6)
    return frame


def _node(frame: FEModel3D, name: str, place: Vector) -> None:
    # The frame's axes take no rise of a member that is less than rounding.
    outboard, up = (round(float(x), 12) for x in place)
    frame.add_node(name, outboard, up, 0.0)


def _reaction(frame: FEModel3D, name: str) -> Vector:
    node = frame.nodes[name]
    return np.array([float(node.RxnFX["Combo 1"]), float(node.RxnFY["Combo 1"])])
