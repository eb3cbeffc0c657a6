"""Rates of many corners of the demo van, written by hand: what columns are held against.

The equations are those of a strut with a torque tube on a swivelling bolt and a damper with gas;
checks, fit, errors and words are left out, and one place of rest is taken for granted.  They stand
once: on plain floats for a loop over corners, and on NumPy's arrays for chunks that fit the
cache.  No kernel of the library is called.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

import attrs
import numpy as np
from numpy.typing import NDArray

import barwright as bw
from benchmarks.plain_plan import PlainCorner

__all__ = ["Figures", "chunked_rates", "figures_of", "looped_rates"]

Figures = Mapping[str, Any]
"""Figures of a corner in SI units by name: floats, or arrays."""

_GRAVITY = 9.80665
_STEPS = 40
_SETTLED = 1e-12
_CHUNK = 8192


@attrs.frozen
class _Functions:
    """What floats and arrays have by other names."""

    cos: Callable[[Any], Any]
    sin: Callable[[Any], Any]
    asin: Callable[[Any], Any]
    acos: Callable[[Any], Any]
    atan2: Callable[[Any, Any], Any]
    sqrt: Callable[[Any], Any]
    least: Callable[[Any, Any], Any]
    most: Callable[[Any, Any], Any]
    widest: Callable[[Any], float]


_OF_FLOATS = _Functions(
    math.cos, math.sin, math.asin, math.acos, math.atan2, math.sqrt, min, max, abs
)
_OF_ARRAYS = _Functions(
    np.cos,
    np.sin,
    np.arcsin,
    np.arccos,
    np.arctan2,
    np.sqrt,
    np.minimum,
    np.maximum,
    lambda x: float(np.max(np.abs(x))),
)


def figures_of(setup: bw.Setup) -> dict[str, float]:
    """Return the figures of the demo van's corner."""
    axle, bar, tube, damper = setup.axle, setup.bar, setup.anchor, setup.damper
    assert isinstance(tube, bw.parts.Tube)
    assert damper.damping_rate is not None
    lengths: dict[str, bw.Quantity] = {
        "standard_radius": axle.standard(setup.side).arm.radius,
        "open": damper.open_length,
        "closed": damper.closed_length,
        "arch": axle.measured_height,
        "length": bar.length,
        "diameter": bar.diameter,
        "arm_socket": setup.arm.socket.length,
        "socket": tube.socket_position,
        "tube": axle.tube_position,
        "lever_at": tube.lever_position,
        "outside": tube.outside_diameter,
        "bore": tube.bore,
    }
    for name, end in (("arm", bar.arm_end), ("anchor", bar.anchor_end)):
        lengths[f"{name}_head"] = end.length
        lengths[f"{name}_taper"] = end.taper
        lengths[f"{name}_root"] = end.root_diameter
    figures = {name: float(value.m_as("m")) for name, value in lengths.items()}
    others = {
        "modulus": bar.material.shear_modulus.m_as("Pa"),
        "tube_modulus": tube.material.shear_modulus.m_as("Pa"),
        "turns": setup.nut_turns.m_as("turn"),
        "tyre_rate": axle.tyre_rate.m_as("N/m"),
        "damping": damper.damping_rate.m_as("N*s/m"),
        "blank": bar.blank_angle.m_as("rad"),
    }
    plain = PlainCorner.of(setup).figures
    return plain | figures | {name: float(value) for name, value in others.items()}


def looped_rates(figures: Figures, number: int) -> list[dict[str, float]]:
    """Rates of so many corners, one after the other."""
    varied = {name: value for name, value in figures.items() if np.ndim(value)}
    columns = {name: value.tolist() for name, value in varied.items()}
    return [
        _rates({**figures, **{name: column[row] for name, column in columns.items()}}, _OF_FLOATS)
        for row in range(number)
    ]


def chunked_rates(figures: Figures, number: int) -> dict[str, NDArray[np.float64]]:
    """Rates of so many corners, in chunks."""
    found: dict[str, NDArray[np.float64]] = {}
    varied = {name: value for name, value in figures.items() if np.ndim(value)}
    for first in range(0, number, _CHUNK):
        rows = slice(first, first + _CHUNK)
        some = {**figures, **{name: value[rows] for name, value in varied.items()}}
        for name, value in _rates(some, _OF_ARRAYS).items():
            if name not in found:
                found[name] = np.empty(number)
            found[name][rows] = value
    return found


# -- The equations ----------------------------------------------------------------------------


class _Place(NamedTuple):
    """The wheel at an arm angle, and what acts on it beside the bar."""

    hub: Any
    load_slope: Any
    load_curvature: Any
    damper: Any
    damper_slope: Any
    torque: Any
    stiffness: Any


def _rates(f: Figures, m: _Functions) -> dict[str, Any]:
    axis = _axis(f, f["standard_radius"], f["reference"], m)[1]
    standard = {**f, "radius": f["standard_radius"], "axis": axis}
    f = {**f, "axis": axis, "load": f["mass"] * _GRAVITY}
    f["arch_height"] = f["arch"] + _place(standard, f["measured_angle"], m).hub
    of_bar, of_tube = _stiffnesses(f)
    f["rate"] = of_bar * of_tube / (of_bar + of_tube)
    droop = m.most(f["droop"], _at_damper_length(f, f["open"], m))
    bump = m.least(f["bump"], _at_damper_length(f, f["closed"], m))
    f["free"] = _clocked(f, (droop + bump) / 2.0, m)
    ride = _rest(f, droop, bump, m)
    found = {"bar_rate": of_bar, "tube_rate": of_tube, "system_rate": f["rate"]}
    for place, angle in (("droop", droop), ("ride", ride), ("bump", bump)):
        found |= {f"{place}.{name}": value for name, value in _state(f, angle, m).items()}
    rate = found["ride.wheel_rate"]
    in_series = rate * f["tyre_rate"] / (rate + f["tyre_rate"])
    found["ride_frequency"] = m.sqrt(in_series / f["mass"]) / (2.0 * math.pi)
    at = _place(f, ride, m)
    at_wheel = f["damping"] * (at.damper_slope / at.load_slope) ** 2
    found["damping_ratio"] = at_wheel / (2.0 * m.sqrt(rate * f["mass"]))
    return found


def _state(f: Figures, angle: Any, m: _Functions) -> dict[str, Any]:
    at = _place(f, angle, m)
    twist = angle - f["free"]
    wound = twist > 0.0
    torque = f["rate"] * twist * wound
    load = (torque + at.torque) / at.load_slope
    stiffness = f["rate"] * wound + at.stiffness - load * at.load_curvature
    return {
        "arm_angle": angle,
        "height": f["arch_height"] - at.hub,
        "twist": twist,
        "torque": torque,
        "shear_stress": 16.0 * torque / (math.pi * f["diameter"] * f["diameter"] * f["diameter"]),
        "wheel_load": load,
        "wheel_rate": stiffness / (at.load_slope * at.load_slope),
        "damper_length": at.damper,
        "stroke_to_closed": at.damper - f["closed"],
        "stroke_to_open": f["open"] - at.damper,
    }


def _rest(f: Figures, droop: Any, bump: Any, m: _Functions) -> Any:
    angle = (droop + bump) / 2.0
    for _ in range(_STEPS):
        at = _place(f, angle, m)
        twist = angle - f["free"]
        wound = twist > 0.0
        missing = f["rate"] * twist * wound + at.torque - f["load"] * at.load_slope
        slope = f["rate"] * wound + at.stiffness - f["load"] * at.load_curvature
        following = m.least(m.most(angle - missing / slope, droop), bump)
        step, angle = m.widest(following - angle), following
        if step < _SETTLED:
            break
    return angle


def _place(f: Figures, angle: Any, m: _Functions) -> _Place:
    y, z = f["radius"] * m.cos(angle), f["radius"] * m.sin(angle)
    across, up = f["top_y"] - y, f["top_z"] - z
    squared, offset = across * across + up * up, f["offset"]
    length = m.sqrt(squared - offset * offset)
    axis = m.atan2(up, across) + m.asin(offset / m.sqrt(squared))
    cosine, sine = m.cos(axis), m.sin(axis)
    turn = -(z * sine + y * cosine) / length
    on_axis = z * cosine - y * sine
    slope = on_axis - offset * turn
    turn_rate = -(y * sine - z * cosine + turn * (on_axis + slope)) / length
    bend = y * cosine + z * sine + length * turn * turn - offset * turn_rate
    tilt = axis - f["axis"]
    cosine, sine = m.cos(tilt), m.sin(tilt)
    low = f["hub_z"] - f["tyre"]
    load_y, load_z = f["hub_y"] * cosine - low * sine, f["hub_y"] * sine + low * cosine
    force = f["force"] + f["slope"] * (length + f["below"] - f["at_length"])
    return _Place(
        hub=z + f["hub_y"] * sine + f["hub_z"] * cosine,
        load_slope=y + turn * load_y,
        load_curvature=-z + turn_rate * load_y - turn * turn * load_z,
        damper=length + f["below"],
        damper_slope=slope,
        torque=-force * slope,
        stiffness=-f["slope"] * slope * slope - force * bend,
    )


def _axis(f: Figures, radius: Any, angle: Any, m: _Functions) -> tuple[Any, Any]:
    """Distance of the ball joint from the top mount, and angle of the strut's axis."""
    across, up = f["top_y"] - radius * m.cos(angle), f["top_z"] - radius * m.sin(angle)
    distance = m.sqrt(across * across + up * up)
    return distance, m.atan2(up, across) + m.asin(f["offset"] / distance)


def _at_damper_length(f: Figures, length: Any, m: _Functions) -> Any:
    above = length - f["below"]
    squared, radius = above * above + f["offset"] * f["offset"], f["radius"]
    reach = m.sqrt(f["top_y"] * f["top_y"] + f["top_z"] * f["top_z"])
    cosine = (radius * radius + reach * reach - squared) / (2.0 * radius * reach)
    return m.atan2(f["top_z"], f["top_y"]) - m.acos(m.least(m.most(cosine, -1.0), 1.0))


def _clocked(f: Figures, middle: Any, m: _Functions) -> Any:
    """Free angle with both blanks on their keys, the short way round, and the nut as it is set."""
    a, r = f["pivot"], f["lever"]
    centre = (f["start"] + f["end"] - f["nut"]) / 2.0
    pins = (centre, centre - f["turns"] * f["pitch"])
    levers = [f["pivot_angle"] + m.acos((a * a + r * r - p * p) / (2.0 * a * r)) for p in pins]
    keyed = f["anchor_key"] - f["arm_key"]
    turned = (keyed - (middle - levers[0]) + math.pi) % (2.0 * math.pi) - math.pi
    return middle - levers[0] + turned + levers[1]


def _stiffnesses(f: Figures) -> tuple[Any, Any]:
    """Torsional rates of the bar, its heads flush with their sockets, and of its tube."""
    diameter, length = f["diameter"], f["length"]
    bare = {
        "arm": f["arm_head"] - f["arm_socket"],
        "anchor": f["tube"] + f["socket"] - (f["length"] - f["anchor_head"]),
    }
    for end, head in bare.items():
        ratio = diameter / f[f"{end}_root"]
        squared = ratio * ratio
        length = length - f[f"{end}_head"] - f[f"{end}_taper"]
        length = length + head * (head > 0.0) * squared * squared
        length = length + f[f"{end}_taper"] * ratio * (1.0 + ratio + squared) / 3.0
    squared = diameter * diameter
    of_bar = f["modulus"] * math.pi * squared * squared / 32.0 / length
    hollow = f["outside"] ** 4 - f["bore"] ** 4
    of_tube = f["tube_modulus"] * math.pi * hollow / 32.0 / (f["socket"] - f["lever_at"])
    return of_bar, of_tube
