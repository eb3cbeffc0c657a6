"""Rows of `barwright.mechanics.vehicle.balance`.

Settings are found in a multibody engine's whole vehicle by scipy's root finding, shares of the
load in it by where its masses have their common centre; see ``outside.whole_vehicle``.
"""

from __future__ import annotations

import functools
from collections.abc import Callable

import attrs
import numpy as np
from scipy.linalg import null_space
from scipy.optimize import root

from barwright.mechanics.vehicle.balance import (
    cross_weight,
    cross_weight_change,
    free_heights_for_cross_weight,
    free_heights_for_heights,
    free_heights_for_loads,
    front_share,
    left_share,
    self_stress,
)
from barwright.mechanics.vehicle.static_equilibrium import settle
from outside.rows.static_equilibrium import ENGINE, OFF, rest, vehicle
from outside.whole_vehicle import Array, element
from validation import Kind, Row

_engine = functools.partial(Row, within=1e-6, kind=Kind.ENGINE)

CROSSED = np.array([0.0, 1.0, 1.0, 0.0])
VEHICLE = vehicle(ENGINE)
WEIGHT = float(np.sum(ENGINE.loads))

# The level vehicle's, and so little more that rotations are in proportion.
LEVEL = np.array(ENGINE.arches) - np.array(ENGINE.hubs)
WANTED = LEVEL + np.array([3e-5, 1e-5, 1e-5, 2e-5])
SHARE = float(ENGINE.loads @ CROSSED) / WEIGHT + 2e-4


@functools.cache
def settings_for_heights() -> Array:
    """What gives the engine's vehicle all four wanted heights, in mm off the level settings."""

    def miss(off: Array) -> Array:
        found = ENGINE.at_rest(ENGINE.free_heights + 1e-3 * off)
        return np.array((found.heights - WANTED) * 1e3)

    return _root(miss)


@functools.cache
def settings_for_cross_weight() -> Array:
    """What gives it the cross weight, and the wanted heights up to a warp [mm]."""
    rigid = np.array([(1.0, x, y) for x, y in ENGINE.wheels])

    def miss(off: Array) -> Array:
        found = ENGINE.at_rest(ENGINE.free_heights + 1e-3 * off)
        # The best plane through what the heights miss has to vanish.
        plane = np.linalg.lstsq(rigid, found.heights - WANTED, rcond=None)[0]
        return np.append(plane * 1e3, float(found.loads @ CROSSED) / WEIGHT - SHARE)

    return _root(miss)


def _root(miss: Callable[[Array], Array]) -> Array:
    found = root(miss, np.zeros(4), tol=1e-13)
    assert np.max(np.abs(found.fun)) < 1e-9
    return np.array(found.x)


def loads_to_have() -> Array:
    """Loads of the engine's vehicle with that cross weight."""
    return ENGINE.at_rest(ENGINE.free_heights + 1e-3 * settings_for_cross_weight()).loads


def off_level(free: Array) -> Array:
    """Settings in millimetres off the level ones."""
    return np.array((free - ENGINE.free_heights) * 1e3)


def _moments() -> Array:
    """Sum and moments of unit forces up at the wheels."""
    forces = np.array([(0.0, 0.0, 1.0)] * 4)
    places = np.array([(x, y, 0.0) for x, y in ENGINE.wheels])
    moments = np.cross(places, forces)
    return np.array([forces[:, 2], moments[:, 0], moments[:, 1]])


# -- Shares of a load ------------------------------------------------------------------------

# Without hubs of their own weight, and with the axes of tilt through the centre of gravity, the
# loads have their middle under it, however the body leans.
LIGHT = attrs.evolve(
    ENGINE,
    unsprung_masses=(0.0,) * 4,
    axis_height=ENGINE.centre_of_gravity[2],
    wheels=((1.25, 0.74), (1.25, -0.74), (-1.3, 0.74), (-1.3, -0.74)),
)


def _crossing(corner: int) -> float:
    """Change of the engine's cross weight with the free height of a corner."""
    return float(ENGINE.moved(corner, "loads") @ CROSSED) / WEIGHT


def _unloaded() -> Array:
    """Forces at the wheels without sum or moment; those of the first one's sense add up to 1."""
    forces = np.array(null_space(_moments())[:, 0])
    forces *= np.sign(forces[0])
    return np.array(forces / np.sum(forces[forces > 0.0]))


@functools.cache
def middle() -> Array:
    """Common centre of the engine's masses as the vehicle leans: forward, left."""
    found = LIGHT.at_rest(LIGHT.free_heights + OFF)
    return np.array(found.data.subtree_com[0][:2])


def light_loads() -> Array:
    """Loads of the same vehicle by the kernels."""
    return settle(vehicle(LIGHT), LIGHT.free_heights + OFF).loads


_statics = functools.partial(
    _engine,
    source="MuJoCo: centre of all masses between the axles, or between the sides, at rest",
    given="1300 kg on a wheelbase of 2.55 m and a track of 1.48 m, the settled loads",
    unit="",
)
_settings = functools.partial(
    _engine,
    source="MuJoCo and scipy: a body on four corners at rest, settings by a root search",
    unit="mm",
)
_CROSS_GIVEN = (
    "the uneven vehicle of `static_equilibrium.settle`; heights off level by 0.03 mm and "
)

ROWS = [
    _statics(
        of="balance.front_share",
        expected=lambda: (middle()[0] + 1.3) / 2.55,
        got=lambda: float(front_share(light_loads())),
    ),
    _statics(
        of="balance.left_share",
        expected=lambda: (middle()[1] + 0.74) / 1.48,
        got=lambda: float(left_share(light_loads())),
    ),
    _engine(
        of="balance.cross_weight",
        source="MuJoCo: loads of a body on four corners at rest",
        given="the uneven vehicle of `static_equilibrium.settle`",
        unit="",
        expected=lambda: float(rest().loads @ CROSSED) / WEIGHT,
        got=lambda: float(cross_weight(settle(VEHICLE, ENGINE.free_heights + OFF).loads)),
    ),
    *(
        _engine(
            of="balance.cross_weight_change",
            source="MuJoCo: loads of a body on four corners, before and after",
            given=f"the uneven vehicle of `static_equilibrium.settle`; {name} corner raised",
            unit="1/m",
            expected=functools.partial(_crossing, i),
            got=element(lambda: cross_weight_change(VEHICLE), i),
        )
        for i, name in ((0, "front left"), (2, "rear left"))
    ),
    *(
        _engine(
            of="balance.self_stress",
            source="scipy: null space of the moments of four forces",
            kind=Kind.FORMULATED,
            given=f"wheels at uneven places, 1 for front left and its diagonal; {name}",
            unit="",
            expected=element(_unloaded, i),
            got=element(lambda: self_stress(VEHICLE), i),
        )
        for i, name in ((2, "rear left"), (3, "rear right"))
    ),
    *(
        _settings(
            of="balance.free_heights_for_heights",
            given=f"{_CROSS_GIVEN}warped; {name}",
            expected=element(settings_for_heights, i),
            got=element(lambda: off_level(free_heights_for_heights(VEHICLE, WANTED)), i),
        )
        for i, name in ((0, "front left"), (3, "rear right"))
    ),
    *(
        _settings(
            of="balance.free_heights_for_cross_weight",
            given=f"{_CROSS_GIVEN}0.02 % more cross weight; {name}",
            expected=element(settings_for_cross_weight, i),
            got=element(
                lambda: off_level(
                    free_heights_for_cross_weight(VEHICLE, WANTED, cross_weight=SHARE)
                ),
                i,
            ),
        )
        for i, name in ((1, "front right"), (2, "rear left"))
    ),
    _settings(
        of="balance.free_heights_for_loads",
        given=f"{_CROSS_GIVEN}the loads of 0.02 % more cross weight; front right",
        expected=element(settings_for_cross_weight, 1),
        got=element(
            lambda: off_level(free_heights_for_loads(VEHICLE, WANTED, loads=loads_to_have())), 1
        ),
    ),
]
