r"""Involute splines on a reference diameter: the sizes that DIN 5480 gives.

All from memory; the standard was not to hand, and only one designation, W 30×1.25×22,
was at hand to hold it against.  The standard starts from the reference diameter
:math:`d_B` of the joint, which is also that of the hub's roots, and moves the teeth
out or in by :math:`x m` until a whole number of them fits.  Pressure angle 30°, flank
centred, roots as broached.  Sizes are nominal: no tolerances, no fits, and the root
diameter is that of a broached or shaped shaft, which a hobbed or rolled one undercuts.
"""

from __future__ import annotations

import math

from barwright.mechanics.common.types import Real

__all__ = [
    "PRESSURE_ANGLE",
    "addendum_modification",
    "external_major_diameter",
    "external_minor_diameter",
    "internal_minor_diameter",
    "pitch_tooth_thickness",
]

PRESSURE_ANGLE = math.radians(30.0)
"""Angle [rad] between flank and radius at the pitch circle."""


def addendum_modification(*, reference_diameter: Real, teeth: Real, module: Real) -> Real:
    r"""How far the shaft's teeth lie outside the pitch circle, in modules.

    .. math:: x = \frac{d_B - m z - 1.1 m}{2 m}

    Parameters
    ----------
    reference_diameter : float or array [m]
        Reference diameter :math:`d_B`.
    teeth : float or array
        Teeth :math:`z` of the whole circle, missing ones counted.
    module : float or array [m]
        Module :math:`m`.

    Returns
    -------
    float or array
        Of the shaft; the hub's is its negative.

    References
    ----------
    DIN 5480 (from memory).

    Examples
    --------
    >>> f"{addendum_modification(reference_diameter=0.030, teeth=22, module=0.00125):.2f}"
    '0.45'
    """
    return (reference_diameter - module * teeth - 1.1 * module) / (2.0 * module)


def external_major_diameter(*, reference_diameter: Real, module: Real) -> Real:
    r"""Major diameter of a shaft, over its teeth.

    .. math:: d_{a1} = d_B - 0.2 m

    Parameters
    ----------
    reference_diameter : float or array [m]
        Reference diameter :math:`d_B`.
    module : float or array [m]
        Module :math:`m`.

    Returns
    -------
    float or array [m]

    References
    ----------
    DIN 5480 (from memory).

    Examples
    --------
    >>> major = external_major_diameter(reference_diameter=0.030, module=0.00125)
    >>> f"{major * 1000:.2f} mm"
    '29.75 mm'
    """
    return reference_diameter - 0.2 * module


def internal_minor_diameter(*, reference_diameter: Real, module: Real) -> Real:
    r"""Minor diameter of a hub, inside its teeth.

    .. math:: d_{a2} = d_B - 2 m

    Parameters
    ----------
    reference_diameter : float or array [m]
        Reference diameter :math:`d_B`.
    module : float or array [m]
        Module :math:`m`.

    Returns
    -------
    float or array [m]
        What a body that goes through the hub must stay under.

    References
    ----------
    DIN 5480 (from memory).

    Examples
    --------
    >>> minor = internal_minor_diameter(reference_diameter=0.030, module=0.00125)
    >>> f"{minor * 1000:.2f} mm"
    '27.50 mm'
    """
    return reference_diameter - 2.0 * module


def external_minor_diameter(*, reference_diameter: Real, module: Real) -> Real:
    r"""Minor diameter of a shaft, at the roots of its teeth.

    .. math:: d_{f1} = d_B - 2.2 m

    Parameters
    ----------
    reference_diameter : float or array [m]
        Reference diameter :math:`d_B`.
    module : float or array [m]
        Module :math:`m`.

    Returns
    -------
    float or array [m]
        As broached; hobbed and rolled roots lie deeper.

    References
    ----------
    DIN 5480 (from memory).

    Examples
    --------
    >>> minor = external_minor_diameter(reference_diameter=0.030, module=0.00125)
    >>> f"{minor * 1000:.2f} mm"
    '27.25 mm'
    """
    return reference_diameter - 2.2 * module


def pitch_tooth_thickness(*, reference_diameter: Real, teeth: Real, module: Real) -> Real:
    r"""Nominal thickness of a shaft's tooth along the pitch circle.

    .. math:: s = \frac{\pi m}{2} + 2 x m \tan 30°

    Parameters
    ----------
    reference_diameter : float or array [m]
        Reference diameter :math:`d_B`.
    teeth : float or array
        Teeth :math:`z` of the whole circle, missing ones counted.
    module : float or array [m]
        Module :math:`m`.

    Returns
    -------
    float or array [m]
        The arc, not the chord; also the width of the hub's space.

    References
    ----------
    DIN 5480 (from memory); checked against a tooth cut with a rack that is moved out
    by :math:`x m`.

    Examples
    --------
    >>> thickness = pitch_tooth_thickness(reference_diameter=0.030, teeth=22, module=0.00125)
    >>> f"{thickness * 1000:.3f} mm"
    '2.613 mm'
    """
    spline = {"reference_diameter": reference_diameter, "teeth": teeth, "module": module}
    moved = addendum_modification(**spline) * module
    return math.pi / 2.0 * module + 2.0 * moved * math.tan(PRESSURE_ANGLE)
