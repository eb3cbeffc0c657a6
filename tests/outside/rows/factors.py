"""Rows of `barwright.mechanics.spline.factors`: a head with gaps.

The factor of missing teeth is computed from how a rigid head moves; here it is found from
the tooth forces, as those of least energy that balance the torque, and in a multibody engine.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence

import mujoco
import numpy as np
import scipy.linalg
import scipy.optimize

from barwright.mechanics.spline.factors import missing_tooth_factor
from validation import Kind, Row


def places(teeth: int, missing: Sequence[int]) -> list[float]:
    """Angles of the teeth that are left."""
    return [math.tau * n / teeth for n in range(teeth) if n not in missing]


def least_energy(teeth: int, missing: Sequence[int]) -> float:
    """Greatest of the tooth forces that balance a torque with least energy, over the even share."""
    angles = np.array(places(teeth, missing))
    balance = np.array([np.ones_like(angles), np.sin(angles), np.cos(angles)])
    forces, *_ = scipy.linalg.lstsq(balance, [1.0, 0.0, 0.0])
    return float(np.max(forces)) * teeth


def in_the_engine(teeth: int, missing: Sequence[int]) -> float:
    """The same of a hub that turns and slides between long springs, one at each tooth.

    Each spring pulls straight back along the tangent and cannot push.
    """
    sites, tendons, far, rate = [], [], 1e3, 1.0
    for n, angle in enumerate(places(teeth, missing)):
        x, y = math.cos(angle), math.sin(angle)
        sites.append(f'<site name="tooth{n}" pos="{x!r} {y!r} 0"/>')
        sites.append(f'<site name="ground{n}" pos="{x + far * y!r} {y - far * x!r} 0"/>')
        tendons.append(
            f'<spatial stiffness="{rate!r}" springlength="0 {far!r}">'
            f'<site site="tooth{n}"/><site site="ground{n}"/></spatial>'
        )
    model = mujoco.MjModel.from_xml_string(f"""
    <mujoco>
      <option gravity="0 0 0"/>
      <worldbody>
        {"".join(sites[1::2])}
        <body>
          <joint type="slide" axis="1 0 0"/><joint type="slide" axis="0 1 0"/>
          <joint type="hinge" axis="0 0 1"/>
          <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
          {"".join(sites[::2])}
        </body>
      </worldbody>
      <tendon>{"".join(tendons)}</tendon>
    </mujoco>
    """)
    data = mujoco.MjData(model)
    torque = 1e-4

    def unbalanced(moved: np.ndarray) -> np.ndarray:
        data.qpos[:] = moved * torque
        mujoco.mj_forward(model, data)
        return np.asarray(data.qfrc_passive / torque + [0.0, 0.0, 1.0])

    rest = scipy.optimize.root(unbalanced, [0.0, 0.0, 1.0 / teeth], tol=1e-12)
    unbalanced(rest.x)
    return float(np.max(data.ten_length - far)) * rate / torque * teeth


_gaps = functools.partial(
    Row,
    of="factors.missing_tooth_factor",
    source="scipy, tooth forces in balance, with least energy",
    unit="",
    within=1e-9,
    kind=Kind.FORMULATED,
)

ROWS = [
    _gaps(
        given="40 teeth, one missing",
        expected=lambda: least_energy(40, [0]),
        got=lambda: missing_tooth_factor(teeth=40, missing=[0]),
    ),
    _gaps(
        given="40 teeth, two neighbours missing",
        expected=lambda: least_energy(40, [0, 1]),
        got=lambda: missing_tooth_factor(teeth=40, missing=[0, 1]),
    ),
    _gaps(
        given="40 teeth, two opposite ones missing",
        expected=lambda: least_energy(40, [0, 20]),
        got=lambda: missing_tooth_factor(teeth=40, missing=[0, 20]),
    ),
    _gaps(
        given="22 teeth, one missing",
        expected=lambda: least_energy(22, [0]),
        got=lambda: missing_tooth_factor(teeth=22, missing=[0]),
    ),
    _gaps(
        given="22 teeth, two neighbours missing",
        expected=lambda: least_energy(22, [0, 1]),
        got=lambda: missing_tooth_factor(teeth=22, missing=[0, 1]),
    ),
    _gaps(
        given="22 teeth, two opposite ones missing",
        expected=lambda: least_energy(22, [0, 11]),
        got=lambda: missing_tooth_factor(teeth=22, missing=[0, 11]),
    ),
    _gaps(
        source="MuJoCo and scipy: a hub that turns and slides between springs at its teeth",
        kind=Kind.ENGINE,
        given="40 teeth, two neighbours missing",
        expected=lambda: in_the_engine(40, [0, 1]),
        got=lambda: missing_tooth_factor(teeth=40, missing=[0, 1]),
        within=1e-6,
    ),
    _gaps(
        source="MuJoCo and scipy: the same, with two teeth out of contact",
        kind=Kind.ENGINE,
        given="12 teeth, four in a row missing",
        expected=lambda: in_the_engine(12, range(4)),
        got=lambda: missing_tooth_factor(teeth=12, missing=range(4)),
        within=1e-6,
    ),
]
