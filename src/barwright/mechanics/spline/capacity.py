r"""Stresses of a splined head: shear under its roots, shear and pressure of its teeth.

The formulas are those of D. W. Dudley, "When Splines Need Stress Control",
*Product Engineering*, 1957, as reprinted in *Machinery's Handbook*, 27th ed., p. 2171
to 2175.  The head is taken as a round bar of its root circle.  Of the teeth half are
taken to carry in shear, all in bearing, each with an equal part of the torque at the
pitch circle over the engaged length; every factor is an input and is 1 if left out.

Limits.  The allowables that belong to these formulas are for couplings; bar heads run
far above them, so a stress here is a figure for comparison, never a verdict.  The root
circle is on the safe side: by finite elements a solid head of 40 teeth of 30° is 6 to
7 % stiffer, one of 22 teeth 11 %; one missing tooth of 40 takes 0.2 % off the stiffness,
one of 22 takes 0.5 %.  A missing tooth leaves its load to the others, and most of it to
those beside the gap: :func:`~barwright.mechanics.spline.factors.missing_tooth_factor`.
Notches at the roots, bending of the teeth and fretting are left out.
"""

from __future__ import annotations

import numpy as np

from barwright.mechanics.common.types import Real

__all__ = [
    "head_shear_stress",
    "tooth_bearing_stress",
    "tooth_shear_stress",
]


def head_shear_stress(
    torque: Real,
    *,
    root_diameter: Real,
    bore: Real = 0.0,
    application_factor: Real = 1.0,
    life_factor: Real = 1.0,
) -> Real:
    r"""Shear stress under the roots of a splined head.

    .. math:: S_s = \frac{16 T D_{re} K_a}{\pi (D_{re}^4 - D_h^4) L_f}

    Parameters
    ----------
    torque : float or array [N·m]
        Torque :math:`T`.
    root_diameter, bore : float or array [m]
        Root circle :math:`D_{re}` and bore :math:`D_h` of the head.
    application_factor, life_factor : float or array
        Factors :math:`K_a` for what drives the spline and :math:`L_f` for its life.

    Returns
    -------
    float or array [Pa]

    References
    ----------
    D. W. Dudley, "When Splines Need Stress Control", *Product Engineering*, 1957,
    as reprinted in *Machinery's Handbook*, 27th ed., p. 2171.

    Examples
    --------
    >>> f"{head_shear_stress(1000.0, root_diameter=0.030) / 1e6:.1f} MPa"
    '188.6 MPa'
    """
    factor = application_factor / life_factor
    return 16.0 * torque * root_diameter * factor / (np.pi * (root_diameter**4 - bore**4))


def tooth_shear_stress(
    torque: Real,
    *,
    pitch_diameter: Real,
    teeth: Real,
    engagement: Real,
    tooth_thickness: Real,
    missing_tooth_factor: Real = 1.0,
    application_factor: Real = 1.0,
    distribution_factor: Real = 1.0,
    life_factor: Real = 1.0,
) -> Real:
    r"""Shear stress in the teeth at the pitch line, half of them carrying.

    .. math:: S_s = \frac{4 T K_a K_m}{D N L_e t L_f} \, K_g

    Parameters
    ----------
    torque : float or array [N·m]
        Torque :math:`T`.
    pitch_diameter : float or array [m]
        Pitch diameter :math:`D`.
    teeth : float or array
        Teeth :math:`N` of the whole circle.
    engagement : float or array [m]
        Engaged length :math:`L_e`.
    tooth_thickness : float or array [m]
        Thickness :math:`t` of a tooth at the pitch line.
    missing_tooth_factor : float or array
        Load :math:`K_g` of the most loaded tooth over the even share of a whole circle:
        :func:`~barwright.mechanics.spline.factors.missing_tooth_factor`.
    application_factor, distribution_factor, life_factor : float or array
        Factors :math:`K_a` and :math:`L_f` as in :func:`head_shear_stress`, and
        :math:`K_m` for a load that the length shares unevenly.

    Returns
    -------
    float or array [Pa]

    References
    ----------
    Dudley 1957, as in :func:`head_shear_stress`; :math:`K_g` is of this project.

    Examples
    --------
    >>> stress = tooth_shear_stress(1000.0, pitch_diameter=0.032, teeth=40,
    ...                             engagement=0.030, tooth_thickness=0.00125)
    >>> f"{stress / 1e6:.1f} MPa"
    '83.3 MPa'
    """
    area = teeth * engagement * tooth_thickness
    factor = application_factor * distribution_factor * missing_tooth_factor / life_factor
    return 4.0 * torque * factor / (pitch_diameter * area)


def tooth_bearing_stress(
    torque: Real,
    *,
    pitch_diameter: Real,
    teeth: Real,
    engagement: Real,
    tooth_depth: Real,
    missing_tooth_factor: Real = 1.0,
    application_factor: Real = 1.0,
    distribution_factor: Real = 1.0,
    wear_factor: Real = 1.0,
) -> Real:
    r"""Bearing pressure on the flanks of the teeth.

    .. math:: S_c = \frac{2 T K_m K_a}{D N L_e h L_w} \, K_g

    Parameters
    ----------
    torque : float or array [N·m]
        Torque :math:`T`.
    pitch_diameter : float or array [m]
        Pitch diameter :math:`D`.
    teeth : float or array
        Teeth :math:`N` of the whole circle.
    engagement : float or array [m]
        Engaged length :math:`L_e`.
    tooth_depth : float or array [m]
        Radial depth :math:`h` of contact.
    missing_tooth_factor : float or array
        As in :func:`tooth_shear_stress`.
    application_factor, distribution_factor : float or array
        Factors :math:`K_a` and :math:`K_m` as in :func:`tooth_shear_stress`.
    wear_factor : float or array
        What stands for :math:`L_w`.  The source has :math:`9 L_f` for a spline that
        does not slide.

    Returns
    -------
    float or array [Pa]

    References
    ----------
    Dudley 1957, as in :func:`head_shear_stress`; the letter :math:`L_w` is from memory,
    and :math:`K_g` is of this project.

    Examples
    --------
    >>> stress = tooth_bearing_stress(1000.0, pitch_diameter=0.032, teeth=40,
    ...                               engagement=0.030, tooth_depth=0.001)
    >>> f"{stress / 1e6:.1f} MPa"
    '52.1 MPa'
    """
    area = teeth * engagement * tooth_depth
    factor = application_factor * distribution_factor * missing_tooth_factor / wear_factor
    return 2.0 * torque * factor / (pitch_diameter * area)
