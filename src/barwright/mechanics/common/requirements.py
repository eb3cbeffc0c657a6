"""Requirements on figures that kernels check before they compute.

Shared within this package, and public to nobody else: there is no model here.  A
figure that is no number, or is infinite, is refused as such (Q301); one that is a
number but cannot be, as beyond the range that is physically possible (Q302).  Of an
array the first wrong element is named.  Nothing is clipped, rounded or replaced.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from barwright.errors import QuantityError
from barwright.mechanics.common.one_or_many import some
from barwright.mechanics.common.types import Real

__all__: list[str] = []


def require_finite(**figures: Real) -> None:
    """Refuse figures that are not finite numbers."""
    for key, value in figures.items():
        refuse(
            "Q301",
            value,
            where=~np.isfinite(value),
            expected="a finite number",
            remedy="look for a missing value or a division by zero",
            key=key,
        )


def require_positive(**figures: Real) -> None:
    """Refuse figures that are not finite or not above zero."""
    _require(operator.le, "more than 0", figures)


def require_not_negative(**figures: Real) -> None:
    """Refuse figures that are not finite or below zero."""
    _require(operator.lt, "0 or more", figures)


def _require(
    is_refused: Callable[[Real, float], Any], expected: str, figures: Mapping[str, Real]
) -> None:
    require_finite(**figures)
    for key, value in figures.items():
        where = is_refused(value, 0.0)
        refuse("Q302", value, where=where, expected=expected, remedy="check its sign", key=key)


def refuse(code: str, value: Real, *, where: Any, expected: str, remedy: str, key: str) -> None:  # noqa: ANN401
    """Refuse wrong figures, naming the first."""
    if some(where):
        wrong = np.broadcast_to(value, np.shape(where))[np.asarray(where)].flat[0]
        raise QuantityError(code, value=f"{wrong:.6g}", expected=expected, remedy=remedy, key=key)
