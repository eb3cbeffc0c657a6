"""What a row of columns costs, counted in states of its linkage: never in seconds."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

import barwright as bw
from barwright.mechanics.linkage.algebraic_linkage import AlgebraicLinkage
from sample_packs import discovered_once

ROWS = 4000


def states_a_row(
    monkeypatch: pytest.MonkeyPatch, setup: bw.Setup, question: Any, **table: Any
) -> float:
    """Count the states of the linkage that a row of a question takes."""
    asked: list[int] = []
    own = AlgebraicLinkage.motion

    def counted(self: AlgebraicLinkage, angle: Any) -> Any:
        found: Any = own(self, angle)
        asked.append(int(np.size(getattr(found.load.slope, "low", found.load.slope))))
        return found

    monkeypatch.setattr(AlgebraicLinkage, "motion", counted)
    answer = bw.batch(setup, table, asked=question)
    assert not answer.error_texts
    return sum(asked) / ROWS


def columns(setup: bw.Setup, *, with_arm: bool) -> dict[str, Any]:
    """Loads and, if wanted, arms about a corner's own."""
    chance = np.random.default_rng(3)
    mass = float(setup.load.mass.m_as("kg"))
    table = {"load.mass [kg]": mass * chance.uniform(0.95, 1.05, ROWS)}
    if with_arm:
        radius = float(setup.arm.radius.m_as("mm"))
        table["arm.radius [mm]"] = radius * chance.uniform(0.995, 1.005, ROWS)
    return table


VEHICLES = ["fells:chassis/short", "hodmule:chassis/long", "trundlet:chassis/open"]


@pytest.mark.parametrize("vehicle", VEHICLES)
@pytest.mark.parametrize(("with_arm", "most"), [(False, 6.0), (True, 10.0)])
def test_rates_of_a_row_take_few_states(
    monkeypatch: pytest.MonkeyPatch, vehicle: str, *, with_arm: bool, most: float
) -> None:
    corner = "rear left" if "trundlet" in vehicle else "front left"
    setup = discovered_once().setup(vehicle, corner=corner)
    table = columns(setup, with_arm=with_arm)

    # A search of the travel, of which none is left, would take 64 of each row.
    assert states_a_row(monkeypatch, setup, "rates", **table) < most
