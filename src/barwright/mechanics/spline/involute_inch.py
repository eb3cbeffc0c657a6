r"""Involute splines to the inch standard: diameters of teeth and roots.

Assumed: fillet roots, a pressure angle of 30°, and a rack that rolls on the pitch
circle itself.  Sizes are in diametral pitch :math:`P`, the teeth per length of pitch
diameter: the first number of a pitch such as 24/48, divided by 0.0254 m.

Limits.  The formulas are those tabulated in a reproduction of ANSI B92.1; the standard
itself was not to hand, and nothing that the reproduction does not give is given here:
no other form, no tolerances, no fits, no roots for the pitches between 12/24 and 16/32.
A real bar's roots may lie deeper, and its teeth be shorter.
"""

from __future__ import annotations

import numpy as np

from barwright.mechanics.common.requirements import refuse
from barwright.mechanics.common.types import Real

__all__ = [
    "external_major_diameter",
    "external_minor_diameter",
    "internal_major_diameter",
    "internal_minor_diameter",
]

# Diametral pitches of 12/24 and 16/32 [1/m], with the rounding of a conversion.
_INCH = 0.0254
_COARSE_TO = 12.0 / _INCH * (1.0 + 1e-9)
_FINE_FROM = 16.0 / _INCH * (1.0 - 1e-9)


def external_major_diameter(*, teeth: Real, diametral_pitch: Real) -> Real:
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
    >>> major = external_major_diameter(teeth=30, diametral_pitch=12 / 0.0254)
    >>> f"{major / 0.0254:.4f} in"
    '2.5833 in'
    """
    return (teeth + 1.0) / diametral_pitch


def internal_major_diameter(*, teeth: Real, diametral_pitch: Real) -> Real:
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
    >>> major = internal_major_diameter(teeth=30, diametral_pitch=12 / 0.0254)
    >>> f"{major / 0.0254:.4f} in"
    '2.6500 in'
    """
    return (teeth + 1.8) / diametral_pitch


def internal_minor_diameter(*, teeth: Real, diametral_pitch: Real) -> Real:
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
    >>> minor = internal_minor_diameter(teeth=30, diametral_pitch=12 / 0.0254)
    >>> f"{minor / 0.0254:.4f} in"
    '2.4167 in'
    """
    return (teeth - 1.0) / diametral_pitch


def external_minor_diameter(*, teeth: Real, diametral_pitch: Real) -> Real:
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

    Raises
    ------
    QuantityError
        If the pitch lies between 12/24 and 16/32, of which the source says nothing.

    References
    ----------
    ANSI B92.1, read in a reproduction.

    Examples
    --------
    >>> for pitch in (12, 16):
    ...     minor = external_minor_diameter(teeth=30, diametral_pitch=pitch / 0.0254)
    ...     print(f"{minor / 0.0254:.4f} in")
    2.3500 in
    1.7500 in
    """
    coarse = np.less_equal(diametral_pitch, _COARSE_TO)
    fine = np.greater_equal(diametral_pitch, _FINE_FROM)
    refuse(
        "Q302",
        np.multiply(diametral_pitch, _INCH),
        where=np.logical_not(coarse | fine),
        expected="a pitch up to 12 teeth per inch, or from 16",
        remedy="measure the bar at the roots of its teeth",
        key="diametral_pitch",
    )
    depth = np.where(coarse, 1.8, 2.0)
    result: Real = (teeth - depth) / diametral_pitch
    return result
