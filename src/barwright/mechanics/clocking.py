r"""Clocking of a splined bar: which free angles its teeth can give, and how.

A bar has :math:`N_a` teeth at the arm end and :math:`N_c` at the anchor end.
Counted in the bump sense from the blank, tooth :math:`m_a` lies on the arm's
key and tooth :math:`m_c` on the anchor's.  The free angle of the arm is then

.. math:: \varphi_\mathrm{free} = \alpha + \kappa_\mathrm{anchor} - \kappa_\mathrm{arm}
          + \sigma \delta + m_a p_a - m_c p_c, \qquad p = 2\pi / N .

One *step* is :math:`2\pi / \mathrm{lcm}(N_a, N_c)`; a rotation is a whole number of
steps, so that everything here but a target is an integer and ties are exact.
"""

from __future__ import annotations

import enum
import math
from collections.abc import Sequence

import numpy as np

from barwright.errors import GeometryError
from barwright.mechanics.types import Real

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

# Further out of square than this is refused; within it, treating the bar as
# level and square to the arm costs less than 0.1 % of any load or height.
_OUT_OF_SQUARE = math.radians(2.5)


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


def bump_sense(*, bar_axis: Sequence[float], arm_direction: Sequence[float]) -> int:
    r"""Sense of a bump rotation about the bar axis: +1 right-handed, -1 left-handed.

    .. math:: \sigma = \mathrm{sign}\left((r \times z) \cdot b\right)

    Parameters
    ----------
    bar_axis : sequence of three floats
        Vector :math:`b` from the anchor end to the arm end, in the vehicle axes
        of ISO 8855 (x forward, y left, z up); any length.
    arm_direction : sequence of three floats
        Horizontal vector :math:`r` from the bar axis to the wheel; any length.

    Returns
    -------
    int
        +1 or -1.

    Raises
    ------
    GeometryError
        If a vector is zero or not finite, or if bar axis, arm and vertical are
        not square to each other within 2.5°.

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
    axis = _unit(bar_axis, "bar_axis")
    arm = _unit(arm_direction, "arm_direction")
    along = float(np.dot(np.cross(arm, (0.0, 0.0, 1.0)), axis))
    if abs(along) < math.cos(_OUT_OF_SQUARE):
        raise GeometryError(
            "G105",
            value=f"bar axis {tuple(bar_axis)}, arm {tuple(arm_direction)}",
            expected="a level bar and an arm square to it",
            remedy="give both as horizontal vectors at a right angle",
            key="bar_axis",
        )
    return 1 if along > 0.0 else -1


def turning_sense(sense: int, *, from_arm_end: bool) -> TurningSense:
    """Bump sense as a viewer at one end sees it, looking toward the other end.

    Parameters
    ----------
    sense : int
        +1 or -1, of :func:`bump_sense`; reverse it for the droop sense.
    from_arm_end : bool
        Whether the viewer stands at the arm end; else at the anchor end.

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
    sense: int,
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
    sense : int
        :math:`\sigma` of :func:`bump_sense`.
    rotation : float or array [rad]
        :math:`\rho = m_a p_a - m_c p_c`, what the clocking adds.

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


def smallest_step(*, arm_teeth: int, anchor_teeth: int) -> float:
    r"""Smallest change of free angle that clocking both ends can give.

    .. math:: \Delta = \frac{2\pi}{\mathrm{lcm}(N_a, N_c)}

    Parameters
    ----------
    arm_teeth, anchor_teeth : int
        Tooth counts :math:`N_a`, :math:`N_c`.

    Returns
    -------
    float [rad]

    References
    ----------
    40 and 44 teeth give 9°, 8.18° and 0.82°: common practice, no source.

    Examples
    --------
    >>> f"{math.degrees(smallest_step(arm_teeth=40, anchor_teeth=44)):.4f}"
    '0.8182'
    """
    return math.tau / math.lcm(arm_teeth, anchor_teeth)


def centred(tooth: int, teeth: int) -> int:
    """Count the same tooth the short way round: in (-N/2, N/2].

    Parameters
    ----------
    tooth : int
        Tooth number, counted from the blank.
    teeth : int
        Tooth count of the whole circle.

    Returns
    -------
    int

    References
    ----------
    Definition.

    Examples
    --------
    >>> centred(39, 40), centred(20, 40), centred(21, 40)
    (-1, 20, -19)
    """
    return teeth // 2 - (teeth // 2 - tooth) % teeth


def rotation_steps(*, arm_tooth: int, anchor_tooth: int, arm_teeth: int, anchor_teeth: int) -> int:
    r"""Rotation of a pair of teeth, in steps.

    .. math:: k \equiv m_a \frac{N_c}{g} - m_c \frac{N_a}{g}
              \pmod{\mathrm{lcm}(N_a, N_c)}, \qquad g = \gcd(N_a, N_c)

    Parameters
    ----------
    arm_tooth, anchor_tooth : int
        Teeth :math:`m_a`, :math:`m_c` on the keys, in the bump sense from the blank.
    arm_teeth, anchor_teeth : int
        Tooth counts :math:`N_a`, :math:`N_c`.

    Returns
    -------
    int
        In [0, lcm).

    References
    ----------
    :math:`m_a p_a - m_c p_c` written in units of :func:`smallest_step`.

    Examples
    --------
    >>> rotation_steps(arm_tooth=1, anchor_tooth=1, arm_teeth=40, anchor_teeth=44)
    1
    """
    common = math.gcd(arm_teeth, anchor_teeth)
    steps = arm_tooth * (anchor_teeth // common) - anchor_tooth * (arm_teeth // common)
    return steps % math.lcm(arm_teeth, anchor_teeth)


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
        pairs.append((centred(arm, arm_teeth), centred(anchor, anchor_teeth)))
    return pairs


def _unit(vector: Sequence[float], name: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Vector of length one, or a refusal that names it."""
    array = np.asarray(vector, dtype=np.float64)
    norm = math.hypot(*array) if array.shape == (3,) else math.nan
    if not (math.isfinite(norm) and norm > 0.0):
        raise GeometryError(
            "G105",
            value=vector,
            expected="three finite numbers, not all zero",
            remedy="give x forward, y left, z up",
            key=name,
        )
    result: np.ndarray[tuple[int], np.dtype[np.float64]] = array / norm
    return result
