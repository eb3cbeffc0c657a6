r"""Lives of a bar in twist, estimated from its tensile strength where nothing was tested.

A straight line in logarithms runs from what a bar bears for a thousand cycles to what it
bears for a million.  The first is a share of its ultimate stress in shear, the second the
endurance limit of a polished specimen in bending, times what surface, size, loading and
the wanted share of survivors leave of it.  All are textbook estimates for wrought steels,
and a test of real bars replaces them: shot peening, pre-setting, rust, scale and nicks are
not in them.
"""

from __future__ import annotations

import enum

import numpy as np

from barwright.mechanics.common.requirements import refuse, require_positive
from barwright.mechanics.common.types import Real

__all__ = [
    "HIGH_CYCLES",
    "LOW_CYCLES",
    "LOW_CYCLE_SHARES",
    "TORSION_FACTOR",
    "ULTIMATE_SHEAR_RATIO",
    "SurfaceFinish",
    "life_exponent",
    "size_factor",
    "specimen_endurance",
    "surface_factor",
    "survival_factor",
]

LOW_CYCLES, HIGH_CYCLES = 1e3, 1e6
"""Cycles at the two ends of the estimated line."""

LOW_CYCLE_SHARES = (0.77, 0.90)
"""Least and greatest share of the ultimate stress that is borne for a thousand cycles: Shigley,
8th ed., figure 6-18, at 200 and at 70 kpsi of tensile strength (from memory)."""

TORSION_FACTOR = 0.59
"""Endurance limit in twist over that in bending: Shigley, 8th ed., eq. 6-26 (from memory)."""

ULTIMATE_SHEAR_RATIO = 0.67
"""Ultimate stress in shear over tensile strength: Brown, *Marks' Calculations for Machine Design*,
2005, ch. 7, example 3."""


class SurfaceFinish(enum.Enum):
    """How the surface of a bar's body was made."""

    GROUND = "ground"
    MACHINED = "machined"
    HOT_ROLLED = "hot-rolled"
    AS_FORGED = "as-forged"


# Factor, with the strength in megapascals, and exponent.
_SURFACES = {
    SurfaceFinish.GROUND: (1.58, -0.085),
    SurfaceFinish.MACHINED: (4.51, -0.265),
    SurfaceFinish.HOT_ROLLED: (57.7, -0.718),
    SurfaceFinish.AS_FORGED: (272.0, -0.995),
}

# Diameters [m] from which, and up to which, a size factor holds, with the rounding of a conversion.
_SMALLEST, _MIDDLE, _LARGEST = 2.79e-3, 51e-3, 254e-3 * (1.0 + 1e-9)

# Standard deviation of endurance limits, as a share of their mean.
_ENDURANCE_SCATTER = 0.08


def specimen_endurance(tensile_strength: Real) -> Real:
    r"""Endurance limit of a polished specimen in rotating bending, estimated.

    .. math:: S_e' = \min(0.5 \, S_{ut},\; 700\,\mathrm{MPa})

    Parameters
    ----------
    tensile_strength : float or array [Pa]
        Tensile strength :math:`S_{ut}`.

    Returns
    -------
    float or array [Pa]

    References
    ----------
    Shigley, 8th ed., eq. 6-8 (from memory).

    Examples
    --------
    >>> f"{specimen_endurance(1000e6) / 1e6:.0f} MPa"
    '500 MPa'
    """
    require_positive(tensile_strength=tensile_strength)
    return np.minimum(0.5 * np.asarray(tensile_strength), 700e6)[()]


def surface_factor(tensile_strength: Real, *, finish: SurfaceFinish) -> Real:
    r"""Share of an endurance limit that a surface leaves, never above 1.

    .. math:: c_\mathrm{surface} = a \left(\frac{S_{ut}}{\mathrm{MPa}}\right)^b

    Parameters
    ----------
    tensile_strength : float or array [Pa]
        Tensile strength :math:`S_{ut}`.
    finish : SurfaceFinish
        Gives :math:`a` and :math:`b`.

    Returns
    -------
    float or array

    References
    ----------
    Shigley, 8th ed., eq. 6-19 and table 6-2 (from memory).

    Examples
    --------
    >>> f"{surface_factor(520e6, finish=SurfaceFinish.MACHINED):.3f}"
    '0.860'
    """
    require_positive(tensile_strength=tensile_strength)
    factor, exponent = _SURFACES[finish]
    return np.minimum(factor * (np.asarray(tensile_strength) / 1e6) ** exponent, 1.0)[()]


def size_factor(diameter: Real) -> Real:
    r"""Share of an endurance limit in twist that the size of a round bar leaves.

    .. math:: c_\mathrm{size} = \left(\frac{d}{7.62\,\mathrm{mm}}\right)^{-0.107}
              \text{ up to 51 mm}, \qquad
              1.51 \left(\frac{d}{\mathrm{mm}}\right)^{-0.157} \text{ above}

    Parameters
    ----------
    diameter : float or array [m]
        Diameter :math:`d`, from 2.79 to 254 mm.

    Returns
    -------
    float or array

    Raises
    ------
    QuantityError
        If the diameter lies outside that range.

    References
    ----------
    Shigley, 8th ed., eq. 6-20 (from memory).

    Examples
    --------
    >>> f"{size_factor(0.032):.3f}"
    '0.858'
    """
    refuse(
        "Q302",
        diameter,
        where=~(np.greater_equal(diameter, _SMALLEST) & np.less_equal(diameter, _LARGEST)),
        expected="a diameter from 0.00279 to 0.254 m",
        remedy="give a line of lives of your own",
        key="diameter",
    )
    millimetres = 1e3 * np.asarray(diameter)
    small, large = (millimetres / 7.62) ** -0.107, 1.51 * millimetres**-0.157
    return np.where(millimetres <= 1e3 * _MIDDLE, small, large)[()]


def survival_factor(below_mean: Real) -> Real:
    r"""Endurance limit of a weak or strong bar, over that which half of all bars reach.

    .. math:: c_\mathrm{survival} = 1 - 0.08 \, z

    Parameters
    ----------
    below_mean : float or array
        Standard deviations :math:`z` by which the bar lies below the mean: 1.645 for what
        95 % of bars reach, -1.645 for what 5 % do.

    Returns
    -------
    float or array

    References
    ----------
    Shigley, 8th ed., eq. 6-29 and table 6-5: a standard deviation of 8 % (from memory).

    Examples
    --------
    >>> f"{survival_factor(1.645):.3f}"
    '0.868'
    """
    return 1.0 - _ENDURANCE_SCATTER * below_mean


def life_exponent(*, low_cycle_stress: Real, high_cycle_stress: Real) -> Real:
    r"""Slope of the line of lives between a thousand and a million cycles.

    .. math:: k = \frac{\lg(10^6 / 10^3)}{\lg(\tau_3 / \tau_6)}

    Parameters
    ----------
    low_cycle_stress, high_cycle_stress : float or array [Pa]
        Amplitudes :math:`\tau_3` and :math:`\tau_6` that are borne for a thousand cycles
        and for a million.

    Returns
    -------
    float or array
        The exponent of :func:`~barwright.mechanics.strength.histories.basquin_life`.

    Raises
    ------
    QuantityError
        If the first stress is not above the second.

    References
    ----------
    Shigley, 8th ed., eq. 6-13 to 6-16 (from memory), whose :math:`b` is :math:`-1/k`.

    Examples
    --------
    >>> f"{life_exponent(low_cycle_stress=800e6, high_cycle_stress=400e6):.2f}"
    '9.97'
    """
    ratio = np.divide(low_cycle_stress, high_cycle_stress)
    refuse(
        "Q302",
        ratio,
        where=~np.greater(ratio, 1.0),
        expected="a stress for a thousand cycles above that for a million",
        remedy="check whether the two were exchanged",
        key="low_cycle_stress",
    )
    result: Real = np.log(HIGH_CYCLES / LOW_CYCLES) / np.log(ratio)
    return result
