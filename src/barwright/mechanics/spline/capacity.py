r"""Stresses of a splined head: shear under its roots, shear and pressure of its teeth.

The formulas are those of D. W. Dudley, "When Splines Need Stress Control",
*Product Engineering*, 1957, as reprinted in *Machinery's Handbook*, 27th ed., p. 2171
to 2175.  The head is taken as a round bar of its root circle.  Of the teeth half are
taken to carry in shear, all in bearing, each with an equal part of the torque at the
pitch circle over the engaged length; every factor is an input and is 1 if left out.

Limits.  The allowables that belong to these formulas are for couplings; bar heads run
far above them, so a stress here is a figure for comparison, never a verdict, and a
torque capacity is no more than the same formula solved for the torque.  The root
circle is on the safe side: by finite elements a solid head of 40 teeth of 30° is 6 to
7 % stiffer, one of 22 teeth 11 %; one missing tooth of 40 takes 0.2 % off the stiffness,
one of 22 takes 0.5 %.  A missing tooth leaves its load to the others, and most of it to
those beside the gap: :func:`~barwright.mechanics.spline.factors.missing_tooth_factor`.
Notches at the roots, bending of the teeth and fretting are left out.
"""

from __future__ import annotations

import enum

import attrs
import numpy as np

from barwright.mechanics.common.types import Real

__all__ = [
    "SplinedHead",
    "StressMethod",
    "TorqueCapacity",
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
        Factors :math:`K_a` and :math:`L_f` of
        :mod:`barwright.mechanics.spline.factors`.

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
        Factors :math:`K_a`, :math:`K_m` and :math:`L_f` of
        :mod:`barwright.mechanics.spline.factors`.

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
        Factors :math:`K_a` and :math:`K_m` of
        :mod:`barwright.mechanics.spline.factors`.
    wear_factor : float or array
        What stands for :math:`L_w`.  The source has :math:`9 L_f` for a spline that
        does not slide: :data:`~barwright.mechanics.spline.factors.FIXED_SPLINE_WEAR`
        times a life factor.

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


class StressMethod(enum.Enum):
    """Which stress in a splined head, and by whose formula."""

    HEAD_SHEAR = "shear under the roots of the head, after Dudley (1957)"
    TOOTH_SHEAR = "shear in half of the teeth at the pitch line, after Dudley (1957)"
    TOOTH_BEARING = "bearing pressure on the flanks of all teeth, after Dudley (1957)"


@attrs.frozen(kw_only=True)
class TorqueCapacity:
    """Torque at which one formula gives a permitted stress.

    It is the inverse of a stress and no verdict: another formula, or another
    permitted stress, gives another torque.

    Parameters
    ----------
    method : StressMethod
        Which stress is meant, and by whose formula.
    permitted_stress : float or array [Pa]
        The stress, as it was given.
    torque : float or array [N·m]
        The torque that gives it.
    """

    method: StressMethod
    permitted_stress: Real
    torque: Real


@attrs.frozen(kw_only=True)
class SplinedHead:
    """A splined head in its socket, as the spline formulas need it.

    Parameters
    ----------
    root_diameter, pitch_diameter : float or array [m]
        Root circle and pitch circle.
    teeth : float or array
        Teeth of the whole circle.
    engagement : float or array [m]
        Engaged length.
    tooth_thickness : float or array [m]
        Of a tooth at the pitch line.
    tooth_depth : float or array [m]
        Radial depth of contact.
    bore : float or array [m]
        Bore of the head.
    missing_tooth_factor : float or array
        As in the formulas; 1, a whole circle, if left out.
    application_factor, distribution_factor, life_factor, wear_factor : float or array
        As in the formulas; 1 if left out.
    """

    root_diameter: Real
    pitch_diameter: Real
    teeth: Real
    engagement: Real
    tooth_thickness: Real
    tooth_depth: Real
    bore: Real = 0.0
    missing_tooth_factor: Real = 1.0
    application_factor: Real = 1.0
    distribution_factor: Real = 1.0
    life_factor: Real = 1.0
    wear_factor: Real = 1.0

    def stress(self, method: StressMethod, torque: Real) -> Real:
        """Stress that a torque causes.

        Parameters
        ----------
        method : StressMethod
            Which stress.
        torque : float or array [N·m]
            The torque.

        Returns
        -------
        float or array [Pa]
        """
        if method is StressMethod.HEAD_SHEAR:
            return head_shear_stress(
                torque,
                root_diameter=self.root_diameter,
                bore=self.bore,
                application_factor=self.application_factor,
                life_factor=self.life_factor,
            )
        shared = {
            "pitch_diameter": self.pitch_diameter,
            "teeth": self.teeth,
            "engagement": self.engagement,
            "missing_tooth_factor": self.missing_tooth_factor,
            "application_factor": self.application_factor,
            "distribution_factor": self.distribution_factor,
        }
        if method is StressMethod.TOOTH_SHEAR:
            thickness, life = self.tooth_thickness, self.life_factor
            return tooth_shear_stress(torque, tooth_thickness=thickness, life_factor=life, **shared)
        depth, wear = self.tooth_depth, self.wear_factor
        return tooth_bearing_stress(torque, tooth_depth=depth, wear_factor=wear, **shared)

    def torque_capacity(self, method: StressMethod, permitted_stress: Real) -> TorqueCapacity:
        """Torque at which a formula gives a permitted stress.

        Parameters
        ----------
        method : StressMethod
            Which stress is permitted.
        permitted_stress : float or array [Pa]
            How much of it: the caller's figure, since none of this project is
            proved for bars.

        Returns
        -------
        TorqueCapacity

        Examples
        --------
        >>> head = SplinedHead(root_diameter=0.030, pitch_diameter=0.032, teeth=40,
        ...                    engagement=0.030, tooth_thickness=0.00125, tooth_depth=0.001)
        >>> capacity = head.torque_capacity(StressMethod.TOOTH_SHEAR, 100e6)
        >>> print(f"{capacity.torque:.0f} N·m by {capacity.method.value}")
        1200 N·m by shear in half of the teeth at the pitch line, after Dudley (1957)
        """
        torque = permitted_stress / self.stress(method, 1.0)
        return TorqueCapacity(method=method, permitted_stress=permitted_stress, torque=torque)
