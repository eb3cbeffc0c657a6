r"""Involute splines: the diameters that two standards tabulate for a tooth count.

A tooth's flanks are involutes of the base circle and cross the pitch circle at
the pressure angle.  The metric standard gives the size of the teeth as a module
:math:`m`, the inch standard as a diametral pitch :math:`P`, the teeth per length
of pitch diameter; one is the other's reciprocal.

The diameters are limits as tabulated in a reproduction of ISO 4156 / ANSI B92.2M
and ANSI B92.1; the standards themselves were not to hand, and nothing that the
reproduction does not give is given here: no tolerances, no fits, no form
diameters, no other standard.  A worn or home-made part keeps to none of them:
measure it.
"""

from __future__ import annotations

import enum
import math

import numpy as np

from barwright.mechanics.types import Real

__all__ = [
    "RootForm",
    "angular_pitch",
    "base_diameter",
    "circular_tooth_thickness",
    "external_major_diameter",
    "external_minor_diameter",
    "inch_external_major_diameter",
    "inch_external_minor_diameter",
    "inch_internal_major_diameter",
    "inch_internal_minor_diameter",
    "internal_major_diameter",
    "module_of",
    "pitch_diameter",
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
        return math.radians(_DEGREES[self])


_DEGREES = {
    RootForm.FLAT_30: 30.0,
    RootForm.FILLET_30: 30.0,
    RootForm.FILLET_37_5: 37.5,
    RootForm.FILLET_45: 45.0,
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

# Diametral pitches of 12/24 and 16/32 [1/m], with the rounding of a conversion.
_INCH = 0.0254
_COARSE_TO = 12.0 / _INCH * (1.0 + 1e-9)
_FINE_FROM = 16.0 / _INCH * (1.0 - 1e-9)


def module_of(diametral_pitch: Real) -> Real:
    r"""Size of tooth, as a module, of a spline that is sized in diametral pitch.

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
        :attr:`RootForm.pressure_angle`.

    Returns
    -------
    float or array [m]

    References
    ----------
    ISO 4156 / ANSI B92.2M, read in a reproduction.

    Examples
    --------
    >>> angle = RootForm.FILLET_30.pressure_angle
    >>> f"{base_diameter(teeth=40, module=0.00075, pressure_angle=angle) * 1000:.3f} mm"
    '25.981 mm'
    """
    result: Real = module * teeth * np.cos(pressure_angle)
    return result


def angular_pitch(teeth: Real) -> Real:
    r"""Angle from one tooth to the next: what clocking by one tooth turns.

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
    Even division of the circle; 40 teeth give 9°, common practice.

    Examples
    --------
    >>> import math
    >>> f"{math.degrees(angular_pitch(44)):.2f}°"
    '8.18°'
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


def inch_external_major_diameter(*, teeth: Real, diametral_pitch: Real) -> Real:
    r"""Major diameter of a bar end to the inch standard, over its teeth.

    .. math:: D_o = \frac{N + 1}{P}

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`N` of the whole circle, missing ones counted.
    diametral_pitch : float or array [1/m]
        Teeth per length of pitch diameter, :math:`P`.

    Returns
    -------
    float or array [m]

    References
    ----------
    ANSI B92.1, read in a reproduction.

    Examples
    --------
    >>> major = inch_external_major_diameter(teeth=30, diametral_pitch=12 / 0.0254)
    >>> f"{major / 0.0254:.4f} in"
    '2.5833 in'
    """
    return (teeth + 1.0) / diametral_pitch


def inch_internal_major_diameter(*, teeth: Real, diametral_pitch: Real) -> Real:
    r"""Major diameter of a socket to the inch standard, fillet root and 30°.

    .. math:: D_{ri} = \frac{N + 1.8}{P}

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`N` of the whole circle, missing ones counted.
    diametral_pitch : float or array [1/m]
        Teeth per length of pitch diameter, :math:`P`.

    Returns
    -------
    float or array [m]
        At the roots of the teeth.

    References
    ----------
    ANSI B92.1, read in a reproduction.

    Examples
    --------
    >>> major = inch_internal_major_diameter(teeth=30, diametral_pitch=12 / 0.0254)
    >>> f"{major / 0.0254:.4f} in"
    '2.6500 in'
    """
    return (teeth + 1.8) / diametral_pitch


def inch_internal_minor_diameter(*, teeth: Real, diametral_pitch: Real) -> Real:
    r"""Minor diameter of a socket to the inch standard, inside its teeth.

    .. math:: D_i = \frac{N - 1}{P}

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`N` of the whole circle, missing ones counted.
    diametral_pitch : float or array [1/m]
        Teeth per length of pitch diameter, :math:`P`.

    Returns
    -------
    float or array [m]
        What a body that goes through the socket must stay under.

    References
    ----------
    ANSI B92.1, read in a reproduction.

    Examples
    --------
    >>> minor = inch_internal_minor_diameter(teeth=30, diametral_pitch=12 / 0.0254)
    >>> f"{minor / 0.0254:.4f} in"
    '2.4167 in'
    """
    return (teeth - 1.0) / diametral_pitch


def inch_external_minor_diameter(*, teeth: Real, diametral_pitch: Real) -> Real:
    r"""Minor diameter of a bar end to the inch standard, at the roots of its teeth.

    .. math:: D_{re} = \frac{N - c}{P}, \quad
              c = 1.8 \text{ up to } 12/24, \quad c = 2 \text{ from } 16/32

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`N` of the whole circle, missing ones counted.
    diametral_pitch : float or array [1/m]
        Teeth per length of pitch diameter, :math:`P`.

    Returns
    -------
    float or array [m]
        Not a number between 12/24 and 16/32, of which the source says nothing.

    References
    ----------
    ANSI B92.1, read in a reproduction.

    Examples
    --------
    >>> for pitch in (12, 16):
    ...     minor = inch_external_minor_diameter(teeth=30, diametral_pitch=pitch / 0.0254)
    ...     print(f"{minor / 0.0254:.4f} in")
    2.3500 in
    1.7500 in
    """
    fine = np.where(np.greater_equal(diametral_pitch, _FINE_FROM), 2.0, np.nan)
    depth = np.where(np.less_equal(diametral_pitch, _COARSE_TO), 1.8, fine)
    result: Real = (teeth - depth) / diametral_pitch
    return result
