r"""Splines of bar and sockets: how far they lie in each other, and what they carry.

Axial coordinate ``s`` from the arm socket's face that looks away from the
anchor, toward the anchor.  The stresses follow the spline formulas of handbooks
for couplings; the allowables that belong to those are far below what bar heads
carry in practice, so a stress here is a figure for comparison, never a verdict.
"""

from __future__ import annotations

import attrs
import numpy as np

from barwright.mechanics.types import Real

__all__ = [
    "AxialLayout",
    "Seating",
    "head_shear_stress",
    "seat",
    "tooth_bearing_stress",
    "tooth_shear_stress",
]


@attrs.frozen
class AxialLayout:
    """A bar's splines and the sockets that it lies in, along the bar axis.

    Parameters
    ----------
    bar_length : float [m]
        Over both splines, from outer edge to outer edge.
    arm_spline, anchor_spline : float [m]
        Lengths of the bar's splines.
    arm_nose, anchor_nose : float [m]
        Plain noses beyond the splines.
    arm_socket, anchor_socket : float [m]
        Lengths of the sockets' splines.
    anchor_position : float [m]
        Where the anchor socket begins; the arm socket begins at 0.
    arm_required, anchor_required : float [m]
        Engagement that is asked for; above zero.
    arm_stop, anchor_stop : float [m]
        Least position of the arm-side end of the bar and greatest position of
        its anchor-side end, noses included; infinite where nothing stops it.
        The bar must have room between them.
    """

    bar_length: float
    arm_spline: float
    anchor_spline: float
    arm_socket: float
    anchor_socket: float
    anchor_position: float
    arm_required: float
    anchor_required: float
    arm_nose: float = 0.0
    anchor_nose: float = 0.0
    arm_stop: float = -np.inf
    anchor_stop: float = np.inf


@attrs.frozen
class Seating:
    """Where a bar lies, and how well.

    Parameters
    ----------
    position : float [m]
        Of the outer edge of the arm-end spline.
    low, high : float [m]
        Interval of positions that are as good.
    ratio : float
        Smaller of the two ratios of engagement to requirement, at most 1; zero
        or less, but for rounding, if an end has no overlap.
    arm_engagement, anchor_engagement : float [m]
        Overlap of spline and socket.
    arm_protrusion, anchor_protrusion : float [m]
        What sticks out beyond each socket's outer face, noses included.
    inner_edges : (float, float) [m]
        The engaged edges between which the bar is free to twist.
    bare_arm_head, bare_anchor_head : float [m]
        Un-engaged lengths of head between them.
    """

    position: float
    low: float
    high: float
    ratio: float
    arm_engagement: float
    anchor_engagement: float
    arm_protrusion: float
    anchor_protrusion: float
    inner_edges: tuple[float, float]
    bare_arm_head: float
    bare_anchor_head: float


def seat(layout: AxialLayout) -> Seating:
    r"""Best axial position of a bar between its stops.

    The smaller of the two ratios of engagement to required engagement, each
    capped at 1, is maximised.  Each ratio rises from the position ``lo`` where
    its overlap begins, :math:`(p - lo_i)/r_i`, and falls to the one where it
    ends, :math:`(hi_j - p)/r_j`; a rising and a falling line meet at the height
    :math:`(hi_j - lo_i)/(r_i + r_j)`, and the lowest such height is the optimum.

    Among equal positions: at a stop if one is reached, else with least
    protrusion, else nearest to zero.

    Parameters
    ----------
    layout : AxialLayout
        Bar, sockets and stops.

    Returns
    -------
    Seating

    References
    ----------
    Piecewise-linear optimum in one variable; checked against a dense search.

    Examples
    --------
    >>> standard = AxialLayout(bar_length=0.80, arm_spline=0.04, anchor_spline=0.04,
    ...                        arm_socket=0.04, anchor_socket=0.04, anchor_position=0.76,
    ...                        arm_required=0.03, anchor_required=0.03)
    >>> where = seat(standard)
    >>> f"{where.arm_engagement * 1000:.1f} mm of both, ratio {where.ratio:.2f}"
    '40.0 mm of both, ratio 1.00'
    """
    x = layout
    required = (x.arm_required, x.anchor_required)
    begins = (-x.arm_spline, x.anchor_position - x.bar_length)
    ends = (x.arm_socket, x.anchor_position + x.anchor_socket - x.bar_length + x.anchor_spline)
    full = (min(x.arm_spline, x.arm_socket), min(x.anchor_spline, x.anchor_socket))
    least = x.arm_stop + x.arm_nose
    most = x.anchor_stop - x.bar_length - x.anchor_nose

    heights = [1.0, *(f / r for f, r in zip(full, required, strict=True))]
    heights += [
        (end - begin) / (r + q)
        for begin, r in zip(begins, required, strict=True)
        for end, q in zip(ends, required, strict=True)
    ]
    heights += [(most - begin) / r for begin, r in zip(begins, required, strict=True)]
    heights += [(end - least) / r for end, r in zip(ends, required, strict=True)]
    ratio = min(heights)

    low = max(least, *(b + ratio * r for b, r in zip(begins, required, strict=True)))
    high = min(most, *(e - ratio * r for e, r in zip(ends, required, strict=True)))
    # Rounding may cross the two where only one position is best.
    low, high = min(low, high), max(low, high)
    return _seated(x, _preferred(x, low, high, least, most), low, high, ratio)


# Rounding of a length that is made of several others [m].
_ROUNDING = 1e-12


def _preferred(x: AxialLayout, low: float, high: float, least: float, most: float) -> float:
    """One of several equally good positions."""
    if low - least < _ROUNDING:
        return low
    if most - high < _ROUNDING:
        return high
    flush_arm = x.arm_nose
    flush_anchor = x.anchor_position + x.anchor_socket - x.bar_length - x.anchor_nose
    tidy = sorted((flush_arm, flush_anchor))
    tidy_low, tidy_high = (min(max(edge, low), high) for edge in tidy)
    return min(max(0.0, tidy_low), tidy_high)


def _seated(x: AxialLayout, position: float, low: float, high: float, ratio: float) -> Seating:
    """Everything that follows from a position."""
    end = position + x.bar_length
    arm_head = position + x.arm_spline
    anchor_head = end - x.anchor_spline
    anchor_face = x.anchor_position + x.anchor_socket
    arm_edge = min(arm_head, x.arm_socket)
    anchor_edge = max(anchor_head, x.anchor_position)
    return Seating(
        position=position,
        low=low,
        high=high,
        ratio=ratio,
        arm_engagement=max(0.0, arm_edge - max(position, 0.0)),
        anchor_engagement=max(0.0, min(end, anchor_face) - anchor_edge),
        arm_protrusion=max(0.0, x.arm_nose - position),
        anchor_protrusion=max(0.0, end + x.anchor_nose - anchor_face),
        inner_edges=(arm_edge, anchor_edge),
        bare_arm_head=arm_head - arm_edge,
        bare_anchor_head=anchor_edge - anchor_head,
    )


def head_shear_stress(torque: Real, *, root_diameter: Real, bore: Real = 0.0) -> Real:
    r"""Shear stress under the roots of a splined head.

    .. math:: S_s = \frac{16 T D_{re}}{\pi (D_{re}^4 - D_h^4)}

    Parameters
    ----------
    torque : float or array [N·m]
        Torque :math:`T`.
    root_diameter, bore : float or array [m]
        Root circle :math:`D_{re}` and bore :math:`D_h` of the head.

    Returns
    -------
    float or array [Pa]

    References
    ----------
    D. W. Dudley, "When Splines Need Stress Control", *Product Engineering*, 1957,
    as carried by *Machinery's Handbook*, 27th ed., p. 2171; all factors taken as 1.

    Examples
    --------
    >>> f"{head_shear_stress(1000.0, root_diameter=0.030) / 1e6:.1f} MPa"
    '188.6 MPa'
    """
    return 16.0 * torque * root_diameter / (np.pi * (root_diameter**4 - bore**4))


def tooth_shear_stress(
    torque: Real, *, pitch_diameter: Real, teeth: Real, engagement: Real, tooth_thickness: Real
) -> Real:
    r"""Shear stress in the teeth at the pitch line, half of them carrying.

    .. math:: S_s = \frac{4 T}{D N L_e t}

    Parameters
    ----------
    torque : float or array [N·m]
        Torque :math:`T`.
    pitch_diameter : float or array [m]
        Pitch diameter :math:`D`.
    teeth : float or array
        Teeth :math:`N` that are left.
    engagement : float or array [m]
        Engaged length :math:`L_e`.
    tooth_thickness : float or array [m]
        Thickness :math:`t` of a tooth at the pitch line.

    Returns
    -------
    float or array [Pa]

    References
    ----------
    Dudley 1957, as in :func:`head_shear_stress`; all factors taken as 1.

    Examples
    --------
    >>> stress = tooth_shear_stress(1000.0, pitch_diameter=0.032, teeth=40,
    ...                             engagement=0.030, tooth_thickness=0.00125)
    >>> f"{stress / 1e6:.1f} MPa"
    '83.3 MPa'
    """
    return 4.0 * torque / (pitch_diameter * teeth * engagement * tooth_thickness)


def tooth_bearing_stress(
    torque: Real, *, pitch_diameter: Real, teeth: Real, engagement: Real, tooth_depth: Real
) -> Real:
    r"""Bearing pressure on the flanks of the teeth.

    .. math:: S_c = \frac{2 T}{D N L_e h}

    Parameters
    ----------
    torque : float or array [N·m]
        Torque :math:`T`.
    pitch_diameter : float or array [m]
        Pitch diameter :math:`D`.
    teeth : float or array
        Teeth :math:`N` that are left.
    engagement : float or array [m]
        Engaged length :math:`L_e`.
    tooth_depth : float or array [m]
        Radial depth :math:`h` of contact.

    Returns
    -------
    float or array [Pa]

    References
    ----------
    Dudley 1957, as in :func:`head_shear_stress`; all factors taken as 1, the
    life factor of a fixed spline included.

    Examples
    --------
    >>> stress = tooth_bearing_stress(1000.0, pitch_diameter=0.032, teeth=40,
    ...                               engagement=0.030, tooth_depth=0.001)
    >>> f"{stress / 1e6:.1f} MPa"
    '52.1 MPa'
    """
    return 2.0 * torque / (pitch_diameter * teeth * engagement * tooth_depth)
