"""Verdicts of rows, and figures of those rows that have one."""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.mechanics.common.types import Real

__all__ = ["LONGEST", "Verdicts", "answered", "picked", "where", "words"]

Verdicts: TypeAlias = NDArray[np.str_]
"""Verdict of each row; empty where a row is to be asked about by itself."""


LONGEST = f"<U{max(len(verdict.value) for verdict in Verdict)}"
"""Type of an array of verdicts."""


def words(*verdicts: Verdict) -> list[str]:
    """Spell verdicts, as columns hold them."""
    return [verdict.value for verdict in verdicts]


def answered(verdicts: Verdicts, flags: Any) -> Verdicts:  # noqa: ANN401 - one flag or a column
    """Keep verdicts where flags are raised; the other rows are to be asked about by themselves."""
    return picked(flags, verdicts, "")


def picked(flags: Any, one: Verdicts | str, other: Verdicts | str) -> Verdicts:  # noqa: ANN401 - as above
    """Take a verdict where flags are raised, and another elsewhere; one for all where it can be."""
    if np.all(flags):
        return np.asarray(one)
    return np.where(flags, one, other) if np.any(flags) else np.asarray(other)


def where(flags: Any, numbers: Real | None) -> Any:  # noqa: ANN401 - a number or a column
    """Keep numbers where flags are raised; elsewhere, and where nothing is known, there is none."""
    if numbers is None:
        return np.nan
    # Mostly they are raised in all rows, and to look is quick.
    return numbers if np.all(flags) else np.where(flags, numbers, np.nan)
