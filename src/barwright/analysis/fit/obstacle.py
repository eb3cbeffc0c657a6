"""What may keep a bar from its position: looked for in one corner, or in a column of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any, TypeAlias

import attrs

from barwright.analysis.finding import Finding

__all__ = ["Check", "Obstacle", "findings_of"]


@attrs.frozen
class Obstacle:
    """What may keep a bar from its position, or from getting there.

    Parameters
    ----------
    is_there : bool or array of bool
        Whether it does, in a corner or in each of a column of corners.
    told : callable
        Says it of a corner in which it does.
    """

    is_there: Any
    told: Callable[[], Finding]


Check: TypeAlias = Callable[[], Iterable[Obstacle]]
"""Looks for obstacles."""


def findings_of(check: Check) -> Iterator[Finding]:
    """Tell the obstacles that a check finds in a corner.

    Parameters
    ----------
    check : callable
        The check.

    Yields
    ------
    Finding
    """
    return (obstacle.told() for obstacle in check() if obstacle.is_there)
