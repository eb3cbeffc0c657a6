r"""Bar axes in any direction: the plane square to them, and its place in the vehicle.

A bar along the vehicle, across it, oblique in plan or inclined to the horizontal: its
axis is a vector in the vehicle axes of ISO 8855 (x forward, y left, z up).  The arm
turns about that axis, so that linkages stay plane figures; only what is vertical has
to be carried into their plane and back.  With the axis inclined by :math:`\beta`, one
metre in the plane rises :math:`\cos\beta`, and of a vertical load :math:`\cos\beta`
turns the arm; the rest runs along the bar into the arm's bearings.

Assumed: the arm's own axis and those of all pivots are parallel to the bar.  Within
2.5° an axis counts as parallel and an arm as level and square, which costs less than
0.1 % of a load or a height.  A bar inclined by more than 60°, which leaves less than
half of a vertical load to turn the arm, is refused.  Vectors are three floats, or
arrays whose last axis is x, y, z; everything broadcasts.
"""

from __future__ import annotations

import math

import attrs
import numpy as np

from barwright.errors import GeometryError
from barwright.mechanics.common.types import Real
from barwright.mechanics.common.vectors import Direction, Sign, Vector, cross, dot, length, times

__all__ = ["BarPlane", "bar_plane"]

_UP = np.array([0.0, 0.0, 1.0])

# Further out of square, level or parallel than this is refused.
_LEAST_COSINE = math.cos(math.radians(2.5))

# Cosine of 60°, less what rounding may take from it.
_LEAST_SHARE = 0.5 - 1e-12


@attrs.frozen(eq=False, kw_only=True)
class BarPlane:
    """The plane square to a bar axis; :func:`bar_plane` makes it.

    Parameters
    ----------
    axis : array
        Unit vector from the anchor end to the arm end.
    outboard : array
        Level unit vector in the plane, toward the wheel.
    up : array
        Unit vector in the plane, square to ``outboard`` and rising.
    """

    axis: Vector
    outboard: Vector
    up: Vector

    @property
    def bump_axis(self) -> Vector:
        """Unit vector about which a bump rotation is right-handed.

        Returns
        -------
        array

        References
        ----------
        Right-hand rule, in the vehicle axes of ISO 8855.

        Examples
        --------
        >>> plane = bar_plane(bar_axis=(-1, 0, 0), arm_direction=(0, 1, 0))
        >>> float(plane.bump_axis[0])
        1.0
        """
        result: Vector = cross(self.outboard, self.up)
        return result

    @property
    def sense(self) -> Sign:
        r"""Sense of a bump rotation about the bar axis: +1 right-handed, -1 left-handed.

        .. math:: \sigma = \mathrm{sign}\left((o \times u) \cdot b\right)

        Returns
        -------
        int or array

        References
        ----------
        Right-hand rule, in the vehicle axes of ISO 8855.

        Examples
        --------
        >>> bar_plane(bar_axis=(1, 0, 0.1), arm_direction=(0, -1, 0)).sense
        -1
        """
        signs = np.where(dot(self.bump_axis, self.axis) > 0.0, 1.0, -1.0)
        return int(signs) if signs.ndim == 0 else signs

    @property
    def vertical_share(self) -> Real:
        r"""Share of a vertical load that turns the arm, and of travel that is vertical.

        .. math:: u \cdot z = \cos\beta

        with the axis' inclination :math:`\beta` to the horizontal.

        Returns
        -------
        float or array

        References
        ----------
        Projection; checked against a general multibody engine.

        Examples
        --------
        >>> plane = bar_plane(bar_axis=(1, 0, 0.1), arm_direction=(0, 1, 0))
        >>> f"{plane.vertical_share:.4f}"
        '0.9950'
        """
        share: Real = self.up[..., 2]
        return share

    def in_vehicle(self, *, outboard: Real, height: Real) -> Vector:
        r"""Vector in vehicle axes of a point in the plane.

        .. math:: y\, o + z\, u

        Parameters
        ----------
        outboard, height : float or array [m]
            Coordinates :math:`y, z` in the plane, of a point or of a shift.

        Returns
        -------
        array [m]
            Forward, left and up along the last axis.

        References
        ----------
        Change of basis; checked against a general multibody engine.

        Examples
        --------
        >>> plane = bar_plane(bar_axis=(1, 0, 0.1), arm_direction=(0, 1, 0))
        >>> [f"{x * 1000:.1f}" for x in plane.in_vehicle(outboard=0.4, height=0.1)]
        ['-10.0', '400.0', '99.5']
        """
        return times(outboard, self.outboard) + times(height, self.up)

    def track_change(self, *, outboard: Real, height: Real, wheel_side: Sign) -> Real:
        """Change of track at one wheel whose contact shifts in the plane.

        Parameters
        ----------
        outboard, height : float or array [m]
            Shift of the tyre contact: changes of its coordinates in the plane.
        wheel_side : int
            +1 for a left wheel, -1 for a right one.

        Returns
        -------
        float or array [m]
            Positive if the track grows.

        References
        ----------
        Change of basis; checked against a general multibody engine.

        Examples
        --------
        A bar on the right that rises forward and inward:

        >>> plane = bar_plane(bar_axis=(1, 0.1, 0.1), arm_direction=(0.1, -1, 0))
        >>> change = plane.track_change(outboard=0.0, height=0.1, wheel_side=-1)
        >>> f"{change * 1000:.2f} mm"
        '0.99 mm'
        """
        shift: Real = wheel_side * self.in_vehicle(outboard=outboard, height=height)[..., 1]
        return shift

    def wheelbase_change(self, *, outboard: Real, height: Real) -> Real:
        """Shift forward of a wheel whose contact shifts in the plane.

        Parameters
        ----------
        outboard, height : float or array [m]
            As in :meth:`track_change`.

        Returns
        -------
        float or array [m]
            Positive forward: a front wheel's lengthens the wheelbase, a rear wheel's
            shortens it.

        References
        ----------
        Change of basis; checked against a general multibody engine.

        Examples
        --------
        A trailing arm of 0.4 m, from level to 0.2 rad in bump:

        >>> plane = bar_plane(bar_axis=(0, 1, 0), arm_direction=(-1, 0, 0))
        >>> nearer = 0.4 * (math.cos(0.2) - 1.0)
        >>> f"{plane.wheelbase_change(outboard=nearer, height=0.0795) * 1000:.2f} mm"
        '7.97 mm'
        """
        shift: Real = self.in_vehicle(outboard=outboard, height=height)[..., 0]
        return shift


def bar_plane(
    *, bar_axis: Direction, arm_direction: Direction, arm_axis: Direction | None = None
) -> BarPlane:
    r"""Plane square to a bar axis, with its directions outboard and up.

    .. math:: o = \pm \frac{b \times z}{|b \times z|}, \qquad
              u = \frac{z - (z \cdot b)\, b}{|b \times z|}

    Parameters
    ----------
    bar_axis : three floats, or array
        Vector :math:`b` from the anchor end to the arm end, in the vehicle axes of
        ISO 8855 (x forward, y left, z up); any length.
    arm_direction : three floats, or array
        Level vector from the bar axis to the wheel, square to the bar; any length.
        It gives the sign of :math:`o`.
    arm_axis : three floats, or array, optional
        Axis that the arm's own bearings give it, either way round.  Taken as
        parallel to the bar if it is not given.

    Returns
    -------
    BarPlane

    Raises
    ------
    GeometryError
        G105 if a vector is zero or not finite, if the bar is inclined by more than
        60°, or if the arm is not level and square to the bar within 2.5°; G110 if the
        arm's axis is not parallel to the bar within 2.5°.

    References
    ----------
    ISO 8855, vehicle axis system.

    Examples
    --------
    A bar along the vehicle that rises toward its arm end by 1 in 10:

    >>> plane = bar_plane(bar_axis=(1, 0, 0.1), arm_direction=(0, 1, 0))
    >>> [f"{x:.4f}" for x in plane.up]
    ['-0.0995', '0.0000', '0.9950']
    """
    axis, arm = _unit(bar_axis, "bar_axis"), _unit(arm_direction, "arm_direction")
    square = cross(axis, _UP)
    share = length(square)
    if not np.all(share >= _LEAST_SHARE):
        raise _too_steep(bar_axis)
    level = times(1.0 / share, square)
    toward = dot(level, arm)
    if not np.all(np.abs(toward) >= _LEAST_COSINE):
        raise _not_square(bar_axis, arm_direction)
    if arm_axis is not None:
        _check_parallel(axis, _unit(arm_axis, "arm_axis"))
    outboard = times(np.sign(toward), level)
    return BarPlane(axis=axis, outboard=outboard, up=cross(level, axis))


def _unit(vector: Direction, name: str) -> Vector:
    """Vector of length one, or a refusal that names it."""
    array = np.asarray(vector, dtype=np.float64)
    norm = length(array) if array.shape[-1:] == (3,) else np.array(math.nan)
    if not np.all(np.isfinite(norm) & (norm > 0.0)):
        raise GeometryError(
            "G105",
            value=vector,
            expected="three finite numbers, not all zero",
            remedy="give x forward, y left, z up",
            key=name,
        )
    result: Vector = array / norm[..., None]
    return result


def _too_steep(bar_axis: Direction) -> GeometryError:
    return GeometryError(
        "G105",
        value=f"bar axis {_shown(bar_axis)}",
        expected="an axis within 60° of the horizontal",
        remedy="give x forward, y left, z up, from the anchor end to the arm end",
        key="bar_axis",
    )


def _not_square(bar_axis: Direction, arm_direction: Direction) -> GeometryError:
    return GeometryError(
        "G105",
        value=f"bar axis {_shown(bar_axis)}, arm {_shown(arm_direction)}",
        expected="an arm that is level and square to the bar within 2.5°",
        remedy="give the arm as a horizontal vector at a right angle to the bar",
        key="arm_direction",
    )


def _check_parallel(axis: Vector, arm_axis: Vector) -> None:
    """Refuse an arm whose bearings turn it about another axis than the bar's."""
    cosine = np.abs(dot(axis, arm_axis))
    if not np.all(cosine >= _LEAST_COSINE):
        raise GeometryError(
            "G110",
            value=f"{math.degrees(math.acos(np.min(cosine))):.1f}° between arm axis and bar axis",
            expected="at most 2.5°",
            remedy="check both axes: such an arm would bend the bar as it swings",
            key="arm_axis",
        )


def _shown(vector: Direction) -> str:
    return str(tuple(np.asarray(vector).tolist()))
