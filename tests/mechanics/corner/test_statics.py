"""Laws and refusals of `barwright.mechanics.corner.statics`."""

from __future__ import annotations

import inspect
import itertools
import math
from collections.abc import Callable, Sequence
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import NotConvergedError, QuantityError
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import statics as corner
from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring, Spring
from barwright.mechanics.corner.statics import (
    Rest,
    Support,
    arm_per_free_angle,
    bar_hold,
    bar_torque,
    settle,
    wheel_load,
    wheel_rate,
)
from barwright.mechanics.linkage.arm_and_strut import Linkage, Motion, SwingArm
from barwright.mechanics.linkage.wheel_carrier import Path
from each_case import each_case

ARM = SwingArm(
    load_point=(0.42, -0.28),
    hub_point=(0.42, 0.01),
    damper_foot=(0.31, -0.03),
    damper_mount=(0.24, 0.52),
)
GAS = GasForce(force=260.0, at_length=0.50, slope=-700.0)
ANGLES = st.floats(-0.35, 0.35)
BUSHING = Bushing(rate=150.0, tightened_at=-0.1)
COIL = HelperSpring(rate=15_000.0, free_length=0.40, seat_offset=0.15)
STOP = BumpStop(compressions=(0.0, 0.02, 0.04), forces=(0.0, 800.0, 4000.0), at_length=0.50)
SPRINGS = st.lists(st.sampled_from([GAS, BUSHING, COIL, STOP]), max_size=4)


def _rest(
    free: Real, *, rate: Real = 3600.0, load: Real = 2500.0, springs: Sequence[Spring] = (GAS,)
) -> Rest:
    """Rest with wide limits."""
    return settle(ARM, free_angle=free, rate=rate, load=load, droop=-0.7, bump=1.2, springs=springs)


@given(angle=ANGLES, load=st.floats(0.0, 5000.0), springs=SPRINGS)
def test_torque_and_load_are_inverse(angle: float, load: float, springs: list[Spring]) -> None:
    motion = ARM.motion(angle)
    torque = bar_torque(motion, load=load, springs=springs)

    assert wheel_load(motion, torque=torque, springs=springs) == pytest.approx(load, abs=1e-9)


@given(angle=ANGLES, springs=SPRINGS)
def test_springs_act_side_by_side(angle: float, springs: list[Spring]) -> None:
    motion = ARM.motion(angle)
    torque = sum(float(spring.hold(motion)[0]) for spring in springs)
    stiffness = sum(float(spring.hold(motion)[1]) for spring in springs)
    lever, bend = motion.load.slope, motion.load.curvature

    assert bar_torque(motion, load=2000.0, springs=springs) == pytest.approx(
        2000.0 * lever - torque
    )
    assert wheel_rate(motion, rate=3000.0, load=2000.0, springs=springs) == pytest.approx(
        (3000.0 + stiffness - 2000.0 * bend) / lever**2
    )
    assert arm_per_free_angle(motion, rate=3000.0, load=2000.0, springs=springs) == pytest.approx(
        3000.0 / (3000.0 + stiffness - 2000.0 * bend)
    )


@given(angle=ANGLES, torque=st.floats(100.0, 2000.0), scale=st.floats(0.1, 10.0))
def test_load_and_rate_scale_with_the_spring(angle: float, torque: float, scale: float) -> None:
    motion = ARM.motion(angle)
    load = wheel_load(motion, torque=torque)
    scaled = wheel_load(motion, torque=scale * torque)

    assert scaled == pytest.approx(scale * load, rel=1e-13)
    assert wheel_rate(motion, rate=scale * 3000.0, load=scaled) == pytest.approx(
        scale * wheel_rate(motion, rate=3000.0, load=load), rel=1e-12
    )


@given(angle=ANGLES)
def test_gas_carries_a_part_of_the_load(angle: float) -> None:
    motion = ARM.motion(angle)

    assert bar_torque(motion, load=2500.0, springs=[GAS]) < bar_torque(motion, load=2500.0)


@given(free=st.floats(-0.6, -0.2), add=st.floats(0.001, 0.1), springs=SPRINGS)
def test_greater_free_angle_rests_the_arm_at_a_greater_one(
    free: float, add: float, springs: list[Spring]
) -> None:
    # The lever turned in the bump sense lifts the wheel toward the body: the car sinks.
    assert _rest(free + add, springs=springs).angle > _rest(free, springs=springs).angle


@given(load=st.floats(1000.0, 3000.0), add=st.floats(1.0, 500.0))
def test_greater_load_rests_the_arm_higher(load: float, add: float) -> None:
    assert _rest(-0.5, load=load + add).angle > _rest(-0.5, load=load).angle


@given(scale=st.floats(0.2, 5.0))
def test_rest_depends_only_on_the_ratio_of_load_to_rate(scale: float) -> None:
    plain = _rest(-0.5, springs=()).angle
    scaled = _rest(-0.5, rate=scale * 3600.0, load=scale * 2500.0, springs=()).angle

    assert scaled == pytest.approx(plain, abs=1e-12)


def test_rest_is_a_float_for_floats_and_an_array_for_arrays() -> None:
    one, several = _rest(-0.5), _rest(np.full((2, 3), -0.5))

    assert type(one.angle) is float
    assert one.support is Support.BAR
    assert np.shape(several.angle) == np.shape(several.support) == (2, 3)
    assert np.all(several.angle == one.angle)
    assert np.all(several.support == Support.BAR)


def test_neighbours_do_not_change_an_element() -> None:
    alone = np.asarray(_rest(np.array([-0.5, -0.4])).angle)
    together = np.asarray(_rest(np.array([-0.5, -0.4, 3.0, -3.0, -0.7, 0.1])).angle)

    assert together[:2].tolist() == alone.tolist()


def test_arm_at_rest_follows_the_free_angle_alone_where_height_has_no_curvature() -> None:
    flat = attrs.evolve(ARM, load_point=(0.42, 0.0)).motion(0.0)

    assert arm_per_free_angle(flat, rate=3000.0, load=2500.0) == pytest.approx(1.0, rel=1e-14)


# -- What a corner rests on -------------------------------------------------------------


def test_every_place_of_rest_has_its_word() -> None:
    # Loads and free angles that put the corner on each, without and with a spring.
    rest = settle(
        ARM,
        free_angle=np.array([-0.4, -0.6, 0.1, 0.3, 0.3]),
        rate=3600.0,
        load=np.array([2500.0, 800.0, 5000.0, 60.0, 9000.0]),
        droop=-0.35,
        bump=0.35,
        springs=[GAS],
    )

    assert list(rest.support) == [
        Support.BAR,
        Support.DROOP,
        Support.BUMP,
        Support.DROOP,
        Support.BUMP,
    ]
    assert np.asarray(rest.angle)[1:].tolist() == [-0.35, 0.35, -0.35, 0.35]
    slack = settle(
        ARM, free_angle=0.3, rate=3600.0, load=500.0, droop=-0.35, bump=0.35, springs=[COIL]
    )
    assert slack.support is Support.SPRINGS
    assert -0.35 < slack.angle < 0.3


def test_words_say_what_holds() -> None:
    assert [support.value for support in Support] == [
        "the bar, with the springs beside it",
        "the springs beside the bar, which is slack",
        "the limit of droop",
        "the limit of bump",
    ]


def test_bar_that_is_held_both_ways_pulls_the_arm_down() -> None:
    """Gas that carries more than the load: the bar alone keeps the arm from the droop limit."""
    gas = GasForce(force=9000.0, at_length=0.50, slope=-700.0)
    known: dict[str, Any] = {
        "free_angle": -0.2,
        "rate": 3600.0,
        "load": 2500.0,
        "droop": -0.7,
        "bump": 1.2,
    }
    let_go = settle(ARM, **known, springs=(gas,))
    held = settle(ARM, **known, springs=(gas,), holds_both_ways=True)

    assert (let_go.angle, let_go.support) == (-0.7, Support.DROOP)
    assert -0.7 < held.angle < -0.2
    assert held.support is Support.BAR
    torque = 3600.0 * (held.angle + 0.2)
    load = wheel_load(ARM.motion(held.angle), torque=torque, springs=(gas,))
    assert load == pytest.approx(2500.0)


@given(free=ANGLES)
def test_bar_that_is_wound_is_held_alike_one_way_or_both(free: float) -> None:
    known: dict[str, Any] = {
        "free_angle": free,
        "rate": 3600.0,
        "load": 2500.0,
        "droop": -0.7,
        "bump": 1.2,
    }
    one, both = (settle(ARM, **known, holds_both_ways=way) for way in (False, True))

    assert both.angle == one.angle
    assert both.support is one.support is Support.BAR


def test_nothing_to_carry_hangs_at_droop() -> None:
    rest = settle(ARM, free_angle=0.1, rate=3600.0, load=0.0, droop=-0.2, bump=0.2)

    assert (rest.angle, rest.support) == (-0.2, Support.DROOP)


def test_arm_between_limits_that_meet_has_one_place() -> None:
    for load in (10.0, 9000.0):
        rest = settle(ARM, free_angle=-0.4, rate=3600.0, load=load, droop=0.1, bump=0.1)
        assert (rest.angle, rest.support) == (0.1, Support.DROOP)


def test_bar_of_no_rate_leaves_the_car_to_the_springs() -> None:
    with_bar, without = (
        settle(ARM, free_angle=free, rate=rate, load=500.0, droop=-0.5, bump=0.5, springs=[COIL])
        for free, rate in ((0.5, 3600.0), (-0.5, 0.0))
    )
    assert with_bar.angle == pytest.approx(without.angle, abs=1e-15)
    assert (with_bar.support, without.support) == (Support.SPRINGS, Support.BAR)


@given(load=st.floats(3500.0, 6000.0))
def test_stop_holds_what_the_bar_does_not(load: float) -> None:
    plain, stopped = (_rest(-0.2, load=load, springs=springs) for springs in ((), (STOP,)))

    assert stopped.angle < plain.angle
    carried = wheel_load(
        ARM.motion(stopped.angle), torque=3600.0 * (stopped.angle + 0.2), springs=[STOP]
    )
    assert carried == pytest.approx(load, rel=1e-9)


# Over its dead centre a coil helps less and less, then pushes the wheel up.
LEVEL = attrs.evolve(ARM, load_point=(0.42, 0.0))
OVER_CENTRE = HelperSpring(
    rate=60_000.0, free_length=0.25, arm_point=(0.20, 0.0), chassis_point=(0.35, 0.0)
)


@pytest.mark.parametrize(
    ("load", "angle", "support"),
    [
        (1300.0, -0.5, Support.DROOP),
        (1500.0, -0.447, Support.SPRINGS),
        (1600.0, 0.347, Support.BAR),
        (5000.0, 0.5, Support.BUMP),
    ],
)
def test_of_several_rests_it_is_the_first_from_droop(
    load: float, angle: float, support: Support
) -> None:
    rest = settle(
        LEVEL,
        free_angle=0.1,
        rate=5000.0,
        load=load,
        droop=-0.5,
        bump=0.5,
        springs=[OVER_CENTRE],
    )

    assert rest.angle == pytest.approx(angle, abs=5e-4)
    assert rest.support is support


class _Counted(Linkage):
    """A swing arm that counts how often it is asked."""

    def __init__(self) -> None:
        self.asked = 0

    def motion(self, angle: Real) -> Motion:
        """State of the arm."""
        self.asked += 1
        return ARM.motion(angle)

    def angle_at_damper_length(self, length: Real) -> Real:
        """Arm angle at a damper length."""
        return ARM.angle_at_damper_length(length)


@pytest.mark.parametrize("springs", [[], [GAS, STOP, COIL]], ids=["bar", "bar and springs"])
def test_rest_is_found_in_a_few_looks(springs: list[Spring]) -> None:
    linkage = _Counted()
    settle(
        linkage,
        free_angle=-0.2,
        rate=1000.0,
        load=2600.0,
        droop=-0.5,
        bump=1.2,
        springs=springs,
    )

    assert linkage.asked <= 8


# -- Refusals ---------------------------------------------------------------------------


class _Lost(Linkage):
    """A linkage that never knows its state."""

    def motion(self, angle: Real) -> Motion:
        """Give no number, in the shape of the angle."""
        number = np.nan * np.asarray(angle)
        path = Path(number, number, slope=number, curvature=number)
        return Motion(number, path, path, number, number, number, number)

    def angle_at_damper_length(self, length: Real) -> Real:
        """Leave the length as it is."""
        return length


def test_linkage_without_a_state_is_no_rest() -> None:
    with pytest.raises(NotConvergedError) as caught:
        settle(_Lost(), free_angle=0.0, rate=3000.0, load=0.0, droop=-1.0, bump=1.0)

    assert caught.value.code == "N101"
    assert caught.value.exit_code == 3


@each_case(
    "wrong, name",
    itertools.product(
        [math.nan, math.inf, -math.inf], ["free_angle", "rate", "load", "droop", "bump"]
    ),
)
def test_figure_that_is_no_number_is_no_rest(name: str, wrong: float) -> None:
    figures: dict[str, Real] = {
        "free_angle": -0.5,
        "rate": 3600.0,
        "load": 2500.0,
        "droop": -0.4,
        "bump": 0.4,
    }
    for value in (wrong, np.array([figures[name], wrong])):
        with pytest.raises(QuantityError) as caught:
            settle(ARM, **(figures | {name: value}))
        assert caught.value.fields == {
            "code": "Q301",
            "value": f"{wrong:.6g}",
            "expected": "a finite number",
            "remedy": "look for a missing value or a division by zero",
            "key": name,
            "file": "",
            "line": 0,
        }


def test_negative_rate_is_no_bar() -> None:
    with pytest.raises(QuantityError) as caught:
        _rest(-0.5, rate=np.array([3600.0, -0.5]))

    assert (caught.value.code, caught.value.key) == ("Q302", "rate")
    assert (caught.value.value, caught.value.expected) == ("-0.5", "0 or more")
    assert caught.value.remedy == "check its sign"


def test_droop_above_bump_is_no_travel() -> None:
    with pytest.raises(QuantityError) as caught:
        settle(
            ARM,
            free_angle=-0.5,
            rate=3600.0,
            load=2500.0,
            droop=np.array([-0.4, 0.25]),
            bump=0.2,
        )

    assert (caught.value.code, caught.value.key, caught.value.value) == ("Q302", "droop", "0.25")
    assert caught.value.expected == "a limit of droop that is not above that of bump"
    assert caught.value.remedy == "angles are positive in the bump sense: check signs and order"


KERNELS = [wheel_load, bar_torque, wheel_rate, arm_per_free_angle, settle]


@pytest.mark.parametrize("kernel", KERNELS, ids=lambda kernel: kernel.__name__)
def test_no_two_figures_go_without_their_names(kernel: Callable[..., object]) -> None:
    plain = [
        parameter.name
        for parameter in inspect.signature(kernel).parameters.values()
        if parameter.kind is not inspect.Parameter.KEYWORD_ONLY
    ]
    assert plain in (["motion"], ["linkage"])
    assert kernel.__name__ in corner.__all__


# -- What a bar holds ----------------------------------------------------------------------


def test_a_slack_bar_holds_nothing_and_a_clamped_one_pulls() -> None:
    twist = np.array([-0.2, 0.0, 0.2])
    torque, stiffness = bar_hold(twist, rate=3000.0)
    assert list(np.asarray(torque)) == [0.0, 0.0, 600.0]
    assert list(np.asarray(stiffness)) == [0.0, 0.0, 3000.0]
    torque, stiffness = bar_hold(twist, rate=3000.0, holds_both_ways=True)
    assert list(np.asarray(torque)) == [-600.0, 0.0, 600.0]
    assert list(np.asarray(stiffness)) == [3000.0] * 3


def test_a_slack_bar_holds_no_negative_nothing() -> None:
    torque, _ = bar_hold(-0.2, rate=3000.0)
    assert math.copysign(1.0, float(torque)) == 1.0
