"""Whether the bars of a column fit, and where they lie."""

from __future__ import annotations

from typing import cast

import numpy as np

from barwright.analysis.answer import Verdict
from barwright.analysis.fit.length_fit import LengthFit, length_fit
from barwright.columns.asked.question import Figures, Found, Question
from barwright.columns.column_corner import ColumnCorner
from barwright.columns.verdicts import Verdicts, where, words
from barwright.units import LENGTH, Kind

__all__ = ["FIT"]

_KINDS: dict[str, Kind | None] = {
    "position": LENGTH,
    "arm_engagement": LENGTH,
    "anchor_engagement": LENGTH,
    "arm_protrusion": LENGTH,
    "anchor_protrusion": LENGTH,
    "active_length": LENGTH,
}


def _of_column(corner: ColumnCorner) -> tuple[Verdicts, Found]:
    seat = corner.seat
    found = {name: getattr(seat, name) for name in _KINDS if name != "active_length"}
    found["active_length"] = where(corner.lies_in_both, cast("float", corner.seated_length))
    good = np.where(corner.needs_changes, *words(Verdict.FITS_WITH_CHANGES, Verdict.FITS))
    return np.where(corner.does_not_fit, Verdict.DOES_NOT_FIT.value, good), found


def _figures(fit: LengthFit) -> Figures:
    arm, anchor = fit.ends
    return {
        "position": fit.position,
        "arm_engagement": arm.engagement,
        "anchor_engagement": anchor.engagement,
        "arm_protrusion": arm.protrusion,
        "anchor_protrusion": anchor.protrusion,
        "active_length": fit.active_length,
    }


FIT = Question(
    kinds=_KINDS,
    of_column=_of_column,
    of_row=lambda setup, _: length_fit(setup),
    figures=_figures,
)
"""Question of :func:`barwright.length_fit`."""
