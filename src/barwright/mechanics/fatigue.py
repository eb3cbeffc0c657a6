r"""Fatigue of a bar in shear: safety on mean and amplitude, and life under a history.

Stresses are shear stresses at the surface, where a bar cracks.  The sign of a
shear stress only tells its direction, so a mean counts by its size.  A line or
curve of mean and amplitude says nothing of yield at the first full stroke
(Soderberg's excepted): hold the peak against the yield stress as well.  No
factor is built in; what is left out has to be put in by name.

A pre-set bar carries a residual stress of the other sign at its surface; add it
to the mean (:func:`barwright.mechanics.presetting.residual_stress`).
"""

from __future__ import annotations

from collections.abc import Sequence

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.errors import MissingExtraError, QuantityError, SchemaError
from barwright.mechanics.types import Real

__all__ = [
    "Cycles",
    "basquin_life",
    "corrected_endurance",
    "count_cycles",
    "elliptic_factor",
    "gerber_factor",
    "goodman_factor",
    "mean_and_amplitude",
    "miner_damage",
    "reversed_amplitude",
    "soderberg_factor",
    "ultimate_shear",
]


@attrs.frozen(eq=False)
class Cycles:
    """Cycles counted in a history, in the order in which they close.

    Parameters
    ----------
    ranges : array
        Difference of a cycle's two turning points, in the unit of the history.
    means : array
        Middle of the two, in the same unit.
    counts : array
        1 for a whole cycle, 0.5 for a half one.

    Examples
    --------
    >>> import numpy as np
    >>> one = Cycles(ranges=np.array([300e6]), means=np.array([500e6]), counts=np.array([1.0]))
    >>> float(one.amplitudes[0])
    150000000.0
    """

    ranges: NDArray[np.float64]
    means: NDArray[np.float64]
    counts: NDArray[np.float64]

    @property
    def amplitudes(self) -> NDArray[np.float64]:
        """Half of each range."""
        return self.ranges / 2.0


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
        Share that the surface leaves; above 1 where it is peened.
    size_factor : float or array
        Share that is left at the part's size.
    loading_factor : float or array
        Limit in twist over limit in the specimen's own loading; 1 if that was twist.
    temperature_factor : float or array
        Share that is left at the part's temperature.
    reliability_factor : float or array
        Share that so many of a hundred parts reach.
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
            expected="the share that a notch leaves, at most 1",
            remedy="give 1 over the fatigue notch factor",
            key="notch_factor",
        )
    of_surface = surface_factor * size_factor * notch_factor
    of_service = loading_factor * temperature_factor * reliability_factor
    return of_surface * of_service * endurance


def _inverse(used: Real) -> Real:
    """Safety factor from the share of the strength that is used; infinite for none."""
    with np.errstate(divide="ignore"):
        return np.divide(1.0, used)


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


def reversed_amplitude(*, amplitude: Real, mean: Real, ultimate: Real) -> Real:
    r"""Amplitude without a mean that does as much damage, by Goodman's line.

    .. math:: \tau_\mathrm{rev} = \frac{\tau_a}{1 - |\tau_m| / S_{us}}

    Parameters
    ----------
    amplitude, mean : float or array [Pa]
        Amplitude :math:`\tau_a`, zero or above, and mean :math:`\tau_m`.
    ultimate : float or array [Pa]
        Ultimate stress :math:`S_{us}` in shear.

    Returns
    -------
    float or array [Pa]
        Infinite where the mean alone reaches the ultimate stress.

    References
    ----------
    Follows from :func:`goodman_factor`: both lie on one line of equal safety.

    Examples
    --------
    >>> amplitude = reversed_amplitude(amplitude=150e6, mean=400e6, ultimate=1000e6)
    >>> f"{amplitude / 1e6:.0f} MPa"
    '250 MPa'
    """
    left = np.maximum(1.0 - np.abs(mean) / ultimate, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        result: Real = np.where(left > 0.0, np.divide(amplitude, left), np.inf)[()]
    return result


def basquin_life(
    amplitude: Real, *, at_stress: Real, at_life: Real, exponent: Real, endurance: Real = 0.0
) -> Real:
    r"""Cycles to failure under one amplitude, by Basquin's law through a known point.

    .. math:: N = N_0 \left(\frac{\tau_0}{\tau_a}\right)^k

    Parameters
    ----------
    amplitude : float or array [Pa]
        Fully reversed amplitude :math:`\tau_a`; infinite for one that breaks at once.
    at_stress : float or array [Pa]
        Amplitude :math:`\tau_0` of a point on the line.
    at_life : float or array
        Cycles :math:`N_0` of that point.
    exponent : float or array
        Slope :math:`k` of the line in logarithms, positive.
    endurance : float or array [Pa]
        Amplitude up to which nothing breaks; 0 carries the line on for ever, as
        befits a history in which larger cycles have started a crack.

    Returns
    -------
    float or array
        Cycles; infinite up to the endurance limit.

    References
    ----------
    Common practice, no source: a straight line in logarithms.

    Examples
    --------
    >>> life = basquin_life(500e6, at_stress=250e6, at_life=2e6, exponent=5.0)
    >>> f"{life:.0f} cycles"
    '62500 cycles'
    """
    with np.errstate(divide="ignore"):
        life = at_life * np.divide(at_stress, amplitude) ** exponent
    result: Real = np.where(np.asarray(amplitude) > endurance, life, np.inf)[()]
    return result


def miner_damage(*, counts: Real, lives: Real) -> Real:
    r"""Share of the life that counted cycles use up, summed linearly.

    .. math:: D = \sum_i \frac{n_i}{N_i}

    Parameters
    ----------
    counts : float or array
        Cycles :math:`n_i` done, halves included.
    lives : float or array
        Cycles to failure :math:`N_i` of each; infinite for one that does no harm.

    Returns
    -------
    float or array
        Damage; summed over the last axis.  Failure is expected at 1, and in
        practice comes anywhere between a third of it and thrice as much.

    References
    ----------
    Miner's sum: common practice, no source; its spread from memory.

    Examples
    --------
    >>> import numpy as np
    >>> damage = miner_damage(counts=np.array([1e3, 5e4]), lives=np.array([1e4, 1e6]))
    >>> f"{damage:.2f}"
    '0.15'
    """
    with np.errstate(divide="ignore"):
        result: Real = np.sum(np.atleast_1d(np.divide(counts, lives)), axis=-1)
    return result


def count_cycles(history: Sequence[float] | NDArray[np.float64]) -> Cycles:
    """Cycles in a history, by rainflow counting.

    The residue, what is left when no further cycle closes, is counted as half
    cycles, and so is a range that holds the history's first point: the rule of
    ASTM E1049-85, 5.4.4 (from memory).  The four-point method closes the same whole cycles and
    leaves another residue.

    Parameters
    ----------
    history : sequence of float or array
        Values in the order of time, of one kind, with or without the points
        between the turning points.

    Returns
    -------
    Cycles
        Without those of no range; none at all for a history that never changes.

    Raises
    ------
    MissingExtraError
        If the package ``rainflow`` is not installed.
    SchemaError
        If the history is not one row of numbers.
    QuantityError
        If one of them is not finite.

    Notes
    -----
    Count the stress, not the travel: the stress does not grow in proportion.

    References
    ----------
    ASTM E1049-85, 5.4.4 (from memory); whole cycles are checked by a four-point count.

    Examples
    --------
    >>> found = count_cycles([0.0, 4.0, 1.0, 3.0, 0.0])
    >>> for size, mean, count in zip(found.ranges, found.means, found.counts):
    ...     print(size, mean, count)
    2.0 2.0 1.0
    4.0 2.0 0.5
    4.0 2.0 0.5
    """
    points = _in_one_row(history)
    try:
        import rainflow  # noqa: PLC0415 - an optional dependency, and only this function needs it
    except ModuleNotFoundError as error:
        raise MissingExtraError(
            "X101",
            value="rainflow",
            expected="the package that counts cycles",
            remedy="pip install 'barwright[fatigue]'",
        ) from error
    # The package sees no range in two points; the last one again changes nothing else.
    found = [cycle[:3] for cycle in rainflow.extract_cycles([*points, *points[-1:]])]
    table = np.array([cycle for cycle in found if cycle[0] > 0.0], dtype=float).reshape(-1, 3)
    return Cycles(ranges=table[:, 0], means=table[:, 1], counts=table[:, 2])


def _in_one_row(history: Sequence[float] | NDArray[np.float64]) -> list[float]:
    """Finite numbers in a list, or a refusal."""
    points = np.asarray(history, dtype=float)
    if points.ndim != 1:
        raise SchemaError(
            "S203",
            value=f"an array of {points.ndim} dimensions",
            expected="one row of numbers in the order of time",
            remedy="count each channel on its own",
            key="history",
        )
    wrong = np.flatnonzero(~np.isfinite(points))
    if wrong.size:
        raise QuantityError(
            "Q301",
            value=f"{points[wrong[0]]} at place {wrong[0]}",
            expected="finite numbers",
            remedy="mend or cut the record there",
            key="history",
        )
    return [float(point) for point in points]
