"""Linkages that several tests share, and two outside views of them as rigid bodies.

:class:`Engine` hands a linkage to a general multibody engine: hinges, slides and sites,
closed by Newton's method on the engine's own Jacobians.  :func:`exactly` solves the raw
constraints of the links in 40 digits and differentiates what they give.  Neither knows
a formula of ours.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, TypeAlias, cast

import mpmath
import mujoco
import numpy as np
import sympy
from hypothesis import strategies as st
from numpy.typing import NDArray

from barwright.mechanics.linkage.arm_and_strut import Linkage, Strut, SwingArm
from barwright.mechanics.linkage.double_wishbone import DoubleWishbone

Floats: TypeAlias = NDArray[np.float64]

ARM = SwingArm(
    load_point=(0.42, -0.28),
    hub_point=(0.42, 0.01),
    damper_foot=(0.31, -0.03),
    damper_mount=(0.24, 0.52),
)
STRUT = Strut(
    arm_radius=0.36,
    top_mount=(0.28, 0.62),
    offset=-0.03,
    length_below=0.04,
    reference_angle=-0.05,
    load_point=(0.12, -0.27),
    hub_point=(0.12, 0.03),
)
# Unlike arms, the upper one shorter and sloping down to the wheel.
WISHBONE = DoubleWishbone(
    arm_radius=0.34,
    upper_pivot=(0.13, 0.27),
    upper_radius=0.23,
    upright=0.28,
    branch=1,
    damper_foot=(0.24, -0.02),
    damper_mount=(0.19, 0.46),
    reference_angle=0.04,
    load_point=(0.10, -0.24),
    hub_point=(0.09, 0.07),
)
# The same wheel, its upper arm pivoted outboard: the other intersection is built.
CROSSED = DoubleWishbone(
    arm_radius=0.34,
    upper_pivot=(0.45, 0.30),
    upper_radius=0.26,
    upright=0.28,
    branch=-1,
    damper_foot=(0.24, -0.02),
    damper_mount=(0.19, 0.46),
    reference_angle=0.04,
    load_point=(0.10, -0.24),
    hub_point=(0.09, 0.07),
)
EACH = {"swing arm": ARM, "strut": STRUT, "wishbone": WISHBONE, "crossed": CROSSED}

ANGLES = st.floats(-0.5, 0.5)

STRUTS = st.builds(
    Strut,
    arm_radius=st.floats(0.25, 0.45),
    top_mount=st.tuples(st.floats(0.15, 0.45), st.floats(0.50, 0.80)),
    offset=st.floats(-0.08, 0.08),
    length_below=st.floats(-0.15, 0.15),
    reference_angle=st.floats(-0.3, 0.3),
    load_point=st.tuples(st.floats(0.05, 0.25), st.floats(-0.35, -0.20)),
    hub_point=st.tuples(st.floats(0.0, 0.20), st.floats(-0.05, 0.10)),
)
SWING_ARMS = st.builds(
    SwingArm,
    load_point=st.tuples(st.floats(0.3, 0.6), st.floats(-0.3, 0.1)),
    hub_point=st.tuples(st.floats(0.3, 0.6), st.floats(-0.1, 0.1)),
    damper_foot=st.tuples(st.floats(0.15, 0.35), st.floats(-0.05, 0.05)),
    damper_mount=st.tuples(st.floats(0.05, 0.40), st.floats(0.45, 0.70)),
)
WISHBONES = st.builds(
    DoubleWishbone,
    # Sizes whose links meet over the whole travel.
    arm_radius=st.floats(0.30, 0.36),
    upper_pivot=st.tuples(st.floats(0.12, 0.18), st.floats(0.20, 0.28)),
    upper_radius=st.floats(0.22, 0.30),
    upright=st.floats(0.22, 0.30),
    branch=st.just(1),
    damper_foot=st.tuples(st.floats(0.20, 0.30), st.floats(-0.03, 0.03)),
    damper_mount=st.tuples(st.floats(0.15, 0.28), st.floats(0.45, 0.60)),
    reference_angle=st.floats(-0.1, 0.1),
    load_point=st.tuples(st.floats(0.05, 0.15), st.floats(-0.30, -0.20)),
    hub_point=st.tuples(st.floats(0.05, 0.15), st.floats(0.02, 0.12)),
)


# -- The multibody engine ---------------------------------------------------------------


def xz(point: Any) -> str:
    """Position of a point of the plane in the engine, whose x is outboard and z up."""
    return f'pos="{float(point[0])!r} 0 {float(point[1])!r}"'


LIGHT = '<inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>'
# Their places are set once the reference position is known; not zero, or the engine
# would take them for the body's own frame for ever.
WHEEL = '<site name="load" pos="1 1 1"/><site name="hub" pos="1 1 1"/>'


def _hinge(name: str) -> str:
    """Hinge about the bar's direction; a positive angle lifts what points outboard."""
    return f'<joint name="{name}" type="hinge" axis="0 -1 0"/>{LIGHT}'


def _swing_arm(arm: SwingArm) -> str:
    return f"""<body name="carrier">{_hinge("arm")}{WHEEL}
        <site name="foot" {xz(arm.damper_foot)}/></body>
        <site name="mount" {xz(arm.damper_mount)}/>"""


BEYOND = 0.1


def _strut(strut: Strut) -> str:
    # The carrier's frame lies on the strut's axis, upright, beyond the foot of the offset: a
    # site within 1e-10 of it would be taken for its origin.
    return f"""<body name="lower">{_hinge("arm")}<site name="here" {xz((strut.arm_radius, 0))}/>
        </body>
        <body {xz(strut.top_mount)}>{_hinge("lean")}
          <body name="carrier"><joint name="damper" type="slide" axis="0 0 -1"/>{LIGHT}{WHEEL}
            <site name="there" {xz((-strut.offset, -BEYOND))}/></body>
        </body>"""


def _wishbone(arms: DoubleWishbone) -> str:
    return f"""<body name="lower">{_hinge("arm")}<site name="foot" {xz(arms.damper_foot)}/>
          <body name="carrier" {xz((arms.arm_radius, 0))}>{_hinge("lean")}{WHEEL}
            <site name="here" {xz((0, arms.upright))}/></body>
        </body>
        <body {xz(arms.upper_pivot)}>{_hinge("upper")}
          <site name="there" {xz((arms.upper_radius, 0))}/></body>
        <site name="mount" {xz(arms.damper_mount)}/>"""


_BUILD: dict[type[Linkage], Callable[[Any], str]] = {
    SwingArm: _swing_arm,
    Strut: _strut,
    DoubleWishbone: _wishbone,
}
_TENDON = """<tendon><spatial name="damper"><site site="mount"/><site site="foot"/></spatial>
    </tendon>"""


class Engine:
    """A linkage in the engine, at one arm angle, with what one radian a second makes of it."""

    def __init__(self, linkage: Linkage, angle: float) -> None:
        self.linkage = linkage
        world = _BUILD[type(linkage)](linkage)
        tendon = "" if isinstance(linkage, Strut) else _TENDON
        self.model = mujoco.MjModel.from_xml_string(
            f'<mujoco><compiler angle="radian"/><worldbody>{world}</worldbody>{tendon}</mujoco>'
        )
        self.data = mujoco.MjData(self.model)
        self.reference = self._place_wheel()
        self._pose(angle)
        self.tilt = self._lean() - self.reference

    def place(self, site: str) -> Any:
        """Outboard and height of a point."""
        return np.array(self.data.site(site).xpos)[[0, 2]]

    def velocity(self, site: str) -> Floats:
        """Change of its place with the arm angle."""
        return self._jacobian(site) @ self.rates

    @property
    def tilt_slope(self) -> float:
        """Change of the carrier's tilt with the arm angle."""
        turning = np.zeros((3, self.model.nv))
        mujoco.mj_jacBody(self.model, self.data, None, turning, self.model.body("carrier").id)
        return float(-turning[1] @ self.rates)

    @property
    def damper_length(self) -> float:
        """Between the mounts: of a slide, or of a tendon."""
        if isinstance(self.linkage, Strut):
            slid = float(self.data.joint("damper").qpos[0])
            return slid + BEYOND + float(self.linkage.length_below)
        return float(self.data.ten_length[0])

    @property
    def damper_slope(self) -> float:
        """Change of the damper's length with the arm angle."""
        self.data.qvel[:] = self.rates
        mujoco.mj_forward(self.model, self.data)
        if isinstance(self.linkage, Strut):
            return float(self.data.joint("damper").qvel[0])
        return float(self.data.ten_velocity[0])

    def pointing(self, along: float) -> Any:
        """Vector of a length along the first axis of the carrier's frame."""
        turn = np.array(self.data.body("carrier").xmat).reshape(3, 3)
        return along * turn[[0, 2], 0]

    @property
    def joint(self) -> Any:
        """Ball joint of the lower arm."""
        if isinstance(self.linkage, Strut):
            return self.place("here")
        return np.array(self.data.body("carrier").xpos)[[0, 2]]

    def _place_wheel(self) -> float:
        """Fix the wheel's points where they are in the reference position; return its lean."""
        linkage = cast("Any", self.linkage)
        reference = getattr(linkage, "reference_angle", 0.0)
        self._pose(reference)
        joint = self.joint
        body = self.data.body("carrier")
        turn = np.array(body.xmat).reshape(3, 3)
        for name, point in (("load", linkage.load_point), ("hub", linkage.hub_point)):
            at = np.array([joint[0] + point[0], 0.0, joint[1] + point[1]])
            self.model.site(name).pos[:] = turn.T @ (at - body.xpos)
        return self._lean()

    def _lean(self) -> float:
        """Turn of the carrier's frame, in the bump sense."""
        turn = np.array(self.data.body("carrier").xmat).reshape(3, 3)
        return math.atan2(turn[2, 0], turn[0, 0])

    def _pose(self, angle: float) -> None:
        """Set the arm, and close the chain."""
        joint = self.data.joint
        if isinstance(self.linkage, Strut):
            joint("damper").qpos[0] = 0.5
        if isinstance(self.linkage, DoubleWishbone):
            # Near the side that is built.
            joint("lean").qpos[0] = -0.3 * self.linkage.branch
            joint("upper").qpos[0] = 0.0 if self.linkage.branch > 0 else math.pi
        joint("arm").qpos[0] = angle
        for _ in range(40):
            mujoco.mj_fwdPosition(self.model, self.data)
            if self.model.nq == 1:
                self.rates = np.ones(1)
                return
            apart = self.place("here") - self.place("there")
            closing = self._jacobian("here") - self._jacobian("there")
            free = [dof for dof in range(3) if dof != self.model.joint("arm").dofadr[0]]
            self.data.qpos[free] -= np.linalg.solve(closing[:, free], apart)
        assert np.max(np.abs(apart)) < 1e-15
        self.rates = np.ones(3)
        driven = self.model.joint("arm").dofadr[0]
        self.rates[free] = np.linalg.solve(closing[:, free], -closing[:, driven])

    def _jacobian(self, site: str) -> Floats:
        lever = np.zeros((3, self.model.nv))
        mujoco.mj_jacSite(self.model, self.data, lever, None, self.model.site(site).id)
        return lever[[0, 2]]


# -- The links' own lines -----------------------------------------------------------------


def _line(one: Any, other: Any) -> sympy.Line2D:
    ends = [sympy.Point2D(*(sympy.Rational(float(x)) for x in point)) for point in (one, other)]
    return sympy.Line2D(*ends)


def _instant_centre(engine: Engine) -> Any:
    """Where the lines meet that go through the carrier's links."""
    linkage = cast("Any", engine.linkage)
    if isinstance(linkage, SwingArm):
        return (0.0, 0.0)
    arm = _line((0.0, 0.0), engine.joint)
    if isinstance(linkage, Strut):
        # The top of the strut slides along its axis: its centre lies square to that.
        foot = engine.place("there") + engine.pointing(float(linkage.offset))
        axis = _line(foot, linkage.top_mount)
        return arm.intersection(axis.perpendicular_line(axis.p2))[0]
    return arm.intersection(_line(linkage.upper_pivot, engine.place("here")))[0]


def roll_centre_by_lines(linkage: Linkage, angle: float, *, half_track: float) -> float:
    """Height, above the load point, of the line through it and the instant centre amidships."""
    engine = Engine(linkage, angle)
    contact = engine.place("load")
    middle = sympy.Line2D(sympy.Point2D(sympy.Rational(contact[0] - half_track), 0), slope=sympy.oo)
    meeting = _line(contact, _instant_centre(engine)).intersection(middle)[0]
    return float(meeting.y) - float(contact[1])


# -- Raw constraints in many digits ------------------------------------------------------

DIGITS = 40


def _direction(angle: Any) -> Any:
    return mpmath.expj(angle)


def _as_complex(point: Any) -> Any:
    return mpmath.mpc(float(point[0]), float(point[1]))


def _strut_lean(strut: Strut, joint: Any) -> Any:
    """Angle of a line through the top mount that leaves the ball joint at the offset."""

    def violated(lean: Any) -> Any:
        # Outboard of the line is its right-hand side.
        across = _as_complex(strut.top_mount) - joint
        return mpmath.im(across * mpmath.conj(_direction(lean))) * -1 - float(strut.offset)

    return mpmath.findroot(violated, math.pi / 2.0)


def _wishbone_lean(arms: DoubleWishbone, joint: Any) -> Any:
    """Angle of an upright whose upper end the upper arm reaches."""

    def violated(lean: Any) -> Any:
        top = joint + float(arms.upright) * _direction(lean)
        return abs(top - _as_complex(arms.upper_pivot)) - float(arms.upper_radius)

    return mpmath.findroot(violated, math.pi / 2.0 - 0.3 * arms.branch)


def _pose(linkage: Any, angle: Any, radius: Any) -> tuple[Any, Any]:
    """Ball joint, and lean of the carrier."""
    if isinstance(linkage, SwingArm):
        return mpmath.mpc(0), angle
    joint = float(radius) * _direction(angle)
    lean = _strut_lean if isinstance(linkage, Strut) else _wishbone_lean
    return joint, lean(linkage, joint)


def _tilt(linkage: Any, angle: Any) -> Any:
    if isinstance(linkage, SwingArm):
        return angle
    usual = linkage.reference_radius or linkage.arm_radius
    reference = _pose(linkage, mpmath.mpf(float(linkage.reference_angle)), usual)[1]
    return _pose(linkage, angle, linkage.arm_radius)[1] - reference


def _point(linkage: Any, angle: Any, point: Any) -> Any:
    radius = getattr(linkage, "arm_radius", None)
    joint, _ = _pose(linkage, angle, radius)
    return joint + _as_complex(point) * _direction(_tilt(linkage, angle))


def _damper(linkage: Any, angle: Any) -> Any:
    if isinstance(linkage, Strut):
        joint, lean = _pose(linkage, angle, linkage.arm_radius)
        along = mpmath.re((_as_complex(linkage.top_mount) - joint) * mpmath.conj(_direction(lean)))
        return along + float(linkage.length_below)
    foot = _as_complex(linkage.damper_foot) * _direction(angle)
    return abs(_as_complex(linkage.damper_mount) - foot)


QUANTITIES: dict[str, Callable[[Any, Any], Any]] = {
    "load.outboard": lambda linkage, angle: mpmath.re(_point(linkage, angle, linkage.load_point)),
    "load.height": lambda linkage, angle: mpmath.im(_point(linkage, angle, linkage.load_point)),
    "hub.outboard": lambda linkage, angle: mpmath.re(_point(linkage, angle, linkage.hub_point)),
    "hub.height": lambda linkage, angle: mpmath.im(_point(linkage, angle, linkage.hub_point)),
    "damper": _damper,
    "tilt": _tilt,
}


def exactly(linkage: Linkage, angle: float, quantity: str, derivative: int = 0) -> float:
    """A quantity of a linkage, or a derivative with the arm angle, from the constraints."""
    with mpmath.workdps(DIGITS):
        at = mpmath.mpf(angle)
        compute = QUANTITIES[quantity]
        return float(mpmath.diff(lambda x: compute(linkage, x), at, derivative))
