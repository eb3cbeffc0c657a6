"""What the linkages by directions share: the wheel carrier, its state, and plane vectors."""

from __future__ import annotations

import abc
import functools
from collections.abc import Callable
from typing import Any, TypeAlias

import attrs
import numpy as np

from barwright.computed_once import cached_property
from barwright.mechanics.common.interval import Bounded, Interval, direction, square
from barwright.mechanics.common.one_or_many import Flags, every
from barwright.mechanics.common.types import Real
from barwright.mechanics.linkage.arm_and_strut import Change, Linkage, Motion
from barwright.mechanics.linkage.wheel_carrier import Path, Point

__all__: list[str] = []


@attrs.frozen(eq=False, kw_only=True)
class Guided:
    """A wheel carrier by directions: its ball joint, the axis fixed in it, and its turning.

    Where the carrier has not tilted, the axis lies along the reference.
    """

    joint: Point
    axis: Point
    turn: Bounded
    turn_rate: Bounded
    reference: Point = (1.0, 0.0)

    def path(self, point: Point) -> Path:
        """Path of a point, given along the axis and square to it."""
        outboard = point[0] * self.axis[0] - point[1] * self.axis[1]
        height = point[0] * self.axis[1] + point[1] * self.axis[0]
        return Path(
            self.joint[0] + outboard,
            self.joint[1] + height,
            slope=self.joint[0] + self.turn * outboard,
            curvature=self.turn_rate * outboard - self.joint[1] - square(self.turn) * height,
        )


_Guide: TypeAlias = Callable[[Change], Guided]


class _Motion(Motion):
    """State of a linkage, whose damper is found at once, and the wheel when it is asked for."""

    @classmethod
    def of(
        cls, angle: Bounded, damper: Change, *, points: tuple[Point, Point], guide: _Guide
    ) -> _Motion:
        """Make it of a damper, of what finds the carrier, and of load and hub in that."""
        made = object.__new__(cls)
        vars(made).update(guide=guide, points=points)
        names = ("angle", "damper_length", "damper_slope", "damper_curvature")
        for name, value in zip(names, (angle, *damper), strict=True):
            object.__setattr__(made, name, value)
        return made

    @cached_property
    def guided(self) -> Guided:
        """The wheel carrier."""
        damper = (self.damper_length, self.damper_slope, self.damper_curvature)
        found: Guided = vars(self)["guide"](damper)
        return found

    @cached_property
    def load(self) -> Path:
        """The point where the wheel load acts."""
        return self.guided.path(vars(self)["points"][0])

    @cached_property
    def hub(self) -> Path:
        """The hub centre."""
        return self.guided.path(vars(self)["points"][1])

    @cached_property
    def tilt(self) -> Any:  # noqa: ANN401 - no bounds of it are known
        """Turn of the carrier from its reference position [rad]; without bounds."""
        if isinstance(self.angle, Interval):
            return Interval(-np.inf, np.inf)
        return angle_of(self.guided.axis) - angle_of(self.guided.reference)


@attrs.frozen(eq=False, slots=False)
class AlgebraicLinkage(Linkage):
    """A linkage by directions.

    Parameters
    ----------
    linkage : Linkage
        The same by angles.
    """

    linkage: Any

    def motion(self, angle: Bounded) -> Motion:
        """State of the linkage at an arm angle [rad], or bounds of it over an interval.

        Of an interval over which the links might part, nothing is known.
        """
        cosine_and_sine = direction(angle)
        closing = self._closing(cosine_and_sine)
        is_bounded = isinstance(closing, Interval)
        if not is_bounded and not every(closing > 0.0):
            # It says so in its own words, or knows better to the last bit.
            found: Motion = self.linkage.motion(angle)
            return found
        guide = functools.partial(self._guided, cosine_and_sine, closing)
        damper = self._damper(cosine_and_sine, closing)
        return _Motion.of(angle, damper, points=self._points, guide=guide)

    def angle_at_damper_length(self, length: Real) -> Real:
        """Arm angle [rad] at which the damper has a length [m]."""
        angle: Real = self.linkage.angle_at_damper_length(length)
        return angle

    def meets_between(self, *, low: Real, high: Real) -> Flags:  # noqa: ARG002 - wishbones ask for them
        """Whether links that meet at two arm angles [rad] are known to meet between them.

        Both less than half a turn apart, and the damper longer at the lower one.
        """
        return True

    @property
    @abc.abstractmethod
    def _points(self) -> tuple[Point, Point]:
        """Where load and hub lie in the carrier, along its axis and square to it."""

    @abc.abstractmethod
    def _closing(self, turned: Point) -> Bounded:
        """Return a number that is above zero where the links meet."""

    @abc.abstractmethod
    def _damper(self, turned: Point, closing: Bounded) -> Change:
        """Length of the damper, and its derivatives, at the direction of the arm."""

    @abc.abstractmethod
    def _guided(self, turned: Point, closing: Bounded, damper: Change) -> Guided:
        """Wheel carrier at the direction of the arm."""


# -- Shared with the linkages by directions, and public to nobody else ----------------------

_Pair: TypeAlias = tuple[Any, Any]


def dot(one: _Pair, other: _Pair) -> Bounded:
    return one[0] * other[0] + one[1] * other[1]


def cross(one: _Pair, other: _Pair) -> Bounded:
    return one[0] * other[1] - one[1] * other[0]


def angle_of(axis: Point) -> Real:
    result: Real = np.arctan2(axis[1], axis[0])
    return result


def along_axis(point: Point, axis: Point) -> Point:
    """Coordinates of a point along an axis and, at a left turn, square to it."""
    return dot(point, axis), cross(axis, point)


def damper_square(foot: Point, mount: Point, turned: Point) -> Bounded:
    """Square of a damper's length from a point of the arm to the chassis [m²]."""
    along = mount[0] * foot[0] + mount[1] * foot[1]
    aside = mount[1] * foot[0] - mount[0] * foot[1]
    sizes = dot(foot, foot) + dot(mount, mount)
    return sizes - 2.0 * (along * turned[0] + aside * turned[1])


def damper_of(foot: Point, mount: Point, turned: Point, length: Bounded) -> Change:
    """Length of such a damper, and its derivatives."""
    along = mount[0] * foot[0] + mount[1] * foot[1]
    aside = mount[1] * foot[0] - mount[0] * foot[1]
    slope = (along * turned[1] - aside * turned[0]) / length
    return length, slope, (along * turned[0] + aside * turned[1] - square(slope)) / length
