r"""Clocking of a splined bar: the free angles that its teeth can give.

A bar has :math:`N_a` teeth at the arm end and :math:`N_c` at the anchor end.
Counted in the bump sense from the blank, tooth :math:`m_a` lies on the arm's
key and tooth :math:`m_c` on the anchor's.  The free angle of the arm is then

.. math:: \varphi_\mathrm{free} = \alpha + \kappa_\mathrm{anchor} - \kappa_\mathrm{arm}
          + \sigma \delta + m_a p_a - m_c p_c, \qquad p = 2\pi / N .

One *step* is :math:`2\pi / \mathrm{lcm}(N_a, N_c)`; a rotation is a whole number of
steps, so that everything here but an angle is an integer and ties are exact.

Assumed: equal pitches all round, blanks counted as teeth, keys that fill one groove,
no play in the splines, and an arm that turns about the bar.  A free angle is known but
for whole turns.  Integers may be arrays that broadcast (then of 64 bits), except where
a list of pairs comes back, whose length depends on the counts.
"""

from __future__ import annotations

import enum
import math
from collections.abc import Sequence
from typing import Any, TypeAlias, overload

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.bar_axes import bar_plane
from barwright.mechanics.common.types import Real
from barwright.mechanics.common.vectors import Direction, Sign

__all__ = [
    "TurningSense",
    "bump_sense",
    "centred",
    "free_angle",
    "rotation_steps",
    "smallest_step",
    "tooth_pairs",
    "turning_sense",
]

Whole: TypeAlias = int | NDArray[np.int64]
"""A whole number, or an array of them."""


class TurningSense(enum.Enum):
    """A sense of turning as a viewer sees it."""

    CLOCKWISE = "clockwise"
    COUNTER_CLOCKWISE = "counter-clockwise"

    @property
    def reversed(self) -> TurningSense:
        """The other sense."""
        return _OTHER[self]


_OTHER = {
    TurningSense.CLOCKWISE: TurningSense.COUNTER_CLOCKWISE,
    TurningSense.COUNTER_CLOCKWISE: TurningSense.CLOCKWISE,
}


@overload
def bump_sense(*, bar_axis: Sequence[float], arm_direction: Sequence[float]) -> int: ...
@overload
def bump_sense(*, bar_axis: Direction, arm_direction: Direction) -> Sign: ...
def bump_sense(*, bar_axis: Direction, arm_direction: Direction) -> Sign:
    r"""Sense of a bump rotation about the bar axis: +1 right-handed, -1 left-handed.

    .. math:: \sigma = \mathrm{sign}\left((r \times z) \cdot b\right)

    The bar may be inclined: the sign is that of the plane square to it.

    Parameters
    ----------
    bar_axis : three floats, or array
        Vector :math:`b` from the anchor end to the arm end, in the vehicle axes
        of ISO 8855 (x forward, y left, z up); any length.
    arm_direction : three floats, or array
        Horizontal vector :math:`r` from the bar axis to the wheel; any length.

    Returns
    -------
    int or array
        +1 or -1.

    Raises
    ------
    GeometryError
        G105 if a vector is zero or not finite, if the bar is inclined by more than
        60°, or if the arm is not level and square to the bar within 2.5°.

    References
    ----------
    ISO 8855, vehicle axis system.

    Examples
    --------
    A bar along the car, its arm end in front:

    >>> bump_sense(bar_axis=(1, 0, 0), arm_direction=(0, 1, 0))  # left wheel
    1
    >>> bump_sense(bar_axis=(1, 0, 0), arm_direction=(0, -1, 0))  # right wheel
    -1
    """
    return bar_plane(bar_axis=bar_axis, arm_direction=arm_direction).sense


def turning_sense(sense: int, *, from_arm_end: bool) -> TurningSense:
    """Bump sense as a viewer at one end sees it, looking toward the other end.

    Parameters
    ----------
    sense : int
        +1 or -1, of :func:`bump_sense`; reverse it for the droop sense.
    from_arm_end : bool
        Whether the viewer stands at the arm end, not at the anchor end.

    Returns
    -------
    TurningSense

    References
    ----------
    A right-handed turn about the line of sight is clockwise to the viewer.

    Examples
    --------
    >>> turning_sense(1, from_arm_end=True).value
    'counter-clockwise'
    """
    right_handed_about_sight = (sense < 0) == from_arm_end
    if right_handed_about_sight:
        return TurningSense.CLOCKWISE
    return TurningSense.COUNTER_CLOCKWISE


def free_angle(
    lever_angle: Real,
    *,
    arm_key: Real,
    anchor_key: Real,
    blank_angle: Real,
    sense: Sign,
    rotation: Real,
) -> Real:
    r"""Angle of the arm at which the bar carries no torque.

    .. math:: \varphi_\mathrm{free} = \alpha + \kappa_\mathrm{anchor}
              - \kappa_\mathrm{arm} + \sigma \delta + \rho

    Parameters
    ----------
    lever_angle : float or array [rad]
        Angle :math:`\alpha` of the anchor's lever.
    arm_key, anchor_key : float or array [rad]
        Angles :math:`\kappa` from the centreline of arm or lever to its key.
    blank_angle : float or array [rad]
        Angle :math:`\delta` from the anchor-end blank to the arm-end blank,
        right-handed about the bar axis.
    sense : int or array
        :math:`\sigma` of :func:`bump_sense`.
    rotation : float or array [rad]
        :math:`\rho = m_a p_a - m_c p_c`: what the clocking adds to the free angle.

    Returns
    -------
    float or array [rad]

    References
    ----------
    Derived in this project; proved by building the teeth in three dimensions.

    Examples
    --------
    >>> free_angle(0.1, arm_key=0.3, anchor_key=-0.2, blank_angle=0.05, sense=-1, rotation=0.0)
    -0.45
    """
    return lever_angle + anchor_key - arm_key + sense * blank_angle + rotation


@overload
def smallest_step(*, arm_teeth: int, anchor_teeth: int) -> float: ...
@overload
def smallest_step(*, arm_teeth: Whole, anchor_teeth: Whole) -> Real: ...
def smallest_step(*, arm_teeth: Whole, anchor_teeth: Whole) -> Real:
    r"""Smallest change of free angle that clocking both ends can give.

    .. math:: \Delta = \frac{2\pi}{\mathrm{lcm}(N_a, N_c)}

    Parameters
    ----------
    arm_teeth, anchor_teeth : int or array of int
        Tooth counts :math:`N_a`, :math:`N_c`.

    Returns
    -------
    float or array [rad]

    References
    ----------
    39 and 42 teeth give 9.231°, 8.571° and a step of 0.659°; 36 and 41 teeth one of 0.244°, though
    one tooth each way turns by 1.220°.  Arithmetic.

    Examples
    --------
    >>> f"{math.degrees(smallest_step(arm_teeth=39, anchor_teeth=42)):.4f}"
    '0.6593'
    """
    result: Real = math.tau / _common_multiple(arm_teeth, anchor_teeth)
    return result


@overload
def centred(tooth: int, *, teeth: int) -> int: ...
@overload
def centred(tooth: Whole, *, teeth: Whole) -> Whole: ...
def centred(tooth: Whole, *, teeth: Whole) -> Whole:
    """Return the number of the same tooth, counted the short way round: in (-N/2, N/2].

    Parameters
    ----------
    tooth : int or array of int
        Tooth number, counted from the blank.
    teeth : int or array of int
        Tooth count of the whole circle.

    Returns
    -------
    int or array of int

    References
    ----------
    Definition.

    Examples
    --------
    >>> centred(39, teeth=40), centred(20, teeth=40), centred(21, teeth=40)
    (-1, 20, -19)
    """
    return teeth // 2 - (teeth // 2 - tooth) % teeth


@overload
def rotation_steps(
    *, arm_tooth: int, anchor_tooth: int, arm_teeth: int, anchor_teeth: int
) -> int: ...
@overload
def rotation_steps(
    *, arm_tooth: Whole, anchor_tooth: Whole, arm_teeth: Whole, anchor_teeth: Whole
) -> Whole: ...
def rotation_steps(
    *, arm_tooth: Whole, anchor_tooth: Whole, arm_teeth: Whole, anchor_teeth: Whole
) -> Whole:
    r"""Rotation of a pair of teeth, in steps.

    .. math:: k \equiv m_a \frac{N_c}{g} - m_c \frac{N_a}{g}
              \pmod{\mathrm{lcm}(N_a, N_c)}, \qquad g = \gcd(N_a, N_c)

    Parameters
    ----------
    arm_tooth, anchor_tooth : int or array of int
        Teeth :math:`m_a`, :math:`m_c` on the keys, in the bump sense from the blank.
    arm_teeth, anchor_teeth : int or array of int
        Tooth counts :math:`N_a`, :math:`N_c`.

    Returns
    -------
    int or array of int
        In [0, lcm).

    References
    ----------
    :math:`m_a p_a - m_c p_c` written in units of :func:`smallest_step`.

    Examples
    --------
    >>> rotation_steps(arm_tooth=1, anchor_tooth=1, arm_teeth=39, anchor_teeth=42)
    1
    """
    common = _common(arm_teeth, anchor_teeth)
    steps = arm_tooth * (anchor_teeth // common) - anchor_tooth * (arm_teeth // common)
    turn: Any = _common_multiple(arm_teeth, anchor_teeth)
    result: Whole = steps % turn
    return result


def tooth_pairs(steps: int, *, arm_teeth: int, anchor_teeth: int) -> list[tuple[int, int]]:
    """Every pair of teeth that gives a rotation: exactly gcd(N_a, N_c) of them.

    Solves the congruence of :func:`rotation_steps` by the extended Euclidean
    algorithm, in O(log N) and O(gcd) to list the pairs.

    Parameters
    ----------
    steps : int
        Wanted rotation in steps; any integer.
    arm_teeth, anchor_teeth : int
        Tooth counts.

    Returns
    -------
    list of (int, int)
        Pairs (arm tooth, anchor tooth), each in (-N/2, N/2].

    References
    ----------
    Linear congruence; checked against a brute-force search over all pairs.

    Examples
    --------
    >>> tooth_pairs(1, arm_teeth=9, anchor_teeth=10)
    [(1, 1)]
    >>> tooth_pairs(0, arm_teeth=4, anchor_teeth=6)
    [(0, 0), (2, 3)]
    """
    common = math.gcd(arm_teeth, anchor_teeth)
    arm_unit, anchor_unit = anchor_teeth // common, arm_teeth // common
    first = steps * pow(arm_unit, -1, anchor_unit) % anchor_unit
    pairs = []
    for arm in range(first, arm_teeth, anchor_unit):
        anchor = (arm * arm_unit - steps) // anchor_unit
        pairs.append((centred(arm, teeth=arm_teeth), centred(anchor, teeth=anchor_teeth)))
    return pairs


def _common(one: Whole, other: Whole) -> Whole:
    """Greatest common divisor; of Python's integers a Python integer."""
    if isinstance(one, int) and isinstance(other, int):
        return math.gcd(one, other)
    return np.gcd(one, other)


def _common_multiple(one: Whole, other: Whole) -> Whole:
    """Least common multiple, likewise."""
    if isinstance(one, int) and isinstance(other, int):
        return math.lcm(one, other)
    return np.lcm(one, other)
