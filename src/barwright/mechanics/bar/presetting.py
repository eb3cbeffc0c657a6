r"""Pre-setting: a solid round bar twisted beyond yield, and the set it keeps.

Assumed: the shear strain grows in proportion to the radius; the steel is
elastic up to its yield stress in shear :math:`\tau_y` and then flows without
hardening; unloading is elastic.  The last holds by itself, since the stress
left at the surface is never beyond :math:`-\tau_y/3`; that the steel yields
early on the way back (Bauschinger), settles or relaxes is left out.  Twists are
of the body alone, the sign is that of pre-setting.

With the twist as a multiple :math:`u` of that at first yield, the elastic core
has the radius :math:`c = R/u`, and the torque comes ever nearer to 4/3 of the
one at first yield without reaching it.
"""

from __future__ import annotations

import numpy as np

from barwright.errors import QuantityError
from barwright.mechanics.bar.torsion import polar_second_moment
from barwright.mechanics.common.types import Real

__all__ = [
    "elastic_core_radius",
    "elastic_plastic_torque",
    "permanent_twist",
    "plastic_torque",
    "residual_stress",
    "yield_torque",
    "yield_twist",
]


def yield_torque(*, diameter: Real, shear_yield: Real) -> Real:
    r"""Torque at which the surface of a solid bar begins to yield.

    .. math:: T_y = \frac{\pi d^3 \tau_y}{16}

    Parameters
    ----------
    diameter : float or array [m]
        Diameter :math:`d`.
    shear_yield : float or array [Pa]
        Yield stress in shear :math:`\tau_y`.

    Returns
    -------
    float or array [N·m]

    References
    ----------
    Follows from :func:`barwright.mechanics.bar.torsion.shear_stress`.

    Examples
    --------
    >>> f"{yield_torque(diameter=0.025, shear_yield=800e6):.1f} N·m"
    '2454.4 N·m'
    """
    return 2.0 * polar_second_moment(diameter=diameter) * shear_yield / diameter


def plastic_torque(*, diameter: Real, shear_yield: Real) -> Real:
    r"""Torque of a fully plastic solid bar: the most it can carry.

    .. math:: T_p = \frac{\pi d^3 \tau_y}{12} = \frac{4}{3} T_y

    Parameters
    ----------
    diameter : float or array [m]
        Diameter :math:`d`.
    shear_yield : float or array [Pa]
        Yield stress in shear :math:`\tau_y`.

    Returns
    -------
    float or array [N·m]

    References
    ----------
    Beer and Johnston, 3.10 to 3.11 (from memory); checked by quadrature.

    Examples
    --------
    >>> f"{plastic_torque(diameter=0.025, shear_yield=800e6):.1f} N·m"
    '3272.5 N·m'
    """
    return 4.0 / 3.0 * yield_torque(diameter=diameter, shear_yield=shear_yield)


def yield_twist(
    *, diameter: Real, active_length: Real, shear_modulus: Real, shear_yield: Real
) -> Real:
    r"""Twist at which the surface of a round bar begins to yield.

    .. math:: \theta_y = \frac{2 \tau_y L}{G d}

    Parameters
    ----------
    diameter, active_length : float or array [m]
        Diameter :math:`d` and twisting length :math:`L`.
    shear_modulus, shear_yield : float or array [Pa]
        Shear modulus :math:`G` and yield stress in shear :math:`\tau_y`.

    Returns
    -------
    float or array [rad]

    References
    ----------
    Follows from the torque at first yield and the rate.

    Examples
    --------
    >>> twist = yield_twist(diameter=0.025, active_length=1.0, shear_modulus=80e9,
    ...                     shear_yield=800e6)
    >>> f"{twist:.3f} rad"
    '0.800 rad'
    """
    return 2.0 * shear_yield * active_length / (shear_modulus * diameter)


def elastic_core_radius(
    twist: Real, *, diameter: Real, active_length: Real, shear_modulus: Real, shear_yield: Real
) -> Real:
    r"""Radius within which a twisted solid bar is still elastic.

    .. math:: c = \frac{d}{2} \min\left(1, \frac{\theta_y}{|\theta|}\right)

    Parameters
    ----------
    twist : float or array [rad]
        Twist :math:`\theta` of the bar.
    diameter, active_length : float or array [m]
        Diameter :math:`d` and twisting length.
    shear_modulus, shear_yield : float or array [Pa]
        Shear modulus and yield stress in shear.

    Returns
    -------
    float or array [m]
        Half the diameter up to first yield.

    References
    ----------
    Beer and Johnston, 3.10 to 3.11 (from memory).

    Examples
    --------
    >>> core = elastic_core_radius(1.6, diameter=0.025, active_length=1.0, shear_modulus=80e9,
    ...                            shear_yield=800e6)
    >>> f"{core * 1000:.2f} mm"
    '6.25 mm'
    """
    first = yield_twist(
        diameter=diameter,
        active_length=active_length,
        shear_modulus=shear_modulus,
        shear_yield=shear_yield,
    )
    return diameter / 2.0 * (first / np.maximum(np.abs(twist), first))


def elastic_plastic_torque(core_radius: Real, *, diameter: Real, shear_yield: Real) -> Real:
    r"""Torque of a solid bar that yields outside an elastic core.

    .. math:: T = \frac{4}{3} T_y \left(1 - \frac{1}{4} \frac{c^3}{R^3}\right)

    Parameters
    ----------
    core_radius : float or array [m]
        Radius :math:`c` of the elastic core, from 0 to half the diameter.
    diameter : float or array [m]
        Diameter :math:`2R`.
    shear_yield : float or array [Pa]
        Yield stress in shear :math:`\tau_y`.

    Returns
    -------
    float or array [N·m]

    Raises
    ------
    QuantityError
        If the core lies outside the bar.

    References
    ----------
    Beer and Johnston, 3.10 to 3.11 (from memory); checked by quadrature.

    Examples
    --------
    >>> torque = elastic_plastic_torque(0.00625, diameter=0.025, shear_yield=800e6)
    >>> f"{torque:.1f} N·m"
    '3170.2 N·m'
    """
    _refuse_outside(core_radius, diameter, key="core_radius")
    share = 2.0 * core_radius / diameter
    full = plastic_torque(diameter=diameter, shear_yield=shear_yield)
    return full * (1.0 - share**3 / 4.0)


def residual_stress(radius: Real, *, core_radius: Real, diameter: Real, shear_yield: Real) -> Real:
    r"""Shear stress left in a solid bar after pre-setting and full unloading.

    .. math:: \tau(r) = \tau_y \min\left(1, \frac{r}{c}\right) - \frac{T r}{J}

    Parameters
    ----------
    radius : float or array [m]
        Where: :math:`r`, from the axis to half the diameter.
    core_radius : float or array [m]
        Radius :math:`c` of the elastic core when the bar was pre-set.
    diameter : float or array [m]
        Diameter.
    shear_yield : float or array [Pa]
        Yield stress in shear :math:`\tau_y`.

    Returns
    -------
    float or array [Pa]
        Negative, against the sense of pre-setting, at the surface; from a core
        of no radius, :math:`-\tau_y/3` there.

    Raises
    ------
    QuantityError
        If the radius or the core lies outside the bar.

    References
    ----------
    Beer and Johnston, 3.10 to 3.11 (from memory); checked by quadrature.

    Examples
    --------
    >>> stress = residual_stress(0.0125, core_radius=0.0, diameter=0.025, shear_yield=900e6)
    >>> f"{stress / 1e6:.0f} MPa"
    '-300 MPa'
    """
    _refuse_outside(radius, diameter, key="radius")
    torque = elastic_plastic_torque(core_radius, diameter=diameter, shear_yield=shear_yield)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        share = np.where(np.less(radius, core_radius), np.divide(radius, core_radius), 1.0)[()]
    return shear_yield * share - torque * radius / polar_second_moment(diameter=diameter)


def permanent_twist(
    twist: Real, *, diameter: Real, active_length: Real, shear_modulus: Real, shear_yield: Real
) -> Real:
    r"""Twist that a solid bar keeps after pre-setting to a twist and unloading.

    .. math:: \theta_p = \theta - \frac{T(\theta) L}{G J}
              = \theta_y \frac{(u - 1)^2 (3 u^2 + 2 u + 1)}{3 u^3}, \qquad
              u = \max\left(1, \frac{|\theta|}{\theta_y}\right)

    Parameters
    ----------
    twist : float or array [rad]
        Twist :math:`\theta` that the bar is held at; the set has its sign.
    diameter, active_length : float or array [m]
        Diameter and twisting length :math:`L`.
    shear_modulus, shear_yield : float or array [Pa]
        Shear modulus and yield stress in shear.

    Returns
    -------
    float or array [rad]
        0 up to first yield.

    References
    ----------
    Derived in this project from Beer and Johnston, 3.10 to 3.11 (from memory);
    checked against the stress integrated over the section on the way back.

    Examples
    --------
    >>> kept = permanent_twist(1.6, diameter=0.025, active_length=1.0, shear_modulus=80e9,
    ...                        shear_yield=800e6)
    >>> f"{kept:.4f} rad"
    '0.5667 rad'
    """
    first = yield_twist(
        diameter=diameter,
        active_length=active_length,
        shear_modulus=shear_modulus,
        shear_yield=shear_yield,
    )
    u = np.maximum(np.abs(twist) / first, 1.0)
    kept = first * (u - 1.0) ** 2 * (3.0 * u**2 + 2.0 * u + 1.0) / (3.0 * u**3)
    result: Real = np.sign(twist) * kept
    return result


def _refuse_outside(radius: Real, diameter: Real, *, key: str) -> None:
    """Refuse a radius that is not between the axis and the surface."""
    share = np.asarray(2.0 * radius / diameter)
    inside = (share >= 0.0) & (share <= 1.0)
    if not np.all(inside):
        raise QuantityError(
            "Q302",
            value=f"{share[~inside].flat[0]:.6g} of the bar's radius",
            expected="a radius between the axis and the surface",
            remedy="give a radius, not a diameter, in the unit of the bar's",
            key=key,
        )
