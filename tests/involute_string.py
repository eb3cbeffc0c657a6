"""The involute as the end of a taut string that is unwound from a circle of radius 1.

Nothing but the string's geometry: where it leaves the circle, it is square to the
radius, and as long as the arc that it has left.
"""

from __future__ import annotations

import math

import numpy as np
import scipy.optimize
from numpy.typing import NDArray

__all__ = ["end", "lean", "polar_angle", "unwound_to"]

Array = NDArray[np.float64]


def end(unwound: float) -> Array:
    """Place of the string's end when an arc [rad] is unwound; it began at (1, 0)."""
    leaves = np.array([math.cos(unwound), math.sin(unwound)])
    along = np.array([-math.sin(unwound), math.cos(unwound)])
    return leaves - unwound * along


def unwound_to(radius: float) -> float:
    """Arc [rad] that is unwound when the end has reached a radius, in base radii."""

    def missing(unwound: float) -> float:
        return float(np.hypot(*end(unwound))) - radius

    return float(scipy.optimize.brentq(missing, 0.0, radius + 1.0, xtol=1e-15, rtol=1e-14))


def polar_angle(radius: float) -> float:
    """Angle [rad] about the axis that the end has come round when it reaches a radius."""
    place = end(unwound_to(radius))
    return math.atan2(place[1], place[0])


def lean(radius: float) -> float:
    """Angle [rad] between the involute and the radius to its end.

    The end moves square to the string, and the string runs to where it leaves the circle.
    """
    unwound = unwound_to(radius)
    place = end(unwound)
    string = np.array([math.cos(unwound), math.sin(unwound)]) - place
    motion = np.array([-string[1], string[0]])
    across = motion[0] * place[1] - motion[1] * place[0]
    return abs(math.atan(across / float(motion @ place)))
