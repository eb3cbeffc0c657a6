"""ISO metric screw threads of the adjuster: what bolt and nut can carry.

Pitch and stress area, the proof load of a property class, the areas on which the
threads of bolt and nut would shear off, and the engagement that a load asks for.
Assumed: a straight pull along the bolt, full turns that share it evenly, threads of
the size that the caller gives, tolerances included.  Proof stresses are those of two
property classes and of sizes that could be read; beyond them the caller's own figure
is wanted.  Friction, tightening, bending of the bolt, wear, fatigue and the strength
of the nut's steel are left out.
"""

from __future__ import annotations

import enum
import math

import numpy as np

from barwright.mechanics.common.requirements import refuse
from barwright.mechanics.common.types import Real

__all__ = [
    "COARSE_PITCH",
    "PropertyClass",
    "basic_minor_diameter",
    "basic_pitch_diameter",
    "external_stripping_area",
    "internal_stripping_area",
    "proof_load",
    "required_engagement",
    "stress_area",
    "stripping_load",
    "utilisation",
]

COARSE_PITCH = {
    0.006: 0.001,
    0.008: 0.00125,
    0.010: 0.0015,
    0.012: 0.00175,
    0.014: 0.002,
    0.016: 0.002,
    0.020: 0.0025,
}
"""Coarse pitch [m] by nominal diameter [m]: ISO 261 (M6 and M20 from memory)."""


class PropertyClass(enum.Enum):
    """Property class of a steel bolt, as marked on its head."""

    CLASS_8_8 = "8.8"
    CLASS_10_9 = "10.9"

    @property
    def proof_stress(self) -> float:
        """Stress under proof load [Pa].

        Derived from the proof loads and stress areas that ISO 898-1 prints for M8
        to M16 coarse, read in secondary tables: their quotients lie within 0.25 %
        of it.
        """
        return _PROOF_STRESS[self]


_PROOF_STRESS = {PropertyClass.CLASS_8_8: 580e6, PropertyClass.CLASS_10_9: 830e6}

# Nominal diameter [m] up to which a class has that stress, with the rounding of a conversion.
_LARGEST = {PropertyClass.CLASS_8_8: 0.016 * (1.0 + 1e-9), PropertyClass.CLASS_10_9: math.inf}


def stress_area(*, diameter: Real, pitch: Real) -> Real:
    r"""Tensile stress area of an ISO metric thread.

    .. math:: A_s = \frac{\pi}{4} \left(\frac{d_2 + d_3}{2}\right)^2, \quad
              d_2 = d - \tfrac{3}{4} H, \quad d_3 = d - \tfrac{17}{12} H, \quad
              H = \tfrac{\sqrt 3}{2} P

    Parameters
    ----------
    diameter, pitch : float or array [m]
        Nominal diameter :math:`d` and pitch :math:`P`.

    Returns
    -------
    float or array [m²]

    References
    ----------
    ISO 724 for the diameters, ISO 898-1 for the area.

    Examples
    --------
    >>> f"{stress_area(diameter=0.010, pitch=0.0015) * 1e6:.1f} mm²"
    '58.0 mm²'
    """
    mean = diameter - (3.0 / 4.0 + 17.0 / 12.0) / 2.0 * _profile_height(pitch)
    return np.pi / 4.0 * mean**2


def basic_pitch_diameter(*, diameter: Real, pitch: Real) -> Real:
    r"""Pitch diameter of an ISO metric thread, of bolt and nut alike.

    .. math:: d_2 = d - \tfrac{3}{4} H, \quad H = \tfrac{\sqrt 3}{2} P

    Parameters
    ----------
    diameter, pitch : float or array [m]
        Nominal diameter :math:`d` and pitch :math:`P`.

    Returns
    -------
    float or array [m]
        Without allowance or tolerance.

    References
    ----------
    ISO 724.

    Examples
    --------
    >>> f"{basic_pitch_diameter(diameter=0.012, pitch=0.00175) * 1000:.3f} mm"
    '10.863 mm'
    """
    return diameter - 3.0 / 4.0 * _profile_height(pitch)


def basic_minor_diameter(*, diameter: Real, pitch: Real) -> Real:
    r"""Minor diameter of the nut's ISO metric thread.

    .. math:: D_1 = d - \tfrac{5}{4} H, \quad H = \tfrac{\sqrt 3}{2} P

    Parameters
    ----------
    diameter, pitch : float or array [m]
        Nominal diameter :math:`d` and pitch :math:`P`.

    Returns
    -------
    float or array [m]
        Without allowance or tolerance.

    References
    ----------
    ISO 724.

    Examples
    --------
    >>> f"{basic_minor_diameter(diameter=0.012, pitch=0.00175) * 1000:.3f} mm"
    '10.106 mm'
    """
    return diameter - 5.0 / 4.0 * _profile_height(pitch)


def _profile_height(pitch: Real) -> Real:
    """Height of the sharp profile that the thread is cut from."""
    return math.sqrt(3.0) / 2.0 * pitch


def proof_load(property_class: PropertyClass, *, diameter: Real, pitch: Real) -> Real:
    r"""Tension that a bolt of a property class carries without permanent set.

    .. math:: F_p = S_p A_s

    Parameters
    ----------
    property_class : PropertyClass
        Gives the stress under proof load :math:`S_p`: 580 MPa for 8.8 up to M16,
        830 MPa for 10.9.
    diameter, pitch : float or array [m]
        Nominal diameter and pitch, for the stress area :math:`A_s`.

    Returns
    -------
    float or array [N]
        Up to 0.4 % off the printed load, which stands on rounded areas.

    Raises
    ------
    QuantityError
        If the bolt is an 8.8 above M16, where another stress holds (from memory).

    References
    ----------
    ISO 898-1: the loads of M8 to M16 coarse, read in secondary tables, from which
    the stresses are derived; that the same stresses hold below M8, for fine
    pitches and, for 10.9, above M16 is from memory.

    Examples
    --------
    >>> load = proof_load(PropertyClass.CLASS_8_8, diameter=0.012, pitch=0.00175)
    >>> f"{load / 1000:.1f} kN"
    '48.9 kN'
    """
    refuse(
        "Q302",
        diameter,
        where=np.logical_not(np.less_equal(diameter, _LARGEST[property_class])),
        expected=f"a size whose proof stress is known for {property_class.value}",
        remedy="multiply stress_area by the bolt's own proof stress, or take a 10.9",
        key="diameter",
    )
    return property_class.proof_stress * stress_area(diameter=diameter, pitch=pitch)


def utilisation(load: Real, *, capacity: Real) -> Real:
    r"""Load divided by the capacity of a bolt or a thread.

    .. math:: u = \frac{|F|}{F_c}

    Parameters
    ----------
    load : float or array [N]
        Force :math:`F`, tension or compression.
    capacity : float or array [N]
        What is borne, :math:`F_c`: a proof load or a stripping load.

    Returns
    -------
    float or array
        1 where the load is just borne, before any safety.

    References
    ----------
    Definition.

    Examples
    --------
    >>> proof = proof_load(PropertyClass.CLASS_10_9, diameter=0.012, pitch=0.00175)
    >>> f"{utilisation(21e3, capacity=proof):.2f}"
    '0.30'
    """
    return np.abs(load) / capacity


# Half of the profile's angle of 60°: 0.57735 in the printed formula.
_FLANK = math.tan(math.radians(30.0))


def external_stripping_area(
    *, engagement: Real, pitch: Real, internal_minor_diameter: Real, external_pitch_diameter: Real
) -> Real:
    r"""Shear area of a bolt's thread inside its nut.

    .. math:: A = \pi n L_e K_n \left[\frac{1}{2 n}
              + \frac{E_s - K_n}{\sqrt 3}\right], \quad n = \frac{1}{P}

    Parameters
    ----------
    engagement : float or array [m]
        Engaged length :math:`L_e` of full thread.
    pitch : float or array [m]
        Pitch :math:`P`.
    internal_minor_diameter : float or array [m]
        Greatest minor diameter :math:`K_n` of the nut.
    external_pitch_diameter : float or array [m]
        Least pitch diameter :math:`E_s` of the bolt.

    Returns
    -------
    float or array [m²]
        On the cylinder of the nut's minor diameter; all engaged turns count alike.

    References
    ----------
    FED-STD-H28/2B, as in *Machinery's Handbook*, 24th ed. (read); it prints
    0.57735 for :math:`1/\sqrt 3`.

    Examples
    --------
    >>> area = external_stripping_area(engagement=0.010, pitch=0.00175,
    ...                                internal_minor_diameter=0.0103,
    ...                                external_pitch_diameter=0.0108)
    >>> f"{area * 1e6:.1f} mm²"
    '215.2 mm²'
    """
    beyond = external_pitch_diameter - internal_minor_diameter
    return _stripping_area(internal_minor_diameter, engagement, pitch, beyond)


def internal_stripping_area(
    *, engagement: Real, pitch: Real, external_major_diameter: Real, internal_pitch_diameter: Real
) -> Real:
    r"""Shear area of a nut's thread around its bolt.

    .. math:: A = \pi n L_e D_s \left[\frac{1}{2 n}
              + \frac{D_s - E_n}{\sqrt 3}\right], \quad n = \frac{1}{P}

    Parameters
    ----------
    engagement : float or array [m]
        Engaged length :math:`L_e` of full thread.
    pitch : float or array [m]
        Pitch :math:`P`.
    external_major_diameter : float or array [m]
        Least major diameter :math:`D_s` of the bolt.
    internal_pitch_diameter : float or array [m]
        Greatest pitch diameter :math:`E_n` of the nut.

    Returns
    -------
    float or array [m²]
        On the cylinder of the bolt's major diameter; all engaged turns count alike.

    References
    ----------
    From memory: :func:`external_stripping_area` with the parts of bolt and nut
    exchanged; checked against the thread's profile.

    Examples
    --------
    >>> area = internal_stripping_area(engagement=0.010, pitch=0.00175,
    ...                                external_major_diameter=0.0118,
    ...                                internal_pitch_diameter=0.0110)
    >>> f"{area * 1e6:.1f} mm²"
    '283.2 mm²'
    """
    beyond = external_major_diameter - internal_pitch_diameter
    return _stripping_area(external_major_diameter, engagement, pitch, beyond)


def stripping_load(area: Real, *, shear_strength: Real) -> Real:
    r"""Force at which a thread strips.

    .. math:: F = \tau A

    Parameters
    ----------
    area : float or array [m²]
        Stripping area :math:`A` of bolt or nut.
    shear_strength : float or array [Pa]
        Strength in shear :math:`\tau` of the same part's steel.

    Returns
    -------
    float or array [N]
        The weaker of bolt and nut is the one that strips.

    References
    ----------
    Definition of a mean shear stress: the turns are taken to share evenly, which
    holds the better the nearer the steel is to flowing.

    Examples
    --------
    >>> f"{stripping_load(215.2e-6, shear_strength=400e6) / 1000:.1f} kN"
    '86.1 kN'
    """
    return shear_strength * area


def required_engagement(load: Real, *, area_per_length: Real, shear_strength: Real) -> Real:
    r"""Engaged length of full thread that a load needs.

    .. math:: L_e = \frac{F}{\tau A'}

    Parameters
    ----------
    load : float or array [N]
        Force :math:`F` that the thread is to bear: for a bolt that breaks before its
        thread strips, the tensile strength times the stress area.
    area_per_length : float or array [m]
        Stripping area :math:`A'` of an engaged metre: :func:`external_stripping_area`
        or :func:`internal_stripping_area` with an engagement of 1.
    shear_strength : float or array [Pa]
        Strength in shear :math:`\tau` of the same part's steel.

    Returns
    -------
    float or array [m]
        Without the incomplete turns at either end.

    References
    ----------
    Inverse of :func:`stripping_load`.

    Examples
    --------
    >>> each = external_stripping_area(engagement=1.0, pitch=0.00175,
    ...                                internal_minor_diameter=0.0103,
    ...                                external_pitch_diameter=0.0108)
    >>> length = required_engagement(48.9e3, area_per_length=each, shear_strength=400e6)
    >>> f"{length * 1000:.1f} mm"
    '5.7 mm'
    """
    return load / (shear_strength * area_per_length)


def _stripping_area(cylinder: Real, engagement: Real, pitch: Real, beyond: Real) -> Real:
    """Shear area on a cylinder that cuts threads this much in diameter from their pitch line."""
    return math.pi * cylinder * engagement / pitch * (pitch / 2.0 + _FLANK * beyond)
