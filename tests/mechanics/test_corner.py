"""Laws and refusals of `barwright.mechanics.corner`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import NotConvergedError
from barwright.mechanics import corner
from barwright.mechanics.corner import (
    NO_GAS,
    GasForce,
    arm_per_free_angle,
    bar_torque,
    natural_frequency,
    settle,
    wheel_load,
    wheel_rate,
)
from barwright.mechanics.linkage import Linkage, Motion, Path, SwingArm
from barwright.mechanics.types import Real

ARM = SwingArm(
    load_point=(0.42, -0.28),
    hub_point=(0.42, 0.01),
    damper_foot=(0.31, -0.03),
    damper_mount=(0.24, 0.52),
)
GAS = GasForce(force=260.0, at_length=0.50, slope=-700.0)
ANGLES = st.floats(-0.35, 0.35)
GASES = st.sampled_from([NO_GAS, GAS])


def _rest(free: Real, *, rate: float = 3600.0, load: float = 2500.0, gas: GasForce = GAS) -> Real:
    """Angle of rest with wide limits."""
    return settle(ARM, free_angle=free, rate=rate, load=load, droop=-1.2, bump=1.2, gas=gas)


@given(angle=ANGLES, load=st.floats(0.0, 5000.0), gas=GASES)
def test_torque_and_load_are_inverse(angle: float, load: float, gas: GasForce) -> None:
    motion = ARM.motion(angle)
    torque = bar_torque(motion, load=load, gas=gas)

    assert wheel_load(motion, torque=torque, gas=gas) == pytest.approx(load, abs=1e-9)


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

    assert bar_torque(motion, load=2500.0, gas=GAS) < bar_torque(motion, load=2500.0)


@given(length=st.floats(0.3, 0.7))
def test_gas_force_follows_its_line(length: float) -> None:
    assert GAS.at(GAS.at_length) == GAS.force
    assert GAS.at(length) - GAS.force == pytest.approx(-700.0 * (length - 0.5), abs=1e-10)
    assert NO_GAS.at(length) == 0.0


@given(free=st.floats(-0.6, -0.2), add=st.floats(0.001, 0.1), gas=GASES)
def test_greater_free_angle_rests_the_arm_at_a_greater_one(
    free: float, add: float, gas: GasForce
) -> None:
    # The lever turned in the bump sense lifts the wheel toward the body: the car sinks.
    assert _rest(free + add, gas=gas) > _rest(free, gas=gas)


@given(load=st.floats(1000.0, 3000.0), add=st.floats(1.0, 500.0))
def test_greater_load_rests_the_arm_higher(load: float, add: float) -> None:
    assert _rest(-0.5, load=load + add) > _rest(-0.5, load=load)


@given(scale=st.floats(0.2, 5.0))
def test_rest_depends_only_on_the_ratio_of_load_to_rate(scale: float) -> None:
    plain = _rest(-0.5, gas=NO_GAS)
    scaled = _rest(-0.5, rate=scale * 3600.0, load=scale * 2500.0, gas=NO_GAS)

    assert scaled == pytest.approx(plain, abs=1e-12)


def test_rest_is_a_float_for_floats_and_an_array_for_arrays() -> None:
    assert type(_rest(-0.5)) is float
    assert np.shape(_rest(np.full((2, 3), -0.5))) == (2, 3)


def test_neighbours_do_not_change_an_element() -> None:
    alone = np.asarray(_rest(np.array([-0.5, -0.4])))
    together = np.asarray(_rest(np.array([-0.5, -0.4, 3.0, -3.0, -0.7, 0.1])))

    assert together[:2].tolist() == alone.tolist()


def test_arm_at_rest_follows_the_free_angle_alone_where_height_has_no_curvature() -> None:
    flat = attrs.evolve(ARM, load_point=(0.42, 0.0)).motion(0.0)

    assert arm_per_free_angle(flat, rate=3000.0, load=2500.0) == pytest.approx(1.0, rel=1e-14)


@given(rate=st.floats(1e3, 1e6), mass=st.floats(1.0, 1e3), scale=st.floats(0.1, 10.0))
def test_frequency_grows_with_the_root_of_rate_over_mass(
    rate: float, mass: float, scale: float
) -> None:
    plain = natural_frequency(rate=rate, mass=mass)

    assert natural_frequency(rate=scale * rate, mass=scale * mass) == pytest.approx(plain)
    assert natural_frequency(rate=scale**2 * rate, mass=mass) == pytest.approx(scale * plain)


class _Lost(Linkage):
    """A linkage that never knows its state."""

    def motion(self, angle: Real) -> Motion:
        """Give no number, in the shape of the angle."""
        number = np.nan * np.asarray(angle)
        path = Path(number, number, slope=number, curvature=number)
        return Motion(path, path, number, number, number, number)

    def angle_at_damper_length(self, length: Real) -> Real:
        """Leave the length as it is."""
        return length


def test_iteration_without_an_answer_says_so() -> None:
    with pytest.raises(NotConvergedError) as caught:
        settle(ARM, free_angle=-0.5, rate=3600.0, load=2500.0, droop=math.nan, bump=0.4)

    assert caught.value.code == "N101"
    assert caught.value.exit_code == 3


def test_linkage_without_a_state_is_no_rest() -> None:
    with pytest.raises(NotConvergedError) as caught:
        settle(_Lost(), free_angle=0.0, rate=3000.0, load=0.0, droop=-1.0, bump=1.0)

    assert caught.value.code == "N101"


@pytest.mark.parametrize("name", ["free_angle", "rate", "load"])
def test_figure_that_is_no_number_is_no_rest(name: str) -> None:
    figures = {"free_angle": -0.5, "rate": 3600.0, "load": 2500.0} | {name: math.nan}
    with pytest.raises(NotConvergedError):
        settle(
            ARM,
            free_angle=figures["free_angle"],
            rate=figures["rate"],
            load=figures["load"],
            droop=-0.4,
            bump=0.4,
        )


KERNELS = [wheel_load, bar_torque, wheel_rate, arm_per_free_angle, settle, natural_frequency]


@pytest.mark.parametrize("kernel", KERNELS, ids=lambda kernel: kernel.__name__)
def test_no_two_figures_go_without_their_names(kernel: Callable[..., object]) -> None:
    plain = [
        parameter.name
        for parameter in inspect.signature(kernel).parameters.values()
        if parameter.kind is not inspect.Parameter.KEYWORD_ONLY
    ]
    assert plain in ([], ["motion"], ["linkage"])
    assert kernel.__name__ in corner.__all__
