"""ISO metric screw threads of the adjuster: pitch and stress area."""

from __future__ import annotations

import math

import numpy as np

from barwright.mechanics.types import Real

__all__ = ["COARSE_PITCH", "stress_area"]

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
