r"""Insertion: whether a splined end of a bar passes through a socket.

An end passes freely if nothing of it reaches into the socket's teeth.  An end of the
same spline passes meshed: its teeth in the socket's spaces, and one of its blanks,
the missing teeth, on the key, the filled space.  Since the bar can be turned while it
passes, an end with a blank always has such places, one for each blank.

Ideal parts on one axis: play between the flanks, burrs and a bent bar are left out,
and that two splines are the same, in form and in size, is for the caller to know.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.types import Real
from barwright.mechanics.spline.involute import angular_pitch

__all__ = ["passes_freely", "passes_meshed"]

_Answer: TypeAlias = bool | NDArray[np.bool_]

# Rounding of an angle, in teeth.
_ROUNDING = 1e-6


def passes_freely(*, major_diameter: Real, minor_diameter: Real) -> _Answer:
    """Whether a splined end goes through a socket without meeting its teeth.

    Parameters
    ----------
    major_diameter : float or array [m]
        Over the teeth of the end.
    minor_diameter : float or array [m]
        Inside the teeth of the socket.

    Returns
    -------
    bool or array

    References
    ----------
    Geometry of two circles; checked by laying the outlines over each other.

    Examples
    --------
    >>> bool(passes_freely(major_diameter=0.0285, minor_diameter=0.0292))
    True
    """
    return np.less(major_diameter, minor_diameter)


def passes_meshed(
    turned: Real, *, teeth: Real, blanks: Iterable[int], keyed: bool = True
) -> _Answer:
    r"""Whether an end goes through a socket of its own spline, turned as it is.

    Its teeth meet the spaces if it is turned by whole teeth; blank :math:`b` then lies
    on the key if

    .. math:: b + \frac{\psi}{p} \equiv 0 \pmod N, \qquad p = \frac{2 \pi}{N} .

    Parameters
    ----------
    turned : float or array [rad]
        Angle :math:`\psi` from where the maker's blank, which is 0, lies on the key,
        in the sense in which the blanks are counted.
    teeth : float or array
        Teeth :math:`N` of the whole circle, of end and socket alike.
    blanks : iterable of int
        Numbers of the missing teeth.
    keyed : bool
        Whether the socket has its key.

    Returns
    -------
    bool or array

    References
    ----------
    Geometry; checked by laying the outlines over each other.

    Examples
    --------
    Teeth 0 and 3 of 40 are missing, so that the end also passes 3 teeth back:

    >>> import numpy as np
    >>> turned = np.radians([0.0, -9.0, -27.0, -30.0])
    >>> passes_meshed(turned, teeth=40, blanks=(0, 3)).tolist()
    [True, False, True, False]
    """
    steps = np.divide(turned, angular_pitch(teeth))
    whole = np.rint(steps)
    aligned = np.less_equal(np.abs(steps - whole), _ROUNDING)
    on_key = [np.equal(np.mod(whole + blank, teeth), 0.0) for blank in blanks]
    result: _Answer = aligned & (np.any(on_key, axis=0) if keyed else True)
    return result
