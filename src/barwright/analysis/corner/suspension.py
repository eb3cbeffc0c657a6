"""Make the kernels of an axle from its records: plane of the bar, linkage, springs."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from barwright.errors import GeometryError, SchemaError
from barwright.mechanics.common import solve
from barwright.mechanics.common.bar_axes import BarPlane, bar_plane
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring, Spring
from barwright.mechanics.linkage.arm_and_strut import Linkage, Strut, SwingArm
from barwright.mechanics.linkage.double_wishbone import DoubleWishbone
from barwright.mechanics.linkage.inclined import InclinedLinkage
from barwright.mechanics.linkage.wheel_carrier import Point, turned
from barwright.mechanics.spline.clocking import bump_sense
from barwright.parts.arm import Arm
from barwright.parts.bar import Side
from barwright.parts.chassis import Axle, LoadPoint, Vector
from barwright.parts.damper import GasCharge
from barwright.parts.suspension import (
    BumpRubber,
    DoubleWishboneMounting,
    HelperCoil,
    JointSide,
    StrutMounting,
)
from barwright.units import (
    ANGLE,
    FORCE,
    GAS_SLOPE,
    LENGTH,
    TORSIONAL_RATE,
    WHEEL_RATE,
    Quantity,
    shown,
    si,
)

__all__ = [
    "bushing_angle",
    "linkage_of",
    "metres",
    "plane_of",
    "radians",
    "springs_of",
]


def metres(value: Quantity | None) -> float:
    """Metres of a length; 0 where there is none."""
    return 0.0 if value is None else si(value, LENGTH)


def radians(value: Quantity) -> float:
    """Radians of an angle."""
    return si(value, ANGLE)


# -- Plane ---------------------------------------------------------------------------


def plane_of(axle: Axle, side: Side) -> BarPlane:
    """Plane square to the bar axis of one corner."""
    return bar_plane(
        bar_axis=_on_side(axle.bar_axis, side),
        arm_direction=_on_side(axle.arm_direction, side),
        arm_axis=None if axle.arm_axis is None else _on_side(axle.arm_axis, side),
    )


def bump_sense_of(axle: Axle, side: Side) -> int:
    """Sense of a bump rotation about the bar axis of one corner: +1 right-handed, else -1."""
    return bump_sense(
        bar_axis=_on_side(axle.bar_axis, side), arm_direction=_on_side(axle.arm_direction, side)
    )


def _on_side(vector: Vector, side: Side) -> Vector:
    """Mirror a left-hand vector for the right-hand side, about the vehicle's middle plane."""
    x, y, z = vector
    return (x, y, z) if side is Side.LEFT else (x, -y, z)


# -- Linkage -------------------------------------------------------------------------


def linkage_of(axle: Axle, arm: Arm, *, standard: Arm, plane: BarPlane) -> Linkage:
    """Suspension of a corner with an arm; the wheel carrier is the standard arm's.

    Heights and their derivatives are vertical, also where the bar is inclined.
    """
    share = float(plane.vertical_share)
    hub = (metres(axle.hub_outboard), metres(axle.hub_up))
    load = hub
    if axle.load_at is LoadPoint.CONTACT:
        # The contact lies straight under the hub, which the plane may not be.
        load = (hub[0], hub[1] - share * metres(axle.tyre_radius))
    linkage = _in_plane(axle, arm, standard=standard, load=load, hub=hub)
    return linkage if share == 1.0 else InclinedLinkage(linkage, share)


def _in_plane(axle: Axle, arm: Arm, *, standard: Arm, load: Point, hub: Point) -> Linkage:
    radius, reference = metres(arm.radius), radians(axle.reference_angle)
    mounting = axle.suspension
    if isinstance(mounting, StrutMounting):
        return Strut(
            arm_radius=radius,
            top_mount=(metres(mounting.top_outboard), metres(mounting.top_up)),
            offset=metres(mounting.offset),
            length_below=metres(mounting.length_below),
            reference_angle=reference,
            load_point=load,
            hub_point=hub,
            reference_radius=metres(standard.radius),
        )
    foot = (metres(mounting.foot_along), metres(mounting.foot_above))
    mount = (metres(mounting.mount_outboard), metres(mounting.mount_up))
    if isinstance(mounting, DoubleWishboneMounting):
        wishbone = DoubleWishbone(
            arm_radius=radius,
            upper_pivot=(metres(mounting.upper_outboard), metres(mounting.upper_up)),
            upper_radius=metres(mounting.upper_radius),
            upright=metres(mounting.upright),
            branch=_branch(mounting),
            damper_foot=foot,
            damper_mount=mount,
            reference_angle=reference,
            load_point=load,
            hub_point=hub,
            reference_radius=metres(standard.radius),
        )
        _refuse_lying(wishbone, mounting)
        return wishbone
    return SwingArm(
        load_point=_in_arm(load, reference, radius),
        hub_point=_in_arm(hub, reference, radius),
        damper_foot=foot,
        damper_mount=mount,
    )


def _branch(mounting: DoubleWishboneMounting) -> int:
    """Tell which intersection is built: the one at the smaller angle, or the other."""
    side = _JOINT_SIDES[mounting.upper_joint]
    return side if _other_arm_is_above(mounting) else -side


def _other_arm_is_above(mounting: DoubleWishboneMounting) -> bool:
    """Whether the bar is in the lower of both arms."""
    return metres(mounting.upper_up) >= 0.0


def _refuse_lying(wishbone: DoubleWishbone, mounting: DoubleWishboneMounting) -> None:
    """Refuse an upright that lies down: its other joint is on the other side of the line."""
    upright = np.pi / 2.0 if _other_arm_is_above(mounting) else -np.pi / 2.0
    turn = wishbone.upright_angle(wishbone.reference_angle) - upright
    lean = float(np.max(np.abs(np.angle(np.exp(1j * turn)))))
    if lean <= _MOST_LEAN:
        return
    other = next(side for side in JointSide if side is not mounting.upper_joint)
    raise GeometryError(
        "G111",
        value=f"an upright that leans {np.degrees(lean):.1f}° from the vertical",
        expected=f"at most {np.degrees(_MOST_LEAN):.0f}°",
        remedy=f"check whether upper_joint is {other.value!r}, then the upper pivot",
        key="suspension.upper_joint",
    )


def refuse_lengthening_damper(linkage: Linkage, axle: Axle) -> None:
    """Refuse a linkage in which the damper does not shorten all the way from stop to stop."""
    angles = np.linspace(radians(axle.droop_stop), radians(axle.bump_stop), _LOOKS)
    angles = angles.reshape(_LOOKS, -1)  # down a column for each of many corners
    if np.any(linkage.motion(angles).damper_slope >= 0.0):
        raise GeometryError(
            "G108",
            value=f"stops of {shown(axle.droop_stop)} and {shown(axle.bump_stop)}",
            expected="a damper that shortens all the way between them",
            remedy="check the damper's mounts and the stops",
            key="suspension",
        )


# Places of the travel at which a linkage is looked at.
_LOOKS = 65

# Wheel carriers lean by a few degrees, and those on the wrong side by about a right
# angle: common practice, no source [rad].
_MOST_LEAN = np.pi / 4.0

_JOINT_SIDES = {JointSide.OUTBOARD: 1, JointSide.INBOARD: -1}


def _in_arm(point: Point, reference: float, radius: float) -> Point:
    """Coordinates in the arm of a point given from the arm's end, level, at a reference angle."""
    along, above = turned(point, -reference)
    return plain(radius + along), plain(above)


# -- Springs beside the bar ----------------------------------------------------------


def springs_of(
    axle: Axle, *, gas: GasCharge | None, arch: float, tightened_at: float | None
) -> Iterator[Spring]:
    """List what acts on a corner beside its bar: the damper's gas, rubber and coils.

    The arch lies at a height above the bar axis [m]; bushings, if there are any, were
    tightened at an arm angle [rad].
    """
    if gas is not None:
        slope = si(gas.slope, GAS_SLOPE)
        # A force that is the same at every length was read at any.
        yield GasForce(si(gas.force, FORCE), metres(gas.at_length) if np.any(slope) else 0.0, slope)
    if axle.bump_rubber is not None:
        yield _bump_stop(axle.bump_rubber, arch=arch)
    if axle.bushing is not None and tightened_at is not None:
        yield Bushing(si(axle.bushing.rate, TORSIONAL_RATE), tightened_at=tightened_at)
    if axle.helper_coil is not None:
        yield _helper_spring(axle.helper_coil)


def _bump_stop(rubber: BumpRubber, *, arch: float) -> BumpStop:
    return BumpStop(
        compressions=[0.0, *(metres(point.compression) for point in rubber.curve)],
        forces=[0.0, *(si(point.force, FORCE) for point in rubber.curve)],
        **_contact(rubber, arch=arch),
    )


def _contact(rubber: BumpRubber, *, arch: float) -> dict[str, float]:
    """Place of contact, as the kernel takes it."""
    if rubber.contact_length is not None:
        return {"at_length": metres(rubber.contact_length)}
    if rubber.contact_angle is not None:
        angle, radius = radians(rubber.contact_angle), metres(rubber.contact_radius)
        return {"at_angle": angle, "radius": radius}
    return {"at_height": arch - metres(rubber.contact_height)}


def _helper_spring(coil: HelperCoil) -> HelperSpring:
    return HelperSpring(
        rate=si(coil.rate, WHEEL_RATE),
        free_length=metres(coil.free_length),
        seat_offset=metres(coil.seat_offset),
    )


def bushing_angle(axle: Axle, *, standard: Linkage, arch: float) -> float | None:
    """Arm angle [rad] at which the bushings were tightened: as stated, or at standard height.

    Raises
    ------
    SchemaError
        S207 if it is not stated and the stops do not let the standard height be.
    """
    if axle.bushing is None:
        return None
    if axle.bushing.set_angle is not None:
        return radians(axle.bushing.set_angle)
    wanted = arch - metres(axle.standard_height)

    def above(angle: Real) -> tuple[Real, Real]:
        hub = standard.motion(angle).hub
        return hub.height - wanted, hub.slope

    low, high = radians(axle.droop_stop), radians(axle.bump_stop)
    angle = float(solve.rising_root(above, low=low, high=high))
    if abs(float(above(angle)[0])) > _HEIGHT_ROUNDING:
        raise SchemaError(
            "S207",
            value=f"a standard height of {shown(axle.standard_height)}",
            expected="a height between the stops, where the bushings are tightened",
            remedy="check the height, or state the bushings' set_angle",
            key="bushing.set_angle",
        )
    return angle


# Rounding of a height that is found again from its own angle [m].
_HEIGHT_ROUNDING = 1e-9
