r"""Heads and cones, each as an equivalent length of the body.

A bar's body runs over a cone or a fillet into thicker heads, of which a part sticks out
of the socket and twists too.  Each such piece is told as the length of body that twists
as much, so that lengths add up to one active length and one rate.

Sections are taken to stay plane, each twisting as if it were part of a long round bar.
That makes a piece stiffer than it is: how much that may be for a cone is said there; a
sudden step and a fillet are put right in :mod:`barwright.mechanics.bar.fillets`.  A head is
a plain round of its root circle.  Masses are of what stands in the drawing, of steel of
one density.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.one_or_many import fourth_power
from barwright.mechanics.common.types import Real

__all__ = [
    "equivalent_length",
    "taper_equivalent_length",
    "taper_mass",
]

_Array: TypeAlias = NDArray[np.float64]

# Gauss-Legendre nodes over a cone: exact to the last digit down to a wall of a tenth
# of the radius, since the integrand has its nearest pole at the bore.
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)
_SHARES = (_NODES + 1.0) / 2.0


def equivalent_length(
    length: Real, *, diameter: Real, head_diameter: Real, bore: Real = 0.0
) -> Real:
    r"""Length of bar body that twists as much as a plain length of thicker head.

    .. math:: L_e = L \, \frac{d^4 - b^4}{D^4 - b^4}

    Parameters
    ----------
    length : float or array [m]
        Length of the head that is free to twist.
    diameter, head_diameter, bore : float or array [m]
        Body :math:`d`, head :math:`D` (its root circle) and bore :math:`b`.

    Returns
    -------
    float or array [m]

    Notes
    -----
    A splined head is 4 to 7 % stiffer than its root circle, and one missing
    tooth of 40 takes 0.1 % off; the major diameter would be far too stiff.

    References
    ----------
    Follows from :func:`barwright.mechanics.bar.torsion.torsional_rate` for two lengths
    under one torque.

    Examples
    --------
    >>> equivalent_length(0.016, diameter=0.020, head_diameter=0.040)
    0.001
    """
    hole = fourth_power(bore)
    return length * (fourth_power(diameter) - hole) / (fourth_power(head_diameter) - hole)


def taper_equivalent_length(
    length: Real, *, diameter: Real, head_diameter: Real, bore: Real = 0.0
) -> Real:
    r"""Length of bar body that twists as much as a cone between body and head.

    .. math:: L_e = \int_0^L \frac{d^4 - b^4}{D(x)^4 - b^4} \, \mathrm{d}x

    For a solid cone this is :math:`\tfrac{L}{3} q (1 + q + q^2)`, :math:`q = d/D`.

    Parameters
    ----------
    length : float or array [m]
        Axial length of the cone.
    diameter, head_diameter, bore : float or array [m]
        Body :math:`d`, large end of the cone :math:`D`, and a bore :math:`b`
        that runs through.

    Returns
    -------
    float or array [m]

    Notes
    -----
    Sections that stay plane give a lower bound.  Stresses that follow the slope
    :math:`\gamma` of the cone, in proportion to the radius, give an upper one for the
    solid cone: :math:`1 + \tfrac{2}{3}\tan^2\gamma` times it, 2 % more at 10°.  The
    bounds are derived in this project from the two theorems of least energy and
    checked against finite elements.

    References
    ----------
    Closed form of the solid cone (from memory), confirmed by quadrature.

    Examples
    --------
    >>> cone = taper_equivalent_length(0.030, diameter=0.020, head_diameter=0.030)
    >>> f"{cone * 1000:.4f} mm"
    '14.0741 mm'
    """
    return length * _mean_share(diameter, head_diameter, bore)


def taper_mass(
    length: Real, *, diameter: Real, head_diameter: Real, density: Real, bore: Real = 0.0
) -> Real:
    r"""Mass of a cone between body and head.

    .. math:: m = \frac{\pi}{12} (d^2 + d D + D^2 - 3 b^2) L \rho

    Parameters
    ----------
    length : float or array [m]
        Axial length :math:`L` of the cone.
    diameter, head_diameter, bore : float or array [m]
        Body :math:`d`, large end of the cone :math:`D`, and a bore :math:`b`
        that runs through.
    density : float or array [kg/m³]
        Density :math:`\rho`.

    Returns
    -------
    float or array [kg]

    References
    ----------
    Volume of a frustum less its bore; checked by Pappus' theorem on its outline.

    Examples
    --------
    >>> cone = taper_mass(0.030, diameter=0.020, head_diameter=0.030, density=7850.0)
    >>> f"{cone * 1000:.1f} g"
    '117.1 g'
    """
    square = diameter**2 + diameter * head_diameter + head_diameter**2 - 3.0 * bore**2
    return np.pi / 12.0 * square * length * density


def _mean_share(start: Real, end: Real, bore: Real) -> _Array:
    """Mean flexibility of a cone, as a share of that of the section where it starts.

    With u, start over local diameter, the integrand of a solid cone is a parabola, so
    that the quadrature is its closed form.
    """
    ratio, hollow = np.asarray(start / end), np.asarray(fourth_power(bore / start))
    if ratio.ndim and not hollow.any():
        closed: _Array = ratio * (1.0 + ratio + ratio * ratio) / 3.0
        return closed
    u = 1.0 + (ratio[..., None] - 1.0) * _SHARES
    mean = u**2 / (1.0 - hollow[..., None] * u**4) @ _WEIGHTS / 2.0
    result: _Array = (1.0 - hollow) * ratio * mean
    return result
