"""Hub, mounts, wheel and load of a corner are such as vehicles have."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import attrs

from barwright.analysis.corner.corner import Corner, metres
from barwright.errors import BarwrightError
from barwright.lint.corners.corners import Said, StandardCorner, reported_of_each
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule, said_where_known
from barwright.lint.subject.subject import Subject
from barwright.parts.chassis import Axle
from barwright.parts.common.record import Record
from barwright.parts.setup import Setup
from barwright.parts.suspension import (
    DoubleWishboneMounting,
    StrutMounting,
    SwingArmMounting,
)
from barwright.units import (
    ANGLE,
    LENGTH,
    MASS,
    WHEEL_RATE,
    Quantity,
    is_unknown,
    quantity,
    shown,
    si,
)

__all__ = ["RULE"]

_GRAVITY = 9.80665


@attrs.frozen
class _Reach:
    """A length of the axle, in lengths of another, by the fields of the setup that lead to each."""

    figure: str
    of: str
    least: float
    most: float
    where: str


_WHEEL = (
    _Reach("tyre_radius", "chassis.wheelbase", 0.075, 0.19, "a wheel of that size"),
    _Reach("standard_height", "axle.tyre_radius", 0.8, 2.4, "an arch so high above the hub"),
)

_GUIDED = (
    _Reach("hub_outboard", "arm.radius", 0.0, 0.6, "a hub there, seen from the ball joint"),
    _Reach("hub_up", "axle.tyre_radius", -0.05, 0.75, "a hub there, seen from the ball joint"),
    *_WHEEL,
)

_REACHES: Mapping[type, tuple[_Reach, ...]] = {
    StrutMounting: (
        _Reach("suspension.top_outboard", "arm.radius", 0.5, 1.1, "a strut's top there"),
        _Reach("suspension.top_up", "arm.radius", 0.9, 2.8, "a strut's top there"),
        _Reach("suspension.offset", "arm.radius", -0.2, 0.2, "a strut so far off the joint"),
        _Reach("suspension.length_below", "damper.open_length", -0.35, 0.2, "a strut's foot there"),
        *_GUIDED,
    ),
    DoubleWishboneMounting: (
        _Reach("suspension.upper_outboard", "arm.radius", -0.2, 0.36, "an upper pivot there"),
        _Reach("suspension.upper_up", "suspension.upright", 0.4, 1.5, "an upper pivot there"),
        _Reach("suspension.upper_radius", "arm.radius", 0.45, 1.1, "an upper arm so long"),
        _Reach("suspension.upright", "axle.tyre_radius", 0.5, 1.6, "an upright so high"),
        _Reach("suspension.mount_outboard", "arm.radius", 0.2, 1.0, "a damper mount there"),
        _Reach("suspension.mount_up", "arm.radius", 0.4, 2.0, "a damper mount there"),
        _Reach("suspension.foot_along", "arm.radius", 0.45, 1.05, "a damper's foot there"),
        _Reach("suspension.foot_above", "arm.radius", -0.25, 0.25, "a damper's foot there"),
        *_GUIDED,
    ),
    SwingArmMounting: (
        _Reach("hub_outboard", "arm.radius", -0.25, 0.25, "a hub so far from the arm's end"),
        _Reach("hub_up", "arm.radius", -0.4, 0.4, "a hub so far from the arm's end"),
        _Reach("suspension.mount_outboard", "arm.radius", 0.1, 1.1, "a damper mount there"),
        _Reach("suspension.mount_up", "arm.radius", 0.3, 2.5, "a damper mount there"),
        _Reach("suspension.foot_along", "arm.radius", 0.45, 1.1, "a damper's foot there"),
        _Reach("suspension.foot_above", "arm.radius", -0.4, 0.4, "a damper's foot there"),
        *_WHEEL,
    ),
}
"""Where such parts lie: common practice, no source."""

_BAR_IN_THE_UPPER_ARM = (
    _Reach("suspension.upper_outboard", "arm.radius", -0.6, 0.3, "a lower pivot there"),
    _Reach("suspension.upper_up", "suspension.upright", -1.5, -0.4, "a lower pivot there"),
    _Reach("suspension.upper_radius", "arm.radius", 0.9, 2.3, "a lower arm so long"),
    *_REACHES[DoubleWishboneMounting][3:8],
    _Reach("hub_outboard", "arm.radius", 0.0, 0.9, "a hub there, seen from the ball joint"),
    _Reach("hub_up", "suspension.upright", -1.1, -0.3, "a hub there, seen from the ball joint"),
    *_WHEEL,
)
"""Where they lie if the bar is in the upper wishbone: common practice, no source."""

_ARCH = (0.7, 1.45)
"""Hub to arch at full bump, in loaded radii of the tyre: common practice, no source."""

_UNSPRUNG = (0.04, 0.25)
"""Unsprung mass as a share of the sprung mass: common practice, no source."""

_TYRE_DEFLECTION = (9.0, 40.0)
"""What a wheel's load presses its tyre in [mm]: common practice, no source."""

_RUBBER = (0.1, 15.0)
"""Force of a bump rubber at full bump, in standing loads: common practice, no source."""


def _remarks(subject: Subject) -> Iterator[Remark]:
    return reported_of_each(subject, _reported)


def _reported(corner: StandardCorner) -> Iterator[Said]:
    setup = corner.setup
    looks = (_reaches, _reference, _masses, _arch, _rubber)
    yield from said_where_known(looks, lambda look: look(setup))


def _reaches(setup: Setup) -> Iterator[Said]:
    reaches = _reaches_of(setup.axle.suspension)
    yield from said_where_known(reaches, lambda reach: _beyond(setup, reach))


def _reaches_of(mounting: Record) -> tuple[_Reach, ...]:
    if isinstance(mounting, DoubleWishboneMounting) and _is_below(mounting.upper_up):
        return _BAR_IN_THE_UPPER_ARM
    return _REACHES[type(mounting)]


def _is_below(height: Quantity) -> bool:
    return not is_unknown(height) and metres(height) < 0.0


def _beyond(setup: Setup, reach: _Reach) -> Iterator[Said]:
    value, whole = _at(setup.axle, reach.figure), _of(setup, reach.of)
    if not reach.least <= metres(value) / metres(whole) <= reach.most:
        message = (
            f"{reach.figure} {shown(value)} beside {reach.of.rpartition('.')[2]} {shown(whole)}: "
            f"hardly any vehicle has {reach.where}"
        )
        yield Said(message, key=reach.figure)


def _at(axle: Axle, path: str) -> Quantity:
    holder: object = axle
    for step in path.split("."):
        holder = getattr(holder, step)
    value: Quantity = holder  # type: ignore[assignment]
    return value


def _of(setup: Setup, path: str) -> Quantity:
    first, _, rest = path.partition(".")
    if first == "suspension":
        return _at(setup.axle, path)
    value: Quantity = getattr(getattr(setup, first), rest)
    return value


def _reference(setup: Setup) -> Iterator[Said]:
    """Hold the angle at which the hub was measured against the stops and the measured one."""
    axle = setup.axle
    angle, rest = axle.reference_angle, axle.measured_angle
    if not axle.droop_stop <= angle <= axle.bump_stop:
        message = (
            f"reference_angle {shown(angle)} does not lie between droop_stop "
            f"{shown(axle.droop_stop)} and bump_stop {shown(axle.bump_stop)}: "
            "the arm was never there when the hub was measured"
        )
        yield Said(message, _ARM_ANGLES, "reference_angle")
    elif _is_mirrored(angle, rest):
        message = (
            f"reference_angle {shown(angle)} is measured_angle {shown(rest)} with the other sign: "
            "hub and height are usually measured in one position of the arm"
        )
        yield Said(message, _ARM_ANGLES, "reference_angle")


def _is_mirrored(angle: Quantity, other: Quantity) -> bool:
    """Tell whether two angles differ by their signs alone, as nearly as they are measured."""
    one, another = si(angle, ANGLE), si(other, ANGLE)
    return abs(one + another) <= _SAME_ANGLE and abs(one - another) >= _OTHER_ANGLE


_SAME_ANGLE, _OTHER_ANGLE = math.radians(1.5), math.radians(3.0)
"""Two readings of one angle differ by no more than the first, surely of two by the second:
common practice, no source."""

_ARM_ANGLES = (
    "measure these angles again, positive in the bump sense; if they are right, waive the finding"
)


def _masses(setup: Setup) -> Iterator[Said]:
    axle = setup.axle
    sprung, unsprung = si(axle.standard_mass, MASS), si(axle.unsprung_mass, MASS)
    if not _UNSPRUNG[0] <= unsprung / sprung <= _UNSPRUNG[1]:
        message = (
            f"unsprung_mass {shown(axle.unsprung_mass)} is {unsprung / sprung:.0%} of "
            f"standard_mass {shown(axle.standard_mass)}; usual is {_UNSPRUNG[0]:.0%} to "
            f"{_UNSPRUNG[1]:.0%}"
        )
        yield Said(message, _ONE_CORNER, "unsprung_mass")
    pressed = 1000.0 * (sprung + unsprung) * _GRAVITY / si(axle.tyre_rate, WHEEL_RATE)
    if not _TYRE_DEFLECTION[0] <= pressed <= _TYRE_DEFLECTION[1]:
        low, high = _TYRE_DEFLECTION
        message = (
            f"with tyre_rate {shown(axle.tyre_rate)} the load of standard_mass "
            f"{shown(axle.standard_mass)} presses the tyre in by {pressed:.1f} mm; usual is "
            f"{low:g} mm to {high:g} mm"
        )
        yield Said(message, _ONE_CORNER, "tyre_rate")


_ONE_CORNER = "each is of one corner: look for a wrong unit, or for the figure of a whole axle"


def _arch(setup: Setup) -> Iterator[Said]:
    """Hold the arch over the tyre at full bump."""
    try:
        height = Corner(setup).height_span[0]
    except BarwrightError:
        # Told by the rule that asks whether the corner stands.
        return
    radius = metres(setup.axle.tyre_radius)
    if not _ARCH[0] <= height / radius <= _ARCH[1]:
        where = "into" if height < radius else "far above"
        at_bump = shown(quantity(height, LENGTH), 0)
        message = (
            f"at full bump the hub is {at_bump} below the arch, with a tyre_radius of "
            f"{shown(setup.axle.tyre_radius)}: the arch would lie {where} the tyre"
        )
        yield Said(message, _FROM_THE_HUB, "standard_height")


_FROM_THE_HUB = (
    "compare standard_height and measured_height, which count from the hub and not from the "
    "ground, with tyre_radius, measured_angle, bump_stop and the damper's closed_length"
)


def _rubber(setup: Setup) -> Iterator[Said]:
    """Hold a bump rubber against the travel and the load."""
    rubber = setup.axle.bump_rubber
    if rubber is None:
        return
    load = si(setup.axle.standard_mass, MASS) * _GRAVITY
    force = float(rubber.curve[-1].force.m_as("N"))
    if not _RUBBER[0] <= force / load <= _RUBBER[1]:
        message = (
            f"the last force of bump_rubber.curve, {shown(rubber.curve[-1].force)}, is "
            f"{force / load:.3g} times the load of standard_mass {shown(setup.axle.standard_mass)}"
        )
        yield Said(message, "look for a wrong unit in its curve", "bump_rubber")
    angle, rest = rubber.contact_angle, setup.axle.measured_angle
    if angle is not None and not rest < angle < setup.axle.bump_stop:
        message = (
            f"bump_rubber.contact_angle {shown(angle)} does not lie between measured_angle "
            f"{shown(rest)} and bump_stop {shown(setup.axle.bump_stop)}"
        )
        yield Said(message, "measure both angles again, positive in the bump sense", "bump_rubber")


RULE = Rule(
    name="usual-places",
    code="R308",
    severity=Severity.WARNING,
    wants="hub, mounts, wheel, arch and masses of a corner are such as vehicles have",
    tip="look for a wrong sign, unit or datum, or for two figures exchanged; if it is right, "
    "waive the finding and give the reason",
    remarks=_remarks,
)
