r"""Circular fillets between a bar's body and its heads, in elastic twist.

A fillet of radius :math:`r` touches the body's surface and curves outward.  With
:math:`t = (D - d)/2`, the height of the step: up to :math:`r = t` it is a quarter of a
circle that ends on the shoulder's flat face, at the diameter :math:`d + 2r`; a larger
one runs into the head's surface, at the angle :math:`\arccos(1 - t/r)` with the axis.

Sections that stay plane leave out a part of a fillet's twist, more than half where it is
sharp.  What they leave out, and how much higher the stress is than in the plain body,
are fitted to finite elements of solid round shafts; beyond the range of the fit they
are refused.  Assumed: a smooth head of its root circle, no teeth that run out in the
fillet, no other step within half a diameter, and elastic steel.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from barwright.errors import QuantityError
from barwright.mechanics.common.types import Real

__all__ = [
    "fillet_equivalent_length",
    "fillet_length",
    "fillet_mass",
    "fillet_plane_length",
    "fillet_stress_concentration",
]

_Array: TypeAlias = NDArray[np.float64]

# Gauss-Legendre nodes over the arc: exact to the last digit within the range of the fit.
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)
_SHARES = (_NODES + 1.0) / 2.0

# Fitted to 484 finite-element models (tests/shaft_fe.py prints them anew).  Terms are
# powers of log10(r / 0.2 d) downward and of log10(r / t) across; each sum is a natural
# logarithm: of the length that plane sections leave out, over d, and of the stress
# concentration less 1.
_LEFT_OUT = np.array(
    [
        [-3.15249, -2.40788, -1.35238, 0.38206],
        [1.52238, 2.60296, -0.61173, 0.11866],
        [-1.55491, 0.79318, -0.10350, -0.16348],
        [-0.26573, 0.12072, 0.03575, -0.07711],
    ]
)
_CONCENTRATION = np.array(
    [
        [-1.50751, -0.20495, -0.33368, 0.03863],
        [-1.57059, 0.96100, -0.06909, -0.01995],
        [-0.81508, 0.11776, -0.00172, 0.02745],
        [-0.09557, -0.04388, -0.04988, 0.01221],
    ]
)
_POWERS = np.arange(4)
_HEADS = (1.02, 2.0)  # head diameter that the fit reaches, in body diameters
_RADII = (0.02, 2.0)  # radius that it reaches, in body diameters
_BORES = (0.0, 0.5)  # bore up to which the solid bar's correction serves
_ROUNDING = 1e-9  # of a limit, so that figures on it are inside


def fillet_length(*, diameter: Real, head_diameter: Real, fillet_radius: Real) -> Real:
    r"""Axial length of a circular fillet, from the body's surface to where it ends.

    .. math:: \ell = r \sin\alpha, \qquad
              \alpha = \arccos\max\left(0, 1 - \frac{D - d}{2 r}\right)

    Parameters
    ----------
    diameter, head_diameter : float or array [m]
        Body :math:`d` and head :math:`D`, not below it.
    fillet_radius : float or array [m]
        Radius :math:`r` of the fillet, above 0.

    Returns
    -------
    float or array [m]
        The radius itself where the fillet ends on the face of the shoulder.

    Raises
    ------
    QuantityError
        If the head is thinner than the body, or the radius not above 0.

    References
    ----------
    A circle that touches the body's surface; checked against its intersection with
    the head's.

    Examples
    --------
    >>> length = fillet_length(diameter=0.025, head_diameter=0.030, fillet_radius=0.040)
    >>> f"{length * 1000:.2f} mm"
    '13.92 mm'
    """
    return fillet_radius * np.sin(_arc_angle(diameter, head_diameter, fillet_radius))


def fillet_mass(
    *, diameter: Real, head_diameter: Real, fillet_radius: Real, density: Real, bore: Real = 0.0
) -> Real:
    r"""Mass of a circular fillet, over its own axial length.

    .. math:: m = \frac{\pi\rho}{4} \int_0^\ell \left(D(x)^2 - b^2\right) \mathrm{d}x

    Parameters
    ----------
    diameter, head_diameter, bore : float or array [m]
        Body, head and a bore :math:`b` that runs through.
    fillet_radius : float or array [m]
        Radius of the fillet, above 0.
    density : float or array [kg/m³]
        Density :math:`\rho`.

    Returns
    -------
    float or array [kg]

    Raises
    ------
    QuantityError
        If the head is thinner than the body, or the radius not above 0.

    References
    ----------
    Checked against the volume of the solid of revolution by Pappus' theorem.

    Examples
    --------
    >>> mass = fillet_mass(diameter=0.025, head_diameter=0.030, fillet_radius=0.040,
    ...                    density=7850.0)
    >>> f"{mass * 1000:.1f} g"
    '61.1 g'
    """
    angle = _arc_angle(diameter, head_diameter, fillet_radius)
    local = _arc_diameters(angle, diameter, fillet_radius)
    mean = _along_arc(local**2, angle, fillet_radius)
    hole = bore**2 * fillet_radius * np.sin(angle)
    return np.pi / 4.0 * density * (mean - hole)


def fillet_plane_length(
    *, diameter: Real, head_diameter: Real, fillet_radius: Real, bore: Real = 0.0
) -> Real:
    r"""Length of bar body that twists as much as a fillet whose sections stay plane.

    .. math:: L_p = \int_0^\ell \frac{d^4 - b^4}{D(x)^4 - b^4} \, \mathrm{d}x

    Parameters
    ----------
    diameter, head_diameter, bore : float or array [m]
        Body :math:`d`, head :math:`D` and a bore :math:`b` that runs through.
    fillet_radius : float or array [m]
        Radius :math:`r` of the fillet, above 0.

    Returns
    -------
    float or array [m]
        A lower bound, for fillets that :func:`fillet_equivalent_length` does not reach.

    Raises
    ------
    QuantityError
        If the head is thinner than the body, or the radius not above 0.

    References
    ----------
    As :func:`barwright.mechanics.bar.transitions.taper_equivalent_length`, over an arc;
    checked against a quadrature along the axis.

    Examples
    --------
    >>> fillet = fillet_plane_length(diameter=0.025, head_diameter=0.034, fillet_radius=0.0025)
    >>> f"{fillet * 1000:.2f} mm"
    '2.15 mm'
    """
    angle = _arc_angle(diameter, head_diameter, fillet_radius)
    local = _arc_diameters(angle, diameter, fillet_radius)
    hole = np.asarray(bore)[..., None] ** 4
    twist = _along_arc(1.0 / (local**4 - hole), angle, fillet_radius)
    return (diameter**4 - bore**4) * twist


def fillet_equivalent_length(
    *, diameter: Real, head_diameter: Real, fillet_radius: Real, bore: Real = 0.0
) -> Real:
    r"""Length of bar body that twists as much as a circular fillet and its shoulder.

    .. math:: L_e = \int_0^\ell \frac{d^4 - b^4}{D(x)^4 - b^4} \, \mathrm{d}x
              + \left(1 - \frac{b^4}{d^4}\right) d \,
              \exp \sum_{i,j=0}^{3} c_{ij} \left(\lg\frac{r}{0.2\,d}\right)^i
              \left(\lg\frac{r}{t}\right)^j

    Parameters
    ----------
    diameter, head_diameter : float or array [m]
        Body :math:`d` and head :math:`D`, from 1.02 to 2 body diameters.
    fillet_radius : float or array [m]
        Radius :math:`r` of the fillet, from 0.02 to 2 body diameters.
    bore : float or array [m]
        Bore :math:`b` that runs through, up to half of the body's diameter.

    Returns
    -------
    float or array [m]
        In the place of :func:`fillet_length`: the body is plain before it, the head
        after it.

    Raises
    ------
    QuantityError
        If head, radius or bore lies outside its range.

    Notes
    -----
    The integral is that of plane sections.  What they leave out, up to 0.12 body
    diameters, is fitted to 484 finite-element models of this project for solid bars
    and scaled for the bore.  It meets the models within 0.0005 body diameters (root
    mean square 0.0002), and those with the largest bore within 0.002.

    References
    ----------
    Fitted in this project to the displacement field of round shafts in torsion.

    Examples
    --------
    >>> fillet = fillet_equivalent_length(diameter=0.025, head_diameter=0.034,
    ...                                   fillet_radius=0.0025)
    >>> f"{fillet * 1000:.2f} mm"
    '3.36 mm'
    """
    _refuse_outside(bore / diameter, _BORES, key="bore")
    left_out = _fitted(_LEFT_OUT, diameter, head_diameter, fillet_radius)
    plane = fillet_plane_length(
        diameter=diameter, head_diameter=head_diameter, fillet_radius=fillet_radius, bore=bore
    )
    return plane + (diameter**4 - bore**4) / diameter**3 * left_out


def fillet_stress_concentration(
    *, diameter: Real, head_diameter: Real, fillet_radius: Real
) -> Real:
    r"""Greatest shear stress in a circular fillet, divided by that of the plain body.

    .. math:: K = 1 + \exp \sum_{i,j=0}^{3} c_{ij} \left(\lg\frac{r}{0.2\,d}\right)^i
              \left(\lg\frac{r}{t}\right)^j

    Parameters
    ----------
    diameter, head_diameter : float or array [m]
        Body :math:`d` and head :math:`D`, from 1.02 to 2 body diameters.
    fillet_radius : float or array [m]
        Radius :math:`r` of the fillet, from 0.02 to 2 body diameters.

    Returns
    -------
    float or array
        Of a solid bar; a bore of half the diameter lowers it by up to 3 %.

    Raises
    ------
    QuantityError
        If head or radius lies outside its range.

    Notes
    -----
    Fitted to 484 finite-element models of this project, which it meets within 0.3 %
    (root mean square 0.1 %).  How much of it a bar feels over its life depends on the
    steel, and is not in it.

    References
    ----------
    Fitted in this project to the displacement field of round shafts in torsion.  The
    curve fitted to R. E. Peterson's chart of them in W. D. Pilkey, *Peterson's Stress
    Concentration Factors* (from memory), lies within 5 %.

    Examples
    --------
    >>> factor = fillet_stress_concentration(diameter=0.025, head_diameter=0.034,
    ...                                      fillet_radius=0.0025)
    >>> f"{factor:.2f}"
    '1.37'
    """
    return 1.0 + _fitted(_CONCENTRATION, diameter, head_diameter, fillet_radius)


def _arc_angle(diameter: Real, head_diameter: Real, radius: Real) -> _Array:
    """Angle that a fillet's arc runs through; refuse what is no fillet."""
    head, round_ = np.asarray(head_diameter / diameter), np.asarray(radius / diameter)
    _refuse(head, head >= 1.0, key="head_diameter", expected="1 or more of it")
    _refuse(round_, round_ > 0.0, key="fillet_radius", expected="more than 0 of it")
    rise = np.minimum(1.0, (head - 1.0) / (2.0 * round_))  # 1 - cos, well beside 0 too
    result: _Array = 2.0 * np.arcsin(np.sqrt(rise / 2.0))
    return result


def _arc_diameters(angle: _Array, diameter: Real, radius: Real) -> _Array:
    """Local diameters at the nodes of a quadrature over the arc, on a new last axis."""
    rise = 1.0 - np.cos(angle[..., None] * _SHARES)
    result: _Array = np.asarray(diameter)[..., None] + 2.0 * np.asarray(radius)[..., None] * rise
    return result


def _along_arc(integrand: _Array, angle: _Array, radius: Real) -> _Array:
    """Integrate along the axis, from one end of the arc to the other."""
    advance = np.cos(angle[..., None] * _SHARES)
    result: _Array = radius * angle * ((integrand * advance) @ _WEIGHTS) / 2.0
    return result


def _fitted(coefficients: _Array, diameter: Real, head_diameter: Real, radius: Real) -> _Array:
    """Evaluate a fitted surface; refuse what lies beyond it."""
    _refuse_outside(head_diameter / diameter, _HEADS, key="head_diameter")
    _refuse_outside(radius / diameter, _RADII, key="fillet_radius")
    down = np.asarray(np.log10(radius / (0.2 * diameter)))[..., None] ** _POWERS
    across = np.asarray(np.log10(2.0 * radius / (head_diameter - diameter)))[..., None] ** _POWERS
    result: _Array = np.exp(np.sum(down @ coefficients * across, axis=-1))
    return result


def _refuse_outside(ratio: Real, limits: tuple[float, float], *, key: str) -> None:
    """Refuse a length that is not within its limits, all in body diameters."""
    low, high = limits
    given = np.asarray(ratio)
    inside = (given >= low * (1.0 - _ROUNDING)) & (given <= high * (1.0 + _ROUNDING))
    _refuse(given, inside, key=key, expected=f"{low:g} to {high:g} of it")


def _refuse(ratio: _Array, inside: NDArray[np.bool_], *, key: str, expected: str) -> None:
    if not np.all(inside):
        raise QuantityError(
            "Q302",
            value=f"{ratio[~inside].flat[0]:.6g} of the body's diameter",
            expected=expected,
            remedy="choose another fillet, or compute this one by finite elements",
            key=key,
        )
