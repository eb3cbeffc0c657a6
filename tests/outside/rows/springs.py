"""Springs beside the bar, as tendons of a multibody engine and as splines of their tables.

The engine builds each spring between points of a hinged arm, or winds it about the hinge;
see ``outside.corners``.  A stop at the hub, which has no tendon, is its table's spline over
the engine's lever of the hub.
"""

from __future__ import annotations

import functools
from typing import Any

from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring, Spring
from barwright.mechanics.linkage.arm_and_strut import SwingArm
from outside.corners import Engine, table_force
from validation import Kind, Row

ARM = SwingArm(
    load_point=(0.42, -0.28),
    hub_point=(0.42, 0.01),
    damper_foot=(0.31, -0.03),
    damper_mount=(0.24, 0.52),
)
GAS = GasForce(force=260.0, at_length=0.50, slope=-700.0)
BUSHING = Bushing(rate=150.0, tightened_at=-0.10)
OVER_DAMPER = HelperSpring(rate=15_000.0, free_length=0.40, seat_offset=0.15)
OF_ITS_OWN = HelperSpring(
    rate=15_000.0, free_length=0.30, arm_point=(0.20, 0.02), chassis_point=(0.10, 0.25)
)
TABLE: dict[str, Any] = {
    "compressions": (0.0, 0.01, 0.02, 0.03),
    "forces": (0.0, 200.0, 600.0, 1400.0),
}
ON_ROD = BumpStop(at_length=0.52, **TABLE)
AT_ARM = BumpStop(at_angle=0.05, radius=0.30, **TABLE)
AT_HUB = BumpStop(at_height=0.08, **TABLE)
ANGLE = 0.23

_engine = functools.partial(Row, within=1e-9, kind=Kind.ENGINE)
_tendon = functools.partial(_engine, source="MuJoCo: a hinged arm and a tendon that is a spring")
_stop = "stop of 0, 200, 600, 1400 N at 0, 10, 20, 30 mm"


def _torque(spring: Spring) -> float:
    return float(spring.hold(ARM.motion(ANGLE))[0])


def _stiffness(spring: Spring) -> float:
    return float(spring.hold(ARM.motion(ANGLE))[1])


def _push(spring: Spring) -> float:
    """Force of a spring over the damper, by what the engine's hinge feels."""
    engine = Engine(ARM, [spring])
    return engine.holds(ANGLE) / engine.shortens(ANGLE)


def _length() -> float:
    return Engine(ARM).length(ANGLE)


def _both(name: str, spring: Spring, given: str) -> list[Row]:
    of = f"springs.{name}.hold"
    return [
        _tendon(
            of=of,
            given=f"{given}, arm at 0.23 rad: torque",
            unit="N·m",
            expected=lambda: Engine(ARM, [spring]).holds(ANGLE),
            got=lambda: _torque(spring),
        ),
        _tendon(
            of=of,
            given=f"{given}, arm at 0.23 rad: its change with the angle",
            unit="N·m/rad",
            expected=lambda: Engine(ARM, [spring]).stiffness(ANGLE),
            got=lambda: _stiffness(spring),
        ),
    ]


def _at_hub() -> float:
    engine = Engine(ARM)
    force = table_force(AT_HUB, engine.hub_height(ANGLE) - 0.08)
    return force * engine.lever(ANGLE, hub=True)


ROWS: list[Row] = [
    _tendon(
        of="springs.GasForce.at",
        given="260 N at 500 mm, −0.7 N/mm, arm at 0.23 rad",
        unit="N",
        expected=lambda: _push(GAS),
        got=lambda: float(GAS.at(_length())),
    ),
    *_both("GasForce", GAS, "260 N at 500 mm, −0.7 N/mm"),
    *_both("Bushing", BUSHING, "150 N·m/rad, tightened at −0.10 rad"),
    _tendon(
        of="springs.HelperSpring.at",
        given="15 N/mm, 400 mm free, seats 150 mm short of the mounts, arm at 0.23 rad",
        unit="N",
        expected=lambda: _push(OVER_DAMPER),
        got=lambda: float(OVER_DAMPER.at(_length())),
    ),
    *_both("HelperSpring", OVER_DAMPER, "15 N/mm over the damper, 400 mm free"),
    *_both("HelperSpring", OF_ITS_OWN, "15 N/mm between its own mounts, 300 mm free"),
    _engine(
        of="springs.BumpStop.at",
        source="SciPy: spline of first degree through the table",
        kind=Kind.FORMULATED,
        given=f"{_stop}, compressed by 18 mm",
        unit="N",
        expected=lambda: table_force(ON_ROD, 0.018),
        got=lambda: float(ON_ROD.at(0.018)),
    ),
    _engine(
        of="springs.BumpStop.at",
        source="SciPy: spline of first degree, extrapolated",
        kind=Kind.FORMULATED,
        given=f"{_stop}, compressed by 40 mm",
        unit="N",
        expected=lambda: table_force(ON_ROD, 0.040),
        got=lambda: float(ON_ROD.at(0.040)),
    ),
    *_both("BumpStop", ON_ROD, f"{_stop}, on the rod at 520 mm"),
    *_both("BumpStop", AT_ARM, f"{_stop}, 300 mm along the arm at 0.05 rad"),
    _engine(
        of="springs.BumpStop.hold",
        source="MuJoCo: lever arm of the hub; SciPy: spline of first degree",
        kind=Kind.FORMULATED,
        given=f"{_stop}, at the hub 80 mm up, arm at 0.23 rad: torque",
        unit="N·m",
        expected=_at_hub,
        got=lambda: _torque(AT_HUB),
    ),
]
