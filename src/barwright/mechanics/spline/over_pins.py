r"""Size over two pins that lie in opposite spaces of an involute spline.

Two pins of one known diameter lie in spaces that are as nearly opposite as the count of
teeth allows, and a calliper spans both.  The size tells how thick the teeth are, and on
which base circle their flanks were made: what the diameter over the teeth cannot tell.

Limits: ideal flanks without tolerances.  Each pin must touch both flanks of its space,
neither the root nor an edge of the tips, and stand out beyond the tips.
"""

from __future__ import annotations

import math

import numpy as np

from barwright.mechanics.common.requirements import refuse
from barwright.mechanics.common.solve import rising_root
from barwright.mechanics.common.types import Real
from barwright.mechanics.spline.involute import (
    base_diameter,
    involute_function,
    pitch_diameter,
)

__all__ = ["involute_angle", "size_over_pins"]

# The involute function grows beyond all bounds towards a right angle; here it is above 1000.
_STEEPEST = math.pi / 2.0 - 1e-3


def involute_angle(involute: Real) -> Real:
    r"""Angle whose involute function has a value.

    .. math:: \operatorname{inv} \alpha = \tan \alpha - \alpha

    Parameters
    ----------
    involute : float or array [rad]
        The value, not below zero.

    Returns
    -------
    float or array [rad]

    Raises
    ------
    QuantityError
        If a value is below zero.

    References
    ----------
    Inverse of :func:`~barwright.mechanics.spline.involute.involute_function`, found by
    Newton's method; checked against a string unwound from the circle.

    Examples
    --------
    >>> import math
    >>> f"{math.degrees(involute_angle(0.05375)):.2f}°"
    '30.00°'
    """
    refuse(
        "Q302",
        involute,
        where=np.less(involute, 0.0),
        expected="a value of the involute function, not below 0",
        remedy="give the angle between the radii to a point and to the foot of its involute",
        key="involute",
    )
    # The function begins flat, like a third of the cube of its angle: its cube root is solved for.
    wanted = np.cbrt(involute)

    def missing(angle: Real) -> tuple[Real, Real]:
        value = np.cbrt(involute_function(angle))
        slope = np.divide(np.square(np.tan(angle)), 3.0 * np.square(np.maximum(value, 1e-9)))
        return value - wanted, slope

    return rising_root(missing, low=0.0, high=_STEEPEST)


def size_over_pins(
    *,
    teeth: Real,
    module: Real,
    pressure_angle: Real,
    tooth_thickness: Real,
    pin_diameter: Real,
) -> Real:
    r"""Size over two pins in opposite spaces of a shaft's teeth.

    .. math:: M = k \frac{D_b}{\cos \varphi} + d, \quad
              \operatorname{inv} \varphi = \frac{t}{D} + \operatorname{inv} \alpha
              + \frac{d}{D_b} - \frac{\pi}{Z}

    with :math:`k = 1` for an even count of teeth, and
    :math:`k = \cos \frac{\pi}{2 Z}` for an odd one, which has no two spaces opposite.

    Parameters
    ----------
    teeth : int or array
        Teeth :math:`Z` of the whole circle, missing ones counted.
    module : float or array [m]
        Module :math:`m`, for the pitch diameter :math:`D = m Z`.
    pressure_angle : float or array [rad]
        Angle :math:`\alpha` between flank and radius at the pitch circle.
    tooth_thickness : float or array [m]
        Thickness :math:`t` along the pitch circle.
    pin_diameter : float or array [m]
        Diameter :math:`d` of both pins.

    Returns
    -------
    float or array [m]
        From outside to outside of the pins.

    Raises
    ------
    QuantityError
        If a pin is too thin to touch both flanks.

    References
    ----------
    The formula of books on gears (from memory); checked against pins that touch flanks
    made of unwound strings.

    Examples
    --------
    >>> import math
    >>> size = size_over_pins(teeth=40, module=0.00075, pressure_angle=math.radians(30),
    ...                       tooth_thickness=0.001178, pin_diameter=0.0015)
    >>> f"{size * 1000:.3f} mm"
    '32.419 mm'
    """
    circle = pitch_diameter(teeth=teeth, module=module)
    base = base_diameter(teeth=teeth, module=module, pressure_angle=pressure_angle)
    flank = tooth_thickness / circle + involute_function(pressure_angle)
    involute = flank + pin_diameter / base - math.pi / teeth
    refuse(
        "Q302",
        pin_diameter,
        where=np.less(involute, 0.0),
        expected="a pin that touches both flanks of its space",
        remedy="take a thicker pin",
        key="pin_diameter",
    )
    is_odd = np.equal(np.mod(teeth, 2), 1)
    opposite = np.where(is_odd, np.cos(math.pi / (2.0 * np.asarray(teeth, dtype=float))), 1.0)
    result: Real = opposite * base / np.cos(involute_angle(involute)) + pin_diameter
    return result
