"""Which drawings show the figures of a corner."""

from __future__ import annotations

from collections.abc import Collection

from barwright.report.drawing.measuring.anchor import (
    FIXED_SOCKET,
    KEY_LEVER,
    TUBE_WITH_FIXED_BOLT,
    TUBE_WITH_SWIVELLING_BOLT,
)
from barwright.report.drawing.measuring.axis import (
    AXIS_OF_FIXED_SOCKET,
    AXIS_OF_KEY_LEVER,
    AXIS_OF_TUBE,
)
from barwright.report.drawing.measuring.bar import BAR
from barwright.report.drawing.measuring.corner import DOUBLE_WISHBONE, STRUT, SWING_ARM
from barwright.report.drawing.measuring.marks import Scheme
from barwright.report.drawing.measuring.vehicle import VEHICLE

__all__ = ["schemes_of"]

# In the order in which they stand on a page; of each line, the first that is like the corner.
_SCHEMES = (
    (VEHICLE,),
    (BAR,),
    (DOUBLE_WISHBONE, STRUT, SWING_ARM),
    (KEY_LEVER, TUBE_WITH_SWIVELLING_BOLT, TUBE_WITH_FIXED_BOLT, FIXED_SOCKET),
    (AXIS_OF_KEY_LEVER, AXIS_OF_TUBE, AXIS_OF_FIXED_SOCKET),
)


def schemes_of(figures: Collection[str]) -> list[Scheme]:
    """Choose the drawings that look like a corner.

    Parameters
    ----------
    figures : collection of str
        All figures that the corner has, by the fields of a setup that lead to them.

    Returns
    -------
    list of Scheme
        In the order in which they stand on a page.
    """
    held = set(figures)
    alike = ([one for one in kinds if held.issuperset(one.shows)] for kinds in _SCHEMES)
    return [found[0] for found in alike if found]
