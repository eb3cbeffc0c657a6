"""ISO metric screw threads of the adjuster: what bolt and nut hold.

Pitch and stress area, the proof load of a property class, and the areas on which
the threads of bolt and nut would shear off.  Friction, bending of the bolt and
wear are left out, and so is the strength of the nut's steel.
"""

from __future__ import annotations

import enum
import math

import numpy as np

from barwright.mechanics.types import Real

__all__ = [
    "COARSE_PITCH",
    "PropertyClass",
    "external_stripping_area",
    "internal_stripping_area",
    "proof_load",
    "stress_area",
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
    height = math.sqrt(3.0) / 2.0 * pitch
    mean = diameter - (3.0 / 4.0 + 17.0 / 12.0) / 2.0 * height
    return np.pi / 4.0 * mean**2


def proof_load(property_class: PropertyClass, *, diameter: Real, pitch: Real) -> Real:
    r"""Tension that a bolt of a property class bears without taking a set.

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
        Up to 0.4 % off the printed load, which stands on rounded areas.  Not a
        number for 8.8 above M16, where another stress holds (from memory).

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
    known = np.less_equal(diameter, _LARGEST[property_class])
    stress = np.where(known, property_class.proof_stress, np.nan)
    result: Real = stress * stress_area(diameter=diameter, pitch=pitch)
    return result


# Half of the profile's angle of 60°: 0.57735 in the printed formula.
_FLANK = math.tan(math.radians(30.0))


def external_stripping_area(
    *, engagement: Real, pitch: Real, internal_minor_diameter: Real, external_pitch_diameter: Real
) -> Real:
    r"""Area on which a bolt's thread would shear off inside its nut.

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
    r"""Area on which a nut's thread would shear off around its bolt.

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


def _stripping_area(cylinder: Real, engagement: Real, pitch: Real, beyond: Real) -> Real:
    """Shear area on a cylinder that cuts threads this much in diameter from their pitch line."""
    return math.pi * cylinder * engagement / pitch * (pitch / 2.0 + _FLANK * beyond)
