"""Rest of a corner against its energy, a fine search, scipy and a load that is lowered on.

The energy is that of :mod:`outside.corners`: bar, springs and load from raw geometry.
"""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np
import pytest
import scipy.optimize
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring, Spring
from barwright.mechanics.corner.statics import STANDARD_GRAVITY, Support, settle
from barwright.mechanics.linkage.arm_and_strut import SwingArm
from draws import draws
from outside.corners import Energy, Engine
from rare_cases import rarely_after

ARM = SwingArm(
    load_point=(0.42, -0.28),
    hub_point=(0.42, 0.01),
    damper_foot=(0.31, -0.03),
    damper_mount=(0.24, 0.52),
)
# The load acts at the hub, above the bar: the weight loses lever in bump.
HIGH = attrs.evolve(ARM, load_point=(0.42, 0.15), damper_mount=(0.15, 0.45))
DROOP, BUMP = -0.5, 0.5
FINE = np.linspace(DROOP, BUMP, 20_001)

GASES = st.builds(
    GasForce, force=st.floats(0.0, 900.0), at_length=st.just(0.5), slope=st.floats(-3000.0, 0.0)
)
BUSHINGS = st.builds(Bushing, rate=st.floats(0.0, 500.0), tightened_at=st.floats(-0.5, 0.3))


def _apart(coil: HelperSpring) -> float:
    """Least distance that an arm which goes all the way round leaves to the spring."""
    assert coil.arm_point is not None
    assert coil.chassis_point is not None
    return float(abs(np.hypot(*coil.arm_point) - np.hypot(*coil.chassis_point)))


# Some of these pass over their dead centre and then push the wheel up.
COILS = st.builds(
    HelperSpring,
    rate=st.floats(1e4, 6e4),
    free_length=st.floats(0.2, 0.35),
    arm_point=st.tuples(st.floats(0.1, 0.3), st.floats(-0.05, 0.05)),
    chassis_point=st.tuples(st.floats(0.2, 0.45), st.floats(-0.1, 0.3)),
).filter(lambda coil: _apart(coil) > 0.03)


@st.composite
def stops(draw: st.DrawFn) -> BumpStop:
    """Stops of foam and rubber, also such as turn softer, at any of the three places."""
    parts = draw(st.integers(1, 4))
    steps = draw(st.lists(st.floats(0.004, 0.02), min_size=parts, max_size=parts))
    rates = draw(st.lists(st.floats(2e3, 5e5), min_size=parts, max_size=parts))
    place: dict[str, Any] = draw(
        st.one_of(
            st.fixed_dictionaries({"at_length": st.floats(0.4, 0.65)}),
            st.fixed_dictionaries({"at_height": st.floats(-0.2, 0.2)}),
            st.fixed_dictionaries({"at_angle": st.floats(-0.4, 0.4), "radius": st.just(0.3)}),
        )
    )
    columns = np.cumsum([0.0, *steps]), np.cumsum([0.0, *np.multiply(steps, rates)])
    return BumpStop(compressions=list(columns[0]), forces=list(columns[1]), **place)


CORNERS = st.builds(
    Energy,
    arm=st.sampled_from([ARM, HIGH]),
    rate=st.floats(0.0, 8000.0),
    free=st.floats(-0.7, 0.7),
    load=st.floats(0.0, 5000.0),
    springs=st.lists(st.one_of(GASES, BUSHINGS, COILS, stops()), max_size=4),
)


def _rest(corner: Energy) -> tuple[float, Support]:
    rest = settle(
        corner.arm,
        free_angle=corner.free,
        rate=corner.rate,
        load=corner.load,
        droop=DROOP,
        bump=BUMP,
        springs=corner.springs,
    )
    return float(rest.angle), rest.support


def _missing(corner: Energy) -> NDArray[np.float64]:
    """Torque that is missing at fine steps of the arm: the energy's fall."""
    return -np.gradient(corner(FINE), FINE)


@settings(max_examples=draws(200))
@given(corner=CORNERS)
def test_energy_falls_all_the_way_from_droop_to_the_rest(corner: Energy) -> None:
    angle, _ = _rest(corner)
    way = np.linspace(DROOP, angle, 4001)
    change = np.diff(corner(way))

    # Energies of some hundred joules are known to a few parts in 1e16 of that.
    assert np.all(change <= 1e-12 * np.ptp(corner(FINE)) + 1e-12)


@settings(max_examples=draws(200))
@given(corner=CORNERS)
def test_energy_rises_beyond_the_rest_unless_a_limit_holds_it(corner: Energy) -> None:
    angle, support = _rest(corner)
    if support is Support.BUMP:
        assert angle == BUMP
        return
    # A place where it is only just held, a hair from a snap-through, has no room to rise in.
    beyond = angle + np.array([0.0, 1e-5, 2e-5])
    energies = corner(beyond)
    assume(abs(np.diff(energies, 2)[0]) > 1e-9)
    assert energies[1] >= energies[0] - 1e-9
    if support is Support.DROOP:
        assert angle == DROOP


@settings(max_examples=draws(100))
@given(corner=CORNERS)
def test_no_place_that_carries_the_load_lies_below_the_rest(corner: Energy) -> None:
    angle, support = _rest(corner)
    carried = np.flatnonzero(_missing(corner) <= 0.0)
    first = float(FINE[carried[0]]) if carried.size else BUMP

    # The differences blur a corner by a step or two.
    assert angle <= first + 2e-4
    if support in {Support.BAR, Support.SPRINGS}:
        assert angle >= first - 2e-4


@settings(max_examples=draws(100))
@given(corner=CORNERS)
def test_rest_is_where_scipy_finds_the_nearest_minimum(corner: Energy) -> None:
    angle, _ = _rest(corner)
    # The nearest places where the energy turns bound the valley.
    falls = _missing(corner) > 0.0
    tops = FINE[:-1][~falls[:-1] & falls[1:]]
    low = max([DROOP, *tops[tops < angle - 1e-3]])
    high = min([BUMP, *tops[tops > angle + 1e-3]])
    found = scipy.optimize.minimize_scalar(
        corner, bounds=(low, high), method="bounded", options={"xatol": 1e-10}
    )
    depth = float(corner(angle)) - float(found.fun)

    assert depth <= 1e-7 * max(1.0, float(np.ptp(corner(FINE))))


@settings(max_examples=draws(60))
@given(corner=CORNERS)
def test_balance_agrees_with_a_bracketing_search(corner: Energy) -> None:
    angle, support = _rest(corner)
    assume(support in {Support.BAR, Support.SPRINGS})

    def unbalanced(at: float) -> float:
        motion = corner.arm.motion(at)
        held = sum(float(spring.hold(motion)[0]) for spring in corner.springs)
        wound = corner.rate * max(at - corner.free, 0.0)
        return wound + held - corner.load * float(motion.load.slope)

    low, high = max(DROOP, angle - 1e-4), min(BUMP, angle + 1e-4)
    assume(unbalanced(low) < 0.0 < unbalanced(high))
    expected = scipy.optimize.brentq(unbalanced, low, high, xtol=1e-15, rtol=1e-14)
    assert angle == pytest.approx(expected, abs=1e-11)


@settings(max_examples=draws(30))
@given(corners=st.lists(CORNERS, min_size=2, max_size=5), load=st.floats(500.0, 4000.0))
def test_column_rests_as_each_alone(corners: list[Energy], load: float) -> None:
    springs = corners[0].springs
    column = settle(
        ARM,
        free_angle=np.array([corner.free for corner in corners]),
        rate=np.array([[corner.rate] for corner in corners]),
        load=load,
        droop=DROOP,
        bump=BUMP,
        springs=springs,
    )
    for index, angle in np.ndenumerate(np.asarray(column.angle)):
        alone = attrs.evolve(
            corners[0],
            arm=ARM,
            free=corners[index[1]].free,
            rate=corners[index[0]].rate,
            load=load,
        )
        rest = _rest(alone)
        assert angle == pytest.approx(rest[0], abs=1e-13)
        assert column.support[index] is rest[1]


# -- A load that is lowered on, in the multibody engine -------------------------------------

LEVEL = attrs.evolve(ARM, load_point=(0.42, 0.0))
OVER_CENTRE = HelperSpring(
    rate=60_000.0, free_length=0.25, arm_point=(0.20, 0.0), chassis_point=(0.35, 0.0)
)
FOAM = BumpStop(compressions=(0.0, 0.01, 0.03), forces=(0.0, 250.0, 3000.0), at_length=0.47)
HEAVY_FOAM = BumpStop(
    compressions=(0.0, 0.01, 0.03), forces=(0.0, 250.0, 3000.0), at_angle=0.1, radius=0.3
)
RUBBER = Bushing(rate=150.0, tightened_at=-0.1)
GAS = GasForce(force=260.0, at_length=0.50, slope=-700.0)
OVER_DAMPER = HelperSpring(rate=12_000.0, free_length=0.40, seat_offset=0.12)


@pytest.mark.parametrize(
    ("arm", "springs", "load"),
    rarely_after(
        3,
        [
            (LEVEL, [OVER_CENTRE], 1450.0),
            (LEVEL, [OVER_CENTRE], 1530.0),
            (LEVEL, [OVER_CENTRE], 1620.0),
            (ARM, [FOAM, GAS], 4200.0),
            (ARM, [HEAVY_FOAM, RUBBER], 4200.0),
            (ARM, [OVER_DAMPER, GAS, RUBBER], 600.0),
            (ARM, [OVER_DAMPER, GAS, RUBBER, FOAM], 3600.0),
        ],
    ),
    ids=[
        "before its dead centre",
        "just before it snaps",
        "snapped through",
        "into a stop on the rod",
        "into a stop at the arm",
        "bar slack",
        "everything at once",
    ],
)
def test_load_lowered_on_comes_to_rest_at_the_same_place(
    arm: SwingArm, springs: list[Spring], load: float
) -> None:
    rate, free, mass = 5000.0, 0.1, load / STANDARD_GRAVITY
    engine = Engine(arm, springs, rate=rate, free=free, mass=mass, damping=500.0, timestep=0.004)
    lowered = engine.lowered_on(-0.5, seconds=120.0)
    rest = settle(arm, free_angle=free, rate=rate, load=load, droop=-0.5, bump=0.6, springs=springs)

    assert float(rest.angle) == pytest.approx(lowered, abs=1e-7)
    assert rest.support is (Support.BAR if lowered > free else Support.SPRINGS)
