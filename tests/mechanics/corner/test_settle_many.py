"""`settle_many`: each of many corners rests where it rests alone."""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.errors import NotConvergedError
from barwright.mechanics.common.interval import Interval
from barwright.mechanics.common.many import at_rows
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner.settle_many import LoadedCorners, settle_many
from barwright.mechanics.corner.springs import BumpStop
from barwright.mechanics.corner.statics import settle
from barwright.mechanics.linkage.algebraic import algebraic
from barwright.mechanics.linkage.arm_and_strut import Linkage, Motion
from draws import draws
from linkages import STRUT
from many_corners import KINDS, many_corners


def alone(corners: LoadedCorners) -> np.ndarray:
    """Where the corners rest, as it is found of one."""
    return np.asarray(
        settle(
            corners.linkage.linkage,  # type: ignore[attr-defined]
            free_angle=corners.free_angle,
            rate=corners.rate,
            load=corners.load,
            droop=corners.droop,
            bump=corners.bump,
            springs=corners.springs,
            holds_both_ways=corners.holds_both_ways,
        ).angle
    )


@settings(max_examples=draws(60))
@given(kind=st.sampled_from(list(KINDS)), seed=st.integers(0, 2**32 - 1), harsh=st.booleans())
def test_each_of_many_rests_where_it_rests_alone(kind: str, seed: int, *, harsh: bool) -> None:
    corners = many_corners(kind, 60, chance=np.random.default_rng(seed), harsh=harsh)

    np.testing.assert_allclose(settle_many(corners), alone(corners), rtol=0.0, atol=1e-11)


@settings(max_examples=draws(30))
@given(kind=st.sampled_from(list(KINDS)), seed=st.integers(0, 2**32 - 1), harsh=st.booleans())
def test_neighbours_do_not_change_a_bit(kind: str, seed: int, *, harsh: bool) -> None:
    corners = many_corners(kind, 60, chance=np.random.default_rng(seed), harsh=harsh)
    rows = np.flatnonzero(np.arange(corners.droop.size) % 3 == 0)  # type: ignore[union-attr]

    assert settle_many(corners)[rows].tolist() == settle_many(at_rows(corners, rows)).tolist()


def of_struts(**figures: object) -> LoadedCorners:
    """Corners of one strut."""
    usual = {
        "linkage": algebraic(STRUT),
        "free_angle": -0.3,
        "rate": 3500.0,
        "load": np.linspace(2000.0, 3000.0, 9),
        "droop": -0.3,
        "bump": 0.3,
        "springs": (),
    }
    return LoadedCorners(**(usual | figures))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "figures",
    [
        {"load": np.array([-500.0, 0.0, 2500.0, 1e5, 1e5])},
        {"holds_both_ways": True, "free_angle": 0.1},
        {"free_angle": np.array([-0.9, -0.3, 0.0, 0.29, 0.3, 0.9]), "load": 900.0},
        {"rate": np.array([0.0, 1.0, 3000.0, 1e9])},
        {"droop": 0.1, "bump": 0.1},
    ],
    ids=["stops", "held both ways", "slack", "rates", "no travel"],
)
def test_corners_at_the_ends_of_what_can_be(figures: dict[str, Any]) -> None:
    size = max(np.size(figure) for figure in figures.values())
    corners = of_struts(**({"load": np.full(size, 2500.0)} | figures))
    np.testing.assert_allclose(settle_many(corners), alone(corners), rtol=0.0, atol=1e-11)


@pytest.mark.parametrize("contact", [0.55, 0.6, 0.65])
def test_rest_on_a_hard_stop_is_found_in_bisection(contact: float) -> None:
    hard = BumpStop(compressions=(0.0, 1e-4, 1.0), forces=(0.0, 1e-3, 1e9), at_length=contact)
    corners = of_struts(springs=(hard,), rate=500.0)
    np.testing.assert_allclose(settle_many(corners), alone(corners), rtol=0.0, atol=1e-11)


@attrs.frozen(eq=False)
class Counted(Linkage):
    """A linkage that counts how many states it is asked for."""

    linkage: Linkage
    asked: list[int] = attrs.field(factory=list)

    def motion(self, angle: Any) -> Motion:
        """State of the linkage."""
        if not isinstance(angle, Interval):
            self.asked.append(int(np.size(angle)))
        return self.linkage.motion(angle)

    def angle_at_damper_length(self, length: Real) -> Real:
        """Not asked for."""
        raise NotImplementedError


def test_usual_corners_take_few_looks_each() -> None:
    number = 4000
    chance = np.random.default_rng(0)
    linkage = Counted(algebraic(STRUT))
    corners = of_struts(
        linkage=linkage,
        load=chance.uniform(2000.0, 3500.0, number),
        free_angle=chance.uniform(-0.45, -0.3, number),
    )
    settle_many(corners)

    # Both ends of the travel, and Newton's steps; a search would take 64 more.
    assert sum(linkage.asked) < 6 * number


def test_what_is_no_number_does_not_settle() -> None:
    with pytest.raises(NotConvergedError):
        settle_many(of_struts(load=np.array([2500.0, np.nan])))
