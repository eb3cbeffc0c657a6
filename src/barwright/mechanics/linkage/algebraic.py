r"""The linkages once more, without trigonometric functions: for many corners, and for bounds.

What :mod:`barwright.mechanics.linkage.arm_and_strut` and
:mod:`barwright.mechanics.linkage.double_wishbone` compute by angles is computed here by
directions, of one tangent alone.  With a mount :math:`M`, a point :math:`B` of the arm at the
radius :math:`r`, and

.. math:: p = M \cdot B, \qquad q = M \times B, \qquad p' = -q, \qquad q' = p,
          \qquad D^2 = |M|^2 + r^2 - 2 p,

a damper's length :math:`s^2 = D^2 - e^2` has :math:`s' = q / s` and
:math:`s'' = (p - s'^2) / s`, and the line between the points turns by
:math:`(r^2 - p) / D^2`.  Nothing in it asks what an argument is, so that it also gives bounds,
for an :class:`~barwright.mechanics.common.interval.Interval` of angles.

Many corners cost a fifth of what they cost by angles.  Assumed as there; the two are held
together by tests.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import attrs
import numpy as np

from barwright.computed_once import cached_property
from barwright.mechanics.common.interval import Bounded, direction, root, square
from barwright.mechanics.common.one_or_many import Flags, every
from barwright.mechanics.common.types import Real
from barwright.mechanics.linkage.algebraic_linkage import (
    AlgebraicLinkage,
    Guided,
    along_axis,
    cross,
    damper_of,
    damper_square,
    dot,
)
from barwright.mechanics.linkage.arm_and_strut import Change, Linkage, Strut, SwingArm
from barwright.mechanics.linkage.double_wishbone import DoubleWishbone
from barwright.mechanics.linkage.inclined import InclinedLinkage
from barwright.mechanics.linkage.wheel_carrier import Point

__all__: list[str] = []


def shortens(linkage: Linkage, *, low: Real, high: Real) -> bool:
    """Tell whether a damper is known to shorten all the way between two arm angles.

    With its lower mount on the arm, or on a strut over the ball joint, its slope goes as the
    sine of the arm's angle from the upper mount: where that is below zero at two angles less
    than half a turn apart, it is so between them.

    Parameters
    ----------
    linkage : Linkage
        One linkage or many, by directions.
    low, high : float or array [rad]
        The angles.

    Returns
    -------
    bool
        True if the links meet everywhere between them, too.  False says nothing.

    Raises
    ------
    GeometryError
        G101 if the links do not meet at one of the angles.

    References
    ----------
    Derived in this project; held against a search in fine steps.

    Examples
    --------
    >>> arm = SwingArm(load_point=(0.4, 0.0), hub_point=(0.4, 0.0),
    ...                damper_foot=(0.3, 0.0), damper_mount=(0.3, 0.4))
    >>> shortens(algebraic(arm), low=-0.5, high=0.5), shortens(algebraic(arm), low=-0.5, high=1.0)
    (True, False)
    """
    own: Any = linkage
    while not isinstance(own, AlgebraicLinkage):
        own = own.linkage
    slopes = [linkage.motion(angle).damper_slope for angle in (low, high)]
    falls = np.less(slopes[0], 0.0) & np.less(slopes[1], 0.0) & np.less(high - low, np.pi)
    return every(falls & own.meets_between(low=low, high=high))


def algebraic(linkage: Linkage) -> Linkage:
    """Return a linkage by directions.

    Parameters
    ----------
    linkage : Linkage
        A swing arm, strut or double wishbone by angles.

    Returns
    -------
    Linkage

    References
    ----------
    Derived in this project; held against the linkages by angles, to rounding.

    Examples
    --------
    >>> from barwright.mechanics.common.interval import Interval
    >>> arm = SwingArm(load_point=(0.4, 0.0), hub_point=(0.4, 0.0),
    ...                damper_foot=(0.3, 0.0), damper_mount=(0.3, 0.4))
    >>> load = algebraic(arm).motion(Interval(-0.1, 0.2)).load
    >>> f"{load.slope.low:.3f} m/rad to {load.slope.high:.3f} m/rad"
    '0.392 m/rad to 0.400 m/rad'
    """
    if isinstance(linkage, InclinedLinkage):
        return attrs.evolve(linkage, linkage=algebraic(linkage.linkage))
    return _BY_DIRECTIONS[type(linkage)](linkage)


class _Arm(AlgebraicLinkage):
    linkage: SwingArm

    @property
    def _points(self) -> tuple[Point, Point]:
        return self.linkage.load_point, self.linkage.hub_point

    def _closing(self, turned: Point) -> Bounded:
        return damper_square(self.linkage.damper_foot, self.linkage.damper_mount, turned)

    def _damper(self, turned: Point, closing: Bounded) -> Change:
        foot, mount = self.linkage.damper_foot, self.linkage.damper_mount
        return damper_of(foot, mount, turned, root(closing))

    def _guided(self, turned: Point, closing: Bounded, damper: Change) -> Guided:  # noqa: ARG002 - none
        return Guided(joint=(0.0, 0.0), axis=turned, turn=1.0, turn_rate=0.0)


class _Strut(AlgebraicLinkage):
    linkage: Strut

    @property
    def _points(self) -> tuple[Point, Point]:
        return self._fixed[0], self._fixed[1]

    @cached_property
    def _fixed(self) -> tuple[Point, Point, Point]:
        """Load and hub along the strut's axis in the reference position, and that axis."""
        strut = self.linkage
        usual = strut.arm_radius if strut.reference_radius is None else strut.reference_radius
        turned = direction(strut.reference_angle)
        axis = self._axis(usual, turned, root(self._square(usual, turned)))
        return along_axis(strut.load_point, axis), along_axis(strut.hub_point, axis), axis

    def _square(self, radius: Real, turned: Point) -> Bounded:
        """Square of the distance from the foot of the offset to the top mount [m²]."""
        strut = self.linkage
        sizes = square(radius) + dot(strut.top_mount, strut.top_mount) - square(strut.offset)
        return sizes - 2.0 * (dot(strut.top_mount, turned) * radius)

    def _axis(self, radius: Real, turned: Point, length: Bounded) -> Point:
        strut = self.linkage
        across = strut.top_mount[0] - radius * turned[0]
        up = strut.top_mount[1] - radius * turned[1]
        apart = square(length) + square(strut.offset)
        return (
            (across * length - up * strut.offset) / apart,
            (up * length + across * strut.offset) / apart,
        )

    def _closing(self, turned: Point) -> Bounded:
        return self._square(self.linkage.arm_radius, turned)

    def _damper(self, turned: Point, closing: Bounded) -> Change:
        strut, length = self.linkage, root(closing)
        p, q = self._dot_and_cross(turned)
        slope = q / length
        return length + strut.length_below, slope, (p - square(slope)) / length

    def _guided(self, turned: Point, closing: Bounded, damper: Change) -> Guided:
        strut, radius = self.linkage, self.linkage.arm_radius
        apart, (p, q) = closing + square(strut.offset), self._dot_and_cross(turned)
        turn = (square(radius) - p - strut.offset * damper[1]) / apart
        return Guided(
            joint=(radius * turned[0], radius * turned[1]),
            axis=self._axis(radius, turned, root(closing)),
            turn=turn,
            turn_rate=(q - strut.offset * damper[2] - 2.0 * q * turn) / apart,
            reference=self._fixed[2],
        )

    def _dot_and_cross(self, turned: Point) -> Point:
        """Products of the top mount and the ball joint [m²]."""
        radius, mount = self.linkage.arm_radius, self.linkage.top_mount
        return radius * dot(mount, turned), radius * cross(mount, turned)


class _Wishbone(AlgebraicLinkage):
    linkage: DoubleWishbone

    @property
    def _points(self) -> tuple[Point, Point]:
        return self._fixed[0], self._fixed[1]

    @cached_property
    def _fixed(self) -> tuple[Point, Point, Point]:
        """Load and hub along the upright in the reference position, and that axis."""
        own = self.linkage
        usual = own.arm_radius if own.reference_radius is None else own.reference_radius
        turned = direction(own.reference_angle)
        axis = self._axis(usual, turned, root(self._height_square(self._apart(usual, turned))))
        return along_axis(own.load_point, axis), along_axis(own.hub_point, axis), axis

    def _apart(self, radius: Real, turned: Point) -> Bounded:
        """Square of the distance from the lower ball joint to the upper pivot [m²]."""
        pivot = self.linkage.upper_pivot
        return square(radius) + dot(pivot, pivot) - 2.0 * radius * dot(pivot, turned)

    @property
    def _excess(self) -> Bounded:
        """Square of the upright less that of the upper arm [m²]."""
        return square(self.linkage.upright) - square(self.linkage.upper_radius)

    def _height_square(self, apart: Bounded) -> Bounded:
        """Square of the upper ball joint's distance from that line [m²]: Heron's formula."""
        own = self.linkage
        most, least = own.upright + own.upper_radius, own.upright - own.upper_radius
        product = (square(most) - apart) * (apart - square(least))
        return product * square(0.5 / own.upright)

    def _axis(self, radius: Real, turned: Point, height: Bounded) -> Point:
        """Direction of the upright: beside the line, at a share of its length, by that distance."""
        own, apart = self.linkage, self._apart(radius, turned)
        along = (self._excess / apart + 1.0) * (0.5 / own.upright)
        aside = own.branch * height / apart
        across = own.upper_pivot[0] - radius * turned[0]
        up = own.upper_pivot[1] - radius * turned[1]
        return across * along + up * aside, up * along - across * aside

    def meets_between(self, *, low: Real, high: Real) -> Flags:
        """Whether the line to the upper pivot only grows, or only shrinks, between two angles.

        Its length decides alone, and has no least and no greatest value in between.
        """
        ends = [cross(self.linkage.upper_pivot, direction(angle)) for angle in (low, high)]
        grows: Flags = np.greater(ends[0] * ends[1], 0.0)
        return grows

    def _closing(self, turned: Point) -> Bounded:
        return self._height_square(self._apart(self.linkage.arm_radius, turned))

    def _damper(self, turned: Point, closing: Bounded) -> Change:  # noqa: ARG002 - not of the damper
        foot, mount = self.linkage.damper_foot, self.linkage.damper_mount
        return damper_of(foot, mount, turned, root(damper_square(foot, mount, turned)))

    def _guided(self, turned: Point, closing: Bounded, damper: Change) -> Guided:  # noqa: ARG002 - as above
        own, radius, height = self.linkage, self.linkage.arm_radius, root(closing)
        p, q = radius * dot(own.upper_pivot, turned), radius * cross(own.upper_pivot, turned)
        apart = self._apart(radius, turned)
        excess = self._excess / apart
        # The line to the upper pivot turns, and the upright against it.
        line = (square(radius) - p) / apart
        half = 0.5 / own.upright
        share, share_rate = (1.0 - excess) * half, 2.0 * q * excess * half / apart
        height_rate = q * (1.0 - (self._excess + apart) * (half / own.upright)) / height
        opening = q * share / height
        opening_rate = (p * share + q * share_rate - opening * height_rate) / height
        return Guided(
            joint=(radius * turned[0], radius * turned[1]),
            axis=self._axis(radius, turned, height),
            turn=line + own.branch * opening,
            turn_rate=q * (1.0 - 2.0 * line) / apart + own.branch * opening_rate,
            reference=self._fixed[2],
        )


_BY_DIRECTIONS: dict[type[Linkage], Callable[[Any], AlgebraicLinkage]] = {
    SwingArm: _Arm,
    Strut: _Strut,
    DoubleWishbone: _Wishbone,
}
