r"""Involute splines to the metric standard: diameters of teeth and roots.

Assumed: teeth that are as thick as their spaces are wide, a rack that rolls on the
pitch circle itself, and one of four pairs of pressure angle and root form.  The
diameters are limits as tabulated in a reproduction of ISO 4156 / ANSI B92.2M.

Limits.  The standards themselves were not to hand, and nothing that the reproduction
does not give is given here: no tolerances, no fits, no form diameters, no minor
diameter of the socket.  A real bar's roots may lie deeper, and its teeth be shorter.
"""

from __future__ import annotations

import enum
import math

from barwright.mechanics.common.types import Real

__all__ = [
    "RootForm",
    "external_major_diameter",
    "external_minor_diameter",
    "internal_major_diameter",
]


class RootForm(enum.Enum):
    """Pressure angle and form of the roots of a metric involute spline.

    That the roots at 37.5° and at 45° are fillets is from memory: the reproduction
    that was read gives one set of diameters for each, without a form.
    """

    FLAT_30 = "flat root, 30°"
    FILLET_30 = "fillet root, 30°"
    FILLET_37_5 = "fillet root, 37.5°"
    FILLET_45 = "fillet root, 45°"

    @property
    def pressure_angle(self) -> float:
        """Pressure angle [rad]."""
        return _PRESSURE_ANGLES[self]


_PRESSURE_ANGLES = {
    RootForm.FLAT_30: math.radians(30.0),
    RootForm.FILLET_30: math.radians(30.0),
    RootForm.FILLET_37_5: math.radians(37.5),
    RootForm.FILLET_45: math.radians(45.0),
}

# By how many modules a diameter lies beyond the pitch diameter: at the tips of an
# external spline, and at the roots of both.
_TIPS = {
    RootForm.FLAT_30: 1.0,
    RootForm.FILLET_30: 1.0,
    RootForm.FILLET_37_5: 0.9,
    RootForm.FILLET_45: 0.8,
}
_ROOTS = {
    RootForm.FLAT_30: 1.5,
    RootForm.FILLET_30: 1.8,
    RootForm.FILLET_37_5: 1.4,
    RootForm.FILLET_45: 1.2,
}


def internal_major_diameter(*, teeth: Real, module: Real, root_form: RootForm) -> Real:
    r"""Least major diameter of a socket, at the roots of its teeth.

    .. math:: D_{EI,min} = m (Z + c), \quad
              c = 1.5,\ 1.8,\ 1.4,\ 1.2

    in the order of :class:`RootForm`.

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`Z` of the whole circle, missing ones counted.
    module : float or array [m]
        Module :math:`m`.
    root_form : RootForm
        Pressure angle and form of the roots.

    Returns
    -------
    float or array [m]
        The minimum.

    References
    ----------
    ISO 4156 / ANSI B92.2M, read in a reproduction.

    Examples
    --------
    >>> major = internal_major_diameter(teeth=40, module=0.00075, root_form=RootForm.FILLET_30)
    >>> f"{major * 1000:.2f} mm"
    '31.35 mm'
    """
    return module * (teeth + _ROOTS[root_form])


def external_major_diameter(*, teeth: Real, module: Real, root_form: RootForm) -> Real:
    r"""Greatest major diameter of a bar end, over its teeth.

    .. math:: D_{EE,max} = m (Z + c), \quad
              c = 1,\ 1,\ 0.9,\ 0.8

    in the order of :class:`RootForm`.

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`Z` of the whole circle, missing ones counted.
    module : float or array [m]
        Module :math:`m`.
    root_form : RootForm
        Pressure angle and form of the roots.

    Returns
    -------
    float or array [m]
        The maximum.

    References
    ----------
    ISO 4156 / ANSI B92.2M, read in a reproduction.

    Examples
    --------
    >>> major = external_major_diameter(teeth=40, module=0.00075, root_form=RootForm.FILLET_30)
    >>> f"{major * 1000:.2f} mm"
    '30.75 mm'
    """
    return module * (teeth + _TIPS[root_form])


def external_minor_diameter(*, teeth: Real, module: Real, root_form: RootForm) -> Real:
    r"""Greatest minor diameter of a bar end, at the roots of its teeth.

    .. math:: D_{IE,max} = m (Z - c), \quad
              c = 1.5,\ 1.8,\ 1.4,\ 1.2

    in the order of :class:`RootForm`.

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`Z` of the whole circle, missing ones counted.
    module : float or array [m]
        Module :math:`m`.
    root_form : RootForm
        Pressure angle and form of the roots.

    Returns
    -------
    float or array [m]
        The maximum: a bar's own root circle may be smaller, and its head weaker.

    References
    ----------
    ISO 4156 / ANSI B92.2M, read in a reproduction.

    Examples
    --------
    >>> minor = external_minor_diameter(teeth=40, module=0.00075, root_form=RootForm.FILLET_30)
    >>> f"{minor * 1000:.2f} mm"
    '28.65 mm'
    """
    return module * (teeth - _ROOTS[root_form])
