"""The linkage that guides a wheel, and the springs besides its bar."""

from __future__ import annotations

import enum
import itertools
from typing import ClassVar

import attrs

from barwright.errors import SchemaError
from barwright.parts.common.fields import (
    angle_or_none,
    as_far_as_known,
    force,
    length,
    named,
    rate,
    size,
    size_or_none,
    torsional_rate,
)
from barwright.parts.common.record import Record
from barwright.units import Quantity, shown

__all__ = [
    "ArmBushing",
    "BumpRubber",
    "BumpRubberForce",
    "DoubleWishboneMounting",
    "HelperCoil",
    "JointSide",
    "StrutMounting",
    "SwingArmMounting",
]


class JointSide(enum.Enum):
    """Side of a line on which a ball joint lies."""

    OUTBOARD = "outboard"
    INBOARD = "inboard"


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class StrutMounting(Record):
    """A strut over a lower arm, in the plane square to the bar axis.

    Coordinates are outboard and up from the bar axis.

    Parameters
    ----------
    top_outboard : Quantity
        Position of the strut's top mount, outboard from the bar axis.
    top_up : Quantity
        Position of the strut's top mount, up from the bar axis.
    offset : Quantity
        Distance of the strut's axis from the ball joint, positive if it passes outboard.
    length_below : Quantity
        Damper length beyond the foot of the offset; negative if it ends above.
    """

    top_outboard: Quantity = attrs.field(converter=length)
    top_up: Quantity = attrs.field(converter=size)
    offset: Quantity = attrs.field(default="0 mm", converter=length)
    length_below: Quantity = attrs.field(default="0 mm", converter=length)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class SwingArmMounting(Record):
    """A damper over an arm that carries the wheel, in the plane square to the bar axis.

    Parameters
    ----------
    mount_outboard : Quantity
        Upper damper mount, outboard from the bar axis.
    mount_up : Quantity
        Upper damper mount, up from the bar axis.
    foot_along : Quantity
        Lower damper mount on the arm, along its centreline.
    foot_above : Quantity
        Lower damper mount on the arm, square to its centreline.
    """

    mount_outboard: Quantity = attrs.field(converter=length)
    mount_up: Quantity = attrs.field(converter=size)
    foot_along: Quantity = attrs.field(converter=size)
    foot_above: Quantity = attrs.field(default="0 mm", converter=length)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class DoubleWishboneMounting(Record):
    """Two arms, one of them on the bar, in the plane square to the bar axis.

    The bar is in the lower arm, and the other arm is the upper one.  If the bar is in the upper
    arm, ``upper_up`` is negative, and all that is said of the upper arm here is the lower one's.
    The damper stands on the arm on the bar.

    Parameters
    ----------
    upper_outboard : Quantity
        Pivot of the other arm, outboard from the bar axis.
    upper_up : Quantity
        Pivot of the other arm, up from the bar axis; below it, if the bar is in the upper arm.
    upper_radius : Quantity
        Distance from that pivot to the other ball joint.
    upright : Quantity
        Distance between the two ball joints.
    upper_joint : JointSide
        Side of the line from the ball joint of the arm on the bar to the other pivot on which the
        other ball joint lies.
    mount_outboard : Quantity
        Upper damper mount, outboard from the bar axis.
    mount_up : Quantity
        Upper damper mount, up from the bar axis.
    foot_along : Quantity
        Lower damper mount on the arm on the bar, along its centreline.
    foot_above : Quantity
        Lower damper mount on the arm on the bar, square to its centreline.
    """

    upper_outboard: Quantity = attrs.field(converter=length)
    upper_up: Quantity = attrs.field(converter=length)
    upper_radius: Quantity = attrs.field(converter=size)
    upright: Quantity = attrs.field(converter=size)
    upper_joint: JointSide = JointSide.OUTBOARD
    mount_outboard: Quantity = attrs.field(converter=length)
    mount_up: Quantity = attrs.field(converter=size)
    foot_along: Quantity = attrs.field(converter=size)
    foot_above: Quantity = attrs.field(default="0 mm", converter=length)


# -- Beside the bar ------------------------------------------------------------------


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class BumpRubberForce(Record):
    """A point of a bump rubber's curve.

    Parameters
    ----------
    compression : Quantity
        Compression from contact.
    force : Quantity
        Force at that compression.
    """

    # A curve without its points is none.
    MAY_HAVE_GAPS: ClassVar[bool] = False

    compression: Quantity = attrs.field(converter=size)
    force: Quantity = attrs.field(converter=force)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class BumpRubber(Record):
    """A stop of rubber or foam that acts before the hard bump stop.

    Contact is said in one way: by the damper's length, by the height, or by the arm
    angle and the radius.

    Parameters
    ----------
    curve : tuple of BumpRubberForce
        Force over compression, both rising, without the contact itself. Between points the
        force is linear; beyond the last point the last slope continues.
    contact_length : Quantity, optional
        Damper length at contact, for a rubber on the damper's rod.
    contact_height : Quantity, optional
        Hub to arch at contact, for a rubber that the hub presses straight up.
    contact_angle : Quantity, optional
        Arm angle at contact, for a rubber that presses square to the arm.
    contact_radius : Quantity, optional
        Distance from the bar axis to the contact.
    """

    curve: tuple[BumpRubberForce, ...]
    contact_length: Quantity | None = attrs.field(default=None, converter=size_or_none)
    contact_height: Quantity | None = attrs.field(default=None, converter=size_or_none)
    contact_angle: Quantity | None = attrs.field(default=None, converter=angle_or_none)
    contact_radius: Quantity | None = attrs.field(default=None, converter=size_or_none)

    def _check(self) -> None:
        """Refuse a curve that does not rise, and a rubber that is nowhere or at two places."""
        super()._check()
        for name in ("compression", "force"):
            self._refuse_unless_rising(name)
        given = [name for name in _CONTACTS if getattr(self, name) is not None]
        if given not in (["contact_length"], ["contact_height"], _BY_ANGLE):
            raise SchemaError(
                "S207",
                value=" and ".join(given) or "no place of contact",
                expected="contact_length, contact_height, or contact_angle and contact_radius",
                remedy="state the contact in one way",
                key="contact_length",
            )

    @as_far_as_known
    def _refuse_unless_rising(self, name: str) -> None:
        figures = [getattr(point, name) for point in self.curve]
        rises = all(low < high for low, high in itertools.pairwise(figures))
        if not figures or figures[0].magnitude == 0.0 or not rises:
            raise SchemaError(
                "S207",
                value=", ".join(shown(figure) for figure in figures) or "no point",
                expected=f"one point or more, each {name} above the one before",
                remedy="begin with the first point beyond contact; remove what repeats or falls",
                key="curve",
            )


_BY_ANGLE = ["contact_angle", "contact_radius"]
_CONTACTS = ["contact_length", "contact_height", *_BY_ANGLE]


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class ArmBushing(Record):
    """Rubber bushings that wind up with the arm.

    Parameters
    ----------
    rate : Quantity
        Torsional rate of all bushings of the arm together.
    set_angle : Quantity, optional
        Arm angle at which their bolts were tightened; that of the standard height if
        left out.
    """

    rate: Quantity = attrs.field(converter=torsional_rate)
    set_angle: Quantity | None = attrs.field(default=None, converter=angle_or_none)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class HelperCoil(Record):
    """A coil spring over the damper that carries part of the load.

    Parameters
    ----------
    rate : Quantity
        Rate of the coil along the damper.
    free_length : Quantity
        Length without load. The coil carries no load when its seats are further apart.
    seat_offset : Quantity
        Damper length minus the distance of the coil's seats.
    """

    rate: Quantity = attrs.field(converter=rate)
    free_length: Quantity = attrs.field(converter=size)
    seat_offset: Quantity = attrs.field(default="0 mm", converter=length)
