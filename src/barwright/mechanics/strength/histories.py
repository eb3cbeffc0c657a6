r"""Life of a bar under a history of stress: cycles, their lives, and the sum of damage.

A history is counted into cycles by rainflow; a cycle with a mean is replaced by a
fully reversed one that Goodman's line holds for as bad; a straight line in
logarithms gives its life; and the lives used up are summed linearly.  Order,
frequency, corrosion and overloads that leave residual stress are not seen, and
neither is what a large cycle does to the small ones after it, unless the line is
carried on below the endurance limit.  A sum of damage is good to compare two
histories or two bars; as a life in figures it is uncertain by a factor of three
either way (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.errors import MissingExtraError, QuantityError, SchemaError
from barwright.first_use import FIRST_USE
from barwright.mechanics.common.types import Real

__all__ = [
    "MINER_SCATTER",
    "Cycles",
    "basquin_life",
    "count_cycles",
    "history_damage",
    "miner_damage",
    "repeats_to_failure",
    "reversed_amplitude",
]

MINER_SCATTER = 3.0
"""Failure comes between the damage 1 divided by this and 1 times this (from memory)."""


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


def count_cycles(history: Sequence[float] | NDArray[np.float64]) -> Cycles:
    """Cycles in a history, by rainflow counting.

    The residue, what is left when no further cycle closes, is counted as half
    cycles, and so is a range that holds the history's first point: the rule of
    ASTM E1049-85, 5.4.4 (from memory).  A four-point count closes the same whole
    cycles and leaves the half ones as its residue; ranges of exactly one size may
    be paired otherwise there, to the same sum.

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
    ASTM E1049-85, 5.4.4 (from memory); checked by a four-point count.

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
        with FIRST_USE:
            import rainflow  # noqa: PLC0415 - an optional dependency, and only this needs it
    except ModuleNotFoundError as error:
        raise MissingExtraError(
            "X101",
            value="rainflow",
            expected="the package that counts cycles",
            remedy="pip install 'barwright[fatigue]'",
        ) from error
    # The package sees no range in two points; the last one again changes nothing else.
    found = [cycle[:3] for cycle in rainflow.extract_cycles([*points, *points[-1:]])]
    table = np.array([cycle for cycle in found if cycle[0] > 0.0]).reshape(-1, 3)
    return Cycles(ranges=table[:, 0], means=table[:, 1], counts=table[:, 2])


def _in_one_row(history: Sequence[float] | NDArray[np.float64]) -> list[float]:
    """Return finite numbers as one list; refuse others."""
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
            remedy="correct or remove the value there",
            key="history",
        )
    return [float(point) for point in points]


def reversed_amplitude(*, amplitude: Real, mean: Real, ultimate: Real) -> Real:
    r"""Fully reversed amplitude that does the same damage, by Goodman's line.

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
    r"""Share of the life that counted cycles use, summed linearly.

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


def history_damage(
    cycles: Cycles,
    *,
    ultimate: Real,
    at_stress: Real,
    at_life: Real,
    exponent: Real,
    endurance: Real = 0.0,
) -> Real:
    r"""Share of the life that one run of a history uses.

    .. math:: D = \sum_i \frac{n_i}{N(\tau_{\mathrm{rev},i})}

    Parameters
    ----------
    cycles : Cycles
        Counted in a history of shear stress [Pa].
    ultimate : float or array [Pa]
        Ultimate stress in shear, for the means; infinite to pass them over.
    at_stress, at_life, exponent, endurance : float or array
        The line of lives, as in :func:`basquin_life`.

    Returns
    -------
    float or array
        Damage, of the shape of the limits.

    References
    ----------
    :func:`reversed_amplitude`, :func:`basquin_life` and :func:`miner_damage` in turn.

    Examples
    --------
    >>> cycles = count_cycles([300e6, 700e6, 300e6])
    >>> damage = history_damage(cycles, ultimate=1000e6, at_stress=400e6, at_life=1e6,
    ...                         exponent=5.0)
    >>> f"{damage:.1e}"
    '1.0e-06'
    """
    ultimate, at_stress, at_life, exponent, endurance = (
        np.expand_dims(limit, -1) for limit in (ultimate, at_stress, at_life, exponent, endurance)
    )
    amplitudes = reversed_amplitude(
        amplitude=cycles.amplitudes, mean=cycles.means, ultimate=ultimate
    )
    lives = basquin_life(
        amplitudes, at_stress=at_stress, at_life=at_life, exponent=exponent, endurance=endurance
    )
    return miner_damage(counts=cycles.counts, lives=lives)


def repeats_to_failure(damage: Real, *, damage_at_failure: Real = 1.0) -> Real:
    r"""Return the number of runs of a history before failure is expected.

    .. math:: R = \frac{D_\mathrm{f}}{D}

    Parameters
    ----------
    damage : float or array
        Damage :math:`D` of one run.
    damage_at_failure : float or array
        Sum :math:`D_\mathrm{f}` at which failure is expected.

    Returns
    -------
    float or array
        Infinite for a history that does no harm.

    References
    ----------
    Miner's sum: common practice, no source.

    Examples
    --------
    >>> f"{repeats_to_failure(2e-5):.0f} runs"
    '50000 runs'
    """
    with np.errstate(divide="ignore"):
        return np.divide(damage_at_failure, damage)
