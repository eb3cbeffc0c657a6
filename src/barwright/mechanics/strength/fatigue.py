r"""Safety factors of a bar in shear: for one stress, or for a mean and an amplitude.

Stresses are shear stresses at the surface of a round body, where a bar cracks.
A factor is how often the load may grow before a limit is met, mean and amplitude
growing alike; 1 is the limit itself.  The sign of a shear stress only tells its
direction, so a mean counts by its size.  Goodman, Gerber and the ellipse say
nothing of yield at the first full stroke: hold the peak against the yield stress
as well.  A mean below yield harms a smooth round bar in twist less than they say,
so that they lie on the safe side there (from memory).  All know one cycle that is
repeated for ever; for a history see :mod:`barwright.mechanics.strength.histories`.  No
factor is built in: surface, notch and the like have to be in the limits
(:mod:`barwright.mechanics.strength.shear_limits`).

A pre-set bar carries a residual stress of the other sign at its surface; add it
to the mean (:func:`barwright.mechanics.bar.presetting.residual_stress`).
"""

from __future__ import annotations

import numpy as np

from barwright.errors import QuantityError
from barwright.mechanics.common.types import Real

__all__ = [
    "elliptic_factor",
    "gerber_factor",
    "goodman_amplitude",
    "goodman_factor",
    "haigh_line",
    "mean_and_amplitude",
    "soderberg_factor",
    "static_factor",
    "yield_factor",
]


def mean_and_amplitude(*, one: Real, other: Real) -> tuple[Real, Real]:
    r"""Mean and amplitude of a stress that swings between two values.

    .. math:: \tau_m = \frac{\tau_1 + \tau_2}{2}, \qquad
              \tau_a = \frac{|\tau_1 - \tau_2|}{2}

    Parameters
    ----------
    one, other : float or array [Pa]
        The two stresses, in either order.

    Returns
    -------
    (float or array, float or array) [Pa]

    References
    ----------
    Definitions: common practice, no source.

    Examples
    --------
    >>> mean, amplitude = mean_and_amplitude(one=350e6, other=750e6)
    >>> f"{mean / 1e6:.0f} ± {amplitude / 1e6:.0f} MPa"
    '550 ± 200 MPa'
    """
    return (one + other) / 2.0, np.abs(one - other) / 2.0


def _inverse(used: Real) -> Real:
    """Safety factor from the share of the strength that is used; infinite for none."""
    with np.errstate(divide="ignore", over="ignore"):
        return np.divide(1.0, used)


def static_factor(stress: Real, *, limit: Real) -> Real:
    r"""Safety factor of a stress at rest: limit divided by stress.

    .. math:: n = \frac{S}{|\tau|}

    Parameters
    ----------
    stress : float or array [Pa]
        Shear stress :math:`\tau`.
    limit : float or array [Pa]
        Limit :math:`S`, such as one of
        :data:`barwright.mechanics.strength.shear_limits.DIN_2091`.

    Returns
    -------
    float or array
        Infinite without a stress.

    References
    ----------
    Definition: common practice, no source.

    Examples
    --------
    >>> f"{static_factor(560e6, limit=700e6):.2f}"
    '1.25'
    """
    return _inverse(np.abs(stress) / limit)


def yield_factor(*, amplitude: Real, mean: Real, shear_yield: Real) -> Real:
    r"""Safety factor of the peak against yield, with both stresses growing alike.

    .. math:: \frac{1}{n} = \frac{\tau_a + |\tau_m|}{S_{sy}}

    Parameters
    ----------
    amplitude, mean : float or array [Pa]
        Amplitude :math:`\tau_a`, zero or above, and mean :math:`\tau_m`.
    shear_yield : float or array [Pa]
        Yield stress :math:`S_{sy}` in shear.

    Returns
    -------
    float or array

    References
    ----------
    Shigley, 8th ed., example 6-10: a factor of 5.01 (from memory).

    Examples
    --------
    >>> f"{yield_factor(amplitude=8.38, mean=8.38, shear_yield=84.0):.2f}"
    '5.01'
    """
    return static_factor(np.abs(mean) + amplitude, limit=shear_yield)


def goodman_factor(*, amplitude: Real, mean: Real, endurance: Real, ultimate: Real) -> Real:
    r"""Safety factor by Goodman's line, with both stresses growing alike.

    .. math:: \frac{1}{n} = \frac{\tau_a}{S_{se}} + \frac{|\tau_m|}{S_{us}}

    Parameters
    ----------
    amplitude, mean : float or array [Pa]
        Amplitude :math:`\tau_a`, zero or above, and mean :math:`\tau_m`.
    endurance, ultimate : float or array [Pa]
        Endurance limit :math:`S_{se}` and ultimate stress :math:`S_{us}` in shear.

    Returns
    -------
    float or array

    References
    ----------
    Brown, *Marks' Calculations for Machine Design*, 2005, ch. 7, example 3.

    Examples
    --------
    >>> n = goodman_factor(amplitude=3.6, mean=36.2, endurance=6.2, ultimate=60.3)
    >>> f"{n:.3f}"
    '0.847'
    """
    return _inverse(amplitude / endurance + np.abs(mean) / ultimate)


def soderberg_factor(*, amplitude: Real, mean: Real, endurance: Real, shear_yield: Real) -> Real:
    r"""Safety factor by Soderberg's line, which keeps clear of yield as well.

    .. math:: \frac{1}{n} = \frac{\tau_a}{S_{se}} + \frac{|\tau_m|}{S_{sy}}

    Parameters
    ----------
    amplitude, mean : float or array [Pa]
        Amplitude :math:`\tau_a`, zero or above, and mean :math:`\tau_m`.
    endurance, shear_yield : float or array [Pa]
        Endurance limit :math:`S_{se}` and yield stress :math:`S_{sy}` in shear.

    Returns
    -------
    float or array

    References
    ----------
    Shigley, 8th ed., tables 6-7 to 6-8 (from memory).

    Examples
    --------
    >>> n = soderberg_factor(amplitude=100e6, mean=400e6, endurance=400e6, shear_yield=800e6)
    >>> f"{n:.3f}"
    '1.333'
    """
    return _inverse(amplitude / endurance + np.abs(mean) / shear_yield)


def gerber_factor(*, amplitude: Real, mean: Real, endurance: Real, ultimate: Real) -> Real:
    r"""Safety factor by Gerber's parabola, with both stresses growing alike.

    .. math:: \frac{n \tau_a}{S_{se}} + \left(\frac{n \tau_m}{S_{us}}\right)^2 = 1
              \quad\Rightarrow\quad n = \frac{2}{a + \sqrt{a^2 + 4 m^2}}, \qquad
              a = \frac{\tau_a}{S_{se}}, \; m = \frac{\tau_m}{S_{us}}

    Parameters
    ----------
    amplitude, mean : float or array [Pa]
        Amplitude :math:`\tau_a`, zero or above, and mean :math:`\tau_m`.
    endurance, ultimate : float or array [Pa]
        Endurance limit :math:`S_{se}` and ultimate stress :math:`S_{us}` in shear.

    Returns
    -------
    float or array

    References
    ----------
    Shigley, 8th ed., tables 6-7 to 6-8 (from memory); the root is written so
    that it holds without a mean, too, and is checked by root finding.

    Examples
    --------
    >>> n = gerber_factor(amplitude=150e6, mean=500e6, endurance=400e6, ultimate=1000e6)
    >>> f"{n:.3f}"
    '1.386'
    """
    share = amplitude / endurance
    return _inverse((share + np.hypot(share, 2.0 * mean / ultimate)) / 2.0)


def elliptic_factor(*, amplitude: Real, mean: Real, endurance: Real, shear_yield: Real) -> Real:
    r"""Safety factor by the elliptic curve of ASME, with both stresses growing alike.

    .. math:: \left(\frac{n \tau_a}{S_{se}}\right)^2
              + \left(\frac{n \tau_m}{S_{sy}}\right)^2 = 1

    Parameters
    ----------
    amplitude, mean : float or array [Pa]
        Amplitude :math:`\tau_a`, zero or above, and mean :math:`\tau_m`.
    endurance, shear_yield : float or array [Pa]
        Endurance limit :math:`S_{se}` and yield stress :math:`S_{sy}` in shear.

    Returns
    -------
    float or array

    References
    ----------
    Shigley, 8th ed., tables 6-7 to 6-8 (from memory); checked by root finding.

    Examples
    --------
    >>> n = elliptic_factor(amplitude=120e6, mean=320e6, endurance=400e6, shear_yield=800e6)
    >>> f"{n:.3f}"
    '2.000'
    """
    return _inverse(np.hypot(amplitude / endurance, mean / shear_yield))


def goodman_amplitude(mean: Real, *, endurance: Real, ultimate: Real) -> Real:
    r"""Amplitude on Goodman's line at a mean: the greatest with unlimited life.

    .. math:: \tau_a = S_{se} \left(1 - \frac{|\tau_m|}{S_{us}}\right)

    Parameters
    ----------
    mean : float or array [Pa]
        Mean :math:`\tau_m`.
    endurance, ultimate : float or array [Pa]
        Endurance limit :math:`S_{se}` and ultimate stress :math:`S_{us}` in shear.

    Returns
    -------
    float or array [Pa]
        0 from the ultimate stress on.

    References
    ----------
    The line of :func:`goodman_factor` at a factor of 1.

    Examples
    --------
    >>> amplitude = goodman_amplitude(500e6, endurance=400e6, ultimate=1000e6)
    >>> f"{amplitude / 1e6:.0f} MPa"
    '200 MPa'
    """
    return endurance * np.maximum(1.0 - np.abs(mean) / ultimate, 0.0)


def haigh_line(*, endurance: Real, ultimate: Real, shear_yield: Real = np.inf) -> tuple[Real, Real]:
    r"""Corners of the safe area in Haigh's diagram: Goodman's line, cut off by yield.

    From the axis of amplitudes to that of means; the middle corner is where the
    two lines meet,

    .. math:: \tau_m = \frac{S_{sy} - S_{se}}{1 - S_{se} / S_{us}}, \qquad
              \tau_a = S_{sy} - \tau_m

    Parameters
    ----------
    endurance, ultimate : float or array [Pa]
        Endurance limit :math:`S_{se}` and ultimate stress :math:`S_{us}` in shear.
    shear_yield : float or array [Pa]
        Yield stress :math:`S_{sy}` in shear; infinite to draw Goodman's line alone.

    Returns
    -------
    (array, array) [Pa]
        Means and amplitudes of three corners, along a last axis that is added.
        Where the lines do not meet, the middle corner lies on one of its neighbours.

    Raises
    ------
    QuantityError
        If the endurance limit is not under the ultimate stress.

    References
    ----------
    Intersection of two straight lines; checked by clipping one area with the other.

    Examples
    --------
    >>> means, amplitudes = haigh_line(endurance=400e6, ultimate=1000e6, shear_yield=700e6)
    >>> for mean, amplitude in zip(means, amplitudes):
    ...     print(f"{mean / 1e6:.0f} ± {amplitude / 1e6:.0f} MPa")
    0 ± 400 MPa
    500 ± 200 MPa
    700 ± 0 MPa
    """
    endurance, ultimate, shear_yield = np.broadcast_arrays(endurance, ultimate, shear_yield)
    share = endurance / ultimate
    if not np.all(share < 1.0):
        raise QuantityError(
            "Q302",
            value=f"{np.max(share):.6g} of the ultimate stress",
            expected="an endurance limit below the ultimate stress",
            remedy="give the endurance limit as an amplitude in shear",
            key="endurance",
        )
    end = np.minimum(ultimate, shear_yield)
    middle = np.clip((shear_yield - endurance) / (1.0 - share), 0.0, end)
    means = np.stack([np.zeros_like(end), middle, end], axis=-1)
    on_line = goodman_amplitude(means, endurance=endurance[..., None], ultimate=ultimate[..., None])
    return means, np.minimum(on_line, shear_yield[..., None] - means)
