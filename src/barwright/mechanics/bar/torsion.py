r"""Round bars and tubes in elastic twist: rate, torque, stress, energy and mass.

Saint-Venant torsion, which is exact for a round section: plane sections stay plane,
the shear stress grows in proportion to the radius, and the torque is
:math:`T = G J \theta / L`.  Assumed: one steel, the same in all directions, with one
shear modulus; a bore on the axis; twists that are small for a unit of length.

Not in it: yield and pre-setting (:mod:`barwright.mechanics.bar.presetting`), changes of
section (:mod:`barwright.mechanics.bar.transitions`), splines, and bending by a side load.
No figure is looked at: that a bore leaves a wall is for the caller to see to.
"""

from __future__ import annotations

import numpy as np

from barwright.mechanics.common.one_or_many import fourth_power
from barwright.mechanics.common.types import Real

__all__ = [
    "bar_mass",
    "polar_second_moment",
    "series_rate",
    "shear_stress",
    "strain_energy",
    "torque_at_stress",
    "torsional_rate",
    "twist_from_torque",
]


def polar_second_moment(*, diameter: Real, bore: Real = 0.0) -> Real:
    r"""Polar second moment of area of a round section.

    .. math:: J = \frac{\pi (d^4 - b^4)}{32}

    Parameters
    ----------
    diameter : float or array [m]
        Outside diameter :math:`d`.
    bore : float or array [m]
        Bore :math:`b`; 0 for a solid section.

    Returns
    -------
    float or array [m⁴]

    References
    ----------
    T. A. Philpot, *MecMovies*, example M6.23.

    Examples
    --------
    >>> round(polar_second_moment(diameter=0.075, bore=0.055) * 1e12)
    2207951
    """
    return np.pi * (fourth_power(diameter) - fourth_power(bore)) / 32.0


def torsional_rate(
    *, diameter: Real, active_length: Real, shear_modulus: Real, bore: Real = 0.0
) -> Real:
    r"""Torque per radian of twist of a round bar or tube.

    .. math:: k = \frac{G J}{L}

    Parameters
    ----------
    diameter : float or array [m]
        Outside diameter of the twisting section.
    active_length : float or array [m]
        Length :math:`L` of that section which twists as much as the real bar.
    shear_modulus : float or array [Pa]
        Shear modulus :math:`G`; published values for bar steels spread by ±5 %.
    bore : float or array [m]
        Bore; 0 for a solid section.

    Returns
    -------
    float or array [N·m/rad]

    References
    ----------
    F. L. Singer and A. Pytel, *Strength of Materials*, 4th ed., torsion problem 305.

    Examples
    --------
    >>> rate = torsional_rate(diameter=0.020, active_length=1.0, shear_modulus=80e9)
    >>> f"{rate:.2f} N·m/rad"
    '1256.64 N·m/rad'
    """
    return shear_modulus * polar_second_moment(diameter=diameter, bore=bore) / active_length


def twist_from_torque(
    torque: Real, *, diameter: Real, active_length: Real, shear_modulus: Real, bore: Real = 0.0
) -> Real:
    r"""Twist of a round bar or tube under a torque.

    .. math:: \theta = \frac{T L}{G J}

    Parameters
    ----------
    torque : float or array [N·m]
        Torque :math:`T`.
    diameter, active_length, bore : float or array [m]
        Outside diameter, twisting length :math:`L` and bore.
    shear_modulus : float or array [Pa]
        Shear modulus :math:`G`.

    Returns
    -------
    float or array [rad]
        Of the sign of the torque.

    References
    ----------
    F. L. Singer and A. Pytel, *Strength of Materials*, 4th ed., torsion problem 305.

    Examples
    --------
    >>> twist = twist_from_torque(12e3, diameter=0.11398, active_length=6.0, shear_modulus=83e9)
    >>> f"{twist:.4f} rad"
    '0.0524 rad'
    """
    return torque / torsional_rate(
        diameter=diameter, active_length=active_length, shear_modulus=shear_modulus, bore=bore
    )


def series_rate(*rates: Real) -> Real:
    r"""Rate of torsion springs in series.

    .. math:: \frac{1}{k} = \sum_i \frac{1}{k_i}

    Parameters
    ----------
    *rates : float or array [N·m/rad or N/m]
        Rates of one kind; infinite for a rigid part, 0 for one without stiffness.

    Returns
    -------
    float or array
        Rate of the whole, in the unit of the parts.

    References
    ----------
    Compliances in series add: T. D. Gillespie, *Fundamentals of Vehicle
    Dynamics*, ch. 5 (from memory).

    Examples
    --------
    >>> float(series_rate(3000.0, 6000.0))
    2000.0
    """
    with np.errstate(divide="ignore"):
        compliance = sum(np.divide(1.0, rate) for rate in rates)
        return np.divide(1.0, compliance)


def shear_stress(torque: Real, *, diameter: Real, bore: Real = 0.0) -> Real:
    r"""Shear stress at the surface of a round bar.

    .. math:: \tau = \frac{T d}{2 J}

    Parameters
    ----------
    torque : float or array [N·m]
        Torque :math:`T`.
    diameter, bore : float or array [m]
        Outside diameter and bore of the section.

    Returns
    -------
    float or array [Pa]

    References
    ----------
    T. A. Philpot, *MecMovies*, example M6.17.

    Examples
    --------
    >>> f"{shear_stress(424.413, diameter=0.030660) / 1e6:.2f} MPa"
    '75.00 MPa'
    """
    return torque * diameter / (2.0 * polar_second_moment(diameter=diameter, bore=bore))


def torque_at_stress(shear_stress: Real, *, diameter: Real, bore: Real = 0.0) -> Real:
    r"""Torque at which the surface of a round bar has a given shear stress.

    .. math:: T = \frac{2 J \tau}{d}

    Parameters
    ----------
    shear_stress : float or array [Pa]
        Shear stress :math:`\tau` at the surface.
    diameter, bore : float or array [m]
        Outside diameter :math:`d` and bore of the section.

    Returns
    -------
    float or array [N·m]

    References
    ----------
    T. A. Philpot, *MecMovies*, example M6.17.

    Examples
    --------
    >>> f"{torque_at_stress(75e6, diameter=0.030660):.1f} N·m"
    '424.4 N·m'
    """
    return 2.0 * polar_second_moment(diameter=diameter, bore=bore) * shear_stress / diameter


def strain_energy(*, rate: Real, twist: Real) -> Real:
    r"""Energy stored in a twisted bar.

    .. math:: U = \tfrac{1}{2} k \theta^2

    Parameters
    ----------
    rate : float or array [N·m/rad]
        Torsional rate :math:`k`.
    twist : float or array [rad]
        Angle of twist :math:`\theta`.

    Returns
    -------
    float or array [J]

    References
    ----------
    Work of a linear spring; checked against the integral of the load curve.

    Examples
    --------
    >>> strain_energy(rate=3000.0, twist=0.5)
    375.0
    """
    return 0.5 * rate * twist**2


def bar_mass(*, length: Real, diameter: Real, density: Real, bore: Real = 0.0) -> Real:
    r"""Mass of a plain round bar or tube.

    .. math:: m = \frac{\pi}{4} (d^2 - b^2) L \rho

    Parameters
    ----------
    length : float or array [m]
        Length :math:`L` of steel, not of what twists.
    diameter, bore : float or array [m]
        Outside diameter :math:`d` and bore :math:`b`.
    density : float or array [kg/m³]
        Density :math:`\rho`.

    Returns
    -------
    float or array [kg]

    References
    ----------
    Volume of a hollow cylinder; checked against bodies of a multibody engine.

    Examples
    --------
    >>> f"{bar_mass(length=1.0, diameter=0.025, density=7850.0):.3f} kg"
    '3.853 kg'
    """
    return np.pi / 4.0 * (diameter**2 - bore**2) * length * density
