"""Laws and refusals of `barwright.mechanics.bar.presetting`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.bar import presetting
from barwright.mechanics.bar.presetting import (
    elastic_core_radius,
    elastic_plastic_torque,
    permanent_twist,
    plastic_torque,
    residual_stress,
    yield_torque,
    yield_twist,
)
from barwright.mechanics.bar.torsion import shear_stress, torsional_rate
from kernel_grids import COLUMN, ROW, Call, assert_a_grid_is_its_places

D, LENGTH, G, TAU = 0.025, 1.0, 80e9, 800e6
R = D / 2.0
BAR = {"diameter": D, "active_length": LENGTH, "shear_modulus": G, "shear_yield": TAU}
FIRST = 0.8  # twist at first yield of that bar, 2 · 800e6 · 1 / (80e9 · 0.025)
SECTION = {"diameter": D, "shear_yield": TAU}
SHARES = st.floats(0.0, 1.0)


@given(diameter=st.floats(0.015, 0.060), length=st.floats(0.3, 2.0), stress=st.floats(2e8, 1.2e9))
def test_first_yield_is_the_elastic_limit(diameter: float, length: float, stress: float) -> None:
    bar = {"diameter": diameter, "active_length": length, "shear_modulus": G}
    torque = yield_torque(diameter=diameter, shear_yield=stress)
    twist = yield_twist(shear_yield=stress, **bar)
    rate = torsional_rate(**bar)

    assert shear_stress(torque, diameter=diameter) == pytest.approx(stress, rel=1e-13)
    assert rate * twist == pytest.approx(torque, rel=1e-13)


def test_torque_runs_from_first_yield_to_full_as_the_core_shrinks() -> None:
    torques = elastic_plastic_torque(np.linspace(R, 0.0, 50), **SECTION)

    assert np.asarray(torques)[0] == pytest.approx(yield_torque(**SECTION), rel=1e-14)
    assert np.asarray(torques)[-1] == plastic_torque(**SECTION)
    assert np.all(np.diff(torques) > 0.0)


@given(twist=st.floats(-FIRST, FIRST))
def test_up_to_first_yield_all_is_elastic(twist: float) -> None:
    assert elastic_core_radius(twist, **BAR) == pytest.approx(R, rel=1e-14)
    assert permanent_twist(twist, **BAR) == pytest.approx(0.0, abs=1e-15)


@given(twist=st.floats(1.01 * FIRST, 20.0), more=st.floats(1.01, 3.0))
def test_more_twist_leaves_a_smaller_core_and_a_larger_set(twist: float, more: float) -> None:
    assert elastic_core_radius(more * twist, **BAR) < elastic_core_radius(twist, **BAR)
    assert 0.0 < permanent_twist(twist, **BAR) < permanent_twist(more * twist, **BAR)


@given(twist=st.floats(FIRST, 20.0))
def test_spring_back_lies_between_first_yield_and_four_thirds_of_it(twist: float) -> None:
    back = twist - permanent_twist(twist, **BAR)

    assert FIRST * (1.0 - 1e-12) <= back <= 4.0 / 3.0 * FIRST * (1.0 + 1e-12)


@given(twist=st.floats(FIRST, 8.0))
def test_spring_back_is_the_torque_over_the_rate(twist: float) -> None:
    core = elastic_core_radius(twist, **BAR)
    torque = elastic_plastic_torque(core, **SECTION)
    rate = torsional_rate(diameter=D, active_length=LENGTH, shear_modulus=G)

    assert permanent_twist(twist, **BAR) == pytest.approx(twist - torque / rate, abs=1e-12)


@given(twist=st.floats(0.0, 8.0))
def test_other_way_round_is_the_mirror_image(twist: float) -> None:
    assert permanent_twist(-twist, **BAR) == -permanent_twist(twist, **BAR)
    assert elastic_core_radius(-twist, **BAR) == elastic_core_radius(twist, **BAR)


def test_just_beyond_first_yield_the_set_grows_with_the_square() -> None:
    # Expanded about first yield, the set is 2 (u - 1)² of the twist there.
    excess = 1e-5
    kept = permanent_twist(FIRST * (1.0 + excess), **BAR)

    assert kept == pytest.approx(2.0 * FIRST * excess**2, rel=1e-4)


@given(core=SHARES, place=SHARES)
def test_what_stays_never_yields(core: float, place: float) -> None:
    stress = residual_stress(place * R, core_radius=core * R, **SECTION)

    assert -TAU / 3.0 * (1.0 + 1e-12) <= stress <= TAU


@given(core=SHARES)
def test_surface_is_left_against_and_edge_of_core_with_the_sense_of_pre_setting(
    core: float,
) -> None:
    surface, edge = (
        residual_stress(place, core_radius=core * R, **SECTION) for place in (R, core * R)
    )

    assert surface <= 1e-12 * TAU
    assert edge >= -1e-12 * TAU
    assert residual_stress(0.0, core_radius=max(core, 0.1) * R, **SECTION) == 0.0


def test_bar_that_only_just_yielded_keeps_nothing() -> None:
    left = residual_stress(np.linspace(0.0, R, 11), core_radius=R, **SECTION)

    assert np.asarray(left) == pytest.approx(np.zeros(11), abs=1e-6)


def test_without_a_core_the_axis_keeps_the_yield_stress() -> None:
    assert residual_stress(0.0, core_radius=0.0, **SECTION) == TAU


@given(core=SHARES)
def test_reloading_to_the_torque_of_pre_setting_brings_yield_back(core: float) -> None:
    torque = elastic_plastic_torque(core * R, **SECTION)
    left = residual_stress(R, core_radius=core * R, **SECTION)

    assert left + shear_stress(torque, diameter=D) == pytest.approx(TAU, rel=1e-12)


@pytest.mark.parametrize(
    ("radius", "share"),
    [(-0.0025, "-0.2"), (D, "2"), (np.array([0.005, 0.015, 0.020]), "1.2"), (math.nan, "nan")],
)
def test_a_radius_outside_the_bar_is_refused(radius: float, share: str) -> None:
    calls: dict[str, Callable[[], object]] = {
        "core_radius": lambda: elastic_plastic_torque(radius, **SECTION),
        "radius": lambda: residual_stress(radius, core_radius=0.005, **SECTION),
    }
    for key, call in calls.items():
        with pytest.raises(QuantityError) as caught:
            call()
        assert str(caught.value) == (
            f'Q302: {key}: got "{share} of the bar\'s radius", '
            "expected a radius between the axis and the surface; "
            "give a radius, not a diameter, in the unit of the bar's"
        )


GRID = {"diameter": D * COLUMN, "shear_yield": TAU * ROW}
LONG = {**GRID, "active_length": LENGTH * ROW, "shear_modulus": G * COLUMN}
CALLS: dict[str, Call] = {
    "yield_torque": (yield_torque, GRID),
    "plastic_torque": (plastic_torque, GRID),
    "yield_twist": (yield_twist, LONG),
    "elastic_core_radius": (elastic_core_radius, {"twist": 0.8 * ROW, **LONG}),
    "elastic_plastic_torque": (elastic_plastic_torque, {"core_radius": 0.007 * ROW, **GRID}),
    "residual_stress": (
        residual_stress,
        {"radius": 0.008 * COLUMN, "core_radius": 0.009 * ROW, **GRID},
    ),
    "permanent_twist": (permanent_twist, {"twist": -0.8 * ROW, **LONG}),
}


@pytest.mark.parametrize("name", presetting.__all__)
def test_a_grid_holds_what_its_places_give_alone(name: str) -> None:
    assert_a_grid_is_its_places(CALLS[name])


@pytest.mark.parametrize("name", presetting.__all__)
def test_at_most_one_argument_goes_without_its_name(name: str) -> None:
    kernel: Callable[..., object] = getattr(presetting, name)
    kinds = [parameter.kind for parameter in inspect.signature(kernel).parameters.values()]

    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) <= 1
    assert kinds.count(inspect.Parameter.KEYWORD_ONLY) >= 1
