r"""Involute teeth: sizes from tooth count, module and pressure angle.

The flanks are involutes of the base circle and cross the pitch circle at the
pressure angle.  The metric standards give the size of the teeth as a module
:math:`m`, the inch standard as a diametral pitch :math:`P`, the teeth per length of
pitch diameter; one is the other's reciprocal.  How far the teeth reach out and in,
and how thick they are, is each standard's own: ISO 4156 in
:mod:`~barwright.mechanics.spline.involute_metric`, ANSI B92.1 in
:mod:`~barwright.mechanics.spline.involute_inch`, DIN 5480 in
:mod:`~barwright.mechanics.spline.involute_reference`.

Exact geometry of ideal flanks: no tolerances, no fits, no form diameters; where a
flank ends and the fillet of a root begins is not known here, nor the clearance
between the two.  A worn or home-made part keeps to none of it: measure it.
"""

from __future__ import annotations

import math

import numpy as np

from barwright.mechanics.common.requirements import refuse
from barwright.mechanics.common.types import Real

__all__ = [
    "angular_pitch",
    "base_diameter",
    "circular_tooth_thickness",
    "contact_depth",
    "involute_function",
    "module_of",
    "pitch_diameter",
    "pressure_angle_at",
    "radial_clearance",
    "tooth_thickness_at",
]


def module_of(diametral_pitch: Real) -> Real:
    r"""Return the module of a spline, from its diametral pitch.

    .. math:: m = \frac{1}{P}

    Parameters
    ----------
    diametral_pitch : float or array [1/m]
        Teeth per length of pitch diameter, :math:`P`: the first number of a pitch
        such as 24/48, divided by 0.0254 m.

    Returns
    -------
    float or array [m]

    References
    ----------
    Definition of the two (from memory).

    Examples
    --------
    >>> f"{module_of(24 / 0.0254) * 1000:.4f} mm"
    '1.0583 mm'
    """
    return 1.0 / diametral_pitch


def pitch_diameter(*, teeth: Real, module: Real) -> Real:
    r"""Pitch diameter of an involute spline.

    .. math:: D = m Z

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`Z` of the whole circle, missing ones counted.
    module : float or array [m]
        Module :math:`m`.

    Returns
    -------
    float or array [m]

    References
    ----------
    ISO 4156 / ANSI B92.2M, read in a reproduction.

    Examples
    --------
    >>> f"{pitch_diameter(teeth=40, module=0.00075) * 1000:.2f} mm"
    '30.00 mm'
    """
    return module * teeth


def base_diameter(*, teeth: Real, module: Real, pressure_angle: Real) -> Real:
    r"""Diameter of the circle whose involutes are the flanks.

    .. math:: D_b = m Z \cos \alpha

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`Z` of the whole circle, missing ones counted.
    module : float or array [m]
        Module :math:`m`.
    pressure_angle : float or array [rad]
        Angle :math:`\alpha` between flank and radius at the pitch circle, as
        :attr:`~barwright.mechanics.spline.involute_metric.RootForm.pressure_angle`.

    Returns
    -------
    float or array [m]

    References
    ----------
    ISO 4156 / ANSI B92.2M, read in a reproduction.

    Examples
    --------
    >>> import math
    >>> base = base_diameter(teeth=40, module=0.00075, pressure_angle=math.radians(30))
    >>> f"{base * 1000:.3f} mm"
    '25.981 mm'
    """
    result: Real = module * teeth * np.cos(pressure_angle)
    return result


def angular_pitch(teeth: Real) -> Real:
    r"""Angle from one tooth to the next.

    .. math:: p = \frac{2 \pi}{N}

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`N` of the whole circle, missing ones counted.

    Returns
    -------
    float or array [rad]

    References
    ----------
    Even division of the circle.

    Examples
    --------
    >>> import math
    >>> f"{math.degrees(angular_pitch(42)):.2f}°"
    '8.57°'
    """
    return math.tau / teeth


def circular_tooth_thickness(module: Real) -> Real:
    r"""Nominal thickness of a tooth along the pitch circle, equal to the space.

    .. math:: t = \frac{\pi m}{2}

    Parameters
    ----------
    module : float or array [m]
        Module :math:`m`.

    Returns
    -------
    float or array [m]
        Without allowance or tolerance; the arc, not the chord.

    References
    ----------
    Half of the circular pitch (from memory); checked against the circumference.

    Examples
    --------
    >>> f"{circular_tooth_thickness(0.00075) * 1000:.3f} mm"
    '1.178 mm'
    """
    return math.pi / 2.0 * module


def involute_function(angle: Real) -> Real:
    r"""Involute function: polar angle of an involute at a pressure angle.

    .. math:: \operatorname{inv} \alpha = \tan \alpha - \alpha

    Parameters
    ----------
    angle : float or array [rad]
        Pressure angle :math:`\alpha` at a point of the involute.

    Returns
    -------
    float or array [rad]
        Between the radii to that point and to the involute's foot on the base circle.

    References
    ----------
    Definition (from memory); checked against a string unwound from the circle.

    Examples
    --------
    >>> import math
    >>> f"{involute_function(math.radians(30)):.5f}"
    '0.05375'
    """
    result: Real = np.tan(angle) - angle
    return result


def pressure_angle_at(diameter: Real, *, base_diameter: Real) -> Real:
    r"""Pressure angle of an involute at a circle.

    .. math:: \cos \alpha_y = \frac{D_b}{d_y}

    Parameters
    ----------
    diameter : float or array [m]
        Diameter :math:`d_y` of that circle.
    base_diameter : float or array [m]
        Diameter :math:`D_b` of the base circle.

    Returns
    -------
    float or array [rad]

    Raises
    ------
    QuantityError
        If the circle lies inside the base circle, where there is no involute.

    References
    ----------
    Geometry of the involute; checked against a string unwound from the circle.

    Examples
    --------
    >>> import math
    >>> angle = pressure_angle_at(0.030, base_diameter=0.030 * math.cos(math.radians(30)))
    >>> f"{math.degrees(angle):.1f}°"
    '30.0°'
    """
    share = np.divide(base_diameter, diameter)
    refuse(
        "Q302",
        diameter,
        where=np.logical_not(np.greater(share, 0.0) & np.less_equal(share, 1.0)),
        expected="a circle that does not lie inside the base circle",
        remedy="give a diameter on the flanks of the teeth",
        key="diameter",
    )
    result: Real = np.arccos(share)
    return result


def tooth_thickness_at(
    diameter: Real, *, teeth: Real, module: Real, pressure_angle: Real, tooth_thickness: Real
) -> Real:
    r"""Thickness of an external tooth along any circle that cuts its flanks.

    .. math:: s_y = d_y \left(\frac{t}{D} + \operatorname{inv} \alpha
              - \operatorname{inv} \alpha_y\right), \quad
              \cos \alpha_y = \frac{D \cos \alpha}{d_y}

    Parameters
    ----------
    diameter : float or array [m]
        Diameter :math:`d_y` of that circle.
    teeth : float or array
        Teeth :math:`Z` of the whole circle, missing ones counted.
    module : float or array [m]
        Module :math:`m`, for the pitch diameter :math:`D = m Z`.
    pressure_angle : float or array [rad]
        Angle :math:`\alpha` between flank and radius at the pitch circle.
    tooth_thickness : float or array [m]
        Thickness :math:`t` along the pitch circle.

    Returns
    -------
    float or array [m]
        The arc, not the chord; negative beyond the circle on which the flanks meet.
        The spaces of a socket follow the same law, with :math:`t` the space's width.

    Raises
    ------
    QuantityError
        If the circle lies inside the base circle, where there is no flank.

    References
    ----------
    Geometry of the involute; checked against a string unwound from the base circle,
    and against a tooth that is cut with a rolling rack.

    Examples
    --------
    >>> import math
    >>> tip = tooth_thickness_at(0.03075, teeth=40, module=0.00075,
    ...                          pressure_angle=math.radians(30), tooth_thickness=0.001178)
    >>> f"{tip * 1000:.3f} mm"
    '0.748 mm'
    """
    circle = pitch_diameter(teeth=teeth, module=module)
    base = base_diameter(teeth=teeth, module=module, pressure_angle=pressure_angle)
    here = pressure_angle_at(diameter, base_diameter=base)
    turned = involute_function(here) - involute_function(pressure_angle)
    return diameter * (tooth_thickness / circle - turned)


def radial_clearance(*, inner_diameter: Real, outer_diameter: Real) -> Real:
    r"""Radial gap between a circle of the bar and a circle of the socket.

    .. math:: c = \frac{D_o - D_i}{2}

    Parameters
    ----------
    inner_diameter : float or array [m]
        Of the bar: its major or its minor diameter :math:`D_i`.
    outer_diameter : float or array [m]
        Of the socket: the same of its own, :math:`D_o`.

    Returns
    -------
    float or array [m]
        With both parts on one axis; negative where they would overlap.

    References
    ----------
    Geometry of two circles.

    Examples
    --------
    >>> gap = radial_clearance(inner_diameter=0.03075, outer_diameter=0.03135)
    >>> f"{gap * 1000:.2f} mm"
    '0.30 mm'
    """
    return (outer_diameter - inner_diameter) / 2.0


def contact_depth(*, major_diameter: Real, minor_diameter: Real) -> Real:
    r"""Radial depth over which the teeth of bar and socket meet.

    .. math:: h = \frac{D_o - D_i}{2}

    Parameters
    ----------
    major_diameter : float or array [m]
        Over the bar's teeth, :math:`D_o`.
    minor_diameter : float or array [m]
        Inside the socket's teeth, :math:`D_i`.

    Returns
    -------
    float or array [m]
        What :func:`barwright.mechanics.spline.capacity.tooth_bearing_stress` takes; chamfers
        and fillets left out.  Zero or less where the teeth do not meet.

    References
    ----------
    Geometry of two circles.

    Examples
    --------
    >>> depth = contact_depth(major_diameter=0.03075, minor_diameter=0.02925)
    >>> f"{depth * 1000:.2f} mm"
    '0.75 mm'
    """
    return (major_diameter - minor_diameter) / 2.0
