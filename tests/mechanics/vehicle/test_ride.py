"""Laws and refusals of `barwright.mechanics.vehicle.ride`, `damping` and `quarter_vehicle`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.corner import damping
from barwright.mechanics.corner.damping import damping_ratio, required_damper_rate, wheel_damping
from barwright.mechanics.vehicle import quarter_vehicle, ride
from barwright.mechanics.vehicle.quarter_vehicle import RideModes, quarter_vehicle_modes
from barwright.mechanics.vehicle.ride import (
    anti_roll_bar,
    natural_frequency,
    ride_rate,
)
from each_case import each_case

RATES = st.floats(1e3, 1e6)
MASSES = st.floats(1.0, 1e3)
SCALES = st.floats(0.1, 10.0)
QUARTER = {
    "sprung_mass": 350.0,
    "unsprung_mass": 40.0,
    "wheel_rate": 20_000.0,
    "tyre_rate": 200_000.0,
}


def _modes(**changed: Any) -> RideModes:
    return quarter_vehicle_modes(**(QUARTER | changed))


# -- Frequencies --------------------------------------------------------------------------


@given(rate=RATES, mass=MASSES, scale=SCALES)
def test_frequency_grows_with_the_root_of_rate_over_mass(
    rate: float, mass: float, scale: float
) -> None:
    plain = natural_frequency(rate=rate, mass=mass)

    assert natural_frequency(rate=scale * rate, mass=scale * mass) == pytest.approx(plain)
    assert natural_frequency(rate=scale**2 * rate, mass=mass) == pytest.approx(scale * plain)


def test_a_radian_a_second_is_a_turn_in_two_pi() -> None:
    assert natural_frequency(rate=1.0, mass=1.0) == pytest.approx(0.15915494309189535, rel=1e-15)
    assert natural_frequency(rate=0.0, mass=1.0) == 0.0


@given(wheel=RATES, tyre=RATES)
def test_ride_rate_is_below_either_and_the_same_the_other_way_round(
    wheel: float, tyre: float
) -> None:
    found = ride_rate(wheel_rate=wheel, tyre_rate=tyre)

    assert found < min(wheel, tyre)
    assert found == pytest.approx(ride_rate(wheel_rate=tyre, tyre_rate=wheel), rel=1e-14)
    assert ride_rate(wheel_rate=wheel, tyre_rate=wheel) == pytest.approx(wheel / 2.0, rel=1e-14)


# -- Dampers ------------------------------------------------------------------------------


@given(rate=RATES, ratio=st.floats(0.1, 2.0))
def test_damping_at_the_wheel_goes_with_the_square_of_the_motion_ratio(
    rate: float, ratio: float
) -> None:
    at_wheel = wheel_damping(damper_rate=rate, motion_ratio=ratio)

    assert at_wheel == wheel_damping(damper_rate=rate, motion_ratio=-ratio)
    assert at_wheel == pytest.approx(rate * ratio * ratio, rel=1e-14)
    assert wheel_damping(damper_rate=rate, motion_ratio=0.0) == 0.0


@given(
    ratio=st.floats(0.0, 2.0),
    rate=RATES,
    mass=MASSES,
    motion=st.floats(0.2, 1.5),
    sign=st.booleans(),
)
def test_damper_that_is_asked_for_gives_the_ratio(
    ratio: float, rate: float, mass: float, motion: float, *, sign: bool
) -> None:
    motion = motion if sign else -motion
    damper = required_damper_rate(damping_ratio=ratio, rate=rate, mass=mass, motion_ratio=motion)
    at_wheel = wheel_damping(damper_rate=damper, motion_ratio=motion)

    assert damping_ratio(damping=at_wheel, rate=rate, mass=mass) == pytest.approx(
        ratio, rel=1e-13, abs=1e-15
    )


def test_critical_damping_of_a_unit_mass_on_a_unit_spring_is_two() -> None:
    assert damping_ratio(damping=2.0, rate=1.0, mass=1.0) == 1.0
    assert damping_ratio(damping=0.0, rate=1.0, mass=1.0) == 0.0
    assert required_damper_rate(
        damping_ratio=1.0, rate=4.0, mass=9.0, motion_ratio=0.5
    ) == pytest.approx(48.0)


# -- Both masses --------------------------------------------------------------------------


def test_modes_lie_outside_those_of_each_mass_alone() -> None:
    modes = _modes()
    series = ride_rate(wheel_rate=20_000.0, tyre_rate=200_000.0)

    assert modes.body_mode.frequency < natural_frequency(rate=series, mass=350.0)
    assert modes.hop.frequency > natural_frequency(rate=20_000.0 + 200_000.0, mass=40.0)
    assert modes.body_mode.damping_ratio == pytest.approx(0.0, abs=1e-12)
    assert modes.hop.damping_ratio == pytest.approx(0.0, abs=1e-12)


@given(
    sprung=st.floats(100.0, 800.0),
    unsprung=st.floats(15.0, 90.0),
    wheel=st.floats(8e3, 6e4),
    tyre=st.floats(1e5, 4e5),
    damper=st.floats(0.0, 4000.0),
)
def test_modes_keep_what_a_matrix_keeps(
    sprung: float, unsprung: float, wheel: float, tyre: float, damper: float
) -> None:
    modes = quarter_vehicle_modes(
        sprung_mass=sprung,
        unsprung_mass=unsprung,
        wheel_rate=wheel,
        tyre_rate=tyre,
        damping=damper,
    )
    body, hop = (math.tau * float(mode.frequency) for mode in (modes.body_mode, modes.hop))

    # The product of all eigenvalues, and their sum.
    assert (body * hop) ** 2 == pytest.approx(wheel * tyre / (sprung * unsprung), rel=1e-9)
    assert body * modes.body_mode.damping_ratio + hop * modes.hop.damping_ratio == pytest.approx(
        damper * (1.0 / sprung + 1.0 / unsprung) / 2.0, rel=1e-9, abs=1e-9
    )
    assert 0.0 < body <= hop


def test_little_mass_below_leaves_the_body_alone_on_both_springs() -> None:
    modes = _modes(unsprung_mass=1e-4)
    series = ride_rate(wheel_rate=20_000.0, tyre_rate=200_000.0)

    assert modes.body_mode.frequency == pytest.approx(natural_frequency(rate=series, mass=350.0))


def test_light_damping_is_that_of_the_body_alone_on_a_stiff_tyre() -> None:
    modes = _modes(tyre_rate=1e9, damping=700.0)

    assert modes.body_mode.frequency == pytest.approx(
        natural_frequency(rate=20_000.0, mass=350.0), rel=1e-4
    )
    assert modes.body_mode.damping_ratio == pytest.approx(
        damping_ratio(damping=700.0, rate=20_000.0, mass=350.0), rel=1e-4
    )


def test_wheel_that_no_longer_oscillates_is_kept_apart_from_a_body_that_does() -> None:
    # The wheel is damped beyond critical: two decays of its own, one of them slow.
    modes = _modes(damping=7000.0)

    ratios = sorted(float(mode.damping_ratio) for mode in (modes.body_mode, modes.hop))
    assert ratios[0] < 1.0 < ratios[1]


def test_four_decays_without_oscillation_are_the_slow_two_and_the_fast_two() -> None:
    figures = {"sprung_mass": 1.0, "unsprung_mass": 0.01, "wheel_rate": 1.0, "tyre_rate": 5000.0}
    modes = quarter_vehicle_modes(**figures, damping=15.0)
    c = 15.0
    matrix = np.array(
        [[0, 0, 1, 0], [0, 0, 0, 1], [-1, 1, -c, c], [100, -500_100, 100 * c, -100 * c]]
    )
    decays = np.linalg.eigvals(matrix)
    assert np.all(decays.imag == 0.0)

    fast, less, slow, slowest = np.sort(decays.real)
    for mode, one, other in ((modes.body_mode, slow, slowest), (modes.hop, fast, less)):
        size = math.sqrt(one * other)
        assert mode.frequency == pytest.approx(size / math.tau, rel=1e-9)
        assert mode.damping_ratio == pytest.approx(-(one + other) / (2.0 * size), rel=1e-9)


def test_modes_broadcast() -> None:
    rates = np.array([[10_000.0], [20_000.0]])
    dampers = np.array([0.0, 1500.0, 9000.0])
    column = _modes(wheel_rate=rates, damping=dampers)

    assert np.shape(column.body_mode.frequency) == (2, 3)
    for index, frequency in np.ndenumerate(np.asarray(column.body_mode.frequency)):
        alone = _modes(wheel_rate=float(rates[index[0], 0]), damping=float(dampers[index[1]]))
        assert frequency == pytest.approx(float(alone.body_mode.frequency), rel=1e-12)
        assert np.asarray(column.hop.damping_ratio)[index] == pytest.approx(
            float(alone.hop.damping_ratio), rel=1e-9, abs=1e-12
        )


# -- Anti-roll bar ------------------------------------------------------------------------


def test_anti_roll_bar_of_its_dimensions() -> None:
    stiff = anti_roll_bar(torsional_rate=900.0, arm_length=0.3)

    assert stiff.one_wheel_rate == pytest.approx(10_000.0)
    assert stiff.both_wheels_rate == pytest.approx(20_000.0)
    assert stiff.roll_rate(track=1.5) == pytest.approx(22_500.0)


def test_arms_that_bend_count_twice() -> None:
    # Body and both arms each give way alike: three in a row.
    soft = anti_roll_bar(torsional_rate=900.0, arm_length=0.3, arm_rate=10_000.0)
    assert soft.one_wheel_rate == pytest.approx(10_000.0 / 3.0)
    softest = anti_roll_bar(torsional_rate=900.0, arm_length=0.3, arm_rate=0.5)
    assert softest.one_wheel_rate == pytest.approx(1.0 / (1e-4 + 4.0))


def test_drop_link_that_moves_half_as_far_leaves_a_quarter() -> None:
    half = anti_roll_bar(torsional_rate=900.0, arm_length=0.3, motion_ratio=0.5)
    assert half.one_wheel_rate == pytest.approx(2500.0)


def test_anti_roll_bars_broadcast() -> None:
    bars = anti_roll_bar(
        torsional_rate=np.array([900.0, 1800.0]),
        arm_length=0.3,
        arm_rate=np.array([[10_000.0], [math.inf]]),
    )
    assert np.asarray(bars.one_wheel_rate) == pytest.approx(
        np.array([[1e4 / 3.0, 4e3], [1e4, 2e4]])
    )


# -- Refusals -----------------------------------------------------------------------------

NEEDED = {"damping_ratio": 0.3, "rate": 2e4, "mass": 350.0, "motion_ratio": 0.7}
BAR = {"torsional_rate": 900.0, "arm_length": 0.3, "motion_ratio": 0.8}
# Kernel, good figures, and those that may be 0.
ASKED: list[tuple[Callable[..., Any], dict[str, float], set[str]]] = [
    (natural_frequency, {"rate": 2e4, "mass": 350.0}, {"rate"}),
    (ride_rate, {"wheel_rate": 2e4, "tyre_rate": 2e5}, set()),
    (damping_ratio, {"damping": 1e3, "rate": 2e4, "mass": 350.0}, {"damping"}),
    (wheel_damping, {"damper_rate": 1e3}, {"damper_rate"}),
    (required_damper_rate, NEEDED, {"damping_ratio"}),
    (quarter_vehicle_modes, QUARTER | {"damping": 1e3}, {"damping"}),
    (anti_roll_bar, BAR, set()),
]
EACH = [
    (kernel, figures, name, name in may_be_zero)
    for kernel, figures, may_be_zero in ASKED
    for name in figures
]
REST = {wheel_damping: {"motion_ratio": 0.7}}


@each_case("kernel, figures, name, may_be_zero", EACH)
def test_figure_beyond_its_range_is_refused(
    kernel: Callable[..., Any], figures: dict[str, float], name: str, *, may_be_zero: bool
) -> None:
    figures = figures | REST.get(kernel, {})
    for wrong, code in ((math.nan, "Q301"), (math.inf, "Q301"), (-1e-9, "Q302"), (0.0, "Q302")):
        if name == "motion_ratio" and wrong < 0.0 and kernel is required_damper_rate:
            continue
        if wrong == 0.0 and may_be_zero:
            kernel(**(figures | {name: wrong}))
            continue
        for value in (wrong, np.array([figures[name], wrong])):
            with pytest.raises(QuantityError) as caught:
                kernel(**(figures | {name: value}))
            assert (caught.value.code, caught.value.key) == (code, name)
            assert caught.value.value == f"{wrong:.6g}"


def test_motion_ratio_at_the_wheel_is_a_number() -> None:
    for wrong in (math.nan, math.inf):
        with pytest.raises(QuantityError) as caught:
            wheel_damping(damper_rate=1e3, motion_ratio=wrong)
        assert (caught.value.code, caught.value.key) == ("Q301", "motion_ratio")


def test_damper_that_does_not_move_is_refused() -> None:
    with pytest.raises(QuantityError) as caught:
        required_damper_rate(**(NEEDED | {"motion_ratio": 0.0}))

    assert caught.value.fields == {
        "code": "Q302",
        "value": "0",
        "expected": "anything but 0",
        "remedy": "check the motion ratio: the damper must move with the wheel",
        "key": "motion_ratio",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize("wrong", [0.0, -1.0, math.nan])
def test_arms_without_a_rate_are_refused(wrong: float) -> None:
    with pytest.raises(QuantityError) as caught:
        anti_roll_bar(**BAR, arm_rate=wrong)

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{wrong:g}",
        "expected": "more than 0; infinite for arms that do not bend",
        "remedy": "check its sign",
        "key": "arm_rate",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize("module", [ride, damping, quarter_vehicle])
def test_no_two_figures_go_without_their_names(module: Any) -> None:
    for name in module.__all__:
        kernel = getattr(module, name)
        if inspect.isfunction(kernel):
            parameters = inspect.signature(kernel).parameters.values()
            plain = [p.name for p in parameters if p.kind is not inspect.Parameter.KEYWORD_ONLY]
            assert plain in ([], ["frequency"], ["deflection"])
