"""Vans with something wrong, drawn by chance: how often the cause that is named is the right one.

    cd tests && python wrong_corners.py 10000

prints how often the likeliest cause is the right one, of all and of those that count as found, and
how often causes are right that were given some probability.
"""

from __future__ import annotations

import functools
import sys
from collections.abc import Sequence

import attrs
import numpy as np
from numpy.typing import NDArray

import barwright as bw
from barwright.analysis.diagnosis.diagnose import FOUND
from barwright.analysis.diagnosis.diagnosis import CauseKind
from barwright.analysis.diagnosis.hypotheses import Hypothesis, hypotheses
from barwright.mechanics.uncertainty.hypotheses import deviations_density, posterior
from sample_packs import discovered_once

__all__ = ["Trials", "drawn", "van_hypotheses"]

OWN, COMMON = 1.7e-3, 3.8e-3


@attrs.frozen(eq=False)
class Trials:
    """Vans that were drawn, and what was made of them.

    Parameters
    ----------
    certainty : array
        Probability that the likeliest cause of each was given.
    is_right : array
        Whether that is what was wrong.
    """

    certainty: NDArray[np.float64]
    is_right: NDArray[np.bool_]


@functools.cache
def van_hypotheses() -> Sequence[Hypothesis]:
    """What may be wrong with both front corners of the short van."""
    registry = discovered_once()
    sides = ("front left", "front right")
    corners = [registry.setup("fells:chassis/short", corner=side) for side in sides]
    heights = [bw.ride(one).height.m_as("m") for one in corners]
    bars = [one for one in registry.parts() if isinstance(one, bw.parts.Bar)]
    return hypotheses(corners, heights, bars)


def drawn(count: int, *, seed: int) -> Trials:
    """Draw what is wrong as often as it is said to be found, and heights with their errors."""
    chance = np.random.default_rng(seed)
    possible = van_hypotheses()
    prior = np.array([one.prior for one in possible])
    effects = np.array([one.effects for one in possible])
    keys = [_cause(one) for one in possible]
    names = sorted(set(keys), key=str)
    cause = np.array([names.index(key) for key in keys])
    own = np.full(2, OWN)
    true = chance.choice(len(possible), size=count, p=prior)
    heights = effects[true] + chance.normal(0.0, OWN, (count, 2))
    heights += chance.normal(0.0, COMMON, (count, 1))
    certainty, is_right = np.zeros(count), np.zeros(count, dtype=bool)
    for number, height in enumerate(heights):
        found = posterior(deviations_density(height - effects, own=own, common=COMMON), prior=prior)
        shares = np.bincount(cause, weights=found)
        best = int(np.argmax(shares))
        certainty[number], is_right[number] = shares[best], best == cause[true[number]]
    return Trials(certainty, is_right)


def _cause(one: Hypothesis) -> tuple[CauseKind, int | None, str]:
    by_degree = {CauseKind.SET, CauseKind.LOAD, CauseKind.READING}
    return one.kind, one.corner, "" if one.kind in by_degree else one.named


def main() -> None:
    """Print how well stated probabilities hold."""
    done = drawn(int(sys.argv[1]), seed=1)
    found = done.certainty >= FOUND
    right, of_found = np.mean(done.is_right), np.mean(done.is_right[found])
    print(f"right: {right:.1%} of all, {of_found:.1%} of {np.sum(found)} found")  # noqa: T201
    edges = np.linspace(0.0, 1.0, 11)
    for low, high in zip(edges[:-1], edges[1:], strict=True):  # noqa: RUF007
        own = (done.certainty > low) & (done.certainty <= high)
        if np.any(own):
            stated, share = np.mean(done.certainty[own]), np.mean(done.is_right[own])
            print(f"  stated {stated:.1%}, right {share:.1%} of {np.sum(own)}")  # noqa: T201


if __name__ == "__main__":
    main()
