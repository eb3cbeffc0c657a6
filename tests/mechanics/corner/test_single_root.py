"""`single_root`: where one place of rest is proven, a fine search finds no second one."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.common.interval import Interval
from barwright.mechanics.common.many import bounds
from barwright.mechanics.corner.settle_many import LoadedCorners, proven_to_rest_once
from barwright.mechanics.corner.single_root import least_stiffness, rests_once
from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring, Spring
from barwright.mechanics.linkage.algebraic import algebraic
from draws import draws
from linkages import ARM
from many_corners import KINDS, many_corners, places_of_rest

STOP = BumpStop(compressions=(0.0, 0.02, 0.04), forces=(0.0, 800.0, 4000.0), at_length=0.55)
SPRINGS: list[Spring] = [
    GasForce(force=260.0, at_length=0.50, slope=-700.0),
    Bushing(rate=150.0, tightened_at=-0.1),
    HelperSpring(rate=15_000.0, free_length=0.40, seat_offset=0.15),
    STOP,
    BumpStop(compressions=(0.0, 0.02), forces=(0.0, 2000.0), at_height=0.05),
    BumpStop(compressions=(0.0, 0.02), forces=(0.0, 2000.0), at_angle=0.1, radius=0.3),
]


@given(ends=st.tuples(st.floats(-0.5, 0.5), st.floats(-0.5, 0.5)), spring=st.sampled_from(SPRINGS))
def test_no_spring_is_softer_than_is_said(ends: tuple[float, float], spring: Spring) -> None:
    low, high = min(ends), max(ends)
    over: Any = algebraic(ARM).motion(Interval(low, high))  # type: ignore[arg-type]
    least = least_stiffness([spring], over=over, view=lambda value: value)

    stiffness = spring.hold(ARM.motion(np.linspace(low, high, 50)))[1]
    assert float(least) <= np.min(stiffness) + 1e-9


def test_of_a_coil_between_mounts_of_its_own_nothing_is_known() -> None:
    coil = HelperSpring(
        rate=1000.0, free_length=0.3, arm_point=(0.2, 0.0), chassis_point=(0.2, 0.3)
    )
    over: Any = algebraic(ARM).motion(Interval(0.0, 0.1))  # type: ignore[arg-type]
    assert least_stiffness([coil], over=over, view=bounds) == -np.inf


def test_springs_in_a_narrow_stretch_are_as_stiff_as_is_said() -> None:
    over: Any = algebraic(ARM).motion(Interval(0.2, 0.2 + 1e-9))  # type: ignore[arg-type]
    for spring in SPRINGS:
        least = least_stiffness([spring], over=over, view=bounds)
        # A stop may have let go in that stretch, for all that is said.
        expected = min(float(spring.hold(ARM.motion(0.2))[1]), np.inf)
        if isinstance(spring, BumpStop | HelperSpring):
            expected = min(expected, 0.0)
        assert float(least) == pytest.approx(expected, abs=1e-3)


@pytest.mark.parametrize(
    ("figures", "expected"),
    [
        ({}, True),
        ({"softening": 3080.0}, False),
        ({"slack": 0.1, "at_slack": -50.0}, True),
        ({"slack": 0.1, "at_slack": -30.0}, False),
        ({"slack": 0.1, "at_slack": 10.0}, False),
        ({"slack": 0.1, "at_slack": 10.0, "holds_both_ways": True}, True),
        ({"slack": 0.1, "at_slack": 10.0, "least": 700.0}, True),
        ({"slack": -0.1, "at_slack": 10.0}, True),
    ],
)
def test_one_place_of_rest_is_proven_by_bounds(figures: dict[str, Any], expected: Any) -> None:
    usual = {"rate": 3000.0, "least": 100.0, "softening": 500.0, "slack": 0.0, "at_slack": 0.0}
    assert bool(rests_once(**(usual | figures))) is expected


def assert_proofs_hold(corners: LoadedCorners, *, looks: int) -> float:
    """Hold proofs against a search in fine steps; return the share that is proven."""
    with np.errstate(all="ignore"):
        at_slack = corners.unbalanced(corners.wound_from)[0]
        proven = proven_to_rest_once(corners, at_slack=at_slack)
    assert not np.any(places_of_rest(corners, looks=looks)[proven] > 1)
    return float(np.mean(proven)) if proven.size else 1.0


@settings(max_examples=draws(40))
@given(kind=st.sampled_from(list(KINDS)), seed=st.integers(0, 2**32 - 1), harsh=st.booleans())
def test_where_one_place_of_rest_is_proven_there_is_no_second(
    kind: str, seed: int, *, harsh: bool
) -> None:
    corners = many_corners(kind, 100, chance=np.random.default_rng(seed), harsh=harsh)
    assert_proofs_hold(corners, looks=150)


def test_harsh_corners_have_several_places_of_rest() -> None:
    # Else the test before would prove nothing.
    corners = many_corners("wishbone", 4000, chance=np.random.default_rng(5), harsh=True)
    assert np.count_nonzero(places_of_rest(corners, looks=150) > 1) > 20


@pytest.mark.parametrize("kind", KINDS)
def test_usual_corners_are_proven(kind: str) -> None:
    chance = np.random.default_rng(2)
    corners = many_corners(kind, 3000, chance=chance, harsh=False, springs=("gas", "bushing"))
    assert assert_proofs_hold(corners, looks=50) > 0.9


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("harsh", [False, True], ids=["usual", "harsh"])
def test_proofs_hold_on_many_random_corners(kind: str, *, harsh: bool) -> None:
    # A million in all in a long run.
    chance, left = np.random.default_rng(11), 125 * draws(100)
    while left > 0:
        corners = many_corners(kind, 8000, chance=chance, harsh=harsh)
        assert_proofs_hold(corners, looks=500)
        left -= int(np.size(corners.droop))
