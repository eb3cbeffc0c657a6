"""A whole vehicle built from bodies and springs of a general multibody engine.

The body slides up and turns about two level axes at one height; each hub slides along
the body under its arch, on a spring, and stands on a tyre that is a spring to a point
far below the road; a bar is a tendon over both hubs of an axle.  What the engine gives is
exact for rotations in full; for tilts of some 0.1 mrad it is what linear equations have
to give.  So that wheel forces keep their distance from the axes of tilt, a tyre takes
hold of its hub at the height of the axes.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import attrs
import mujoco
import numpy as np
import scipy.linalg
from numpy.typing import NDArray

from barwright.mechanics.corner.statics import STANDARD_GRAVITY

Array = NDArray[np.float64]


def element(array: Callable[[], Array], *place: int) -> Callable[[], float]:
    """Return what gives one element of an array that is not computed yet."""
    return lambda: float(array()[place])


# A point so far below the road that a tyre's spring stays upright.
_BELOW = 10.0

NOSE = (2.1, 0.5)
"""A point of the body, forward and left."""


@attrs.frozen(kw_only=True)
class Engine:
    """Raw figures of a vehicle, with the names of the kernels' arguments where they agree.

    In the reference position the body is level, with the hubs at `hubs` above the road.
    `axis_height` is that of both axes of tilt.
    """

    mass: float
    centre_of_gravity: tuple[float, float, float]
    wheels: Sequence[tuple[float, float]]
    wheel_rates: Sequence[float]
    tyre_rates: Sequence[float]
    bars: tuple[float, float] = (0.0, 0.0)
    unsprung_masses: Sequence[float] = (0.0, 0.0, 0.0, 0.0)
    axis_height: float = 0.0
    arches: Sequence[float]
    hubs: Sequence[float]
    inertia: tuple[float, float] = (1.0, 1.0)

    @property
    def loads(self) -> Array:
        """Least loads of the tyres that hold the vehicle in the reference position."""
        lines = np.array([(1.0, y, -x) for x, y in self.wheels]).T
        x, y, _ = self.centre_of_gravity
        sprung = np.linalg.pinv(lines) @ (self.mass * np.array([1.0, y, -x]))
        loads: Array = STANDARD_GRAVITY * (sprung + np.array(self.unsprung_masses))
        return loads

    @property
    def tyre_radii(self) -> Array:
        """Heights of the hubs with unloaded tyres."""
        radii: Array = np.array(self.hubs) + self.loads / np.array(self.tyre_rates)
        return radii

    @property
    def free_heights(self) -> Array:
        """Settings that hold the vehicle in the reference position."""
        sprung = self.loads - STANDARD_GRAVITY * np.array(self.unsprung_masses)
        deflections = sprung / np.array(self.wheel_rates)
        return np.array(np.array(self.arches) - np.array(self.hubs) + deflections)

    def model(self, free_heights: Array) -> mujoco.MjModel:
        """Mechanism with the springs of the corners set to their free heights."""
        x, y, z = self.centre_of_gravity
        roll, pitch = self.inertia
        grounds = "".join(
            f'<site name="ground{i}" pos="{px!r} {py!r} {-_BELOW!r}"/>'
            for i, (px, py) in enumerate(self.wheels)
        )
        hubs = "".join(self._hub(i, float(free)) for i, free in enumerate(free_heights))
        tyres = "".join(
            f'<spatial stiffness="{rate!r}" springlength="{self.axis_height + _BELOW + sunk!r}">'
            f'<site site="ground{i}"/><site site="tyre{i}"/></spatial>'
            for i, (rate, sunk) in enumerate(zip(self.tyre_rates, self._sunk, strict=True))
        )
        return mujoco.MjModel.from_xml_string(f"""
        <mujoco>
          <compiler angle="radian" boundmass="1e-9" boundinertia="1e-9"/>
          <option gravity="0 0 {-STANDARD_GRAVITY!r}"/>
          <worldbody>
            {grounds}
            <body>
              <joint name="heave" type="slide" axis="0 0 1"/>
              <joint name="pitch" type="hinge" axis="0 1 0" pos="0 0 {self.axis_height!r}"/>
              <joint name="roll" type="hinge" axis="1 0 0" pos="0 0 {self.axis_height!r}"/>
              <inertial pos="{x!r} {y!r} {z!r}" mass="{self.mass!r}"
                        diaginertia="{roll!r} {pitch!r} {roll + pitch - 1e-6!r}"/>
              <site name="nose" pos="{NOSE[0]!r} {NOSE[1]!r} {self.axis_height!r}"/>
              {hubs}
            </body>
          </worldbody>
          <tendon>{tyres}{self._bar(0)}{self._bar(1)}</tendon>
        </mujoco>
        """)

    @property
    def _sunk(self) -> list[float]:
        """Deflections of the tyres in the reference position."""
        return [float(sunk) for sunk in self.loads / np.array(self.tyre_rates)]

    def _hub(self, corner: int, free: float) -> str:
        """Hub that slides down from its arch on a spring."""
        x, y = self.wheels[corner]
        hub, arch = self.hubs[corner], self.arches[corner]
        return f"""
        <site name="arch{corner}" pos="{x!r} {y!r} {arch!r}"/>
        <body pos="{x!r} {y!r} {hub!r}">
          <joint name="hub{corner}" type="slide" axis="0 0 -1" ref="{arch - hub!r}"
                 stiffness="{self.wheel_rates[corner]!r}" springref="{free!r}"/>
          <inertial pos="0 0 {self.axis_height - hub!r}"
                    mass="{self.unsprung_masses[corner]!r}" diaginertia="0 0 0"/>
          <site name="tyre{corner}" pos="0 0 {self.axis_height - hub!r}"/>
        </body>
        """

    def _bar(self, axle: int) -> str:
        left, right = 2 * axle, 2 * axle + 1
        assert self.arches[left] - self.hubs[left] == self.arches[right] - self.hubs[right]
        return (
            f'<fixed stiffness="{self.bars[axle]!r}" springlength="0 0">'
            f'<joint joint="hub{left}" coef="1"/><joint joint="hub{right}" coef="-1"/></fixed>'
        )

    def at_rest(self, free_heights: Array, *, moment: float = 0.0) -> AtRest:
        """Let the engine's forces vanish, with a moment on the body in roll."""
        model = self.model(free_heights)
        data = mujoco.MjData(model)
        data.joint("roll").qfrc_applied[0] = moment
        return AtRest(model, settled(model, data), np.array(self.tyre_rates))

    def moved(self, corner: int, what: str, *, by: float = 1e-4) -> Array:
        """Change of loads, heights or arches with the free height of a corner."""
        step = by * np.eye(4)[corner]
        more, less = (getattr(self.at_rest(self.free_heights + s), what) for s in (step, -step))
        return np.array((more - less) / (2.0 * by))


@attrs.frozen
class AtRest:
    """The engine's vehicle at rest."""

    model: mujoco.MjModel
    data: mujoco.MjData
    tyre_rates: Array

    def joint(self, name: str) -> float:
        """Place of a joint."""
        return float(self.data.joint(name).qpos[0])

    @property
    def heights(self) -> Array:
        """Body above each hub."""
        return np.array([self.joint(f"hub{i}") for i in range(4)])

    @property
    def arches(self) -> Array:
        """Body above the road."""
        return np.array([self.data.site(f"arch{i}").xpos[2] for i in range(4)])

    @property
    def loads(self) -> Array:
        """What the tyres' springs push with."""
        free = self.model.tendon_lengthspring[:4, 0]
        return np.array(self.tyre_rates * (free - self.data.ten_length[:4]))

    @property
    def nose(self) -> float:
        """Rise of the point :data:`NOSE`."""
        return float(self.data.site("nose").xpos[2] - self.model.site("nose").pos[2])

    def body_stiffness(self) -> Array:
        """Of heave, pitch and roll, the hubs following."""
        stiffness = _stiffness(self.model, self.data)
        body, hubs = slice(0, 3), slice(3, 7)
        following = np.linalg.solve(stiffness[hubs, hubs], stiffness[hubs, body])
        left = stiffness[body, body] - stiffness[body, hubs] @ following
        return np.array((left + left.T) / 2.0)

    def body_mass(self) -> Array:
        """Of heave, pitch and roll; the hubs' share is left in."""
        mass = np.zeros((7, 7))
        mujoco.mj_fullM(self.model, self.data, mass)
        return mass[:3, :3]

    def frequencies(self) -> Array:
        """Of the body's three modes, for hubs without mass [Hz]."""
        squares = scipy.linalg.eigh(self.body_stiffness(), self.body_mass(), eigvals_only=True)
        return np.array(np.sqrt(squares) / (2.0 * np.pi))

    def slowest(self) -> tuple[Array, Array]:
        """Shape of the slowest mode in heave, pitch and roll, and the matrix of masses."""
        mass = self.body_mass()
        return np.array(scipy.linalg.eigh(self.body_stiffness(), mass)[1][:, 0]), mass


def settled(model: mujoco.MjModel, data: mujoco.MjData) -> mujoco.MjData:
    """Find the state of a mechanism in which the engine's forces vanish."""
    for _ in range(50):
        step = np.linalg.solve(_stiffness(model, data), _forces(model, data))
        data.qpos[:] += step
        if np.max(np.abs(step)) < 1e-13:
            _forces(model, data)
            return data
    raise AssertionError("the engine does not come to rest")


def _forces(model: mujoco.MjModel, data: mujoco.MjData) -> Array:
    """Generalised forces of springs, weight and hands on everything at rest."""
    mujoco.mj_forward(model, data)
    return np.array(data.qfrc_passive - data.qfrc_bias + data.qfrc_applied)


def _stiffness(model: mujoco.MjModel, data: mujoco.MjData) -> Array:
    """Change of those forces with the place of each joint, taken off."""
    result, start = np.empty((model.nv, model.nv)), np.array(data.qpos)
    for place in range(model.nv):
        ends = []
        for step in (1e-5, -1e-5):
            data.qpos[:] = start
            data.qpos[place] += step
            ends.append(_forces(model, data))
        result[:, place] = (ends[1] - ends[0]) / 2e-5
    data.qpos[:] = start
    return result


# -- A body on axes of tilt that lie at different heights ---------------------------------


@attrs.frozen(kw_only=True)
class TiltingBody:
    """A body that pitches about a level axis and rolls about one through two points.

    Its four springs are tendons whose lengths go with its pose in proportion, as the
    kernels assume; how the weight moves as the body tilts is the engine's own.
    """

    mass: float
    centre_of_gravity: tuple[float, float, float]
    wheels: Sequence[tuple[float, float]]
    rates: Sequence[float]
    roll_centres: tuple[float, float]
    pitch_centre: float

    def loads(self, free: Array) -> Array:
        """What the springs push with, set to their free lengths."""
        model = mujoco.MjModel.from_xml_string(self._text(free))
        data = settled(model, mujoco.MjData(model))
        return np.array(np.array(self.rates) * (free - data.ten_length))

    def _text(self, free: Array) -> str:
        (front, rear), (x, y, z) = self.roll_centres, self.centre_of_gravity
        ahead, behind = self.wheels[0][0], self.wheels[2][0]
        axis = np.array([ahead - behind, 0.0, front - rear])
        level = float(axis[0] / np.linalg.norm(axis))
        springs = "".join(
            f"""<fixed stiffness="{rate!r}" springlength="{float(length)!r}">
              <joint joint="heave" coef="1"/><joint joint="pitch" coef="{-px!r}"/>
              <joint joint="roll" coef="{py * level!r}"/></fixed>"""
            for rate, length, (px, py) in zip(self.rates, free, self.wheels, strict=True)
        )
        return f"""
        <mujoco>
          <compiler angle="radian"/>
          <option gravity="0 0 {-STANDARD_GRAVITY!r}"/>
          <worldbody>
            <body>
              <joint name="heave" type="slide" axis="0 0 1"/>
              <joint name="pitch" type="hinge" axis="0 1 0" pos="0 0 {self.pitch_centre!r}"/>
              <joint name="roll" type="hinge" axis="{float(axis[0])!r} 0 {float(axis[2])!r}"
                     pos="{ahead!r} 0 {front!r}"/>
              <inertial pos="{x!r} {y!r} {z!r}" mass="{self.mass!r}" diaginertia="1 1 1"/>
            </body>
          </worldbody>
          <tendon>{springs}</tendon>
        </mujoco>
        """

    def moved(self, corner: int, free: Array, *, by: float = 1e-5) -> Array:
        """Change of the loads with the free length of a corner."""
        step = by * np.eye(4)[corner]
        return np.array((self.loads(free + step) - self.loads(free - step)) / (2.0 * by))
