"""Rows of `barwright.mechanics.vehicle.balance`.

Shares of the load are found in a multibody engine's whole vehicle by where its masses have
their common centre; see ``outside.whole_vehicle``.
"""

from __future__ import annotations

import functools
from collections.abc import Callable

import attrs
import numpy as np
from scipy.linalg import null_space
from scipy.optimize import lsq_linear, root

from barwright.mechanics.vehicle.balance import (
    cross_weight,
    cross_weight_change,
    front_share,
    left_share,
    nearest_settings,
    self_stress,
)
from barwright.mechanics.vehicle.static_equilibrium import influence, settle
from barwright.mechanics.vehicle.vehicle import Vehicle
from outside.rows.static_equilibrium import ENGINE, OFF, rest, vehicle
from outside.whole_vehicle import Array, AtRest, element
from validation import Kind, Row

_engine = functools.partial(Row, within=1e-6, kind=Kind.ENGINE)

CROSSED = np.array([0.0, 1.0, 1.0, 0.0])
VEHICLE = vehicle(ENGINE)
WEIGHT = float(np.sum(ENGINE.loads))


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


FREE = ENGINE.free_heights

# The level vehicle's, and so little more that rotations are in proportion.
LEVEL = np.array(ENGINE.arches) - np.array(ENGINE.hubs)
WANTED = LEVEL + np.array([3e-5, 1e-5, 1e-5, 2e-5])
SHARE = float(ENGINE.loads @ CROSSED) / WEIGHT + 2e-4


# -- Settings, by the kernels ----------------------------------------------------------------------


def free_for_heights(built: Vehicle, wanted: Array) -> Array:
    """Free heights that give four wanted heights: four adjusters without ends."""
    start = settle(built, 0.0).heights
    return nearest_settings(influence(built).heights, wanted - start, low=[-9] * 4, high=[9] * 4)


def free_for_cross_weight(built: Vehicle, wanted: Array, share: float) -> Array:
    """Free heights that give a cross weight, and heave, roll and pitch of wanted heights."""
    start = settle(built, 0.0)
    poses = np.column_stack([np.ones(4), built.wheels[:, 1], -built.wheels[:, 0]]).T
    changes = np.vstack([poses @ influence(built).heights, cross_weight_change(built)])
    missed = np.append(poses @ (wanted - start.heights), share - float(cross_weight(start.loads)))
    return nearest_settings(changes, missed, low=[-9] * 4, high=[9] * 4)


def front_for_heights() -> Array:
    """Free heights of the front corners alone that give both front heights, off level [mm]."""
    changes = influence(VEHICLE).heights[:2, :2]
    missed = (WANTED - settle(VEHICLE, FREE).heights)[:2]
    return nearest_settings(changes, missed, low=[-9] * 2, high=[9] * 2) * 1e3


# -- By the engine -----------------------------------------------------------------------


@functools.cache
def settings_for_heights() -> Array:
    """What gives the engine's vehicle all four wanted heights, in mm off the level settings."""
    return _root(lambda off: _rest(off).heights - WANTED, 4)


@functools.cache
def settings_for_cross_weight() -> Array:
    """What gives it the cross weight, and the wanted heights up to a warp [mm]."""
    rigid = np.array([(1.0, x, y) for x, y in ENGINE.wheels])

    def miss(off: Array) -> Array:
        found = _rest(off)
        # The best plane through what the heights miss has to vanish.
        plane = np.linalg.lstsq(rigid, found.heights - WANTED, rcond=None)[0]
        return np.append(plane, 1e-3 * (float(found.loads @ CROSSED) / WEIGHT - SHARE))

    return _root(miss, 4)


@functools.cache
def front_settings() -> Array:
    """What gives it both front heights, with the rear adjusters left alone [mm]."""
    return _root(lambda off: (_rest(np.append(off, [0.0, 0.0])).heights - WANTED)[:2], 2)


def _rest(off: Array) -> AtRest:
    return ENGINE.at_rest(FREE + 1e-3 * off)


def _root(miss: Callable[[Array], Array], count: int) -> Array:
    found = root(lambda off: 1e3 * miss(off), np.zeros(count), tol=1e-13)
    assert np.max(np.abs(found.fun)) < 1e-9
    return np.array(found.x)


# -- Threads that end --------------------------------------------------------------------

CHANGES = np.array([[5.7, 0.6], [0.6, 5.9], [-1.2, 1.3]])
MISSED = np.array([21.0, -4.0, 3.0])
ENDS = (np.array([-4.0, -9.0]), np.array([2.5, 9.0]))


def within_threads() -> Array:
    """Nearest settings by scipy."""
    return np.array(lsq_linear(CHANGES, MISSED, bounds=ENDS, method="bvls").x)


_statics = functools.partial(
    _engine,
    source="MuJoCo: centre of all masses between the axles, or between the sides, at rest",
    given="1300 kg on a wheelbase of 2.55 m and a track of 1.48 m, the settled loads",
    unit="",
)
_settings = functools.partial(
    Row,
    of="balance.nearest_settings",
    source="MuJoCo and scipy: a body on four corners at rest, settings by a root search",
    unit="mm",
    within=1e-6,
    kind=Kind.ENGINE,
)
_GIVEN = "the uneven vehicle of `static_equilibrium.settle`; heights off level by 0.03 mm and "

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
            given=f"{_GIVEN}warped; {name}",
            expected=element(settings_for_heights, i),
            got=element(lambda: (free_for_heights(VEHICLE, WANTED) - FREE) * 1e3, i),
        )
        for i, name in ((0, "front left"), (3, "rear right"))
    ),
    *(
        _settings(
            given=f"{_GIVEN}0.02 % more cross weight; {name}",
            expected=element(settings_for_cross_weight, i),
            got=element(lambda: (free_for_cross_weight(VEHICLE, WANTED, SHARE) - FREE) * 1e3, i),
        )
        for i, name in ((1, "front right"), (2, "rear left"))
    ),
    _settings(
        given=f"{_GIVEN}the front adjusters alone; front left",
        within=3e-6,
        why="the kernel is linear in the tilt of the body, the engine is not",
        expected=element(front_settings, 0),
        got=element(front_for_heights, 0),
    ),
    _settings(
        source="scipy: bounded linear least squares",
        kind=Kind.FORMULATED,
        given="three wishes, two nuts; the first thread ends after 2.5 turns; second nut",
        unit="turn",
        within=1e-9,
        expected=element(within_threads, 1),
        got=lambda: float(nearest_settings(CHANGES, MISSED, low=ENDS[0], high=ENDS[1])[1]),
    ),
]
