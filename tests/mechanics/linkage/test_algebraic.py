"""`algebraic`: the linkages by directions are those by angles, and their bounds hold."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.common.interval import Interval
from barwright.mechanics.common.many import bounds_inside
from barwright.mechanics.linkage.algebraic import algebraic, shortens
from barwright.mechanics.linkage.arm_and_strut import Linkage, Motion
from barwright.mechanics.linkage.inclined import InclinedLinkage
from linkages import ANGLES, CROSSED, EACH, STRUT, STRUTS, SWING_ARMS, WISHBONE, WISHBONES
from many_corners import KINDS, varied

LINKAGES = st.one_of(
    SWING_ARMS,
    STRUTS,
    WISHBONES,
    st.just(CROSSED),
    SWING_ARMS.map(lambda arm: InclinedLinkage(arm, 0.97)),
)


def values(motion: Motion) -> Iterator[tuple[str, Any]]:
    """All values of a motion, by their names."""
    for field in attrs.fields(Motion):
        value = getattr(motion, field.name)
        if field.name in ("load", "hub"):
            for part in attrs.fields(type(value)):
                yield f"{field.name}.{part.name}", getattr(value, part.name)
        else:
            yield field.name, value


@given(linkage=LINKAGES, angle=ANGLES)
def test_motion_is_the_same_by_directions_as_by_angles(linkage: Linkage, angle: float) -> None:
    ours, theirs = algebraic(linkage).motion(angle), linkage.motion(angle)

    for (name, one), (_, other) in zip(values(ours), values(theirs), strict=True):
        assert float(one) == pytest.approx(float(other), rel=1e-12, abs=2e-14), name


@given(kind=st.sampled_from(list(KINDS)), seed=st.integers(0, 2**32 - 1))
def test_motion_of_many_is_that_of_each(kind: str, seed: int) -> None:
    chance = np.random.default_rng(seed)
    linkage = varied(KINDS[kind], 40, chance, share=0.01)
    angles = chance.uniform(-0.3, 0.3, 40)

    ours, theirs = algebraic(linkage).motion(angles), linkage.motion(angles)
    for (name, one), (_, other) in zip(values(ours), values(theirs), strict=True):
        np.testing.assert_allclose(one, other, rtol=1e-12, atol=2e-14, err_msg=name)


@given(linkage=LINKAGES, ends=st.tuples(ANGLES, ANGLES))
def test_bounds_hold_whatever_lies_between(linkage: Linkage, ends: tuple[float, float]) -> None:
    low, high = min(ends), max(ends)
    over: Any = algebraic(linkage).motion(Interval(low, high))  # type: ignore[arg-type]
    motion = linkage.motion(np.linspace(low, high, 30))

    for (name, bound), (_, found) in zip(values(over), values(motion), strict=True):
        assert np.all(bound.low <= found + 1e-12), name
        assert np.all(found - 1e-12 <= bound.high), name


@given(kind=st.sampled_from(list(KINDS)), seed=st.integers(0, 2**32 - 1))
def test_bounds_of_many_hold_for_each(kind: str, seed: int) -> None:
    chance = np.random.default_rng(seed)
    linkage = varied(KINDS[kind], 30, chance, share=0.02)
    angles = chance.uniform(-0.1, 0.2, 30)

    over: Any = bounds_inside(algebraic(linkage)).motion(Interval(-0.1, 0.2))  # type: ignore[arg-type]
    for (name, bound), (_, found) in zip(values(over), values(linkage.motion(angles)), strict=True):
        assert np.all(bound.low <= found + 1e-12), name
        assert np.all(found - 1e-12 <= bound.high), name


@pytest.mark.parametrize("name", EACH)
def test_bounds_of_a_narrow_stretch_are_narrow(name: str) -> None:
    over: Any = algebraic(EACH[name]).motion(Interval(0.1, 0.1 + 1e-6))  # type: ignore[arg-type]

    for what, bound in values(over):
        if what != "tilt":
            assert float(bound.high - bound.low) < 1e-4, what


@pytest.mark.parametrize("linkage", [STRUT, WISHBONE])
def test_links_that_do_not_meet_are_refused_in_the_words_of_one(linkage: Linkage) -> None:
    shortened = attrs.evolve(linkage, arm_radius=1.4)  # type: ignore[misc]
    if linkage is STRUT:
        shortened = attrs.evolve(STRUT, offset=0.9)
    with pytest.raises(GeometryError) as ours:
        algebraic(shortened).motion(np.array([0.0, 0.1]))
    with pytest.raises(GeometryError) as theirs:
        shortened.motion(np.array([0.0, 0.1]))

    assert str(ours.value) == str(theirs.value)


@pytest.mark.filterwarnings("ignore:invalid value")
def test_damper_without_a_length_has_no_slope() -> None:
    folded = attrs.evolve(EACH["swing arm"], damper_foot=(0.3, 0.0), damper_mount=(0.3, 0.0))  # type: ignore[misc]

    for linkage in (folded, algebraic(folded)):
        assert np.isnan(linkage.motion(np.array([0.0])).damper_slope)


@pytest.mark.parametrize("name", EACH)
def test_damper_s_length_leads_back_to_the_angle(name: str) -> None:
    linkage = algebraic(EACH[name])
    assert linkage.angle_at_damper_length(linkage.motion(0.1).damper_length) == pytest.approx(
        0.1, abs=1e-12
    )


@given(
    kind=st.sampled_from(list(KINDS)),
    low=st.floats(-1.4, 0.0),
    high=st.floats(0.0, 1.4),
    tilted=st.booleans(),
)
def test_damper_that_is_said_to_shorten_does_so_all_the_way(
    *, kind: str, low: float, high: float, tilted: bool
) -> None:
    linkage = InclinedLinkage(KINDS[kind], 0.9) if tilted else KINDS[kind]
    angles = np.linspace(low, high, 400)
    try:
        found = shortens(algebraic(linkage), low=low, high=high)
    except GeometryError:
        with pytest.raises(GeometryError):
            linkage.motion(angles)
        return
    if found:
        assert np.all(np.asarray(linkage.motion(angles).damper_slope) < 0.0)


@pytest.mark.parametrize("name", EACH)
def test_usual_travel_is_known_to_shorten_the_damper(name: str) -> None:
    assert shortens(algebraic(EACH[name]), low=-0.3, high=0.3)
    assert not shortens(algebraic(EACH[name]), low=-0.3, high=0.3 + 2.0 * np.pi)


def test_wishbone_whose_upper_pivot_comes_nearest_within_the_travel_is_left_open() -> None:
    wide = attrs.evolve(WISHBONE, upper_pivot=(0.34, 0.0), upper_radius=0.28)
    assert not shortens(algebraic(wide), low=-0.1, high=0.1)
