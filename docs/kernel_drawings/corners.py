"""Figures of the kernels of a corner at rest: its balance, its springs, what is measured."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.solve import rising_root
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring
from barwright.mechanics.corner.statics import settle, wheel_load, wheel_rate
from barwright.mechanics.linkage.arm_and_strut import SwingArm
from barwright.mechanics.uncertainty.calibration import calibrate
from kernel_drawings.sheet import LEFT, RIGHT, WIDE, Figures, curve_up_to, legend
from svg import Chart, Drawing

ARM = SwingArm(
    load_point=(0.400, -0.250),
    hub_point=(0.400, 0.0),
    damper_foot=(0.300, 0.0),
    damper_mount=(0.240, 0.400),
)
DROOP, BUMP = np.radians(-18.0), np.radians(22.0)
RATE, LOAD = 3200.0, 2600.0
STOP = BumpStop(
    compressions=(0.0, 0.020, 0.035),
    forces=(0.0, 1500.0, 5000.0),
    at_angle=np.radians(13.0),
    radius=0.25,
)


def corner() -> Drawing:
    """Draw load over travel of a corner, where it rests, and its rate there and elsewhere."""
    out = Drawing(760, 310, "A corner's load and rate over travel, and where it rests")
    free = np.radians(-20.0)
    angle = np.linspace(DROOP, BUMP, 161)
    motion = ARM.motion(angle)
    torque = RATE * np.maximum(angle - free, 0.0)
    rest = settle(
        ARM, free_angle=free, rate=RATE, load=LOAD, droop=DROOP, bump=BUMP, springs=(STOP,)
    )
    here = ARM.motion(float(rest.angle))
    travel = 1e3 * (np.asarray(motion.load.height) - float(here.load.height))
    chart = Chart(out, LEFT, across=(-120.0, 200.0), up=(0.0, 10000.0))
    chart.ticks((-100, -50, 0, 50, 100, 150, 200), (0, 2500, 5000, 7500, 10000))
    chart.names("travel from rest, mm", "load at the wheel, N")
    load = np.asarray(wheel_load(motion, torque=torque, springs=(STOP,)))
    chart.curve(travel, wheel_load(motion, torque=torque), "dash")
    chart.curve(travel, load)
    chart.curve((-120.0, 200.0), (LOAD, LOAD), "end")
    chart.point(0.0, LOAD)
    entries = (
        ("new", "bar and bump stop"),
        ("dash", "bar alone"),
        ("end", "the load that it carries"),
    )
    legend(out, (86.0, 54.0), entries)
    chart = Chart(out, RIGHT, across=(-120.0, 200.0), up=(0.0, 120.0))
    chart.ticks((-100, -50, 0, 50, 100, 150, 200), (0, 40, 80, 120))
    chart.names("travel from rest, mm", "rate at the wheel, N/mm")
    stiff = np.asarray(wheel_rate(motion, rate=RATE, load=load, springs=(STOP,)))
    chart.curve(travel, stiff / 1e3)
    at_rest = float(wheel_rate(here, rate=RATE, load=LOAD, springs=(STOP,))) / 1e3
    chart.point(0.0, at_rest)
    x, y = chart.at(0.0, at_rest)
    out.text((x + 4, y - 12), f"{at_rest:.1f} at rest", "small", "start")
    return out


def springs() -> Drawing:
    """Draw torque about the bar axis of what acts beside the bar, over the arm's angle."""
    out = Drawing(760, 330, "Springs beside the bar: their torque over the arm's angle")
    chart = Chart(out, WIDE, across=(-18.0, 22.0), up=(-200.0, 600.0))
    chart.ticks((-15, -10, -5, 0, 5, 10, 15, 20), (-200, 0, 200, 400, 600))
    chart.names(
        "arm angle, bump positive, deg", "torque about the bar axis that carries the car, N·m"
    )
    angle = np.linspace(DROOP, BUMP, 161)
    motion = ARM.motion(angle)
    beside = (
        (STOP, "old", "bump stop that the arm meets at 13°"),
        (
            HelperSpring(rate=9_000.0, free_length=0.200, seat_offset=0.220),
            "new",
            "helper coil over the damper",
        ),
        (Bushing(rate=350.0, tightened_at=0.0), "line", "rubber bushing, tightened at 0°"),
        (GasForce(force=250.0, at_length=0.40, slope=-600.0), "end", "gas of the damper"),
    )
    chart.curve((-18.0, 22.0), (0.0, 0.0), "thin")
    for spring, style, _ in beside:
        torque = np.broadcast_to(spring.hold(motion)[0], angle.shape)
        curve_up_to(chart, 600.0, np.degrees(angle), torque, style)
    legend(out, (90.0, 54.0), [(style, words) for _, style, words in beside])
    return out


def solve() -> Drawing:
    """Draw steps toward a root: where Newton's step is taken, and where the bracket is halved."""
    out = Drawing(760, 330, "A Newton step that a bracket safeguards")
    low, high = -1.0, 1.0
    places: list[float] = []

    def function(x: Real) -> tuple[Real, Real]:
        """Answer as a soft spring that meets a stop does."""
        beyond = np.maximum(np.asarray(x) - 0.55, 0.0)
        value = 0.12 * (x + 1.0) - 0.30 + 5.0 * beyond
        return value, 0.12 + 5.0 * np.greater(beyond, 0.0)

    def watched(x: Real) -> tuple[Real, Real]:
        places.append(float(x))
        return function(x)

    root = rising_root(watched, low=low, high=high)
    chart = Chart(out, WIDE, across=(low, high), up=(-0.5, 2.5))
    chart.ticks((-1, -0.5, 0, 0.5, 1), (-0.5, 0, 0.5, 1, 1.5, 2, 2.5))
    chart.names("argument", "value of the function")
    x = np.linspace(low, high, 401)
    chart.curve((low, high), (0.0, 0.0), "line")
    chart.curve(x, function(x)[0])
    # The first two places are the ends of the bracket.
    for index, place in enumerate(places[2:6]):
        value = float(function(place)[0])
        chart.curve((place, place), (value, 0.0), "dash")
        chart.point(place, value)
        across, up = chart.at(place, max(value, 0.0))
        out.text((across, up - 10), str(index + 1), "bold")
    across, up = chart.at(float(root), 0.0)
    out.label("root", (across + 60.0, up + 24.0), (across, up), "start")
    return out


def calibration() -> Drawing:
    """Draw measured points with their uncertainties, and the line through them."""
    out = Drawing(760, 310, "Measured twists and torques, and the straight line fitted to them")
    lever = np.radians(-27.0)
    arm = np.radians(np.array([-10.6, -8.1, -5.6, -3.1, -1.4, 1.1]))
    torque = np.array([700.0, 821.0, 923.0, 1035.0, 1096.0, 1209.0])
    spread: dict[str, float] = {"angle_uncertainty": np.radians(0.25), "torque_uncertainty": 12.0}
    found = calibrate(arm_angle=arm, lever_angle=lever, torque=torque, **spread)
    between = np.degrees(arm - lever)
    chart = Chart(out, LEFT, across=(14.0, 30.0), up=(600.0, 1300.0))
    chart.ticks((14, 18, 22, 26, 30), (600, 800, 1000, 1200))
    chart.names("arm's angle less lever's, deg", "torque, N·m")
    rate, clocked = float(found.rate), float(found.clocked_angle)
    ends = np.array([15.0, 29.5])
    chart.curve(ends, rate * (np.radians(ends) - clocked))
    for angle, load in zip(between.tolist(), torque.tolist(), strict=True):
        wide, tall = (
            2.0 * np.degrees(spread["angle_uncertainty"]),
            2.0 * spread["torque_uncertainty"],
        )
        chart.curve((angle - wide, angle + wide), (load, load), "line")
        chart.curve((angle, angle), (load - tall, load + tall), "line")
    per_degree = np.radians(1.0)
    words = f"{rate * per_degree:.1f} ± {float(found.rate_uncertainty) * per_degree:.1f} N·m/deg"
    out.text((90, 60), words, "bold blue", "start")
    out.text((90, 78), "rate with its standard error", "small", "start")
    _residuals(out, torque, np.degrees(found.residuals))
    return out


def _residuals(out: Drawing, torque: NDArray[np.float64], left: NDArray[np.float64]) -> None:
    """Draw what is left of each point's angle beside the line."""
    chart = Chart(out, RIGHT, across=(600.0, 1300.0), up=(-1.0, 1.0))
    chart.ticks((600, 800, 1000, 1200), (-1, -0.5, 0, 0.5, 1))
    chart.names("torque, N·m", "what is left of the angle, deg")
    chart.curve((600.0, 1300.0), (0.0, 0.0))
    for load, angle in zip(torque.tolist(), left.tolist(), strict=True):
        chart.curve((load, load), (0.0, angle), "dash")
        chart.point(load, angle)


FIGURES: Figures = {
    "statics": corner,
    "springs": springs,
    "solve": solve,
    "calibration": calibration,
}
