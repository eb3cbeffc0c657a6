r"""Limits of shear stress, and how they are derived.

A bar's steel is known by tensile tests; its body is stressed in shear.  Ultimate
stress and yield stress in shear are therefore estimates from tensile figures,
unless they were measured in twist.  An endurance limit belongs to a specimen, to
its surface and size: the factors from there to a bar are inputs, each by its
name, and none has a value of its own here.  What a bar may bear at rest is a
matter of a standard or of a maker: such limits are data with a source
(:class:`PermissibleShear`), to be replaced by those that apply.
"""

from __future__ import annotations

import math

import attrs
import numpy as np

from barwright.errors import QuantityError
from barwright.mechanics.common.types import Real

__all__ = [
    "DIN_2091",
    "PermissibleShear",
    "corrected_endurance",
    "ultimate_shear",
    "yield_shear",
]


@attrs.frozen(kw_only=True)
class PermissibleShear:
    """Greatest shear stresses of bars at rest, from one source.

    Parameters
    ----------
    not_preset : float [Pa]
        Of a bar that is not pre-set.
    preset : float [Pa]
        Of a pre-set bar, in the sense in which it was pre-set.
    source : str
        Where the figures come from, and how they are known.

    Examples
    --------
    >>> mine = PermissibleShear(not_preset=650e6, preset=900e6, source="own tests")
    >>> f"{mine.preset / 1e6:.0f} MPa by {mine.source}"
    '900 MPa by own tests'
    """

    not_preset: float
    preset: float
    source: str


DIN_2091 = PermissibleShear(
    not_preset=700e6,
    preset=1020e6,
    source="DIN 2091 (1981-06), round figure from memory, unconfirmed",
)
"""Permissible shear of round torsion bars; read the standard before relying on it."""


def ultimate_shear(tensile_strength: Real, *, shear_ratio: Real) -> Real:
    r"""Ultimate shear stress, estimated from the tensile strength.

    .. math:: S_{us} = c \, S_{ut}

    Parameters
    ----------
    tensile_strength : float or array [Pa]
        Tensile strength :math:`S_{ut}`.
    shear_ratio : float or array
        Ratio :math:`c`; Brown takes 0.67.

    Returns
    -------
    float or array [Pa]

    References
    ----------
    Brown, *Marks' Calculations for Machine Design*, 2005, ch. 7, example 3.

    Examples
    --------
    >>> f"{ultimate_shear(1500e6, shear_ratio=0.67) / 1e6:.0f} MPa"
    '1005 MPa'
    """
    return shear_ratio * tensile_strength


def yield_shear(proof_strength: Real) -> Real:
    r"""Yield stress in shear, estimated from that in tension by distortion energy.

    .. math:: S_{sy} = \frac{R_{p0.2}}{\sqrt{3}}

    Parameters
    ----------
    proof_strength : float or array [Pa]
        Tensile stress :math:`R_{p0.2}` at a lasting extension of 0.2 %.

    Returns
    -------
    float or array [Pa]

    References
    ----------
    Criterion of von Mises in pure shear; checked with its general form.

    Examples
    --------
    >>> f"{yield_shear(1200e6) / 1e6:.0f} MPa"
    '693 MPa'
    """
    return proof_strength / math.sqrt(3.0)


def corrected_endurance(
    endurance: Real,
    *,
    surface_factor: Real,
    size_factor: Real,
    loading_factor: Real,
    temperature_factor: Real,
    reliability_factor: Real,
    notch_factor: Real,
) -> Real:
    r"""Endurance limit of a part, from that of a polished specimen.

    .. math:: S_e = c_\mathrm{surface} \, c_\mathrm{size} \, c_\mathrm{loading} \,
              c_\mathrm{temperature} \, c_\mathrm{reliability} \, c_\mathrm{notch} \, S_e'

    Parameters
    ----------
    endurance : float or array [Pa]
        Endurance limit :math:`S_e'` of the specimen, as an amplitude.
    surface_factor : float or array
        Share that remains with the bar's surface; above 1 if it is peened.
    size_factor : float or array
        Share that is left at the part's size.
    loading_factor : float or array
        Limit in twist over limit in the specimen's own loading; 1 if that was twist.
    temperature_factor : float or array
        Share that is left at the part's temperature.
    reliability_factor : float or array
        Share that the stated percentage of parts reaches.
    notch_factor : float or array
        Share that a notch leaves: 1 over the fatigue notch factor, at most 1.

    Returns
    -------
    float or array [Pa]

    Raises
    ------
    QuantityError
        If a notch is said to make the part stronger.

    Notes
    -----
    None has a value of its own here: a factor that is not known is a choice,
    and 1 is one of the boldest.

    References
    ----------
    A product of named factors: common practice, no source.

    Examples
    --------
    >>> limit = corrected_endurance(400e6, surface_factor=0.8, size_factor=0.9,
    ...                             loading_factor=1.0, temperature_factor=1.0,
    ...                             reliability_factor=0.9, notch_factor=1.0)
    >>> f"{limit / 1e6:.1f} MPa"
    '259.2 MPa'
    """
    if not np.all(np.asarray(notch_factor) <= 1.0):
        raise QuantityError(
            "Q302",
            value=f"{np.max(notch_factor):.6g}",
            expected="the share of strength left by the notch, at most 1",
            remedy="give 1 divided by the fatigue notch factor",
            key="notch_factor",
        )
    of_surface = surface_factor * size_factor * notch_factor
    of_service = loading_factor * temperature_factor * reliability_factor
    return of_surface * of_service * endurance
