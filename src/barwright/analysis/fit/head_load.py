"""Which teeth of a splined head carry, and how it is stressed."""

from __future__ import annotations

import math
from collections.abc import Iterator

import attrs
import numpy as np

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.finding import Finding, Topic
from barwright.mechanics.spline import capacity as splines
from barwright.mechanics.spline.clocking import centred
from barwright.mechanics.spline.factors import missing_tooth_factor
from barwright.parts.chassis import BarEndName
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd, Socket
from barwright.units import STRESS, TORQUE, Quantity, quantity

__all__ = ["HeadLoad", "head_loads", "missing_teeth", "unbalanced_heads"]


@attrs.frozen(kw_only=True, repr=False)
class HeadLoad(Summarised):
    """Stresses in one splined head at the greatest torque, for comparison only.

    By the spline formulas of D. W. Dudley (1957) as reprinted in *Machinery's
    Handbook*, on the length that is engaged and the teeth that are there; all factors
    are 1 but that of missing teeth.  Their allowables are for couplings and are no
    verdict on a bar.

    Parameters
    ----------
    end : BarEndName
        Which end.
    torque : Quantity
        The greatest over the travel, at full bump or at full droop; negative where a
        fixed socket twists the bar in the droop sense.
    teeth_left : int
        Teeth that carry.
    missing_tooth_factor : float
        Load of the most loaded tooth over the even share of a whole circle.
    root_shear : Quantity
        Under the roots.
    tooth_shear, tooth_bearing : Quantity
        Of the most loaded tooth: at its pitch line, on its flank.
    method : str
        How the stresses were found.
    """

    end: BarEndName
    torque: Quantity
    teeth_left: int
    missing_tooth_factor: float
    root_shear: Quantity
    tooth_shear: Quantity
    tooth_bearing: Quantity
    method: str


def missing_teeth(end: BarEnd, socket: Socket, *, tooth: int, sense: int) -> frozenset[int]:
    """List the places of a head at which no tooth carries.

    Parameters
    ----------
    end : BarEnd
        The end of the bar, with its blanks.
    socket : Socket
        Its socket.  While the key is there, the tooth that lies on it is missing; once
        the key is cleared, the tooth in its place carries.
    tooth : int
        Tooth on the key, in the bump sense from the maker's blank.
    sense : int
        Bump sense about the bar axis, +1 or -1, of the corner.

    Returns
    -------
    frozenset of int
        Counted in the bump sense from the maker's blank, in (-N/2, N/2].
        :func:`~barwright.mechanics.spline.factors.missing_tooth_factor` tells what they
        cost.
    """
    on_key = [tooth] if socket.keyed else []
    places = [*(sense * blank for blank in end.blanks), *on_key]
    return frozenset(int(centred(place, teeth=end.teeth)) for place in places)


def head_loads(corner: Corner, *torques: float) -> tuple[HeadLoad, ...]:
    """Stresses of the splined heads at the greatest of some torques [N·m]."""
    greatest = max(torques, key=abs)
    return tuple(
        _head(corner.setup, head, greatest) for head in _heads(corner) if math.isfinite(head.factor)
    )


def unbalanced_heads(corner: Corner) -> Iterator[Finding]:
    """Report the heads whose remaining teeth cannot carry torque evenly."""
    for head in _heads(corner):
        if not math.isfinite(head.factor):
            text = (
                "the remaining teeth are all on one side of the head and cannot carry torque "
                "evenly, so no stress is given for this head"
            )
            left = head.end.teeth - len(head.missing)
            yield Finding(topic=Topic.ENGAGEMENT, text=text, figure=left, end=head.name)


@attrs.frozen
class _Head:
    """One end in its socket."""

    end: BarEnd
    socket: Socket
    name: BarEndName
    engagement: float
    missing: frozenset[int]

    @property
    def factor(self) -> float:
        """Load of the most loaded tooth over the even share."""
        return missing_tooth_factor(teeth=self.end.teeth, missing=self.missing)


def _heads(corner: Corner) -> Iterator[_Head]:
    setup, where = corner.setup, corner.seat
    ends = ((BarEndName.ARM, setup.bar.arm_end), (BarEndName.ANCHOR, setup.bar.anchor_end))
    sockets = ((setup.arm.socket, setup.arm_tooth), (setup.anchor.socket, setup.anchor_tooth))
    engaged = (where.arm_engagement, where.anchor_engagement)
    for (name, end), (socket, tooth), engagement in zip(ends, sockets, engaged, strict=True):
        # Teeth that do not meet carry nothing; the fit has said so.
        if metres(end.major_diameter) > metres(socket.minor_diameter):
            missing = missing_teeth(end, socket, tooth=tooth, sense=corner.sense)
            yield _Head(end, socket, name, float(engagement), missing)


def _head(setup: Setup, head: _Head, torque: float) -> HeadLoad:
    """Stress one head as if half of its teeth carried in shear, as the formulas have it."""
    end, size = head.end, abs(torque)
    major, root = metres(end.major_diameter), metres(end.root_diameter)
    pitch_diameter = (major + root) / 2.0
    on_teeth = {
        "pitch_diameter": pitch_diameter,
        "teeth": end.teeth,
        "engagement": head.engagement,
        "missing_tooth_factor": head.factor,
    }
    thickness = np.pi * pitch_diameter / (2.0 * end.teeth)
    depth = (major - metres(head.socket.minor_diameter)) / 2.0
    shear = splines.head_shear_stress(size, root_diameter=root, bore=metres(setup.bar.bore))
    tooth = splines.tooth_shear_stress(size, tooth_thickness=thickness, **on_teeth)
    bearing = splines.tooth_bearing_stress(size, tooth_depth=depth, **on_teeth)
    return HeadLoad(
        end=head.name,
        torque=quantity(torque, TORQUE),
        teeth_left=end.teeth - len(head.missing),
        missing_tooth_factor=head.factor,
        root_shear=quantity(float(shear), STRESS),
        tooth_shear=quantity(float(tooth), STRESS),
        tooth_bearing=quantity(float(bearing), STRESS),
        method=_METHOD,
    )


_METHOD = (
    "Dudley (1957), with all factors 1 except that for missing teeth, for the most loaded tooth "
    "of a rigid "
    "head that is free to shift"
)
