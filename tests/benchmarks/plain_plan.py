"""A plan of the demo van in plain floats, written by hand: what the library's is held against.

The equations are those of a strut with a torque tube on a swivelling bolt and a damper with
gas; tolerances, findings and words are left out. No kernel of the library is called.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple, Self

import attrs

import barwright as bw

__all__ = ["PlainCorner", "PlainPlan", "plain_plan"]

_GRAVITY = 9.80665
_STEPS = 60
_SETTLED = 1e-13
_FLATS = 6


class PlainPlan(NamedTuple):
    """What comes out [rad, N/m, m]."""

    free_angle: float
    wheel_rate: float
    height: float


class _Place(NamedTuple):
    """The wheel at an arm angle, and what acts on it beside the bar."""

    hub: float
    hub_slope: float
    load_slope: float
    load_curvature: float
    torque: float
    stiffness: float


@attrs.frozen
class PlainCorner:
    """A corner as floats, SI."""

    figures: dict[str, float]
    rate: float
    arm_teeth: int
    anchor_teeth: int

    @classmethod
    def of(cls, setup: bw.Setup) -> Self:
        """Take the figures of a setup, and work out the rate of its bar and tube."""
        axle, bar, tube = setup.axle, setup.bar, setup.anchor
        strut, bolt, gas = axle.suspension, setup.adjuster, setup.damper.gas
        assert isinstance(strut, bw.parts.StrutMounting)
        assert isinstance(tube, bw.parts.Tube)
        assert bolt is not None
        assert gas is not None
        assert isinstance(bolt.mounting, bw.parts.SwivellingMounting)
        metres = {
            "radius": setup.arm.radius,
            "top_y": strut.top_outboard,
            "top_z": strut.top_up,
            "offset": strut.offset,
            "below": strut.length_below,
            "hub_y": axle.hub_outboard,
            "hub_z": axle.hub_up,
            "tyre": axle.tyre_radius,
            "measured_height": axle.measured_height,
            "at_length": gas.at_length,
            "pivot": bolt.mounting.pivot_distance,
            "lever": tube.lever_radius,
            "pitch": bolt.thread_pitch,
            "start": bolt.thread_start,
            "end": bolt.thread_end,
            "nut": bolt.nut_height,
        }
        radians = {
            "reference": axle.reference_angle,
            "measured_angle": axle.measured_angle,
            "droop": axle.droop_stop,
            "bump": axle.bump_stop,
            "pivot_angle": bolt.mounting.pivot_angle,
            "arm_key": setup.arm.socket.key_angle,
            "anchor_key": tube.socket.key_angle,
        }
        figures = {name: _m(value) for name, value in metres.items() if value is not None}
        figures |= {name: float(value.m_as("rad")) for name, value in radians.items()}
        figures["mass"] = float(setup.load.mass.m_as("kg"))
        figures["force"] = float(gas.force.m_as("N"))
        figures["slope"] = float(gas.slope.m_as("N/m"))
        figures["standing"] = _axis(figures, figures["reference"])
        rate = _rate(setup, tube, seat=_seat(setup, tube))
        return cls(figures, rate, bar.arm_end.teeth, bar.anchor_end.teeth)

    def place(self, angle: float) -> _Place:
        """Find the wheel at an arm angle."""
        f = self.figures
        y, z = f["radius"] * math.cos(angle), f["radius"] * math.sin(angle)
        across, up = f["top_y"] - y, f["top_z"] - z
        distance = math.hypot(across, up)
        length = math.sqrt(distance * distance - f["offset"] * f["offset"])
        axis = math.atan2(up, across) + math.asin(f["offset"] / distance)
        along, out = (math.cos(axis), math.sin(axis)), (math.sin(axis), -math.cos(axis))
        turn = -(z * out[0] - y * out[1]) / length
        on_axis = z * along[0] - y * along[1]
        slope = on_axis - f["offset"] * turn
        turn_rate = -(y * out[0] + z * out[1] + turn * (on_axis + slope)) / length
        bend = y * along[0] + z * along[1] + length * turn * turn - f["offset"] * turn_rate
        cosine, sine = math.cos(axis - f["standing"]), math.sin(axis - f["standing"])
        low = f["hub_z"] - f["tyre"]
        hub_y = f["hub_y"] * cosine - f["hub_z"] * sine
        hub_z = f["hub_y"] * sine + f["hub_z"] * cosine
        load_y, load_z = f["hub_y"] * cosine - low * sine, f["hub_y"] * sine + low * cosine
        force = f["force"] + f["slope"] * (length + f["below"] - f["at_length"])
        return _Place(
            hub=z + hub_z,
            hub_slope=y + turn * hub_y,
            load_slope=y + turn * load_y,
            load_curvature=-z + turn_rate * load_y - turn * turn * load_z,
            torque=-force * slope,
            stiffness=-f["slope"] * slope * slope - force * bend,
        )


def plain_plan(corner: PlainCorner, *, height: float) -> PlainPlan:
    """Plan a wanted height [m]: free angle, teeth, nut, and the height that results."""
    f = corner.figures
    arch = f["measured_height"] + corner.place(f["measured_angle"]).hub
    angle = _newton(lambda x: _above(corner.place(x), arch - height), 0.0)
    at = corner.place(angle)
    load = f["mass"] * _GRAVITY
    free = angle - (load * at.load_slope - at.torque) / corner.rate
    stiffness = corner.rate + at.stiffness - load * at.load_curvature
    middle = (f["start"] + f["end"] - f["nut"]) / 2.0
    lever, turns = _nearest(corner, free, middle)
    clocked = free - lever
    flat = round(turns * _FLATS) / _FLATS
    spread = max(abs(turns - flat), 0.5 / _FLATS)
    heights = [
        arch - corner.place(_rest(corner, _lever_at(f, middle - x * f["pitch"]) + clocked)).hub
        for x in (flat, flat - spread, flat + spread)
    ]
    return PlainPlan(free, stiffness / at.load_slope**2, heights[0])


def _nearest(corner: PlainCorner, free: float, middle: float) -> tuple[float, float]:
    """Lever angle [rad] and turns of the clocking whose nut lies nearest the middle."""
    f = corner.figures
    keyed = f["anchor_key"] - f["arm_key"]
    lowest, highest = sorted((_lever_at(f, f["start"]), _lever_at(f, f["end"] - f["nut"])))
    centre, found = _lever_at(f, middle), []
    for arm in range(corner.arm_teeth):
        for anchor in range(corner.anchor_teeth):
            turned = 2.0 * math.pi * (arm / corner.arm_teeth - anchor / corner.anchor_teeth)
            beyond = free - keyed - turned - centre
            lever = centre + math.remainder(beyond, 2.0 * math.pi)
            if lowest <= lever <= highest:
                found.append((bool(arm) + bool(anchor), abs(lever - centre), lever))
    _, _, lever = min(found)
    a, r = f["pivot"], f["lever"]
    pin = math.sqrt(a * a + r * r - 2.0 * a * r * math.cos(lever - f["pivot_angle"]))
    return lever, (middle - pin) / f["pitch"]


def _rest(corner: PlainCorner, free: float) -> float:
    """Arm angle at rest for a free angle [rad]."""
    load = corner.figures["mass"] * _GRAVITY

    def unbalanced(angle: float) -> tuple[float, float]:
        at = corner.place(angle)
        missing = corner.rate * (angle - free) + at.torque - load * at.load_slope
        return missing, corner.rate + at.stiffness - load * at.load_curvature

    return _newton(unbalanced, 0.0)


def _above(at: _Place, wanted: float) -> tuple[float, float]:
    return at.hub - wanted, at.hub_slope


def _newton(function: Callable[[float], tuple[float, float]], x: float) -> float:
    """Root of a function that rises."""
    for _ in range(_STEPS):
        value, slope = function(x)
        x -= value / slope
        if abs(value / slope) < _SETTLED:
            break
    return x


def _lever_at(f: dict[str, float], pin: float) -> float:
    """Angle of the lever [rad] with its pin at a distance from the bolt's pivot [m]."""
    a, r = f["pivot"], f["lever"]
    return f["pivot_angle"] + math.acos((a * a + r * r - pin * pin) / (2.0 * a * r))


def _axis(f: dict[str, float], angle: float) -> float:
    """Angle of the strut's axis [rad]."""
    across = f["top_y"] - f["radius"] * math.cos(angle)
    up = f["top_z"] - f["radius"] * math.sin(angle)
    return math.atan2(up, across) + math.asin(f["offset"] / math.hypot(across, up))


def _seat(setup: bw.Setup, tube: bw.parts.Tube) -> float:
    """Place of the bar [m] in which it lies flush with both sockets, as far as it can."""
    face = _m(setup.axle.tube_position) + _m(tube.socket_position) + _m(tube.socket.length)
    low, high = sorted((0.0, face - _m(setup.bar.length)))
    return min(max(0.0, low), high)


def _rate(setup: bw.Setup, tube: bw.parts.Tube, *, seat: float) -> float:
    """Torsional rate [N·m/rad] of the bar where it lies, with its tube."""
    bar, arm = setup.bar, setup.bar.arm_end
    anchor, diameter = bar.anchor_end, _m(bar.diameter)
    length, socket = _m(bar.length), _m(setup.axle.tube_position) + _m(tube.socket_position)
    bare_arm = max(0.0, seat + _m(arm.length) - _m(setup.arm.socket.length))
    bare_anchor = max(0.0, socket - (seat + length - _m(anchor.length)))
    for end, bare in ((arm, bare_arm), (anchor, bare_anchor)):
        ratio = diameter / _m(end.root_diameter)
        length -= _m(end.length) + _m(end.taper)
        length += bare * ratio**4 + _m(end.taper) * ratio * (1.0 + ratio + ratio**2) / 3.0
    of_bar = _stiffness(diameter, 0.0, length, float(bar.material.shear_modulus.m_as("Pa")))
    of_tube = _stiffness(
        _m(tube.outside_diameter),
        _m(tube.bore),
        _m(tube.socket_position) - _m(tube.lever_position),
        float(tube.material.shear_modulus.m_as("Pa")),
    )
    return 1.0 / (1.0 / of_bar + 1.0 / of_tube)


def _stiffness(outside: float, bore: float, length: float, modulus: float) -> float:
    return modulus * math.pi * (outside**4 - bore**4) / 32.0 / length


def _m(length: bw.Quantity) -> float:
    return float(length.m_as("m"))
