"""Rows of `barwright.mechanics.spline.involute_inch`: the printed formulas, worked by hand.

The reproduction of ANSI B92.1 that was read prints formulas and no sizes.  A row shows that such
a formula was copied right, and no more.
"""

from __future__ import annotations

import functools

from barwright.mechanics.spline.involute_inch import (
    external_major_diameter,
    external_minor_diameter,
    internal_major_diameter,
    internal_minor_diameter,
)
from validation import Kind, Row

_printed = functools.partial(Row, unit="in", within=1e-9, kind=Kind.REPRODUCED)
TABLE = "ANSI B92.1, table of formulas, in a reproduction"


def pitch(teeth_per_inch: float) -> dict[str, float]:
    """Spline of 30 teeth."""
    return {"teeth": 30.0, "diametral_pitch": teeth_per_inch / 0.0254}


ROWS = [
    _printed(
        of="involute_inch.external_major_diameter",
        source=f"{TABLE}: (N + 1)/P, by hand",
        given="30 teeth, 12/24",
        expected=31.0 / 12.0,
        got=lambda: float(external_major_diameter(**pitch(12.0))) / 0.0254,
    ),
    _printed(
        of="involute_inch.external_minor_diameter",
        source=f"{TABLE}: (N − 1.8)/P up to 12/24, by hand",
        given="30 teeth, 12/24",
        expected=2.35,
        got=lambda: float(external_minor_diameter(**pitch(12.0))) / 0.0254,
    ),
    _printed(
        of="involute_inch.external_minor_diameter",
        source=f"{TABLE}: (N − 2)/P from 16/32, by hand",
        given="30 teeth, 16/32",
        expected=1.75,
        got=lambda: float(external_minor_diameter(**pitch(16.0))) / 0.0254,
    ),
    _printed(
        of="involute_inch.internal_major_diameter",
        source=f"{TABLE}: (N + 1.8)/P, by hand",
        given="30 teeth, 12/24",
        expected=2.65,
        got=lambda: float(internal_major_diameter(**pitch(12.0))) / 0.0254,
    ),
    _printed(
        of="involute_inch.internal_minor_diameter",
        source=f"{TABLE}: (N − 1)/P, by hand",
        given="30 teeth, 12/24",
        expected=29.0 / 12.0,
        got=lambda: float(internal_minor_diameter(**pitch(12.0))) / 0.0254,
    ),
]
